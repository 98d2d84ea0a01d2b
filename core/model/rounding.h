/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Facet lines for rounding a neck by hand. A section is first a rectangle; its
 * corner is planed off to a facet at 45 degrees, then the two corners beside
 * that facet, then the four beside those. Every facet is a tangent of the
 * finished section, so what is planed to the lines is never cut into.
 *
 * For a direction t (0 looks out of the side, 90 degrees out of the back) the
 * tangent is y cos t + z sin t = h(t), where h(t) is the largest value of that
 * sum on the section: its support function. Source: general geometry of convex
 * figures. A hollow place of a section is bridged. */
#ifndef NECKHEW_MODEL_ROUNDING_H
#define NECKHEW_MODEL_ROUNDING_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "model/neck.h"

#define ROUNDING_STAGES 3
#define ROUNDING_FACETS 7 /* 1 + 2 + 4, in the order of their angles */

/* A facet narrower than this is no facet for the plane, mm: less than a pencil
 * line. A corner of the section lies there, or the section is flat. */
#define ROUNDING_LEAST_WIDTH_MM 0.2

/* A point of one side of the section: y outward from the centre line, z from
 * the gluing face, mm. */
struct rounding_point {
	double y_mm, z_mm;
};

/* A facet as it is when its own stage is done and the next has not begun. */
struct rounding_facet {
	int stage; /* 1..ROUNDING_STAGES */
	double angle_rad; /* of its outward direction: 0 side, PI/2 back */
	bool none; /* narrower than ROUNDING_LEAST_WIDTH_MM */
	struct rounding_point arris; /* the corner that it takes off */
	struct rounding_point low, high; /* its ends toward the side and the back */
	struct rounding_point touch; /* where it meets the finished section */
	double width_mm; /* from low to high */
	double depth_mm; /* how far the arris stands out from it */
	double mark_mm; /* from the arris to either end: what a gauge is set to */
};

struct rounding {
	double half_breadth_mm, height_mm; /* of the rectangle */
	struct rounding_facet facet[ROUNDING_FACETS];
	/* Most wood between the facets of stage n and the section, mm; 0 is the
	 * rectangle. It is met at an arris. */
	double left_mm[ROUNDING_STAGES + 1];
};

/* Facets of one side of a section: `count` points from the edge at the gluing
 * face to the crest, y >= 0, z >= 0; from the last one the section runs level to
 * the centre line. With no point everything is 0. */
void rounding_of_outline(struct rounding *out, size_t count, const struct rounding_point *point);

/* Facets of both sides of the neck at x; z counts from the neck's under side
 * there. FAULT_MEMORY leaves *out as it was. */
enum fault rounding_at(struct rounding out[SIDE_COUNT], const struct neck *neck, double x_mm,
		       struct fault_list *faults);

/* Corners of what stage `stage` leaves (0: the rectangle), from the edge at the
 * gluing face to the back's centre line, in out[ROUNDING_CORNERS_MAX]. Returns
 * how many. */
#define ROUNDING_CORNERS_MAX (ROUNDING_FACETS + 3)
size_t rounding_corners(struct rounding_point out[ROUNDING_CORNERS_MAX],
			const struct rounding *rounding, int stage);

#endif
