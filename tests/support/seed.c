/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/seed.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>

/* Any number does; not 0, which the generator replaces by one of its own. */
#define USUAL_SEED 20211ul

static unsigned long seed_asked(void)
{
	const char *text = getenv("NECKHEW_SEED");
	char *end = NULL;

	if (!text || !*text)
		return USUAL_SEED;
	errno = 0;
	unsigned long seed = strtoul(text, &end, 10);
	if (errno != 0 || *end != '\0' || *text < '0' || *text > '9') {
		(void)fprintf(stderr, "NECKHEW_SEED is no whole number: %s\n", text);
		exit(EXIT_FAILURE);
	}
	return seed;
}

gsl_rng *seed_rng(const char *test)
{
	unsigned long seed = seed_asked();
	gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);

	if (!rng) {
		(void)fprintf(stderr, "%s: no memory for random numbers\n", test);
		exit(EXIT_FAILURE);
	}
	(void)printf("%s: NECKHEW_SEED=%lu\n", test, seed);
	(void)fflush(stdout);
	gsl_rng_set(rng, seed);
	return rng;
}

void seed_nth(const gsl_rng *rng, unsigned long n)
{
	gsl_rng_set(rng, seed_asked() + n);
}

double seed_between(const gsl_rng *rng, double from, double to)
{
	return from + (to - from) * gsl_rng_uniform(rng);
}

unsigned long seed_whole(const gsl_rng *rng, unsigned long from, unsigned long to)
{
	return from + gsl_rng_uniform_int(rng, to - from + 1);
}

bool seed_one_in(const gsl_rng *rng, unsigned long n)
{
	return seed_whole(rng, 1, n) == 1;
}
