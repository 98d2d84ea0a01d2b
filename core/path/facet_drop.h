/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A ball dropped on one facet, in closed form: on its face, its edges and its
 * corners. */
#ifndef NECKHEW_PATH_FACET_DROP_H
#define NECKHEW_PATH_FACET_DROP_H

#include "model/facets.h"

/* Closed forms. Lowest tip of a ball of radius `radius` with `grown` = radius +
 * allowance dropped on one facet at (x, y); -INFINITY when it does not touch. */
double drop_on_facet_mm(const struct facet *facet, double radius, double grown, double x_mm,
			double y_mm);

#endif
