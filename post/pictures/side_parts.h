/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a side view is drawn of. */
#ifndef NECKHEW_PICTURES_SIDE_PARTS_H
#define NECKHEW_PICTURES_SIDE_PARTS_H

#include "pictures/canvas.h"
#include "pictures/side_frame.h"

/* Blank, wood as roughed and wood as finished, filled and outlined. */
void side_parts_wood(struct canvas *canvas, const struct side_frame *frame,
		     const struct side_view *view);

/* The fretboard under the gluing face, with frets and their numbers. */
void side_parts_board(struct canvas *canvas, const struct side_frame *frame,
		      const struct side_view *view);

/* Channel floor, straight edge, keep-outs, heel, program zero. */
void side_parts_marks(struct canvas *canvas, const struct side_frame *frame,
		      const struct side_view *view);

#endif
