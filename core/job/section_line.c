/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/section_line.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "path/facet_drop.h"

/* Halvings that bring the line's end down from some 50 mm to a millionth. */
#define END_HALVINGS 60
/* Halvings of a piece of the line; beyond, it is a wall. */
#define PIECE_HALVINGS 24
/* The line is first cut into so many pieces, so that no small feature hides
 * between the points that are looked at. */
#define FIRST_PIECES 64

/* A facet near the section, with what it can reach across. */
struct near_facet {
	const struct facet *facet;
	double y0, y1;
};

struct grown {
	double x_mm, reach_mm; /* reach: the largest allowance */
	size_t count;
	struct near_facet *near;
	struct section_line *line; /* as it grows, from -y to +y */
	size_t capacity;
};

enum fault section_line_finished(struct section_line *out, const struct neck *neck, double x_mm,
				 struct fault_list *faults)
{
	double *y_mm, *z_mm;
	size_t count;

	*out = (struct section_line){ 0 };
	enum fault fault = neck_section(neck, x_mm, &count, &y_mm, &z_mm, faults);
	if (fault)
		return fault;
	out->point = mem_array(count, sizeof *out->point);
	for (size_t i = 0; out->point && i < count; i++)
		out->point[i] = (struct section_point){ y_mm[i], z_mm[i] };
	out->count = out->point ? count : 0;
	free(y_mm);
	free(z_mm);
	return out->point ? FAULT_NONE : fault_no_memory(faults, "a section");
}

static double reach_of(const struct facets *facets)
{
	double reach = 0.0;

	for (size_t i = 0; i < facets->count; i++)
		reach = larger(reach, facets->item[i].allowance_mm);
	return reach;
}

static enum fault gather_near(struct grown *grown, const struct facets *facets,
			      struct fault_list *faults)
{
	size_t capacity = 0;

	for (size_t i = 0; i < facets->count; i++) {
		const struct vec3 *p = facets->item[i].p;
		double x0 = smaller(p[0].x, smaller(p[1].x, p[2].x));
		double x1 = larger(p[0].x, larger(p[1].x, p[2].x));
		if (x1 < grown->x_mm - grown->reach_mm || x0 > grown->x_mm + grown->reach_mm)
			continue;
		struct near_facet *more =
			mem_grow(grown->near, &capacity, grown->count + 1, sizeof *grown->near);
		if (!more)
			return fault_no_memory(faults, "a section");
		grown->near = more;
		grown->near[grown->count++] = (struct near_facet){
			&facets->item[i],
			smaller(p[0].y, smaller(p[1].y, p[2].y)),
			larger(p[0].y, larger(p[1].y, p[2].y)),
		};
	}
	return FAULT_NONE;
}

/* -INFINITY beyond the line's ends. */
static double height_at(const struct grown *grown, double y_mm)
{
	double best = -INFINITY, reach = grown->reach_mm;

	for (size_t i = 0; i < grown->count; i++) {
		const struct near_facet *near = &grown->near[i];
		if (y_mm < near->y0 - reach || y_mm > near->y1 + reach)
			continue;
		best = larger(best, drop_on_facet_mm(near->facet, 0.0, near->facet->allowance_mm,
						     grown->x_mm, y_mm));
	}
	return best;
}

/* The last place toward `beyond` that has wood under its stock. */
static double end_toward(const struct grown *grown, double beyond)
{
	double in = 0.0, out = beyond;

	for (int i = 0; i < END_HALVINGS; i++) {
		double middle = (in + out) / 2.0;
		if (isfinite(height_at(grown, middle)))
			in = middle;
		else
			out = middle;
	}
	return in;
}

static bool add_point(struct grown *grown, double y_mm, double z_mm)
{
	struct section_line *line = grown->line;
	struct section_point *more =
		mem_grow(line->point, &grown->capacity, line->count + 1, sizeof *line->point);

	if (!more)
		return false;
	line->point = more;
	line->point[line->count++] = (struct section_point){ y_mm, z_mm };
	return true;
}

/* Distance of a point from the chord a-b, mm. */
static double off_chord(struct section_point a, struct section_point b, struct section_point p)
{
	double dy = b.y_mm - a.y_mm, dz = b.z_mm - a.z_mm, length = hypot(dy, dz);

	if (length <= 0.0)
		return hypot(p.y_mm - a.y_mm, p.z_mm - a.z_mm);
	return fabs(dy * (p.z_mm - a.z_mm) - dz * (p.y_mm - a.y_mm)) / length;
}

/* Adds the line from behind `a` up to `b`. A bend within a piece is at most
 * twice as far off as the quarter points show. */
static bool trace(struct grown *grown, struct section_point a, struct section_point b, int depth)
{
	double middle = (a.y_mm + b.y_mm) / 2.0;
	struct section_point m = { middle, height_at(grown, middle) };
	double worst = off_chord(a, b, m);

	for (int quarter = 1; quarter <= 3 && depth > 0; quarter += 2) {
		double y = a.y_mm + (b.y_mm - a.y_mm) * quarter / 4.0;
		struct section_point p = { y, height_at(grown, y) };
		worst = larger(worst, off_chord(a, b, p));
	}
	if (depth == 0 || 2.0 * worst <= SECTION_LINE_CHORD_MM)
		return add_point(grown, b.y_mm, b.z_mm);
	return trace(grown, a, m, depth - 1) && trace(grown, m, b, depth - 1);
}

static bool trace_all(struct grown *grown, double half_mm, double base_mm)
{
	double from = end_toward(grown, -half_mm), to = end_toward(grown, half_mm);
	struct section_point last = { from, height_at(grown, from) };

	if (!add_point(grown, from, base_mm) || !add_point(grown, last.y_mm, last.z_mm))
		return false;
	for (int i = 1; i <= FIRST_PIECES; i++) {
		double y = i == FIRST_PIECES ? to : from + (to - from) * i / FIRST_PIECES;
		struct section_point next = { y, height_at(grown, y) };
		if (!trace(grown, last, next, PIECE_HALVINGS))
			return false;
		last = next;
	}
	return add_point(grown, to, base_mm);
}

static void turn_round(struct section_line *line)
{
	for (size_t i = 0, k = line->count; i + 1 < k; i++) {
		struct section_point kept = line->point[i];
		line->point[i] = line->point[--k];
		line->point[k] = kept;
	}
}

enum fault section_line_grown(struct section_line *out, const struct facets *facets,
			      const struct neck *neck, double x_mm, struct fault_list *faults)
{
	struct grown grown = { .x_mm = x_mm, .reach_mm = reach_of(facets), .line = out };

	*out = (struct section_line){ 0 };
	enum fault fault = gather_near(&grown, facets, faults);
	if (!fault && !isfinite(height_at(&grown, 0.0)))
		fault = fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
				  "A section was asked for where there is no neck.");
	if (!fault) {
		double half = 1.0 + grown.reach_mm;
		for (size_t i = 0; i < grown.count; i++)
			half = larger(half, grown.near[i].y1 + grown.reach_mm + 1.0);
		for (size_t i = 0; i < grown.count; i++)
			half = larger(half, grown.reach_mm + 1.0 - grown.near[i].y0);
		if (!trace_all(&grown, half, neck_base_mm(neck, x_mm)))
			fault = fault_no_memory(faults, "a section");
	}
	free(grown.near);
	/* traced from -y; the bass side of a right-handed neck is +y */
	if (!fault && neck_spec_of(neck)->hand == HAND_RIGHT)
		turn_round(out);
	return fault;
}

void section_line_free(struct section_line *line)
{
	if (!line)
		return;
	free(line->point);
	*line = (struct section_line){ 0 };
}
