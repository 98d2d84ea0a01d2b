/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finished surface as flat triangles, each with a proven bound on how far
 * the continuous surface departs from it. Wherever facets stand in for the
 * surface, that bound is charged against the safe side. */
#ifndef NECKHEW_MODEL_FACETS_H
#define NECKHEW_MODEL_FACETS_H

#include <stddef.h>

#include "base/fault.h"
#include "base/vec3.h"
#include "model/neck.h"

struct facet {
	struct vec3 p[3];
	/* Every point of the surface piece this facet stands for lies within
	 * so much of it or of its twin across the diagonal, mm. */
	double deviation_mm;
	double allowance_mm; /* of its zone */
	enum stock_zone zone;
};

struct facets {
	size_t count;
	struct facet *item;
	double deviation_mm; /* the largest of all */
	/* The grid behind them: rows along x (ascending), shared by both sides. */
	size_t row_count;
	double *row_x_mm;
};

/* Cuts the neck into facets that depart by at most `deviation_mm` from the
 * surface. Both end faces are included; the under side is not: nothing above
 * the bed can come nearer to it than to its edges. Release with facets_free. */
enum fault facets_build(struct facets *out, const struct neck *neck, double deviation_mm,
			struct fault_list *faults);
void facets_free(struct facets *facets);

#endif
