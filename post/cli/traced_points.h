/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The points of a file, told apart by station. */
#ifndef NECKHEW_CLI_TRACED_POINTS_H
#define NECKHEW_CLI_TRACED_POINTS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "base/units.h"
#include "model/neck_spec.h"
#include "trace/trace_point.h"

struct traced_points {
	size_t station_count;
	struct {
		double fret;
		size_t first, count; /* in `point` */
	} station[NECK_STATIONS_MAX]; /* from the nut on */
	struct trace_point *point;
};

/* Reads columns y, z and, if it is there, station: "nut", a fret's number, or
 * "fret" and a number. Without that column all points are of `fret`. FAULT_FILE
 * names file and line; FAULT_MEMORY. Release with traced_points_free, also after a
 * failure. */
enum fault traced_points_read(struct traced_points *out, const char *path, enum length_unit unit,
			      double fret, struct fault_list *faults);
void traced_points_free(struct traced_points *points);

/* The fret that a word names, as in a column of stations. False when it names none. */
bool traced_points_fret(double *fret, const char *word);

#endif
