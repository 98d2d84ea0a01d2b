/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/any_outline.h"

#include <math.h>

#include "base/units.h"
#include "support/seed.h"

/* Distance from the middle of a superellipse to its outline at an angle. */
static double reach(double fullness, double angle_rad)
{
	double c = pow(fabs(cos(angle_rad)), fullness), s = pow(fabs(sin(angle_rad)), fullness);

	return pow(c + s, -1.0 / fullness);
}

static void close_ends(struct section_outline *outline, double flat)
{
	outline->height[0] = 0.0;
	outline->breadth[0] = 1.0;
	outline->height[outline->count - 1] = 1.0;
	outline->breadth[outline->count - 1] = flat;
}

struct section_outline any_outline(const gsl_rng *rng)
{
	struct section_outline out = { .count = seed_whole(rng, 5, 24) };
	double fullness = seed_between(rng, 2.0, 3.0), swell = seed_between(rng, -0.02, 0.04);
	double flat = seed_whole(rng, 0, 3) ? 0.0 : seed_between(rng, 0.02, 0.3);

	for (size_t i = 1; i + 1 < out.count; i++) {
		double even = ((double)i + seed_between(rng, -0.3, 0.3)) / (double)(out.count - 1);
		double angle = PI / 2.0 * even;
		double r = reach(fullness, angle) + swell * pow(sin(2.0 * angle), 2.0);
		out.height[i] = fmin(fmax(r * sin(angle), out.height[i - 1] + 1e-4),
				     1.0 - 1e-4 * (double)(out.count - i));
		double b = flat + (1.0 - flat) * r * cos(angle);
		out.breadth[i] = fmin(b, i > 1 ? out.breadth[i - 1] : 1.0);
	}
	close_ends(&out, flat);
	return out;
}

struct section_outline outline_of(double fullness, double flat, size_t count)
{
	struct section_outline out = { .count = count };

	for (size_t i = 1; i + 1 < count; i++) {
		double angle = PI / 2.0 * (double)i / (double)(count - 1);
		out.height[i] = reach(fullness, angle) * sin(angle);
		out.breadth[i] = flat + (1.0 - flat) * reach(fullness, angle) * cos(angle);
	}
	close_ends(&out, flat);
	return out;
}

struct section_outline swollen_outline(double fullness, double swell, size_t count)
{
	struct section_outline out = { .count = count };

	for (size_t i = 1; i + 1 < count; i++) {
		double angle = PI / 2.0 * (double)i / (double)(count - 1);
		double r = reach(fullness, angle) * (1.0 + swell * pow(sin(2.0 * angle), 2.0));
		out.height[i] = fmin(r * sin(angle), 1.0 - 1e-4 * (double)(count - i));
		out.breadth[i] =
			fmin(r * cos(angle), out.breadth[i - 1] > 0.0 ? out.breadth[i - 1] : 1.0);
	}
	close_ends(&out, 0.0);
	return out;
}
