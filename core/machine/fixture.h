/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the blank is held. Neck coordinates, mm. */
#ifndef NECKHEW_MACHINE_FIXTURE_H
#define NECKHEW_MACHINE_FIXTURE_H

#include <stddef.h>

#include "base/vec3.h"

#define FIXTURE_PLACES_MAX 16
#define FIXTURE_NAME_MAX 48

/* A rectangle in plan with a name. */
struct place {
	char name[FIXTURE_NAME_MAX];
	double x_from_mm, x_to_mm, y_from_mm, y_to_mm;
	double top_mm; /* for a keep-out: it fills the space up to here */
};

struct fixture {
	double riser_height_mm; /* 0: the blank lies on the bed itself */
	double riser_width_mm; /* narrower than the neck */
	double riser_from_mm, riser_to_mm; /* along x */
	double bed_clearance_mm; /* the tip stays this far above the bed */
	double keep_out_clearance_mm; /* from riser, clamps and screws */
	size_t keep_out_count;
	struct place keep_out[FIXTURE_PLACES_MAX]; /* clamps, screws */
	size_t hold_count;
	struct place hold[FIXTURE_PLACES_MAX]; /* where wood is held down */
	struct vec3 work_zero_mm; /* program zero, in neck coordinates */
};

#endif
