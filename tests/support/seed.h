/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random numbers for property tests, the same on every run unless asked
 * otherwise. The environment variable NECKHEW_SEED sets the seed; it is printed
 * so that a failure can be run again. */
#ifndef NECKHEW_TESTS_SUPPORT_SEED_H
#define NECKHEW_TESTS_SUPPORT_SEED_H

#include <stdbool.h>

#include <gsl/gsl_rng.h>

/* Prints the seed under the name of the test that draws from it and returns a
 * generator; release it with gsl_rng_free. Ends the program when NECKHEW_SEED is
 * no whole number or memory is short. */
gsl_rng *seed_rng(const char *test);

/* Starts the generator anew for the nth case of a test, counted from 0: a run
 * with NECKHEW_SEED n higher has that case first. */
void seed_nth(const gsl_rng *rng, unsigned long n);

/* Even over [from, to). */
double seed_between(const gsl_rng *rng, double from, double to);

/* A whole number, each of from..to (both included) as likely. */
unsigned long seed_whole(const gsl_rng *rng, unsigned long from, unsigned long to);

/* True once in n times. */
bool seed_one_in(const gsl_rng *rng, unsigned long n);

#endif
