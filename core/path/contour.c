/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/contour.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"

/* Gaps this short are followed, mm. */
#define CONTOUR_GAP_MM 6.0
/* A contour point may stand this much off its level, mm; the tip is then
 * raised to stay safe. */
#define NEAR_LEVEL_MM 0.002
/* Beside an upright wall the search ends at this distance across, mm. */
#define FIND_MM 0.0005
/* A contour is worth cutting where it takes at least this much, mm. */
#define WORTH_CUTTING_MM 0.05
/* Looks from one place of the lattice to the next. */
#define LOOKS_BETWEEN 5
/* Steeper than this a wall counts as upright: a lattice step across it is a
 * fall of several levels. */
#define UPRIGHT_SLOPE 7.0
#define LEAST_SLOPE (CONTOUR_SLOPE * 0.9)
#define ROUNDS_MAX 60
#define SECANT_ROUNDS 3
/* The lattice is no farther off than this where its slope can be trusted, mm. */
#define NEWTON_REACH_MM 0.3
/* Neighbouring points of a contour are no farther apart across than this, mm,
 * nor so much more across than along; where a contour closes over a crest of 10 mm
 * radius they are nearer by half. */
#define LEAP_MM 1.0
#define LEAP_SLOPE 50.0

/* One side's contour. */
struct side_line {
	const struct bench *bench;
	double sign, level_mm;
	bool finish; /* upright walls are followed whatever the columns say */
	double asked_y, asked_z; /* the last place asked and its tip */
	size_t hint;
};

/* Nearest stateable distance from the centre line at or beyond y. */
static double snap_outward(const struct side_line *line, double y)
{
	const struct snap *snap = &line->bench->snap;
	double at = line->sign * snap_y(snap, line->sign * y);

	return at < y - 1e-9 ? at + snap->step_mm : at;
}

/* How far the tip at (x, y) lies over the level. Only stateable places are
 * asked, so that the answer holds for the program's own figures. Contours are
 * the neck's own: what stands about it is minded once the place is found. */
static double over_level(struct side_line *line, double x, double y)
{
	line->asked_y = snap_outward(line, y);
	line->asked_z = drop_bare_mm(line->bench->drop, x, line->sign * line->asked_y, &line->hint);
	return line->asked_z - line->level_mm;
}

/* Closes in on the crossing between inner (above the level by `above`) and
 * outer (below it by -`below`): a few steps of regula falsi with the Illinois
 * rule (G. Dowell and P. Jarratt, BIT 11 (1971) 168, from memory), which suffice
 * on slopes, then halving, which is best beside upright walls. Returns the
 * outer side. */
static double close_in(struct side_line *line, double x, double inner, double above, double outer,
		       double below)
{
	for (int round = 0; round < ROUNDS_MAX && outer - inner > FIND_MM; round++) {
		double y = round >= SECANT_ROUNDS || below >= 0.0
				   ? (inner + outer) / 2.0
				   : inner + (outer - inner) * above / (above - below);
		double z = over_level(line, x, y);
		if (fabs(z) <= NEAR_LEVEL_MM)
			return y;
		if (z > 0.0) {
			inner = y;
			above = z;
			below /= 2.0;
		} else {
			outer = y;
			below = z;
			above /= 2.0;
		}
	}
	return outer;
}

/* Widens from y, which stands z over the level, until the level is crossed, and
 * closes in. At the end of a contour this comes down to the centre line. */
static double widen(struct side_line *line, double x, double y, double z)
{
	double step = 0.1, limit = line->bench->y_limit_mm + 1.0;

	while (z > 0.0 ? y < limit : y > 0.0) {
		double next = z > 0.0 ? y + step : larger(y - step, 0.0);
		double ahead = over_level(line, x, next);
		if (fabs(ahead) <= NEAR_LEVEL_MM)
			return next;
		if (z > 0.0 && ahead <= 0.0)
			return close_in(line, x, y, z, next, ahead);
		if (z <= 0.0 && ahead > 0.0)
			return close_in(line, x, next, ahead, y, z);
		y = next;
		z = ahead;
		step *= 2.0;
	}
	return y;
}

/* Distance from the centre line at which the tip comes down to the level at x:
 * from the lattice's place and slope in one or two steps of Newton's, else by
 * widening and closing in. */
static double find(struct side_line *line, double x, double guess, double slope)
{
	double y = guess, z = over_level(line, x, y);

	for (int round = 0; round < 2; round++) {
		if (fabs(z) <= NEAR_LEVEL_MM)
			return y;
		double next = y + clamped(z / slope, -NEWTON_REACH_MM, NEWTON_REACH_MM);
		if (slope < LEAST_SLOPE / 2.0 || slope > UPRIGHT_SLOPE || next <= 0.0)
			break;
		double ahead = over_level(line, x, next);
		if (z > 0.0 && ahead <= 0.0 && ahead < -NEAR_LEVEL_MM)
			return close_in(line, x, y, z, next, ahead);
		if (z <= 0.0 && ahead > NEAR_LEVEL_MM)
			return close_in(line, x, next, ahead, y, z);
		y = next;
		z = ahead;
	}
	return fabs(z) <= NEAR_LEVEL_MM ? y : widen(line, x, y, z);
}

/* The lattice's crossing at x, interpolated along the neck, and its slope. */
static double guess_at(const struct side_line *line, double x, double *slope)
{
	const struct profile *profile = &line->bench->profile;
	double f = clamped((x - profile->x0_mm) / profile->dx_mm, 0.0,
			   (double)(profile->nx - 1) - 1e-9);
	size_t ix = (size_t)f;
	double a = profile_find_mm(profile, ix, line->sign, line->level_mm);
	double b = profile_find_mm(profile, ix + 1, line->sign, line->level_mm);

	double y = a < 0.0 || b < 0.0 ? larger(larger(a, b), 0.0) : a + (b - a) * (f - (double)ix);

	*slope = profile_slope(profile, f - (double)ix < 0.5 ? ix : ix + 1, line->sign * y);
	return y;
}

/* The contour's tip at x. Beside an upright wall the ball may drop by the
 * wall's whole height within one step of the program, so the search is made at
 * the stateable x and ends at the stateable y on the wall's outer side. */
static struct vec3 contour_at(void *context, double s)
{
	struct side_line *line = context;
	double x = snap_x(&line->bench->snap, s), slope;
	double guess = guess_at(line, x, &slope);
	double y = snap_outward(line, find(line, x, guess, slope));

	if (y != line->asked_y)
		(void)over_level(line, x, y);
	/* the line follows the neck and rises over what stands in its way */
	double beside_z = drop_beside_mm(line->bench->drop, x, line->sign * y);
	double z = larger(larger(line->asked_z, line->level_mm), beside_z);
	return vec3_make(x, line->sign * y, snap_up(&line->bench->snap, z));
}

/* A place along a contour: none because all wood is lower (the contour ends
 * over the crest), none for another reason, there but not to be cut, to be cut. */
enum verge { VERGE_NONE, VERGE_CREST, VERGE_BRIDGE, VERGE_CUT };

/* True for the line that finishes the cove on the floor of a bed that is near. The
 * lattice mixes the neck's slope with the level beyond it there: the slope is
 * looked at just inside. */
static bool finishes_cove(const struct side_line *line)
{
	const struct bench *bench = line->bench;

	return job_cove_mm(bench->job) > 0.0 &&
	       line->level_mm <= drop_floor_mm(bench->drop) + 2.0 * CONTOUR_OVER_BED_MM;
}

/* True when the ball takes wood on its way from a place to the next. Where a contour
 * goes across more than along, as around a steep nose, a narrow crescent of columns
 * may stand between the lattice's places. */
static bool takes_on_its_way(const struct side_line *line, size_t ix, struct vec3 tip)
{
	const struct bench *bench = line->bench;
	const struct profile *profile = &bench->profile;
	double step = profile->dx_mm / LOOKS_BETWEEN, level = line->level_mm;
	double next = ix + 1 < profile->nx ? profile_find_mm(profile, ix + 1, line->sign, level)
					   : -1.0;
	double across = next - line->sign * tip.y;

	if (next < 0.0 || fabs(across) < profile->dx_mm)
		return false;
	for (int i = 1; i < LOOKS_BETWEEN; i++) {
		double x = tip.x + step * i;
		double y = tip.y + line->sign * across * i / LOOKS_BETWEEN;
		double z = larger(level, drop_beside_mm(bench->drop, x, y));
		if (bench_bite_mm(bench, vec3_make(x, y, z), bench->radius_mm, bench->radius_mm) >=
		    WORTH_CUTTING_MM)
			return true;
	}
	return false;
}

/* Beside an upright wall the lattice may be off by half its step, which is wood or
 * no wood: there the very place is asked. */
static bool is_worth_cutting(struct side_line *line, size_t ix, double y, double slope)
{
	const struct bench *bench = line->bench;
	struct vec3 tip = vec3_make(profile_x(&bench->profile, ix), line->sign * y, line->level_mm);

	if (line->finish && (slope > UPRIGHT_SLOPE || finishes_cove(line)))
		return true;
	if (slope > UPRIGHT_SLOPE)
		tip = contour_at(line, tip.x);
	else
		tip.z = larger(tip.z, drop_beside_mm(bench->drop, tip.x, tip.y));
	if (bench_bite_mm(bench, tip, bench->radius_mm, bench->radius_mm) >= WORTH_CUTTING_MM)
		return true;
	return slope <= UPRIGHT_SLOPE && takes_on_its_way(line, ix, tip);
}

/* Whether the contour exists at a place, is steep and would take wood; keeps
 * the smallest slope of the places to cut. */
static enum verge judge(struct side_line *line, size_t ix, double *steepness)
{
	const struct bench *bench = line->bench;
	const struct profile *profile = &bench->profile;
	double y = profile_find_mm(profile, ix, line->sign, line->level_mm);

	if (y < 0.0)
		return profile_bare_mm(profile, ix, 0.0) <= line->level_mm ? VERGE_CREST
									   : VERGE_NONE;
	double inside = finishes_cove(line) ? profile->dy_mm / 2.0 : 0.0;
	double slope = profile_slope(profile, ix, line->sign * larger(y - inside, 0.0));
	if (slope < LEAST_SLOPE || !leftover_on_surface(&bench->leftover, ix, line->sign * y) ||
	    !is_worth_cutting(line, ix, y, slope))
		return VERGE_BRIDGE;
	*steepness = smaller(*steepness, slope);
	return VERGE_CUT;
}

/* Last place of the stretch to cut that begins at `first`: gaps of at most
 * `gap` places are bridged where the contour exists. */
static size_t stretch_end(const enum verge *place, size_t first, size_t places, size_t gap)
{
	size_t last = first;

	for (size_t k = first; k < places && k <= last + gap + 1; k++) {
		if (place[k] < VERGE_BRIDGE)
			break;
		if (place[k] == VERGE_CUT)
			last = k;
	}
	return last;
}

/* Where a contour leaps across, as from the neck to the far end of a terrace of
 * the same height that the holder keeps. */
static bool leaps(struct vec3 a, struct vec3 b)
{
	double across = fabs(b.y - a.y);

	return across > LEAP_MM && across > LEAP_SLOPE * fabs(b.x - a.x);
}

/* Appends the contour between two places; a leap begins a new run. */
static enum fault follow_contour(struct runs *out, struct side_line *line, double from, double to,
				 struct fault_list *faults)
{
	struct track_curve curve = { contour_at, line };
	struct track whole = { 0 }, *part = runs_add(out);
	enum fault fault = part ? track_follow(&whole, &curve, from, to, faults)
				: fault_no_memory(faults, "a pass");

	for (size_t i = 0; i < whole.count && fault == FAULT_NONE; i++) {
		if (i > 0 && leaps(whole.p[i - 1], whole.p[i]))
			part = runs_add(out);
		fault = part ? track_add(part, whole.p[i], faults)
			     : fault_no_memory(faults, "a pass");
	}
	track_free(&whole);
	return fault;
}

static enum fault follow_side(struct runs *out, struct side_line *line, const enum verge *place,
			      struct fault_list *faults)
{
	const struct profile *profile = &line->bench->profile;
	size_t gap = (size_t)(CONTOUR_GAP_MM / profile->dx_mm), places = profile->nx, i = 0;

	while (i < places) {
		if (place[i] != VERGE_CUT) {
			i++;
			continue;
		}
		size_t last = stretch_end(place, i, places, gap);
		size_t first = i > 0 && place[i - 1] != VERGE_NONE ? i - 1 : i;
		size_t end = last + 1 < places && place[last + 1] != VERGE_NONE ? last + 1 : last;
		enum fault fault = follow_contour(out, line, profile_x(profile, first),
						  profile_x(profile, end), faults);
		if (fault != FAULT_NONE)
			return fault;
		i = last + 1;
	}
	return FAULT_NONE;
}

static enum fault one_side(struct runs *out, const struct bench *bench, double sign,
			   double level_mm, bool finish, double *steepness)
{
	struct side_line line = {
		.bench = bench, .sign = sign, .level_mm = level_mm, .finish = finish
	};
	enum verge *place = mem_array(bench->profile.nx, sizeof *place);

	*steepness = INFINITY;
	if (!place)
		return FAULT_MEMORY;
	for (size_t i = 0; i < bench->profile.nx; i++)
		place[i] = judge(&line, i, steepness);
	enum fault fault = follow_side(out, &line, place, NULL);
	free(place);
	return fault;
}

enum fault contour_level(struct runs *out, const struct bench *bench, double level_mm, bool finish,
			 double *steepness, struct fault_list *faults)
{
	struct runs part[2] = { { 0 }, { 0 } };
	enum fault side_fault[2], fault = FAULT_NONE;
	double steep[2];

#pragma omp parallel for schedule(static, 1)
	for (int side = 0; side < 2; side++)
		side_fault[side] = one_side(&part[side], bench, side == 0 ? -1.0 : 1.0, level_mm,
					    finish, &steep[side]);
	if (side_fault[0] != FAULT_NONE || side_fault[1] != FAULT_NONE)
		fault = fault_no_memory(faults, "a pass");
	for (int side = 0; side < 2; side++) {
		if (fault == FAULT_NONE)
			fault = runs_take(out, &part[side], faults);
		runs_free(&part[side]);
	}
	*steepness = smaller(steep[0], steep[1]);
	return fault;
}
