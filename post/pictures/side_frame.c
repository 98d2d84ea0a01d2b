/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/side_frame.h"

#include <math.h>

#define LEFT_MM 30.0
#define PLOT_HEIGHT_MM 92.0 /* the drawing is at most so tall */
#define LEGEND_MM 12.0

static void widen(double *from, double *to, size_t count, const double *values)
{
	for (size_t i = 0; i < count; i++) {
		*from = fmin(*from, values[i]);
		*to = fmax(*to, values[i]);
	}
}

/* The largest of a few plain factors with which the drawing is not too tall. */
static double exaggeration_of(double height_mm)
{
	static const double factors[] = { 5.0, 4.0, 3.0, 2.5, 2.0, 1.5, 1.0 };

	for (size_t i = 0; i < sizeof factors / sizeof factors[0]; i++)
		if (height_mm * factors[i] <= PLOT_HEIGHT_MM)
			return factors[i];
	return 1.0;
}

struct side_frame side_frame_of(const struct side_view *view)
{
	const struct profile_line *lines[] = { view->finished, view->roughed, view->blank_top,
					       view->underside, view->blank_bottom };
	struct side_frame f = { INFINITY,
				-INFINITY,
				-view->fretboard_thickness_mm,
				0.0,
				.left = LEFT_MM,
				.top = PEN_TITLE_HEIGHT_MM + LEGEND_MM,
				.right = CANVAS_WIDTH_MM - CANVAS_MARGIN_MM };

	for (size_t i = 0; i < 5; i++) {
		widen(&f.x_from, &f.x_to, lines[i]->count, lines[i]->x_mm);
		widen(&f.z_from, &f.z_to, lines[i]->count, lines[i]->z_mm);
	}
	for (size_t i = 0; i < view->job->fixture.keep_out_count; i++) {
		const struct place *place = &view->job->fixture.keep_out[i];
		const double ends[] = { place->x_from_mm, place->x_to_mm };
		widen(&f.x_from, &f.x_to, 2, ends);
		widen(&f.z_from, &f.z_to, 1, &place->top_mm);
	}
	f.z_from -= 1.0;
	f.z_to += 2.0;
	double scale = (f.right - f.left) / (f.x_to - f.x_from);
	double height = (f.z_to - f.z_from) * scale;
	f.exaggeration = exaggeration_of(height);
	f.bottom = f.top + height * f.exaggeration;
	return f;
}

double side_frame_x(const struct side_frame *f, double x_mm)
{
	return f->left + (x_mm - f->x_from) / (f->x_to - f->x_from) * (f->right - f->left);
}

double side_frame_z(const struct side_frame *f, double z_mm)
{
	return f->bottom - (z_mm - f->z_from) / (f->z_to - f->z_from) * (f->bottom - f->top);
}

double side_frame_scale(const struct side_frame *f)
{
	return (f->right - f->left) / (f->x_to - f->x_from);
}
