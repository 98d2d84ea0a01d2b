/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Light under a straight edge: how a line of the finished neck departs from the
 * straight line through its ends. */
#ifndef NECKHEW_PAPERS_LIGHT_H
#define NECKHEW_PAPERS_LIGHT_H

#include "model/neck.h"

enum light_line { LIGHT_CENTRE, LIGHT_MINUS_EDGE, LIGHT_PLUS_EDGE, LIGHT_LINES };

/* Places between the ends where the gap is told: a quarter, half, three
 * quarters of the way. */
#define LIGHT_PLACES 3

/* Less than this shows no light, mm: paper is thicker (common practice, no
 * source). */
#define LIGHT_NONE_MM 0.02

struct light {
	double gap_mm[LIGHT_PLACES]; /* above 0 hollow, below 0 proud of the straight line */
	double most_mm; /* largest departure anywhere, of either kind, without sign */
	double most_at_mm; /* x of it */
	double most_signed_mm;
};

/* The line between two x. The centre line is looked at along z, the edges (at
 * the gluing face) along y. most_mm is the neck's own straightness figure
 * (neck_crest_straightness_mm, neck_edge_straightness_mm). */
struct light light_under(const struct neck *neck, enum light_line line, double from_mm,
			 double to_mm);

#endif
