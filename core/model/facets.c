/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the bound is had. A waterline piece is a cubic P(x) = (x, b(x), z(x));
 * against the chord of an interval h wide with direction d, the part of P''
 * square to d bounds its distance by h^2 / 8 max |P'' x d| (linear
 * interpolation error, any numerical analysis text), and since P'' is linear
 * in x the maximum sits at an end. Between two waterlines the surface is
 * ruled, so a cell departs from the bilinear patch on its corners by no more
 * than its two waterlines do. Waterlines left out between them add how far they
 * lie off the straight line between the two. A bilinear patch and the two triangles on its
 * corners both lie between the parallel planes through its two diagonals, over
 * the same quadrilateral, so their distance is at most the diagonals' gap. */
#include "model/facets.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "model/neck_private.h"

/* A piece is never cut finer than this; reaching it means a design so sharp
 * that the bound cannot be met. */
#define CUTS_MAX 4096

/* Rows may use up this share of the deviation; the rest lets waterlines be left
 * out where the section is straight. */
#define ROW_SHARE 0.6

/* b'' or z'' of a cubic piece at its left (end 0) or right (end 1) knot. */
static double bend(double y0, double m0, double y1, double m1, double width, int end)
{
	double rise = (y1 - y0) / width;

	if (end == 0)
		return (6.0 * rise - 4.0 * m0 - 2.0 * m1) / width;
	return (2.0 * m0 + 4.0 * m1 - 6.0 * rise) / width;
}

/* Point of waterline `level` on one side at a place. */
static struct vec3 point_at(const struct neck_table *table, const struct neck_piece *piece,
			    int side, size_t level)
{
	double base = neck_table_base_mm(table, piece->x_mm);
	double height = neck_table_crest_mm(table, piece) - base;
	double b = neck_table_breadth_mm(table, piece, side, level);

	return vec3_make(piece->x_mm, side == SIDE_PLUS ? b : -b,
			 base + table->level[level] * height);
}

static struct neck_piece place_in(const struct neck_table *table, size_t knot, double t)
{
	double width = table->knot[knot + 1] - table->knot[knot];
	struct neck_piece piece = { .knot = knot, .x_mm = table->knot[knot] + t * width };

	curve_hermite(t, width, piece.w);
	return piece;
}

/* Second derivatives of one waterline at both ends of a piece. */
static void waterline_bends(const struct neck_table *table, size_t knot, int side, size_t level,
			    struct vec3 bends[2])
{
	double width = table->knot[knot + 1] - table->knot[knot];
	size_t a = knot * table->level_count + level, b = a + table->level_count;

	for (int end = 0; end < 2; end++) {
		double by = bend(table->breadth[side][a], table->breadth_out[side][a],
				 table->breadth[side][b], table->breadth_in[side][b], width, end);
		double bz = bend(table->crest[knot], table->crest_out[knot], table->crest[knot + 1],
				 table->crest_in[knot + 1], width, end);
		bends[end] = vec3_make(0.0, side == SIDE_PLUS ? by : -by, table->level[level] * bz);
	}
}

/* Bound for one waterline between t0 and t1 of a piece, mm. */
static double chord_bound(const struct vec3 bends[2], double t0, double t1, struct vec3 from,
			  struct vec3 to)
{
	struct vec3 chord = vec3_sub(to, from);
	double length = vec3_length(chord), h = to.x - from.x, worst = 0.0;

	if (length <= 0.0)
		return 0.0;
	for (int end = 0; end < 2; end++) {
		struct vec3 second = vec3_between(bends[0], bends[1], end == 0 ? t0 : t1);
		worst = larger(worst, vec3_length(vec3_cross(second, chord)) / length);
	}
	return worst * h * h / 8.0;
}

/* Distance between the lines of a cell's diagonals, mm. */
static double diagonal_gap(const struct vec3 corner[4])
{
	struct vec3 normal =
		vec3_cross(vec3_sub(corner[3], corner[0]), vec3_sub(corner[2], corner[1]));
	double length = vec3_length(normal);

	if (length < 1e-12)
		return 0.0;
	return fabs(vec3_dot(vec3_sub(corner[1], corner[0]), normal)) / length;
}

struct row {
	struct neck_piece place;
	double t;
};

/* A cell spans two rows and the levels from `low` to `high`. */
struct span {
	size_t low, high;
};

/* Corners of a cell: [0] and [1] on its low and high level at the left row, [2]
 * and [3] at the right one. */
static void cell_corners(const struct neck_table *table, const struct row *left,
			 const struct row *right, int side, struct span span, struct vec3 corner[4])
{
	corner[0] = point_at(table, &left->place, side, span.low);
	corner[1] = point_at(table, &left->place, side, span.high);
	corner[2] = point_at(table, &right->place, side, span.low);
	corner[3] = point_at(table, &right->place, side, span.high);
}

/* Share of the right row's place in the left row's piece: the right row may
 * already carry the next piece. */
static double right_share(const struct row *left, const struct row *right)
{
	return right->place.knot == left->place.knot ? right->t : 1.0;
}

/* How far one waterline between the cell's low and high level departs across
 * the neck from the straight line between those two, anywhere between the
 * rows: at both rows, and what a cubic may add in between. */
static double sag_bound(const struct neck_table *table, const struct row *left,
			const struct row *right, int side, struct span span, size_t level)
{
	double v = table->level[level], v0 = table->level[span.low], v1 = table->level[span.high];
	double s = (v - v0) / (v1 - v0), h = right->place.x_mm - left->place.x_mm, worst = 0.0;
	struct vec3 low[2], high[2], own[2];
	const struct row *rows[2] = { left, right };
	double second = 0.0;

	waterline_bends(table, left->place.knot, side, span.low, low);
	waterline_bends(table, left->place.knot, side, span.high, high);
	waterline_bends(table, left->place.knot, side, level, own);
	for (int end = 0; end < 2; end++) {
		const struct neck_piece *place = &rows[end]->place;
		double b0 = neck_table_breadth_mm(table, place, side, span.low);
		double b1 = neck_table_breadth_mm(table, place, side, span.high);
		double b = neck_table_breadth_mm(table, place, side, level);
		worst = larger(worst, fabs(b - (1.0 - s) * b0 - s * b1));
		second =
			larger(second, fabs(own[end].y - (1.0 - s) * low[end].y - s * high[end].y));
	}
	return worst + second * h * h / 8.0;
}

static double cell_bound(const struct neck_table *table, const struct row *left,
			 const struct row *right, int side, struct span span)
{
	struct vec3 corner[4], low[2], high[2];
	double t1 = right_share(left, right), sag = 0.0;

	cell_corners(table, left, right, side, span, corner);
	waterline_bends(table, left->place.knot, side, span.low, low);
	waterline_bends(table, left->place.knot, side, span.high, high);
	for (size_t level = span.low + 1; level < span.high; level++)
		sag = larger(sag, sag_bound(table, left, right, side, span, level));
	return larger(chord_bound(low, left->t, t1, corner[0], corner[2]),
		      chord_bound(high, left->t, t1, corner[1], corner[3])) +
	       diagonal_gap(corner) + sag;
}

/* True when `cuts` equal cuts of a piece keep every cell within the bound. */
static bool cuts_suffice(const struct neck_table *table, size_t knot, size_t cuts,
			 double deviation_mm)
{
	for (size_t i = 0; i < cuts; i++) {
		double t0 = (double)i / (double)cuts, t1 = (double)(i + 1) / (double)cuts;
		struct row left = { place_in(table, knot, t0), t0 };
		struct row right = { place_in(table, knot, t1), t1 };
		for (int side = 0; side < SIDE_COUNT; side++)
			for (size_t level = 0; level + 1 < table->level_count; level++)
				if (cell_bound(table, &left, &right, side,
					       (struct span){ level, level + 1 }) >
				    ROW_SHARE * deviation_mm)
					return false;
	}
	return true;
}

struct rows {
	size_t count, capacity;
	struct row *item;
};

static enum fault add_row(struct rows *rows, struct row row, struct fault_list *faults)
{
	struct row *grown = mem_grow(rows->item, &rows->capacity, rows->count + 1, sizeof *grown);

	if (!grown)
		return fault_no_memory(faults, "the facets");
	rows->item = grown;
	rows->item[rows->count++] = row;
	return FAULT_NONE;
}

/* Lays the rows: each piece in as few equal cuts as the bound allows. */
static enum fault lay_rows(struct rows *rows, const struct neck_table *table, double deviation_mm,
			   struct fault_list *faults)
{
	enum fault fault = FAULT_NONE;

	for (size_t knot = 0; knot + 1 < table->knot_count; knot++) {
		size_t cuts = 1;
		while (cuts < CUTS_MAX && !cuts_suffice(table, knot, cuts, deviation_mm))
			cuts = cuts < 8 ? cuts + 1 : cuts + cuts / 4;
		if (cuts >= CUTS_MAX)
			return fault_add(faults, FAULT_GEOMETRY, NULL, 0, "heel",
					 "Near %.4g mm from the nut the surface turns too sharply "
					 "to be followed.",
					 table->knot[knot]);
		for (size_t i = 0; i < cuts && fault == FAULT_NONE; i++) {
			double t = (double)i / (double)cuts;
			fault = add_row(rows, (struct row){ place_in(table, knot, t), t }, faults);
		}
	}
	if (fault == FAULT_NONE)
		fault = add_row(rows,
				(struct row){ place_in(table, table->knot_count - 2, 1.0), 1.0 },
				faults);
	return fault;
}

static bool has_area(struct vec3 a, struct vec3 b, struct vec3 c)
{
	return vec3_length(vec3_cross(vec3_sub(b, a), vec3_sub(c, a))) > 1e-12;
}

static void add_triangle(struct facets *facets, struct vec3 a, struct vec3 b, struct vec3 c,
			 const struct facet *like)
{
	if (!has_area(a, b, c))
		return;
	struct facet *facet = &facets->item[facets->count++];
	*facet = *like;
	facet->p[0] = a;
	facet->p[1] = b;
	facet->p[2] = c;
	facets->deviation_mm = larger(facets->deviation_mm, like->deviation_mm);
}

static void add_cell(struct facets *facets, const struct vec3 corner[4], const struct facet *like)
{
	add_triangle(facets, corner[0], corner[2], corner[3], like);
	add_triangle(facets, corner[0], corner[3], corner[1], like);
}

static struct facet facet_like(const struct neck *neck, double x_mm, double v, double deviation_mm)
{
	struct facet like = { .deviation_mm = deviation_mm, .zone = neck_zone(neck, x_mm, v) };

	like.allowance_mm = neck_allowance_mm(neck, like.zone);
	return like;
}

/* The tallest cell from `low` up that stays within the bound and in one zone,
 * found by doubling; a single strip always does. */
static struct span tallest_cell(const struct neck *neck, const struct row *left,
				const struct row *right, int side, size_t low, double deviation_mm)
{
	const struct neck_table *table = &neck->table;
	double middle = (left->place.x_mm + right->place.x_mm) / 2.0;
	struct span best = { low, low + 1 };
	enum stock_zone zone = neck_zone(neck, middle, table->level[low]);

	for (size_t strips = 2; low + strips < table->level_count; strips *= 2) {
		struct span span = { low, low + strips };
		/* the high level belongs to the next cell up */
		double below = (table->level[span.high - 1] + table->level[span.high]) / 2.0;
		if (neck_zone(neck, middle, below) != zone ||
		    cell_bound(table, left, right, side, span) > deviation_mm)
			break;
		best = span;
	}
	return best;
}

/* All cells of one side between two rows. Returns the bound of the uppermost. */
static double add_side(struct facets *facets, const struct neck *neck, const struct row *left,
		       const struct row *right, int side, double deviation_mm)
{
	const struct neck_table *table = &neck->table;
	double middle = (left->place.x_mm + right->place.x_mm) / 2.0, bound = 0.0;
	struct span span = { 0, 0 };
	struct vec3 corner[4];

	for (size_t low = 0; low + 1 < table->level_count; low = span.high) {
		span = tallest_cell(neck, left, right, side, low, deviation_mm);
		bound = cell_bound(table, left, right, side, span);
		double v = (table->level[low] + table->level[low + 1]) / 2.0;
		struct facet like = facet_like(neck, middle, v, bound);
		cell_corners(table, left, right, side, span, corner);
		add_cell(facets, corner, &like);
	}
	return bound;
}

/* All cells between two rows: both sides, then the flat strip over the crest
 * where the uppermost waterline has breadth. */
static void add_strip(struct facets *facets, const struct neck *neck, const struct row *left,
		      const struct row *right, double deviation_mm)
{
	const struct neck_table *table = &neck->table;
	size_t top = table->level_count - 1;
	double middle = (left->place.x_mm + right->place.x_mm) / 2.0, crest_bound = 0.0;
	struct vec3 minus[4], plus[4];

	for (int side = 0; side < SIDE_COUNT; side++)
		crest_bound = larger(crest_bound,
				     add_side(facets, neck, left, right, side, deviation_mm));
	cell_corners(table, left, right, SIDE_MINUS, (struct span){ top - 1, top }, minus);
	cell_corners(table, left, right, SIDE_PLUS, (struct span){ top - 1, top }, plus);
	struct vec3 strip[4] = { minus[1], plus[1], minus[3], plus[3] };
	struct facet like = facet_like(neck, middle, 1.0, crest_bound);
	add_cell(facets, strip, &like);
}

/* The neck's end at a row, in slices between neighbouring levels. It is flat, so
 * only its outline departs from the surface's. */
static void add_end_face(struct facets *facets, const struct neck *neck, const struct row *row)
{
	const struct neck_table *table = &neck->table;

	for (size_t level = 0; level + 1 < table->level_count; level++) {
		struct vec3 corner[4] = {
			point_at(table, &row->place, SIDE_MINUS, level),
			point_at(table, &row->place, SIDE_MINUS, level + 1),
			point_at(table, &row->place, SIDE_PLUS, level),
			point_at(table, &row->place, SIDE_PLUS, level + 1),
		};
		double v = (table->level[level] + table->level[level + 1]) / 2.0;
		struct facet like = facet_like(neck, row->place.x_mm, v, 0.0);
		add_cell(facets, corner, &like);
	}
}

enum fault facets_build(struct facets *out, const struct neck *neck, double deviation_mm,
			struct fault_list *faults)
{
	struct rows rows = { 0 };
	enum fault fault = lay_rows(&rows, &neck->table, deviation_mm, faults);

	*out = (struct facets){ 0 };
	if (fault != FAULT_NONE)
		goto cleanup;
	size_t cells =
		(rows.count - 1) * (2 * neck->table.level_count - 1) + 2 * neck->table.level_count;
	out->item = mem_array(2 * cells, sizeof *out->item);
	out->row_x_mm = mem_array(rows.count, sizeof(double));
	if (!out->item || !out->row_x_mm) {
		fault = fault_no_memory(faults, "the facets");
		goto cleanup;
	}
	out->row_count = rows.count;
	for (size_t i = 0; i < rows.count; i++)
		out->row_x_mm[i] = rows.item[i].place.x_mm;
	for (size_t i = 0; i + 1 < rows.count; i++)
		add_strip(out, neck, &rows.item[i], &rows.item[i + 1], deviation_mm);
	add_end_face(out, neck, &rows.item[0]);
	add_end_face(out, neck, &rows.item[rows.count - 1]);
cleanup:
	free(rows.item);
	if (fault != FAULT_NONE)
		facets_free(out);
	return fault;
}

void facets_free(struct facets *facets)
{
	if (!facets)
		return;
	free(facets->item);
	free(facets->row_x_mm);
	*facets = (struct facets){ 0 };
}
