/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/way.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"

/* Level parts shorter than this between or beside slopes are cut with them, mm
 * in plan: a lift takes longer. */
#define LEVEL_PART_MM 15.0
/* Gaps this short in a slope belong to it, mm in plan: points of a line. */
#define SPECK_MM 2.0
/* A line keeps its height to this, mm, and a program's figures. */
#define LEVEL_MM 0.005
/* Crosswise pieces whose cut has less section than this take scraps, mm2; the wood
 * is on a side where there is so many times as much as on the other. */
#define SCRAP_MM2 0.1
#define CLEAR_MAJORITY 1.2
/* Parts of crosswise lines with wood on another side may be so short, mm. */
#define LEAST_PART_MM 2.5
/* Shorter moves than this have no direction along the neck, mm. */
#define NO_WAY_MM 1e-6

/* What a run's pieces want, from point i to i + 1: 1 forward, -1 backward, 0
 * either. */
struct wants {
	const struct track *run;
	size_t count;
	signed char *slope, *way;
};

/* How far b stands out for the grain from a: higher, or, on a line that keeps its
 * height there, as contours and lines beside rails do, farther from the centre
 * line. */
static double rise_of(const struct bench *bench, struct vec3 a, struct vec3 b)
{
	return fabs(b.z - a.z) > LEVEL_MM + bench->snap.step_mm ? b.z - a.z : fabs(b.y) - fabs(a.y);
}

static double plan_mm(struct vec3 a, struct vec3 b)
{
	return hypot(b.x - a.x, b.y - a.y);
}

/* Plan length of the pieces [first, end). */
static double length_mm(const struct wants *wants, size_t first, size_t end)
{
	double sum = 0.0;

	for (size_t i = first; i < end; i++)
		sum += plan_mm(wants->run->p[i], wants->run->p[i + 1]);
	return sum;
}

/* End of the pieces from `first` on that want the same. */
static size_t part_end(const struct wants *wants, const signed char *want, size_t first)
{
	size_t end = first + 1;

	while (end < wants->count && want[end] == want[first])
		end++;
	return end;
}

static void fill(signed char *want, size_t first, size_t end, signed char value)
{
	for (size_t i = first; i < end; i++)
		want[i] = value;
}

static const struct cutting *cutting_of(const struct bench *bench, const struct track *run,
					size_t i)
{
	return bench_cutting(bench, (run->p[i].x + run->p[i + 1].x) / 2.0);
}

static signed char slope_wanted(const struct bench *bench, const struct track *run, size_t i)
{
	struct vec3 a = run->p[i], b = run->p[i + 1];
	double rise = rise_of(bench, a, b);

	if (cutting_of(bench, run, i)->grain != CUT_DOWNHILL ||
	    fabs(rise) <= CUT_STEEP_SLOPE * fabs(b.x - a.x))
		return 0;
	return rise < 0.0 ? 1 : -1;
}

/* On the +y side climb goes toward the body: with the wood toward the centre
 * line, at -y from there, that is on the right of +x. On the other side it is
 * the other way round. The centre line's own is cut last of the +y side. */
static signed char way_wanted(const struct bench *bench, const struct track *run, size_t i,
			      double side)
{
	enum cut_way way = cutting_of(bench, run, i)->way;
	double along = (run->p[i + 1].x - run->p[i].x) * (side < 0.0 ? -1.0 : 1.0);

	if (way == CUT_BOTH_WAYS || fabs(along) < NO_WAY_MM)
		return 0;
	return (way == CUT_CLIMB) == (along > 0.0) ? 1 : -1;
}

/* Parts that want nothing and are shorter than `most_mm` take what is wanted
 * before them, or behind them when nothing is; with `between` only where both
 * want the same. */
static void close_gaps(const struct wants *wants, signed char *want, double most_mm, bool between)
{
	for (size_t i = 0, end; i < wants->count; i = end) {
		end = part_end(wants, want, i);
		signed char before = i > 0 ? want[i - 1] : 0;
		signed char behind = end < wants->count ? want[end] : 0;
		if (want[i] != 0 || (between && before != behind) ||
		    length_mm(wants, i, end) >= most_mm)
			continue;
		fill(want, i, end, before != 0 ? before : behind);
	}
}

/* Slopes that rise too little to matter want nothing. */
static void drop_small(const struct wants *wants, const struct bench *bench)
{
	const struct vec3 *p = wants->run->p;

	for (size_t i = 0, end; i < wants->count; i = end) {
		double rise = 0.0;
		end = part_end(wants, wants->slope, i);
		for (size_t k = i; k < end; k++)
			rise += rise_of(bench, p[k], p[k + 1]);
		if (fabs(rise) < WAY_LEAST_RISE_MM)
			fill(wants->slope, i, end, 0);
	}
}

/* Puts slopes and ways together in wants->way. */
static void ask(struct wants *wants, const struct bench *bench)
{
	double side = 0.0;

	for (size_t i = 0; i <= wants->count; i++)
		side += wants->run->p[i].y;
	for (size_t i = 0; i < wants->count; i++) {
		wants->slope[i] = slope_wanted(bench, wants->run, i);
		wants->way[i] = way_wanted(bench, wants->run, i, side);
	}
	close_gaps(wants, wants->slope, SPECK_MM, true);
	drop_small(wants, bench);
	close_gaps(wants, wants->slope, LEVEL_PART_MM, true);
	for (size_t i = 0; i < wants->count; i++)
		if (wants->slope[i] != 0)
			wants->way[i] = wants->slope[i];
	close_gaps(wants, wants->way, LEVEL_PART_MM, false);
}

static void note(struct way_met *met, const struct bench *bench, const struct wants *wants)
{
	for (size_t i = 0; i < wants->count; i++) {
		const struct vec3 *p = &wants->run->p[i];
		double x = (p[0].x + p[1].x) / 2.0;
		enum neck_stretch stretch = stretch_at(&bench->stretches, x);
		if (wants->slope[i] != 0)
			met->downhill |= 1U << stretch;
		else
			met->ways |= 1U << bench->job->cutting[stretch].way;
	}
}

/* The pieces [first, end) as a run of their own, turned as they want. */
static enum fault add_part(struct runs *out, const struct wants *wants, size_t first, size_t end,
			   struct fault_list *faults)
{
	struct track *part = runs_add(out);
	enum fault fault = FAULT_NONE;

	if (!part)
		return fault_no_memory(faults, "a pass");
	for (size_t i = first; i <= end && fault == FAULT_NONE; i++)
		fault = track_add(part, wants->run->p[i], faults);
	if (fault != FAULT_NONE)
		return fault;
	part->one_way = wants->way[first] != 0;
	if (wants->way[first] < 0)
		track_reverse(part);
	return FAULT_NONE;
}

/* One run for each part that wants the same. */
static enum fault add_parts(struct runs *out, const struct wants *wants, struct fault_list *faults)
{
	enum fault fault = FAULT_NONE;

	for (size_t i = 0, end; i < wants->count && fault == FAULT_NONE; i = end) {
		end = part_end(wants, wants->way, i);
		fault = add_part(out, wants, i, end, faults);
	}
	return fault;
}

static enum fault divide(struct runs *out, struct way_met *met, const struct bench *bench,
			 const struct track *run, struct fault_list *faults)
{
	size_t pieces = run->count - 1;
	struct wants wants = { run, pieces, mem_array(pieces, sizeof(signed char)),
			       mem_array(pieces, sizeof(signed char)) };
	enum fault fault = FAULT_NONE;

	if (wants.slope && wants.way) {
		ask(&wants, bench);
		note(met, bench, &wants);
		fault = add_parts(out, &wants, faults);
	} else {
		fault = fault_no_memory(faults, "a pass");
	}
	free(wants.slope);
	free(wants.way);
	return fault;
}

static void mark_crosswise(struct runs *runs, struct way_met *met, const struct bench *bench)
{
	for (size_t i = 0; i < runs->count; i++) {
		struct track *run = &runs->run[i];
		if (run->count < 2)
			continue;
		enum cut_way way = bench_cutting(bench, run->p[0].x)->way;
		met->ways |= 1U << way;
		run->one_way = way != CUT_BOTH_WAYS;
	}
}

/* Wood that a straight piece would take now, by its side, mm3. On a steep side the
 * ball touches ahead of its tip or behind it: all around counts. */
struct sides {
	double left, right;
};

static void add_column(struct sides *sides, const struct bench *bench, struct vec3 a, struct vec3 b,
		       size_t ix, size_t iy)
{
	const struct stock *stock = &bench->stock;
	double x = stock_x(stock, ix), y = stock_y(stock, iy);
	double turn = (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);
	size_t i = iy * stock->nx + ix;
	double low = larger(sweep_height_mm(a, b, bench->radius_mm, x, y), stock->bottom[i]);
	double taken = larger(stock->top[i] - low, 0.0) * stock->cell_mm * stock->cell_mm;

	*(turn < 0.0 ? &sides->right : &sides->left) += taken;
}

static struct sides sides_of(const struct bench *bench, struct vec3 a, struct vec3 b)
{
	const struct stock *stock = &bench->stock;
	double r = bench->radius_mm;
	struct sides sides = { 0.0, 0.0 };
	size_t ix1 = stock_ix(stock, larger(a.x, b.x) + r);
	size_t iy1 = stock_iy(stock, larger(a.y, b.y) + r);

	for (size_t iy = stock_iy(stock, smaller(a.y, b.y) - r); iy <= iy1; iy++)
		for (size_t ix = stock_ix(stock, smaller(a.x, b.x) - r); ix <= ix1; ix++)
			add_column(&sides, bench, a, b, ix, iy);
	return sides;
}

/* What a crosswise piece wants: 0 in a slot, with wood on both sides, and where
 * there are but scraps. */
static signed char wood_wanted(const struct bench *bench, struct vec3 a, struct vec3 b)
{
	struct sides sides = sides_of(bench, a, b);
	double more = larger(sides.left, sides.right), less = smaller(sides.left, sides.right);
	bool climb = bench_cutting(bench, a.x)->way == CUT_CLIMB;

	if (more < SCRAP_MM2 * vec3_distance(a, b) || more < CLEAR_MAJORITY * less)
		return 0;
	return (sides.right > sides.left) == climb ? 1 : -1;
}

/* Parts shorter than this follow their neighbours. */
static void drop_short(const struct wants *wants, double least_mm)
{
	for (size_t i = 0, end; i < wants->count; i = end) {
		end = part_end(wants, wants->way, i);
		if (length_mm(wants, i, end) < least_mm)
			fill(wants->way, i, end, 0);
	}
}

enum fault way_part_to_wood(struct runs *out, const struct track *run, const struct bench *bench,
			    struct fault_list *faults)
{
	size_t pieces = run->count > 0 ? run->count - 1 : 0;
	struct wants wants = { run, pieces, NULL, mem_array(pieces + 1, sizeof(signed char)) };

	if (!wants.way)
		return fault_no_memory(faults, "a pass");
	for (size_t i = 0; i < pieces; i++)
		wants.way[i] = wood_wanted(bench, run->p[i], run->p[i + 1]);
	drop_short(&wants, LEAST_PART_MM);
	close_gaps(&wants, wants.way, LEVEL_PART_MM, false);
	enum fault fault = add_parts(out, &wants, faults);
	free(wants.way);
	return fault;
}

bool way_is_asked(const struct bench *bench)
{
	for (int i = 0; i < STRETCH_COUNT; i++)
		if (bench->job->cutting[i].way != CUT_BOTH_WAYS)
			return true;
	return false;
}

enum fault way_choose(struct runs *runs, struct way_met *met, const struct bench *bench,
		      enum cut_lines lines, struct fault_list *faults)
{
	struct runs divided = { 0 };
	enum fault fault = FAULT_NONE;

	if (lines == CUT_CROSSWISE) {
		mark_crosswise(runs, met, bench);
		return FAULT_NONE;
	}
	if (!bench->directed) {
		met->ways |= 1U << CUT_BOTH_WAYS;
		return FAULT_NONE;
	}
	for (size_t i = 0; i < runs->count && fault == FAULT_NONE; i++)
		if (runs->run[i].count > 1)
			fault = divide(&divided, met, bench, &runs->run[i], faults);
	runs_free(runs);
	*runs = divided;
	return fault;
}
