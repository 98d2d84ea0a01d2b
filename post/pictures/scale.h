/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Round steps, figures and axes. An axis always names its unit. */
#ifndef NECKHEW_PICTURES_SCALE_H
#define NECKHEW_PICTURES_SCALE_H

#include <stdbool.h>
#include <stddef.h>

#include "pictures/canvas.h"

#define NUMBER_MAX 32

/* A straight axis: values from..to lie on paper from at_from_mm..at_to_mm. */
struct map_axis {
	double from, to; /* from < to */
	double at_from_mm, at_to_mm; /* x on paper, or y for an upright axis */
	double step; /* between figures */
	const char *label; /* with its unit, such as "x from the nut, mm" */
};

/* The smallest of 1, 2, 5 times a power of ten that divides `span` into at
 * most `parts` steps; 1 for a span that is not positive and finite. */
double scale_step(double span, int parts);

/* The first multiple of `step` not under `value`. */
double scale_ceiling(double value, double step);

/* Decimals needed to tell multiples of `step` apart. */
int scale_decimals(double step);

/* Writes a figure with so many decimals, a true minus sign and a point in
 * every locale; "-" (a dash) for what is no number. Returns `text`. */
const char *scale_number(char text[NUMBER_MAX], double value, int decimals);

/* Name of a place on the neck: "nut", "5" or "5.5". Returns `text`. */
const char *scale_fret(char text[NUMBER_MAX], double fret);

/* Place of a value on paper, mm. */
double scale_place_mm(const struct map_axis *axis, double value);

/* Ticks and figures below y, label centred under them. Figures that would
 * touch the one before are left out. */
void scale_axis_below(struct canvas *canvas, const struct map_axis *axis, double y_mm);

/* Ticks and figures left of x, label upright beyond them. */
void scale_axis_left(struct canvas *canvas, const struct map_axis *axis, double x_mm);

/* The colour ramp as a bar with its axis below: 0 at the left end, `full` at
 * the right. `beyond` says that larger values share the last colour. */
void scale_colour_bar(struct canvas *canvas, double x_mm, double y_mm, double width_mm, double full,
		      bool beyond, const char *label);

/* Height a colour bar takes with its figures and label, mm. */
#define SCALE_BAR_HEIGHT_MM 13.0

#endif
