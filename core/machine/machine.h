/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The router: what it can reach, how fast, and what its control reads. */
#ifndef NECKHEW_MACHINE_MACHINE_H
#define NECKHEW_MACHINE_MACHINE_H

#include "base/units.h"

#define MACHINE_NAME_MAX 64

enum axis { AXIS_X, AXIS_Y, AXIS_Z, AXIS_COUNT };

struct machine {
	char name[MACHINE_NAME_MAX];
	double travel_mm[AXIS_COUNT];
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
};

/* The finest length a program for this machine can state, mm. */
double machine_resolution_mm(const struct machine *machine);

#endif
