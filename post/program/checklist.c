/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "program/checklist.h"

const char *const *safety_checklist(size_t *count)
{
	static const char *const lines[] = {
		"The machine's manual and local rules come before this list",
		"Blank held fast: pulled by hand, every clamp and screw checked",
		"Clamps, screws and riser sit where the set-up sheet shows them",
		"Cutter and stickout as on the set-up sheet, collet tight, teeth sharp",
		"Zero set on x, y and z, then checked again at a second point",
		"Dry run above the blank done: nothing in the way, travel is enough",
		"Dust extraction runs, dust mask on",
		"Eye and ear protection on",
		"No gloves, loose sleeves, long hair or cords near the cutter",
		"Stop button tried and in reach, fire extinguisher at hand",
		"Hands stay out until the spindle stands still and cannot start",
		"Nobody leaves the machine while it runs",
		"Smoke, squealing or a moving blank: stop at once",
	};

	*count = sizeof lines / sizeof *lines;
	return lines;
}
