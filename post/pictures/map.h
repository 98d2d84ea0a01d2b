/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A map of columns drawn in plan, equal scale both ways: x to the right, y up,
 * as one looks down on the neck's back. */
#ifndef NECKHEW_PICTURES_MAP_H
#define NECKHEW_PICTURES_MAP_H

#include <stdbool.h>

#include "job/result.h"
#include "pictures/canvas.h"

/* A part of the neck, mm. Start with map_extent_none. */
struct map_extent {
	double x_from_mm, x_to_mm, y_from_mm, y_to_mm;
};

/* That part on paper: its top left corner and paper mm per mm. */
struct map_view {
	struct map_extent part;
	double left_mm, top_mm;
	double scale;
};

/* Where several columns share one pixel, the one that matters is shown. */
enum map_pick { MAP_PICK_MOST, MAP_PICK_LEAST };

struct map_look {
	enum map_pick pick;
	double full; /* value of the ramp's dark end, > 0 */
	bool pale_zero; /* 0 means untouched wood, not the ramp's light end */
	/* Columns with a value under the one here are hatched; NULL: none. Same
	 * grid as the map. */
	const struct column_map *least;
	double slack; /* a value this much under its least is not hatched yet */
	/* Columns without a value here stay bare paper; NULL: none. Same grid. */
	const struct column_map *there;
};

/* An extent that holds nothing yet. */
struct map_extent map_extent_none(void);

bool map_extent_is_none(const struct map_extent *extent);

/* Widens the extent to every column of the map that has a value. */
void map_extent_add(struct map_extent *extent, const struct column_map *map);

/* Widens the extent to every column with a value above 0. */
void map_extent_add_cut(struct map_extent *extent, const struct column_map *map);

/* Largest value of the map; NAN when it has none. */
double map_most(const struct column_map *map);

/* Whether column i is hatched under this look. */
bool map_hatched(const struct column_map *map, const struct map_look *look, size_t i);

double map_view_x_mm(const struct map_view *view, double x_mm);
double map_view_y_mm(const struct map_view *view, double y_mm);
double map_view_width_mm(const struct map_view *view);
double map_view_height_mm(const struct map_view *view);

/* Draws the part of the map inside the view. Columns without a value leave the
 * paper bare. The view's corner should lie on the pixel grid. */
enum fault map_draw(struct canvas *canvas, const struct column_map *map,
		    const struct map_view *view, const struct map_look *look,
		    struct fault_list *faults);

#endif
