/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/gauge.h"

#include <gsl/gsl_randist.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "model/section.h"
#include "support/seed.h"

#define STEPS 1200 /* of a side */

/* One side from the edge up, y counted outward; steps are short at the crest. */
static void draw_side(struct trace_place *out, const struct gauge_shape *shape, int side)
{
	struct section section;

	assert_int_equal(section_make(&section, &shape->side[side], shape->width_mm / 2.0,
				      shape->height_mm, "s", NULL),
			 FAULT_NONE);
	for (size_t i = 0; i <= STEPS; i++) {
		double u = 1.0 - (double)i / STEPS, v = 1.0 - u * u * u;
		out[i] = (struct trace_place){ shape->width_mm / 2.0 * section_share(&section, v),
					       shape->height_mm * v };
	}
}

void gauge_draw(struct gauge_line *out, const struct gauge_shape *shape)
{
	struct trace_place minus[STEPS + 1];

	draw_side(out->at, shape, SIDE_PLUS);
	draw_side(minus, shape, SIDE_MINUS);
	for (size_t i = 0; i <= STEPS; i++)
		out->at[STEPS + 1 + i] =
			(struct trace_place){ -minus[STEPS - i].y_mm, minus[STEPS - i].z_mm };
	out->count = GAUGE_LINE_MAX;
}

static double piece_mm(const struct gauge_line *line, size_t i)
{
	return hypot(line->at[i + 1].y_mm - line->at[i].y_mm,
		     line->at[i + 1].z_mm - line->at[i].z_mm);
}

static double length_mm(const struct gauge_line *line)
{
	double sum = 0.0;

	for (size_t i = 0; i + 1 < line->count; i++)
		sum += piece_mm(line, i);
	return sum;
}

/* The place so far along the line. */
static struct trace_place along(const struct gauge_line *line, double far_mm)
{
	size_t i = 0;

	while (i + 2 < line->count && far_mm > piece_mm(line, i))
		far_mm -= piece_mm(line, i++);
	double t = fmin(far_mm / fmax(piece_mm(line, i), 1e-12), 1.0);
	return (struct trace_place){
		line->at[i].y_mm + t * (line->at[i + 1].y_mm - line->at[i].y_mm),
		line->at[i].z_mm + t * (line->at[i + 1].z_mm - line->at[i].z_mm)
	};
}

void gauge_places(struct trace_place *out, size_t count, const struct gauge_line *line)
{
	double whole = length_mm(line);

	for (size_t i = 0; i < count; i++)
		out[i] = along(line, whole * (double)i / (double)(count - 1));
}

/* As the gauge would show it. */
static struct trace_point reading_of(struct trace_place p, const struct gauge_reading *how,
				     const gsl_rng *rng)
{
	double c = cos(how->tilt_rad), s = sin(how->tilt_rad);
	struct trace_point out = { 0 };

	out.y_mm = how->y_mm + c * p.y_mm - s * p.z_mm;
	out.z_mm = how->z_mm + s * p.y_mm + c * p.z_mm;
	if (how->scatter_mm > 0.0) {
		out.y_mm += gsl_ran_gaussian(rng, how->scatter_mm);
		out.z_mm += gsl_ran_gaussian(rng, how->scatter_mm);
	}
	return out;
}

size_t gauge_read(struct trace_point *out, const struct gauge_line *line,
		  const struct gauge_reading *how, const gsl_rng *rng)
{
	double whole = length_mm(line), step = whole / (double)(how->outline - 1);
	size_t count = 0, last = how->outline - 1;
	double half = line->at[0].y_mm;

	for (size_t i = 0; i <= last; i++) {
		double jitter = i == 0 || i == last ? 0.0 : seed_between(rng, -0.4, 0.4);
		out[count++] = reading_of(along(line, step * ((double)i + jitter)), how, rng);
	}
	for (size_t i = 0; i < how->face; i++) {
		double y = half * (2.0 * ((double)i + 0.5) / (double)how->face - 1.0);
		out[count++] = reading_of((struct trace_place){ y, 0.0 }, how, rng);
	}
	gsl_ran_shuffle(rng, out, count, sizeof *out);
	for (size_t i = 0; i < count; i++)
		out[i].line = (int)i + 2;
	return count;
}

static double to_piece_mm(struct trace_place p, struct trace_place a, struct trace_place b)
{
	double dy = b.y_mm - a.y_mm, dz = b.z_mm - a.z_mm, square = dy * dy + dz * dz;
	double t = square > 0.0 ? ((p.y_mm - a.y_mm) * dy + (p.z_mm - a.z_mm) * dz) / square : 0.0;

	t = fmin(fmax(t, 0.0), 1.0);
	return hypot(p.y_mm - a.y_mm - t * dy, p.z_mm - a.z_mm - t * dz);
}

double gauge_off_mm(const struct gauge_line *line, struct trace_place place)
{
	double off = INFINITY;

	for (size_t k = 0; k + 1 < line->count; k++)
		off = fmin(off, to_piece_mm(place, line->at[k], line->at[k + 1]));
	return off;
}

double gauge_rms_mm(const struct gauge_line *truth, const struct gauge_line *line, double *worst_mm)
{
	enum { PLACES = 400 };
	struct trace_place place[PLACES];
	double squares = 0.0;

	*worst_mm = 0.0;
	gauge_places(place, PLACES, truth);
	for (size_t i = 0; i < PLACES; i++) {
		double off = gauge_off_mm(line, place[i]);
		squares += off * off;
		*worst_mm = fmax(*worst_mm, off);
	}
	return sqrt(squares / PLACES);
}
