/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Named stretches under a view of the neck, one line each on the view's own
 * scale of lengths: what is carved, held, kept free, hollow. The marks in the
 * view are explained by the lane that runs under them. */
#ifndef NECKHEW_PICTURES_LANES_H
#define NECKHEW_PICTURES_LANES_H

#include <stddef.h>

#include "job/job.h"
#include "job/result.h"
#include "model/straight_edge.h"
#include "pictures/canvas.h"
#include "pictures/neck_lines.h"
#include "pictures/pen.h"
#include "pictures/scale.h"

/* What lanes can say of a job. */
struct lanes {
	const struct carve_spec *carve;
	const struct fixture *fixture;
	const struct channel_spec *channel;
	const struct neck_marks *marks;
	const struct straight_edge *straight;
	double neck_to_mm;
	const char *minus_side, *plus_side; /* "bass" and "treble" or the reverse */
	const struct beside_figures *beside; /* rails, tabs and coves; NULL: none */
};

/* Height of all lanes, mm on paper. */
double lanes_height_mm(const struct lanes *lanes);

/* Draws them from y downward under the axis `along`. */
void lanes_draw(struct canvas *canvas, const struct lanes *lanes, const struct map_axis *along,
		double y_mm);

#endif
