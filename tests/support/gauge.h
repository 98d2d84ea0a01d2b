/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sections as a contour gauge would give them: points of a known outline, with
 * scatter, tilt, shift, and in no order. */
#ifndef NECKHEW_TESTS_SUPPORT_GAUGE_H
#define NECKHEW_TESTS_SUPPORT_GAUGE_H

#include <gsl/gsl_rng.h>
#include <stddef.h>

#include "model/neck_spec.h"
#include "trace/trace_point.h"

#define GAUGE_POINTS_MAX 600
#define GAUGE_LINE_MAX 2402

/* An outline as a line of short pieces from the +y edge to the other, mm. */
struct gauge_line {
	size_t count;
	struct trace_place at[GAUGE_LINE_MAX];
};

struct gauge_shape {
	struct section_spec side[2]; /* by neck side */
	double width_mm, height_mm;
};

struct gauge_reading {
	size_t outline; /* points of the outline, both edges among them */
	size_t face; /* points of the gluing face */
	double scatter_mm; /* standard deviation in y and in z */
	double tilt_rad, y_mm, z_mm; /* how the gauge lay */
};

/* The outline of a shape as the model's families make it. */
void gauge_draw(struct gauge_line *out, const struct gauge_shape *shape);

/* Places of `count` points evenly along the line, ends included. */
void gauge_places(struct trace_place *out, size_t count, const struct gauge_line *line);

/* Readings of the line, evenly spaced but for a jitter, shuffled; lines are numbered
 * from 2. Returns how many. */
size_t gauge_read(struct trace_point *out, const struct gauge_line *line,
		  const struct gauge_reading *how, const gsl_rng *rng);

/* Distance of a place from the line, mm. */
double gauge_off_mm(const struct gauge_line *line, struct trace_place place);

/* Root mean square of the distances of `truth`, taken evenly along it, from
 * `line`; and the largest of them, mm. */
double gauge_rms_mm(const struct gauge_line *truth, const struct gauge_line *line,
		    double *worst_mm);

#endif
