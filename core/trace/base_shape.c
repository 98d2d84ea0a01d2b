/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "trace/base_shape.h"

#include <math.h>
#include <stdbool.h>

/* Halvings along a ray: to less than a nanometre. */
#define HALVINGS 36
/* Steps of the search for one figure, each to 0.62 of the range before. */
#define SEARCH_STEPS 14
/* A ridge can be no blunter, see section.c. */
#define MOST_BLUNT 0.4499
/* Step for the effect of a figure, as a share of its range. */
#define FIGURE_STEP 1e-3
#define GOLDEN 0.6180339887498949

struct search {
	const struct base_sample *sample;
	size_t count;
	double half_width_mm, height_mm;
	double least; /* sum of squares of the best so far */
	struct base_shape best;
};

/* What the figure of a family can be. */
static void limits_of(const struct base_shape *base, double *least, double *most)
{
	switch (base->spec.family) {
	case SECTION_C:
		*least = 2.0;
		*most = 2.5;
		break;
	case SECTION_U:
		*least = 2.4;
		*most = 5.0;
		break;
	case SECTION_D:
		*least = 0.01;
		*most = 0.8;
		break;
	default:
		*least = 0.5;
		*most = MOST_BLUNT * base->half_width_mm * base->half_width_mm / base->height_mm;
		break;
	}
}

static double *figure_of(struct section_spec *spec)
{
	return spec->family == SECTION_D   ? &spec->flat_share
	       : spec->family == SECTION_V ? &spec->apex_radius_mm
					   : &spec->fullness;
}

/* Makes the section; false when there is none of these figures. */
static bool make(struct base_shape *base)
{
	return section_make(&base->section, &base->spec, base->half_width_mm, base->height_mm, NULL,
			    NULL) == FAULT_NONE;
}

static double share_of(const struct section *section, double angle_rad)
{
	double c = cos(angle_rad), s = sin(angle_rad), low = 0.0, high = 1.5;

	/* beyond the crest's height nothing is inside */
	if (s > 0.0)
		high = fmin(high, 1.0 / s);
	for (int i = 0; i < HALVINGS; i++) {
		double share = (low + high) / 2.0;
		if (share * c < section_share(section, share * s))
			low = share;
		else
			high = share;
	}
	return (low + high) / 2.0;
}

/* Tries one figure; returns its sum of squares. */
static double try_figure(struct search *search, struct base_shape *base, double figure)
{
	double sum = 0.0;

	*figure_of(&base->spec) = figure;
	if (!make(base))
		return INFINITY;
	for (size_t i = 0; i < search->count; i++) {
		const struct base_sample *s = &search->sample[i];
		double off = s->share - base_shape_share(base, s->angle_rad);
		sum += s->weight * off * off;
	}
	if (sum < search->least) {
		search->least = sum;
		search->best = *base;
	}
	return sum;
}

/* Golden-section search over the figure of a family. */
static void search_family(struct search *search, enum section_family family, double fullness)
{
	struct base_shape base = { .spec = { .family = family, .fullness = fullness },
				   .half_width_mm = search->half_width_mm,
				   .height_mm = search->height_mm };
	double least, most;

	limits_of(&base, &least, &most);
	double a = most - GOLDEN * (most - least), b = least + GOLDEN * (most - least);
	double at_a = try_figure(search, &base, a), at_b = try_figure(search, &base, b);
	for (int i = 0; i < SEARCH_STEPS; i++) {
		if (at_a < at_b) {
			most = b;
			b = a;
			at_b = at_a;
			a = most - GOLDEN * (most - least);
			at_a = try_figure(search, &base, a);
		} else {
			least = a;
			a = b;
			at_a = at_b;
			b = least + GOLDEN * (most - least);
			at_b = try_figure(search, &base, b);
		}
	}
}

struct base_shape base_shape_find(const struct base_sample *sample, size_t count,
				  double half_width_mm, double height_mm)
{
	struct search search = { .sample = sample,
				 .count = count,
				 .half_width_mm = half_width_mm,
				 .height_mm = height_mm,
				 .least = INFINITY };

	search_family(&search, SECTION_C, 0.0);
	search_family(&search, SECTION_U, 0.0);
	search_family(&search, SECTION_V, 0.0);
	for (int i = 0; i <= 4; i++)
		search_family(&search, SECTION_D, 2.0 + 0.25 * i);
	return search.best;
}

struct base_shape base_shape_moved(const struct base_shape *base, double half_width_mm,
				   double height_mm, double step)
{
	struct base_shape moved = *base;
	double least, most, *figure = figure_of(&moved.spec);

	moved.half_width_mm = half_width_mm;
	moved.height_mm = height_mm;
	limits_of(&moved, &least, &most);
	*figure = fmin(fmax(*figure + step, least), most);
	(void)make(&moved);
	return moved;
}

double base_shape_share(const struct base_shape *base, double angle_rad)
{
	return share_of(&base->section, angle_rad);
}

double base_shape_effect(const struct base_shape *base, double angle_rad)
{
	double least, most;

	limits_of(base, &least, &most);
	double step = FIGURE_STEP * (most - least);
	struct base_shape up = base_shape_moved(base, base->half_width_mm, base->height_mm, step);
	struct base_shape down =
		base_shape_moved(base, base->half_width_mm, base->height_mm, -step);
	double between = *figure_of(&up.spec) - *figure_of(&down.spec);
	return (base_shape_share(&up, angle_rad) - base_shape_share(&down, angle_rad)) / between;
}
