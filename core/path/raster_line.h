/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One straight raster line, along or across the neck: its places, and the runs
 * that follow those of them that are worth cutting. */
#ifndef NECKHEW_PATH_RASTER_LINE_H
#define NECKHEW_PATH_RASTER_LINE_H

#include <stdbool.h>

#include "path/bench.h"
#include "path/runs.h"

/* Where a line lies: at one place all along, or beside a rail. */
struct raster_lie {
	double at_mm; /* its y when lengthwise, its x when crosswise; beside a rail only the
		       * sign counts */
	double off_mm; /* distance from the rail of a lengthwise line; 0: at its place */
};

struct raster_line {
	const struct bench *bench;
	enum cut_lines lines;
	struct raster_lie lie;
	double level_mm; /* it goes no lower */
	size_t hint;
};

/* A place on a line: those of the lattice, as far apart as there. */
struct raster_place {
	size_t ix; /* nearest of the lattice along the neck */
	double x_mm, y_mm;
	double tip_mm; /* lowest tip */
};

size_t raster_line_places(const struct bench *bench, enum cut_lines lines);
struct raster_place raster_line_place(struct raster_line *line, size_t k);

/* Marks the places of one line worth cutting; returns whether there are any. */
typedef bool (*raster_judge)(struct raster_line *line, const void *rule, bool *yes);

/* Judges and follows many lines of a kind at once. Stretches of
 * marked places are followed a little beyond either end; gaps of up to `gap_mm`
 * are followed through. Each line works for itself; the runs are put together
 * in the lines' order, whatever the number of threads. */
enum fault raster_follow(struct runs *out, const struct bench *bench, enum cut_lines lines,
			 const struct raster_lie *lie, size_t count, double level_mm, double gap_mm,
			 raster_judge judge, const void *rule, struct fault_list *faults);

#endif
