/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/scale.h"

#include <math.h>
#include <stdio.h>

#include "pictures/pen.h"

#define TICK_MM 1.4
/* A value this small a part of a step off its tick is on it: binary fractions. */
#define STEP_SLACK 1e-6

double scale_step(double span, int parts)
{
	static const double mantissas[] = { 1.0, 2.0, 5.0, 10.0 };

	if (!(span > 0.0) || !isfinite(span) || parts < 1)
		return 1.0;
	double rough = span / parts;
	double power = pow(10.0, floor(log10(rough) + STEP_SLACK));
	for (size_t i = 0; i < 4; i++)
		if (mantissas[i] * power * (1.0 + STEP_SLACK) >= rough)
			return mantissas[i] * power;
	return 10.0 * power;
}

double scale_ceiling(double value, double step)
{
	return ceil(value / step - STEP_SLACK) * step;
}

int scale_decimals(double step)
{
	int decimals = 0;

	while (decimals < 6 && fabs(step - round(step)) > STEP_SLACK * step) {
		step *= 10.0;
		decimals++;
	}
	return decimals;
}

const char *scale_number(char text[NUMBER_MAX], double value, int decimals)
{
	static const char dash[] = "\xe2\x80\x93", minus[] = "\xe2\x88\x92";
	long long unit = 1;

	for (int i = 0; i < decimals; i++)
		unit *= 10;
	if (!isfinite(value) || fabs(value) * (double)unit > 1e15) {
		(void)snprintf(text, NUMBER_MAX, "%s", dash);
		return text;
	}
	long long whole = llround(fabs(value) * (double)unit);
	const char *sign = value < 0.0 && whole != 0 ? minus : "";
	if (decimals == 0)
		(void)snprintf(text, NUMBER_MAX, "%s%lld", sign, whole);
	else
		(void)snprintf(text, NUMBER_MAX, "%s%lld.%0*lld", sign, whole / unit, decimals,
			       whole % unit);
	return text;
}

const char *scale_fret(char text[NUMBER_MAX], double fret)
{
	if (fret == 0.0)
		(void)snprintf(text, NUMBER_MAX, "nut");
	else
		scale_number(text, fret, fret == round(fret) ? 0 : 1);
	return text;
}

double scale_place_mm(const struct map_axis *axis, double value)
{
	double share = (value - axis->from) / (axis->to - axis->from);

	return axis->at_from_mm + share * (axis->at_to_mm - axis->at_from_mm);
}

/* Value of tick i, or NAN behind the last one. */
static double tick_value(const struct map_axis *axis, int i)
{
	double value = scale_ceiling(axis->from, axis->step) + i * axis->step;

	return value <= axis->to + STEP_SLACK * axis->step ? value : NAN;
}

void scale_axis_below(struct canvas *canvas, const struct map_axis *axis, double y_mm)
{
	double em = pen_text_size_mm(TEXT_SMALL), free_from = -INFINITY;
	char text[NUMBER_MAX];

	pen_line(canvas, axis->at_from_mm, y_mm, axis->at_to_mm, y_mm, LINE_TICK);
	for (int i = 0; !isnan(tick_value(axis, i)); i++) {
		double x = scale_place_mm(axis, tick_value(axis, i));
		scale_number(text, tick_value(axis, i), scale_decimals(axis->step));
		double half = pen_text_width_mm(canvas, TEXT_SMALL, text) / 2.0;
		pen_line(canvas, x, y_mm, x, y_mm + TICK_MM, LINE_TICK);
		if (x - half < free_from)
			continue;
		pen_text(canvas, x, y_mm + TICK_MM + 1.05 * em, TEXT_SMALL, ANCHOR_MIDDLE, text);
		free_from = x + half + 0.6 * em;
	}
	pen_text(canvas, (axis->at_from_mm + axis->at_to_mm) / 2.0, y_mm + TICK_MM + 2.5 * em,
		 TEXT_SMALL, ANCHOR_MIDDLE, axis->label);
}

void scale_axis_left(struct canvas *canvas, const struct map_axis *axis, double x_mm)
{
	double em = pen_text_size_mm(TEXT_SMALL), widest = 0.0;
	char text[NUMBER_MAX];

	pen_line(canvas, x_mm, axis->at_from_mm, x_mm, axis->at_to_mm, LINE_TICK);
	for (int i = 0; !isnan(tick_value(axis, i)); i++) {
		double y = scale_place_mm(axis, tick_value(axis, i));
		scale_number(text, tick_value(axis, i), scale_decimals(axis->step));
		pen_line(canvas, x_mm - TICK_MM, y, x_mm, y, LINE_TICK);
		pen_text(canvas, x_mm - TICK_MM - 0.3 * em, y + 0.36 * em, TEXT_SMALL, ANCHOR_RIGHT,
			 text);
		widest = fmax(widest, pen_text_width_mm(canvas, TEXT_SMALL, text));
	}
	pen_text_upward(canvas, x_mm - TICK_MM - widest - 1.0 * em,
			(axis->at_from_mm + axis->at_to_mm) / 2.0, TEXT_SMALL, axis->label);
}

void scale_colour_bar(struct canvas *canvas, double x_mm, double y_mm, double width_mm, double full,
		      bool beyond, const char *label)
{
	const double height = 3.6;
	double left = canvas_snap_mm(x_mm), top = canvas_snap_mm(y_mm);
	double step_width = width_mm / PALETTE_STEPS;

	for (int i = 0; i < PALETTE_STEPS; i++) {
		double from = canvas_snap_mm(left + i * step_width);
		double to = canvas_snap_mm(left + (i + 1) * step_width);
		canvas_colour(canvas, palette_step_colour(i));
		cairo_rectangle(canvas->pen, from, top, to - from, height);
		cairo_fill(canvas->pen);
	}
	struct map_axis axis = { 0.0, full, left, left + width_mm, scale_step(full, 6), label };
	scale_axis_below(canvas, &axis, top + height);
	if (beyond)
		pen_text(canvas, left + width_mm + 1.5, top + height - 0.8, TEXT_SMALL, ANCHOR_LEFT,
			 "and more");
}
