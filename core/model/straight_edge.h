/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a builder lays a straight edge on the finished neck, and how far the
 * neck departs from it. */
#ifndef NECKHEW_MODEL_STRAIGHT_EDGE_H
#define NECKHEW_MODEL_STRAIGHT_EDGE_H

#include "model/neck.h"

/* The stretch from the first station to the 11th fret, or to where the heel
 * begins if that comes first (common practice, no source). Lengths mm. */
struct straight_edge {
	double from_mm, to_mm;
	double from_z_mm, to_z_mm; /* of the crest there */
	double crest_off_mm, edge_off_mm[SIDE_COUNT]; /* largest departure */
};

/* Asks the neck; cannot fail. */
struct straight_edge straight_edge_of(const struct neck *neck);

#endif
