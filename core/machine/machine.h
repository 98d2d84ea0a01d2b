/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The router: what it can reach, how fast, and what its control reads. */
#ifndef NECKHEW_MACHINE_MACHINE_H
#define NECKHEW_MACHINE_MACHINE_H

#include <stdbool.h>

#include "base/units.h"
#include "machine/abilities.h"

#define MACHINE_NAME_MAX 64

enum axis { AXIS_X, AXIS_Y, AXIS_Z, AXIS_COUNT };

struct machine {
	char name[MACHINE_NAME_MAX];
	double travel_mm[AXIS_COUNT];
	double z_gap_mm; /* bed to the holder's lower face with z at its top; 0: not known */
	double feed_limit_mm_per_min[AXIS_COUNT]; /* cutting */
	double rapid_mm_per_min[AXIS_COUNT];
	double acceleration_mm_per_s2[AXIS_COUNT];
	double corner_deviation_mm; /* how far its path may round a corner */
	double spindle_least_rpm, spindle_most_rpm;
	double spindle_power_w;
	double spindle_start_s; /* dwell after switching on */
	/* what the control reads */
	enum length_unit program_unit;
	int decimals; /* of a length in a program */
	struct abilities reads;
	/* Where the tool goes at a program's end, above everything; program
	 * coordinates. Both unset unless `parks`. */
	bool parks;
	double park_x_mm, park_y_mm;
};

/* The finest length a program for this machine can state, mm. */
double machine_resolution_mm(const struct machine *machine);

/* Decimals of a feed in its programs: as its settings say, else 1 in mm per
 * minute and 3 in inches per minute (0.025 mm per minute). */
int machine_feed_decimals(const struct machine *machine);

#endif
