/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The allowance certificate: a bound on the least clearance of a ball along a
 * whole straight move, not at sample points. */
#ifndef NECKHEW_PROOF_CLEARANCE_H
#define NECKHEW_PROOF_CLEARANCE_H

#include "model/facet_tree.h"
#include "model/neck.h"

/* Clearances above this are not told apart, mm. */
#define CLEARANCE_AMPLE_MM 0.05

struct clearance {
	double bound_mm; /* proven: the least of distance - radius - allowance along the move */
	double sample_mm; /* the least met at a sample: what the bound closes in on */
	bool inside; /* a sample's centre lay in the wood of the finished neck */
};

/* For a ball of `radius_mm` whose tip goes straight from `from` to `to` (neck
 * coordinates). The bound is pursued until it is within `grain_mm` of the
 * least sample met so far (in `least_so_far_mm` or here), or a sample falls
 * below `limit_mm`, which ends the search at once. */
struct clearance clearance_of_move(const struct facet_tree *tree, const struct neck *neck,
				   struct vec3 from, struct vec3 to, double radius_mm,
				   double limit_mm, double least_so_far_mm, double grain_mm);

#endif
