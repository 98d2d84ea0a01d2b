/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/check_figures.h"

#include <math.h>

struct check_figures check_figures_of(const struct neck *neck)
{
	struct check_figures figures = { .straight = straight_edge_of(neck),
					 .asymmetry_mm = neck_asymmetry_mm(neck),
					 .channel_least_at_mm = NAN };

	figures.channel_least_mm =
		neck_least_wood_over_channel_mm(neck, &figures.channel_least_at_mm);
	return figures;
}
