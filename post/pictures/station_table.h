/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Thicknesses under a side view: one column of figures below each station,
 * moved apart where stations stand close. */
#ifndef NECKHEW_PICTURES_STATION_TABLE_H
#define NECKHEW_PICTURES_STATION_TABLE_H

#include <stdbool.h>

#include "job/result.h"
#include "pictures/canvas.h"

#define STATION_TABLE_HEIGHT_MM 30.0

struct station_table {
	size_t station_count;
	const struct station_figures *station; /* x rising */
	bool over_fretboard;
	double x_from_mm, x_to_mm; /* on the neck, lying at ... */
	double left_mm, right_mm; /* ... on paper */
};

/* Moves rising places apart to at least `gap`, within from..to, as little as
 * going through them both ways allows. Places that cannot all fit are spread
 * evenly. */
void station_table_spread(size_t count, double *place, double gap, double from, double to);

/* Draws the table with its leaders below y. When there are too many stations
 * to fit, every second one or fewer is shown. */
void station_table_draw(struct canvas *canvas, const struct station_table *table, double y_mm);

#endif
