/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading pixels of a drawn sheet back, and what their colours mean. */
#ifndef NECKHEW_TESTS_PICTURES_SHEET_PIXELS_H
#define NECKHEW_TESTS_PICTURES_SHEET_PIXELS_H

#include <math.h>
#include <stddef.h>
#include <stdint.h>

#include "pictures/canvas.h"
#include "pictures/map.h"

/* Pixel (px, py) of an image surface with full opacity. */
static inline uint32_t sheet_pixel(cairo_surface_t *surface, size_t px, size_t py)
{
	cairo_surface_flush(surface);
	const unsigned char *data = cairo_image_surface_get_data(surface);
	size_t stride = (size_t)cairo_image_surface_get_stride(surface);

	return *(const uint32_t *)(const void *)(data + py * stride + 4 * px) | 0xff000000u;
}

/* The pixel that holds the place (x, y) of the paper, mm. */
static inline uint32_t sheet_pixel_at(const struct canvas *canvas, double x_mm, double y_mm)
{
	return sheet_pixel(canvas->surface, (size_t)(x_mm * CANVAS_PIXELS_PER_MM),
			   (size_t)(y_mm * CANVAS_PIXELS_PER_MM));
}

/* The pixel that holds the place (x, y) of the neck. */
static inline uint32_t sheet_pixel_on(const struct canvas *canvas, const struct map_view *view,
				      double x_mm, double y_mm)
{
	return sheet_pixel_at(canvas, map_view_x_mm(view, x_mm), map_view_y_mm(view, y_mm));
}

/* The ramp's step of that very colour, or -1. */
static inline int sheet_step(uint32_t pixel)
{
	for (int step = 0; step < PALETTE_STEPS; step++)
		if (palette_pixel(palette_step_colour(step)) == pixel)
			return step;
	return -1;
}

/* Grey of a pixel as a black and white print shows it, 0..255. Source: ITU-R
 * BT.601, luma of the coded components. */
static inline double sheet_grey(uint32_t pixel)
{
	return 0.299 * (pixel >> 16 & 0xff) + 0.587 * (pixel >> 8 & 0xff) + 0.114 * (pixel & 0xff);
}

/* L* of a pixel. Source: IEC 61966-2-1 and ISO/CIE 11664-4. */
static inline double sheet_lightness(uint32_t pixel)
{
	static const double weight[] = { 0.2126, 0.7152, 0.0722 };
	double y = 0.0;

	for (int c = 0; c < 3; c++) {
		double v = (double)(pixel >> (16 - 8 * c) & 0xff) / 255.0;
		y += weight[c] * (v <= 0.04045 ? v / 12.92 : pow((v + 0.055) / 1.055, 2.4));
	}
	return y > 216.0 / 24389.0 ? 116.0 * cbrt(y) - 16.0 : 24389.0 / 27.0 * y;
}

#endif
