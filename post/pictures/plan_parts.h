/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is drawn of a neck in plan: wood, fretboard, channel, places, heel. */
#ifndef NECKHEW_PICTURES_PLAN_PARTS_H
#define NECKHEW_PICTURES_PLAN_PARTS_H

#include "pictures/canvas.h"
#include "pictures/plan_view.h"

/* Blank and finished neck with the flats on its back. */
void plan_parts_wood(struct canvas *canvas, const struct map_view *view,
		     const struct plan_view *plan);

/* Edges of the fretboard, which lies underneath, the ends of its frets, and
 * their numbers on a base line. */
void plan_parts_board(struct canvas *canvas, const struct map_view *view,
		      const struct plan_view *plan, double base_mm);

/* Channel, lines for the straight edge, and where the heel's parts begin. */
void plan_parts_marks(struct canvas *canvas, const struct map_view *view,
		      const struct plan_view *plan);

/* Holding places, keep-outs, and program zero. */
void plan_parts_places(struct canvas *canvas, const struct map_view *view,
		       const struct plan_view *plan);

/* The finished neck's outline, and from a place on the flats on its back, as
 * thin lines for maps. Only what lies inside the view is drawn. */
void plan_parts_outline(struct canvas *canvas, const struct map_view *view,
			const struct neck_lines *lines, double flats_from_mm);

#endif
