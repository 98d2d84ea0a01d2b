/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Points of a section as a contour gauge or a caliper gives them, and the frame
 * that sets them upright. */
#ifndef NECKHEW_TRACE_TRACE_POINT_H
#define NECKHEW_TRACE_TRACE_POINT_H

#include <math.h>

/* What becomes of a point. */
enum trace_fate {
	FATE_OUTLINE, /* of the neck's back: the outline is fitted to it */
	FATE_FACE, /* of the gluing face */
	FATE_DOUBLE, /* a point at the same place came before */
	FATE_FAR, /* so far outside that it must be a mistake */
	FATE_ASIDE /* off the outline that the others agree on */
};

struct trace_point {
	double y_mm, z_mm; /* as measured */
	int line; /* of the file, for messages */
	enum trace_fate fate;
};

/* How the gauge lay: the middle of the gluing face's line in measured
 * coordinates, and by how much the line is turned, counterclockwise. */
struct trace_frame {
	double y_mm, z_mm;
	double tilt_rad;
};

/* A place in the section: y from its middle, z from the gluing face. */
struct trace_place {
	double y_mm, z_mm;
};

static inline struct trace_place trace_upright(const struct trace_frame *frame, double y_mm,
					       double z_mm)
{
	double c = cos(frame->tilt_rad), s = sin(frame->tilt_rad);
	double dy = y_mm - frame->y_mm, dz = z_mm - frame->z_mm;

	return (struct trace_place){ c * dy + s * dz, c * dz - s * dy };
}

/* Moves the frame by a step in the section's own directions. */
static inline void trace_frame_move(struct trace_frame *frame, double y_mm, double z_mm)
{
	double c = cos(frame->tilt_rad), s = sin(frame->tilt_rad);

	frame->y_mm += c * y_mm - s * z_mm;
	frame->z_mm += s * y_mm + c * z_mm;
}

#endif
