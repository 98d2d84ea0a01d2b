/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stock left for the hand: a map with contour lines, zone figures and
 * marks where less is left than allowed. */
#ifndef NECKHEW_PICTURES_STOCK_MAP_H
#define NECKHEW_PICTURES_STOCK_MAP_H

#include "job/result.h"
#include "pictures/canvas.h"
#include "pictures/map.h"
#include "pictures/neck_lines.h"
#include "pictures/pen.h"

struct stock_map {
	struct sheet_words words;
	const struct column_map *stock;
	const struct column_map *allowance; /* of each column's zone, same grid; NAN: none */
	const struct zone_figures *zone; /* ZONE_COUNT of them */
	size_t station_count;
	const struct station_figures *station;
	const char *plus_side; /* what lies at +y: "bass" or "treble" */
	const struct chisel *chisel; /* what is left for it */
	const struct neck_lines *lines; /* the finished neck, or NULL */
	double flats_from_mm; /* from here on the flats of its heel are drawn */
};

double stock_map_height_mm(const struct stock_map *map);

/* Where the upper (0) and the lower row (1) lie on the sheet. */
struct map_view stock_map_view(const struct stock_map *map, int row);

/* Value at the colour scale's dark end, mm. */
double stock_map_full_mm(const struct stock_map *map);

enum fault stock_map_draw(struct canvas *canvas, const struct stock_map *map,
			  struct fault_list *faults);

#endif
