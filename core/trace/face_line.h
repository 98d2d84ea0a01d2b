/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finds the line of the gluing face, and with it how the gauge lay. */
#ifndef NECKHEW_TRACE_FACE_LINE_H
#define NECKHEW_TRACE_FACE_LINE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "trace/trace_point.h"

struct face_line {
	struct trace_frame frame;
	double half_width_mm, height_mm; /* of the points, seen upright */
	bool seen; /* points of the face itself are among them */
	size_t count; /* so many hold its line */
	/* Sum of the squares of the distances from the middle of the points that the
	 * line rests on, mm2: how firmly they hold its tilt. */
	double lever_mm2;
	double scatter_mm; /* of such a point about it, standard deviation */
	struct trace_place edge[2]; /* lowest points of both sides, as measured */
};

/* The line under the convex hull's middle touches the lowest points of both
 * sides: these are taken for the edges of the gluing face. When at least
 * FACE_POINTS_LEAST points lie along that line between them, they get FATE_FACE
 * and a line through them by least squares takes its place (points far off it
 * count less and less, Tukey's biweight; from memory). FAULT_GEOMETRY when the
 * points are no section standing on its face: all on one line, turned by more
 * than 30 degrees, upside down, or without two edges. FAULT_MEMORY. */
#define FACE_POINTS_LEAST 4
enum fault face_line_find(struct face_line *out, struct trace_point *point, size_t count,
			  struct fault_list *faults);

#endif
