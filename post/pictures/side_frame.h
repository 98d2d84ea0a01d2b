/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a side view lies on its sheet. */
#ifndef NECKHEW_PICTURES_SIDE_FRAME_H
#define NECKHEW_PICTURES_SIDE_FRAME_H

#include "pictures/side_view.h"

/* Millimetres of the neck on paper: x and z may differ, which is then said. */
struct side_frame {
	double x_from, x_to, z_from, z_to; /* mm on the neck */
	double left, top, right, bottom; /* mm on paper */
	double exaggeration;
};

/* All lines, places and the fretboard, as large as the sheet allows. */
struct side_frame side_frame_of(const struct side_view *view);

double side_frame_x(const struct side_frame *frame, double x_mm);
double side_frame_z(const struct side_frame *frame, double z_mm);

/* Paper mm per mm of length. */
double side_frame_scale(const struct side_frame *frame);

#endif
