/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/check_figures.h"

#include <math.h>

/* Where builders lay the straight edge to (common practice, no source). */
#define STRAIGHT_TO_FRET 11.0

struct check_figures check_figures_of(const struct neck *neck)
{
	const struct neck_spec *spec = neck_spec_of(neck);
	struct check_figures figures = { .channel_least_at_mm = NAN };
	double from = neck_fret_x_mm(neck, spec->station[0].fret);
	double to = fmin(neck_fret_x_mm(neck, STRAIGHT_TO_FRET), neck_heel_start_mm(neck));

	figures.straight_from_mm = from;
	figures.straight_to_mm = to;
	figures.crest_off_mm = neck_crest_straightness_mm(neck, from, to);
	for (int side = 0; side < SIDE_COUNT; side++)
		figures.edge_off_mm[side] =
			neck_edge_straightness_mm(neck, (enum neck_side)side, from, to);
	figures.asymmetry_mm = neck_asymmetry_mm(neck);
	figures.channel_least_mm =
		neck_least_wood_over_channel_mm(neck, &figures.channel_least_at_mm);
	return figures;
}
