/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/entry.h"

#include <math.h>

#include "base/minmax.h"

/* The ramp goes to and fro over at most this length of the run, mm. */
#define RAMP_SPAN_MM 30.0
/* ... and needs at least this, mm. */
#define SHORT_SPAN_MM 1.0
/* The ramp begins this far above the wood, mm. */
#define ABOVE_WOOD_MM 0.3
/* Times to and fro beyond what the depth asks for: a run that climbs more
 * steeply than the ramp sinks ends them, and the rest is a plunge. */
#define SPARE_TURNS 2
/* A run shorter than this, mm, or one that needs more turns than this, is
 * plunged into in part. */
#define SHORTEST_RAMP_MM 0.5
#define TURNS_MOST 200.0

/* Wood anywhere under the ball that lies above where its tip would be. */
static double wood_above(const struct bench *bench, struct vec3 tip)
{
	return bench_bite_mm(bench, tip, bench->radius_mm, bench->radius_mm);
}

/* The most of it along the run's beginning: what a ramp that must not cut along
 * the run, other than in its way, has to start above. */
static double wood_along(const struct bench *bench, const struct track *run)
{
	double most = 0.0, way = 0.0;

	for (size_t i = 0; i < run->count && way < RAMP_SPAN_MM; i++) {
		struct vec3 p = run->p[i];
		most = larger(most, wood_above(bench, p) + p.z - run->p[0].z);
		if (i + 1 < run->count)
			way += hypot(run->p[i + 1].x - p.x, run->p[i + 1].y - p.y);
	}
	return most;
}

/* The run's beginning up to `span_mm` in plan, as a track of its own; *plan_mm
 * is its length in plan. Where the run climbs over `top_mm` there is nothing to
 * sink into: it ends before, once it is long enough to go to and fro on. */
static enum fault beginning(struct track *out, const struct bench *bench, const struct track *run,
			    double span_mm, double top_mm, double *plan_mm,
			    struct fault_list *faults)
{
	enum fault fault = track_add(out, run->p[0], faults);

	*plan_mm = 0.0;
	for (size_t i = 1; i < run->count && *plan_mm < span_mm && fault == FAULT_NONE; i++) {
		struct vec3 a = run->p[i - 1], b = run->p[i];
		if (b.z > top_mm && *plan_mm >= SHORT_SPAN_MM)
			break;
		double step = hypot(b.x - a.x, b.y - a.y), left = span_mm - *plan_mm;
		if (step > left) {
			b = vec3_between(a, b, left / step);
			b.x = snap_x(&bench->snap, b.x);
			b.y = snap_y(&bench->snap, b.y);
			b.z = snap_up(&bench->snap, b.z);
			step = left;
		}
		*plan_mm += step;
		fault = track_add(out, b, faults);
	}
	return fault;
}

/* One leg from point `from` to `to` of the run, sinking by slope per mm in
 * plan but never below the run. Long pieces are divided where the sinking line
 * meets the run. Returns the height reached. */
static enum fault leg(struct track *out, const struct bench *bench, struct vec3 a, struct vec3 b,
		      double slope, double *z, struct fault_list *faults)
{
	double plan = hypot(b.x - a.x, b.y - a.y), sunk = *z - slope * plan;
	double over_a = *z - a.z, over_b = sunk - b.z;
	enum fault fault = FAULT_NONE;

	if (over_a > 0.0 && over_b < 0.0) {
		struct vec3 meet = vec3_between(a, b, over_a / (over_a - over_b));
		meet.x = snap_x(&bench->snap, meet.x);
		meet.y = snap_y(&bench->snap, meet.y);
		meet.z = snap_up(&bench->snap, meet.z);
		fault = track_add(out, meet, faults);
	}
	*z = larger(sunk, b.z);
	if (fault != FAULT_NONE)
		return fault;
	return track_add(out, vec3_make(b.x, b.y, snap_up(&bench->snap, *z)), faults);
}

/* To and fro over the run's beginning until its start is reached on the run
 * itself, at most `turns` times. */
static enum fault ramp(struct track *out, const struct bench *bench, const struct track *run,
		       double z, size_t turns, struct fault_list *faults)
{
	double slope = tan(bench->cutter->ramp_angle_rad);
	enum fault fault = FAULT_NONE;

	/* heights are rounded up to steps: the last one is no reason to turn */
	while (turns-- > 0 && fault == FAULT_NONE && z > run->p[0].z + bench->snap.step_mm) {
		for (size_t i = 1; i < run->count && fault == FAULT_NONE; i++)
			fault = leg(out, bench, run->p[i - 1], run->p[i], slope, &z, faults);
		for (size_t i = run->count - 1; i > 0 && fault == FAULT_NONE; i--)
			fault = leg(out, bench, run->p[i], run->p[i - 1], slope, &z, faults);
	}
	return fault;
}

/* Highest place of the run's beginning, and how long that is in plan. */
static double peak_of(const struct track *run, double *plan_mm)
{
	double peak = run->p[0].z;

	*plan_mm = 0.0;
	for (size_t i = 1; i < run->count && *plan_mm < RAMP_SPAN_MM; i++) {
		struct vec3 a = run->p[i - 1], b = run->p[i];
		*plan_mm += hypot(b.x - a.x, b.y - a.y);
		peak = larger(peak, b.z);
	}
	return peak;
}

/* For a run of one way only: to and fro above all of its beginning, sinking all
 * the time, a whole number of times; the rest is a plunge. The ramp would
 * otherwise follow the run back where it rises from its start. */
static enum fault ramp_above(struct track *out, const struct bench *bench, const struct track *run,
			     double z, struct fault_list *faults)
{
	double plan, peak = peak_of(run, &plan), slope = tan(bench->cutter->ramp_angle_rad);
	double reach = smaller(larger(plan, SHORTEST_RAMP_MM), RAMP_SPAN_MM);
	struct track first = { 0 };

	z = snap_up(&bench->snap, larger(z, peak + ABOVE_WOOD_MM));
	double way = (z - peak) / (2.0 * slope);
	double turns = clamped(ceil(way / reach - 1e-9), 1.0, TURNS_MOST);
	struct vec3 top = vec3_make(run->p[0].x, run->p[0].y, z);
	enum fault fault = track_add(out, top, faults);
	if (fault == FAULT_NONE)
		fault = beginning(&first, bench, run, way / turns, INFINITY, &plan, faults);
	if (fault == FAULT_NONE)
		fault = ramp(out, bench, &first, z, (size_t)turns, faults);
	track_free(&first);
	return fault;
}

enum fault entry_make(struct track *out, const struct bench *bench, const struct track *run,
		      double from_z_mm, struct fault_list *faults)
{
	struct vec3 start = run->p[0];
	double above = wood_above(bench, start), plan = 0.0;
	double slope = tan(bench->cutter->ramp_angle_rad);
	struct track first = { 0 };

	if (above <= ENTRY_NO_WOOD_MM || run->count < 2)
		return track_add(out, start, faults);
	if (run->one_way)
		above = larger(above, wood_along(bench, run));
	double z = smaller(from_z_mm, start.z + above + ABOVE_WOOD_MM);
	if (run->one_way)
		return ramp_above(out, bench, run, z, faults);
	struct vec3 top = vec3_make(start.x, start.y, snap_up(&bench->snap, z));
	/* there and back just sinks it, unless that takes too long a way */
	double span = smaller((top.z - start.z) / (2.0 * slope), RAMP_SPAN_MM);
	enum fault fault = track_add(out, top, faults);
	if (fault == FAULT_NONE)
		fault = beginning(&first, bench, run, span, top.z, &plan, faults);
	double sink = 2.0 * plan * slope;
	size_t turns = SPARE_TURNS + (sink > 0.01 ? (size_t)((top.z - start.z) / sink) : 0);
	if (fault == FAULT_NONE)
		fault = ramp(out, bench, &first, top.z, turns, faults);
	track_free(&first);
	return fault;
}
