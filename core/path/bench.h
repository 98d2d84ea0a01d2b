/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the planner has on the bench while it works: the job, where the ball
 * may go, and the wood that still stands. */
#ifndef NECKHEW_PATH_BENCH_H
#define NECKHEW_PATH_BENCH_H

#include <stdbool.h>

#include "base/fault.h"
#include "job/job.h"
#include "model/stretch.h"
#include "path/drop.h"
#include "path/leftover.h"
#include "path/profile.h"
#include "path/snap.h"
#include "stock/stock.h"
#include "stock/visits.h"

struct bench {
	const struct job *job;
	const struct cutter *cutter; /* of the job, whose turn it is */
	struct stretches stretches; /* of the neck, for how lines are cut there */
	bool directed; /* somewhere lines are to be cut one way or down the slope */
	struct drop *drop;
	struct profile profile; /* the drop on a lattice, for deciding */
	struct snap snap;
	struct stock stock; /* the same columns as the proof's */
	struct swath swath;
	struct visits visits; /* bites, as the proof accounts for them */
	struct leftover leftover; /* where an earlier cutter left more than its scallops */
	double radius_mm;
	double top_mm; /* of blank and keep-outs */
	double safe_mm; /* rapids at this height are clear of all of them */
	double y_limit_mm; /* beyond this nothing stands and nothing needs cutting */
};

/* For the job's cutter of index `turn`, on the wood that the cutters before it
 * left; NULL for the whole blank. */
enum fault bench_build(struct bench *out, const struct facets *facets, const struct neck *neck,
		       const struct job *job, size_t turn, const struct stock *left,
		       struct fault_list *faults);
void bench_free(struct bench *bench);

/* How lines are to be cut at x. */
const struct cutting *bench_cutting(const struct bench *bench, double x_mm);

/* Top of the highest wood that the ball meets on the carved stretch, mm;
 * -INFINITY where there is none. */
double bench_wood_top_mm(const struct bench *bench);

/* Tip at (x, y), both snapped, on the lowest-tip surface but not below
 * `level_mm`. */
struct vec3 bench_tip(const struct bench *bench, double x_mm, double y_mm, double level_mm,
		      size_t *hint);

/* How much wood a ball at `tip` would take at most, mm straight down, from the
 * columns within `across_mm` and `along_mm` of it that its side does not merely
 * brush (TOL_BRUSH_MM). */
double bench_bite_mm(const struct bench *bench, struct vec3 tip, double across_mm, double along_mm);

/* True when a ball at `tip` takes any wood that its side does not merely brush. */
bool bench_takes_wood(const struct bench *bench, struct vec3 tip);

/* True when a ball at `tip` takes no more than `limit_mm` anywhere; quick where
 * nothing stands that high. With `going_on` what the ball has taken just before
 * counts into the bite, as it does while it stays in the wood. */
bool bench_bites_within(struct bench *bench, struct vec3 tip, double limit_mm, bool going_on);

/* The same for a ball that goes straight from a to b, at every point of its way,
 * without what it has taken before. */
bool bench_bites_along(struct bench *bench, struct vec3 a, struct vec3 b, double limit_mm);

/* Wood as it stands after the ball went straight from a to b. */
enum fault bench_cut(struct bench *bench, struct vec3 a, struct vec3 b, struct fault_list *faults);

/* The ball leaves the wood: a rapid. */
void bench_leave(struct bench *bench);

#endif
