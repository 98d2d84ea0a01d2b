/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "trace/tabled.h"

#include <math.h>

#include "base/units.h"

/* Shares are written with four decimals. */
#define DECIMALS 1e4
/* How far below the gluing face the flanks go on, mm. */
#define BELOW_MM 50.0

static double rounded(double share)
{
	return round(share * DECIMALS) / DECIMALS;
}

/* The fit's place at an angle from this side's edge, y counted outward. */
static struct trace_place place_of(const struct outline_fit *fit, int side, double angle)
{
	struct trace_place p = outline_fit_at(fit, side == SIDE_PLUS ? angle : PI - angle);

	p.y_mm = side == SIDE_PLUS ? p.y_mm : -p.y_mm;
	return p;
}

/* Notes where the fit leans out farther than anything below it. */
static void look_for_lean(struct tabled *tabled, int side, struct trace_place p, double breadth_mm)
{
	double lean_mm = p.y_mm - breadth_mm;

	if (lean_mm <= tabled->lean_mm)
		return;
	tabled->lean_mm = lean_mm;
	tabled->lean_at = (struct trace_place){ side == SIDE_PLUS ? p.y_mm : -p.y_mm, p.z_mm };
}

/* One side's table; it ends where the height is full to the last decimal, with
 * what breadth there is. */
static void fill_side(struct tabled *tabled, const struct outline_fit *fit, int side)
{
	struct section_outline *out = &tabled->outline[side];
	double breadth = 1.0;

	*out = (struct section_outline){ .count = 1, .breadth = { 1.0 } };
	for (size_t i = 1; i < TABLED_POINTS; i++) {
		double angle = PI / 2.0 * (double)i / (TABLED_POINTS - 1);
		struct trace_place p = place_of(fit, side, angle);
		double height = rounded(p.z_mm / tabled->height_mm);
		look_for_lean(tabled, side, p, breadth * tabled->half_width_mm);
		breadth = fmin(breadth, fmax(rounded(p.y_mm / tabled->half_width_mm), 0.0));
		if (i + 1 == TABLED_POINTS)
			breadth = 0.0;
		if (height <= out->height[out->count - 1] && i + 1 < TABLED_POINTS)
			continue;
		out->height[out->count] = fmin(height, 1.0);
		out->breadth[out->count++] = breadth;
		if (height >= 1.0)
			break;
	}
	out->height[out->count - 1] = 1.0;
}

static void draw_line(struct tabled *tabled, const struct measured side[2])
{
	for (size_t i = 0; i < 2 * TABLED_STEPS + 1; i++) {
		bool plus = i <= TABLED_STEPS;
		size_t step = plus ? i : 2 * TABLED_STEPS - i;
		const struct measured *of = &side[plus ? SIDE_PLUS : SIDE_MINUS];
		double v, b;
		/* a flat crest is the straight line between the two ends */
		measured_at(of, PI / 2.0 * (double)step / TABLED_STEPS, &v, &b);
		tabled->line[i] = (struct trace_place){ (plus ? b : -b) * tabled->half_width_mm,
							v * tabled->height_mm };
	}
}

enum fault tabled_make(struct tabled *out, const struct outline_fit *fit, struct fault_list *faults)
{
	struct trace_place plus = outline_fit_at(fit, 0.0), minus = outline_fit_at(fit, PI);
	struct measured side[2];

	*out = (struct tabled){ .half_width_mm = (plus.y_mm - minus.y_mm) / 2.0,
				.height_mm = outline_fit_at(fit, PI / 2.0).z_mm };
	for (int k = 0; k < 2; k++) {
		fill_side(out, fit, k);
		enum fault fault = measured_make(&side[k], &out->outline[k], NULL, NULL);
		if (fault)
			return fault_add(faults, FAULT_GEOMETRY, NULL, 0, NULL,
					 "The outline through the points is no neck's section: it "
					 "does not rise from both edges to a crest between them.");
	}
	draw_line(out, side);
	return FAULT_NONE;
}

static double to_piece(struct trace_place p, struct trace_place a, struct trace_place b)
{
	double dy = b.y_mm - a.y_mm, dz = b.z_mm - a.z_mm, square = dy * dy + dz * dz;
	double t = square > 0.0 ? ((p.y_mm - a.y_mm) * dy + (p.z_mm - a.z_mm) * dz) / square : 0.0;

	t = fmin(fmax(t, 0.0), 1.0);
	return hypot(p.y_mm - a.y_mm - t * dy, p.z_mm - a.z_mm - t * dz);
}

/* Even-odd rule against the outline, whose flanks go on below the face. */
static bool inside(const struct tabled *tabled, struct trace_place p)
{
	bool in = fabs(p.y_mm) < tabled->half_width_mm && p.z_mm <= 0.0;

	for (size_t i = 0; i < 2 * TABLED_STEPS && p.z_mm > 0.0; i++) {
		struct trace_place a = tabled->line[i], b = tabled->line[i + 1];
		if ((a.z_mm > p.z_mm) == (b.z_mm > p.z_mm))
			continue;
		double t = (p.z_mm - a.z_mm) / (b.z_mm - a.z_mm);
		if (p.y_mm < a.y_mm + t * (b.y_mm - a.y_mm))
			in = !in;
	}
	return in;
}

double tabled_off_mm(const struct tabled *tabled, struct trace_place place)
{
	const struct trace_place *line = tabled->line, *last = line + 2 * TABLED_STEPS;
	struct trace_place under_plus = { line->y_mm, -BELOW_MM };
	struct trace_place under_minus = { last->y_mm, -BELOW_MM };
	double off = fmin(to_piece(place, under_plus, *line), to_piece(place, *last, under_minus));

	for (size_t i = 0; i < 2 * TABLED_STEPS; i++)
		off = fmin(off, to_piece(place, line[i], line[i + 1]));
	return inside(tabled, place) ? -off : off;
}

double tabled_difference_mm(const struct tabled *tabled)
{
	double most = 0.0;

	for (size_t i = 0; i < 2 * TABLED_STEPS + 1; i++) {
		struct trace_place p = tabled->line[i];
		p.y_mm = -p.y_mm;
		most = fmax(most, fabs(tabled_off_mm(tabled, p)));
	}
	return most;
}
