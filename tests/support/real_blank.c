/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/real_blank.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/seed.h"

/* A saw wanders over about such a length, mm. */
#define WANDER_MM 15.0

static void add(struct outline *out, double x, double value)
{
	assert_true(out->count < BLANK_POINTS_MAX);
	out->x_mm[out->count] = x;
	out->value_mm[out->count++] = value;
}

/* Every point is moved by up to the margin along x and up or down, the two of a
 * step alike along x; points are put between, moved up or down. Whatever lies
 * straight between moved points has moved by no more than they have. */
static void saw(struct outline *out, const struct outline *drawn, double margin_mm, double from_mm,
		double to_mm, const gsl_rng *rng)
{
	double most = margin_mm, moved = 0.0;

	out->count = 0;
	for (size_t i = 0; i < drawn->count; i++) {
		double x = drawn->x_mm[i], length = i > 0 ? x - drawn->x_mm[i - 1] : 0.0;
		size_t pieces = (size_t)ceil(length / WANDER_MM);
		for (size_t k = 1; k < pieces; k++) {
			double share = (double)k / (double)pieces;
			double from = out->x_mm[out->count - 1];
			double between = drawn->x_mm[i - 1] + share * length;
			double value = drawn->value_mm[i - 1] +
				       share * (drawn->value_mm[i] - drawn->value_mm[i - 1]);
			add(out, fmax(between, from), value + seed_between(rng, -most, most));
		}
		if (i == 0 || length > 0.0)
			moved = seed_between(rng, -most, most);
		if (i == 0)
			moved = from_mm - x;
		if (i + 1 == drawn->count)
			moved = to_mm - x;
		double at = i > 0 ? fmax(x + moved, out->x_mm[out->count - 1]) : x + moved;
		add(out, at, drawn->value_mm[i] + seed_between(rng, -most, most));
	}
}

void real_blank(struct blank *out, const struct blank *drawn, const gsl_rng *rng)
{
	double margin = drawn->margin_mm;
	double from = blank_from_mm(drawn) - seed_between(rng, 0.0, margin);
	double to = blank_to_mm(drawn) + seed_between(rng, 0.0, margin);

	*out = (struct blank){ .bottom = drawn->bottom };
	out->bottom.x_mm[0] = from;
	out->bottom.x_mm[out->bottom.count - 1] = to;
	saw(&out->top, &drawn->top, margin, from, to, rng);
	for (int k = 0; k < BLANK_SIDES; k++)
		saw(&out->side[k], blank_side(drawn, (enum blank_side)k), margin, from, to, rng);
	assert_int_equal(blank_check(out, NULL), 0);
}
