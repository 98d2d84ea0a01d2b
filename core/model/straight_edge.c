/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/straight_edge.h"

#include <math.h>

/* Where builders lay the straight edge to (common practice, no source). */
#define STRAIGHT_TO_FRET 11.0

struct straight_edge straight_edge_of(const struct neck *neck)
{
	double from = neck_fret_x_mm(neck, neck_spec_of(neck)->station[0].fret);
	double to = fmin(neck_fret_x_mm(neck, STRAIGHT_TO_FRET), neck_heel_start_mm(neck));
	struct straight_edge edge = {
		.from_mm = from,
		.to_mm = to,
		.from_z_mm = neck_crest_mm(neck, from),
		.to_z_mm = neck_crest_mm(neck, to),
		.crest_off_mm = neck_crest_straightness_mm(neck, from, to),
	};

	for (int side = 0; side < SIDE_COUNT; side++)
		edge.edge_off_mm[side] =
			neck_edge_straightness_mm(neck, (enum neck_side)side, from, to);
	return edge;
}
