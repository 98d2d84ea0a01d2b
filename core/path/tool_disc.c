/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/tool_disc.h"

static void add(struct tool_discs *discs, double diameter_mm, double above_mm, bool shank)
{
	double radius_mm = diameter_mm / 2.0;

	if (discs->count > 0 && radius_mm <= discs->disc[discs->count - 1].radius_mm)
		return;
	discs->disc[discs->count++] = (struct tool_disc){ radius_mm, above_mm, shank };
}

static struct tool_discs gather(const struct cutter *cutter, bool with_shank)
{
	struct tool_discs discs = { 0 };
	double above_mm = cutter->stickout_mm;

	if (with_shank)
		add(&discs, cutter->shank_diameter_mm, cutter->flute_length_mm, true);
	add(&discs, cutter->holder_diameter_mm, above_mm, false);
	above_mm += cutter->holder_length_mm;
	for (size_t i = 0; i < cutter->part_count; i++) {
		add(&discs, cutter->part[i].diameter_mm, above_mm, false);
		above_mm += cutter->part[i].length_mm;
	}
	return discs;
}

struct tool_discs tool_discs_of(const struct cutter *cutter)
{
	return gather(cutter, true);
}

struct tool_discs tool_discs_over_wood(const struct cutter *cutter)
{
	return gather(cutter, cutter->shank_diameter_mm > cutter->ball_diameter_mm);
}
