/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/waste.h"

#include <math.h>

#include "base/minmax.h"

enum fault waste_build(struct waste *out, const struct neck *neck, const struct job *job,
		       const struct cutter *cutter, struct fault_list *faults)
{
	*out = (struct waste){ .cutter = cutter, .tabs = job->tabs };
	return rails_build(&out->rails, neck, job, faults);
}

void waste_free(struct waste *waste)
{
	if (waste)
		rails_free(&waste->rails);
}

bool waste_stays(const struct waste *waste)
{
	return waste->rails.standing > 0 || waste->tabs.count > 0;
}

/* Distance in plan from a tab. */
static double tab_distance(const struct tab *tab, double x, double y)
{
	double across = tab->side * y;
	double dx = larger(fabs(x - tab->x_mm) - tab->width_mm / 2.0, 0.0);
	double dy = larger(larger(tab->inner_mm - across, across - tab->outer_mm), 0.0);

	return hypot(dx, dy);
}

double waste_ball_mm(const struct waste *waste, double x_mm, double y_mm)
{
	double radius = cutter_radius_mm(waste->cutter);
	double lowest = rails_ball_mm(&waste->rails, radius, x_mm, y_mm);

	for (size_t i = 0; i < waste->tabs.count; i++) {
		const struct tab *tab = &waste->tabs.tab[i];
		double d = tab_distance(tab, x_mm, y_mm);
		if (d < radius)
			lowest = larger(lowest, tab->base_mm + tab->height_mm - radius +
							sqrt(radius * radius - d * d));
	}
	return lowest;
}

double waste_tool_mm(const struct waste *waste, double x_mm, double y_mm)
{
	return rails_tool_mm(&waste->rails, waste->cutter, x_mm, y_mm);
}
