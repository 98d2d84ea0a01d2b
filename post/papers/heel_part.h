/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heel's figures to check by hand, measured on the finished surface. */
#ifndef NECKHEW_PAPERS_HEEL_PART_H
#define NECKHEW_PAPERS_HEEL_PART_H

#include "papers/flow.h"

/* How far a cheek dips below the straight line from the gluing face to the
 * cap. */
struct cheek_hollow {
	double depth_mm; /* 0: it does not */
	double height_mm; /* z of the deepest place */
};

/* The hollow of one cheek at x. */
struct cheek_hollow heel_part_hollow(const struct neck *neck, enum neck_side side, double x_mm);

/* Heading and figures of a block or a flat heel, under what the flow holds. */
void heel_part(struct flow *flow, const struct neck *neck);

#endif
