/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/bench.h"

#include <math.h>

#include "base/minmax.h"
#include "base/tol.h"

/* Less than this off every column is nothing, mm. */
#define LEAST_MM 0.005

static bool is_directed(const struct job *job)
{
	for (int i = 0; i < STRETCH_COUNT; i++)
		if (job->cutting[i].way != CUT_BOTH_WAYS || job->cutting[i].grain != CUT_ANY_GRAIN)
			return true;
	return false;
}

/* Height over everything by what is kept from wood, and over the keep-outs by
 * what is kept from them. */
static double safe_height_mm(const struct job *job)
{
	const struct fixture *fixture = &job->fixture;
	double safe = job_highest_mm(job) + job->carve.clearance_mm;

	for (size_t i = 0; i < fixture->keep_out_count; i++)
		safe = larger(safe, fixture->keep_out[i].top_mm + fixture->keep_out_clearance_mm +
					    TOL_PLAN_MARGIN_MM);
	return safe;
}

enum fault bench_build(struct bench *out, const struct facets *facets, const struct neck *neck,
		       const struct job *job, size_t turn, const struct stock *left,
		       struct fault_list *faults)
{
	const struct cutter *cutter = &job->cutter[turn];

	*out = (struct bench){ .job = job,
			       .cutter = cutter,
			       .stretches = stretches_of(neck),
			       .directed = is_directed(job),
			       .radius_mm = cutter_radius_mm(cutter),
			       .snap = { job->fixture.work_zero_mm,
					 machine_resolution_mm(&job->machine) },
			       .top_mm = job_highest_mm(job),
			       .safe_mm = safe_height_mm(job) };
	out->y_limit_mm = out->radius_mm + blank_widest_most_mm(&job->blank);
	enum fault fault =
		drop_build(&out->drop, facets, neck, job, cutter, TOL_PLAN_MARGIN_MM, faults);
	if (fault == FAULT_NONE)
		fault = profile_build(&out->profile, out->drop, job->carve.from_mm,
				      job->carve.to_mm, out->y_limit_mm, faults);
	if (fault == FAULT_NONE)
		fault = left ? stock_copy(&out->stock, left, faults)
			     : stock_build(&out->stock, &job->blank, job->carve.cell_mm, faults);
	if (fault == FAULT_NONE)
		fault = visits_build(&out->visits, &out->stock, out->radius_mm, faults);
	if (fault == FAULT_NONE && left)
		fault = leftover_build(&out->leftover, out->drop, &out->profile, &out->stock,
				       out->radius_mm, job->carve.scallop_limit_mm, faults);
	return fault;
}

void bench_free(struct bench *bench)
{
	if (!bench)
		return;
	drop_free(bench->drop);
	profile_free(&bench->profile);
	leftover_free(&bench->leftover);
	stock_free(&bench->stock);
	swath_free(&bench->swath);
	visits_free(&bench->visits);
}

const struct cutting *bench_cutting(const struct bench *bench, double x_mm)
{
	return &bench->job->cutting[stretch_at(&bench->stretches, x_mm)];
}

double bench_wood_top_mm(const struct bench *bench)
{
	const struct stock *stock = &bench->stock;
	const struct carve_spec *carve = &bench->job->carve;
	size_t first = stock_ix(stock, carve->from_mm - bench->radius_mm);
	size_t last = stock_ix(stock, carve->to_mm + bench->radius_mm);
	float top = -INFINITY;

	for (size_t iy = 0; iy < stock->ny; iy++)
		for (size_t ix = first; ix <= last; ix++) {
			size_t i = iy * stock->nx + ix;
			if (stock->ceiling[i] > stock->bottom[i] && stock->ceiling[i] > top)
				top = stock->ceiling[i];
		}
	return (double)top;
}

struct vec3 bench_tip(const struct bench *bench, double x_mm, double y_mm, double level_mm,
		      size_t *hint)
{
	double x = snap_x(&bench->snap, x_mm), y = snap_y(&bench->snap, y_mm);
	double z = drop_tip_mm(bench->drop, x, y, hint);

	return vec3_make(x, y, snap_up(&bench->snap, larger(z, level_mm)));
}

/* The most a ball at `tip` takes from the columns [ix, end) of one row. */
static double bite_in_row(const struct bench *bench, struct vec3 tip, size_t iy, size_t ix,
			  size_t end, double bite)
{
	const struct stock *stock = &bench->stock;
	double r2 = bench->radius_mm * bench->radius_mm, dy = stock_y(stock, iy) - tip.y;
	double inner = bench->radius_mm - TOL_BRUSH_MM, brushed2 = r2 - inner * inner;

	for (; ix < end; ix++) {
		size_t i = iy * stock->nx + ix;
		double dx = stock_x(stock, ix) - tip.x, left = r2 - dx * dx - dy * dy;
		/* no bite is deeper than the wood stands over the tip */
		if (left <= brushed2 || stock->top[i] - tip.z <= bite ||
		    stock->top[i] <= stock->bottom[i])
			continue;
		double height = tip.z + bench->radius_mm - sqrt(left);
		bite = larger(bite, stock->top[i] - larger(height, stock->bottom[i]));
	}
	return bite;
}

double bench_bite_mm(const struct bench *bench, struct vec3 tip, double across_mm, double along_mm)
{
	const struct stock *stock = &bench->stock;
	size_t iy0 = stock_iy(stock, tip.y - across_mm), iy1 = stock_iy(stock, tip.y + across_mm);
	size_t ix0 = stock_ix(stock, tip.x - along_mm), ix1 = stock_ix(stock, tip.x + along_mm);
	double bite = 0.0;

	for (size_t iy = iy0; iy <= iy1; iy++) {
		const float *blocks = stock->block + iy / STOCK_BLOCK * stock->bx;
		for (size_t ix = ix0; ix <= ix1;) {
			size_t end = (ix / STOCK_BLOCK + 1) * STOCK_BLOCK;
			end = end <= ix1 ? end : ix1 + 1;
			if (blocks[ix / STOCK_BLOCK] - tip.z > bite)
				bite = bite_in_row(bench, tip, iy, ix, end, bite);
			ix = end;
		}
	}
	return bite;
}

bool bench_takes_wood(const struct bench *bench, struct vec3 tip)
{
	return bench_bite_mm(bench, tip, bench->radius_mm, bench->radius_mm) > LEAST_MM;
}

/* As bench_bite_mm all around the ball, from the tops at which visits began. */
static bool visit_within(const struct bench *bench, struct vec3 tip, double limit_mm)
{
	const struct stock *stock = &bench->stock;
	double r = bench->radius_mm, inner = r - TOL_BRUSH_MM;
	size_t ix0 = stock_ix(stock, tip.x - r), ix1 = stock_ix(stock, tip.x + r);
	size_t iy0 = stock_iy(stock, tip.y - r), iy1 = stock_iy(stock, tip.y + r);

	for (size_t iy = iy0; iy <= iy1; iy++)
		for (size_t ix = ix0; ix <= ix1; ix++) {
			size_t i = iy * stock->nx + ix;
			double dx = stock_x(stock, ix) - tip.x, dy = stock_y(stock, iy) - tip.y;
			double plan2 = dx * dx + dy * dy;
			if (plan2 > inner * inner)
				continue;
			double height = larger(tip.z + r - sqrt(r * r - plan2), stock->bottom[i]);
			/* what is not cut now is no part of a bite */
			if (stock->top[i] > height &&
			    visits_top(&bench->visits, stock, i) - height > limit_mm)
				return false;
		}
	return true;
}

/* True when the ball's side at `tip` cuts wood that stands above the flutes:
 * the shank would cut it. A brush is no cut. */
static bool outgrows_flutes(struct bench *bench, struct vec3 tip)
{
	double end = tip.z + bench->cutter->flute_length_mm;
	double inner = bench->radius_mm - TOL_BRUSH_MM;

	return stock_highest_mm(&bench->stock, tip, tip, inner, end) > end;
}

bool bench_bites_within(struct bench *bench, struct vec3 tip, double limit_mm, bool going_on)
{
	double enough = tip.z + limit_mm;

	/* long flutes end above all that a bite within the limit can reach */
	if (bench->radius_mm + limit_mm > bench->cutter->flute_length_mm &&
	    outgrows_flutes(bench, tip))
		return false;
	if (going_on)
		return visit_within(bench, tip, limit_mm);
	if (stock_highest_mm(&bench->stock, tip, tip, bench->radius_mm, enough) <= enough)
		return true;
	return bench_bite_mm(bench, tip, bench->radius_mm, bench->radius_mm) <= limit_mm;
}

/* Squared distance in plan of a column from the straight line a-b. */
static double off_line2(const struct stock *stock, size_t ix, size_t iy, struct vec3 a,
			struct vec3 b)
{
	double dx = b.x - a.x, dy = b.y - a.y, length2 = dx * dx + dy * dy;
	double px = stock_x(stock, ix) - a.x, py = stock_y(stock, iy) - a.y;
	double t = length2 > 0.0 ? clamped((px * dx + py * dy) / length2, 0.0, 1.0) : 0.0;

	px -= t * dx;
	py -= t * dy;
	return px * px + py * py;
}

/* Wood of column (ix, iy) that the ball takes on its way. */
static double bite_along(const struct bench *bench, struct vec3 a, struct vec3 b, size_t ix,
			 size_t iy)
{
	const struct stock *stock = &bench->stock;
	size_t i = iy * stock->nx + ix;
	double inner = bench->radius_mm - TOL_BRUSH_MM;

	if (stock->top[i] <= stock->bottom[i] || off_line2(stock, ix, iy, a, b) > inner * inner)
		return 0.0;
	double height =
		sweep_height_mm(a, b, bench->radius_mm, stock_x(stock, ix), stock_y(stock, iy));
	return stock->top[i] - larger(height, stock->bottom[i]);
}

bool bench_bites_along(struct bench *bench, struct vec3 a, struct vec3 b, double limit_mm)
{
	const struct stock *stock = &bench->stock;
	double r = bench->radius_mm, low = smaller(a.z, b.z), enough = low + limit_mm;

	if (stock_highest_mm(&bench->stock, a, b, r, enough) <= enough)
		return true;
	size_t ix1 = stock_ix(stock, larger(a.x, b.x) + r);
	size_t iy1 = stock_iy(stock, larger(a.y, b.y) + r);
	for (size_t iy = stock_iy(stock, smaller(a.y, b.y) - r); iy <= iy1; iy++)
		for (size_t ix = stock_ix(stock, smaller(a.x, b.x) - r); ix <= ix1; ix++)
			if (stock->top[iy * stock->nx + ix] > enough &&
			    bite_along(bench, a, b, ix, iy) > limit_mm)
				return false;
	return true;
}

enum fault bench_cut(struct bench *bench, struct vec3 a, struct vec3 b, struct fault_list *faults)
{
	enum fault fault =
		stock_sweep(&bench->stock, a, b, bench->radius_mm, &bench->swath, faults);

	if (fault == FAULT_NONE)
		(void)visits_note(&bench->visits, &bench->stock, &bench->swath, a, b);
	return fault;
}

void bench_leave(struct bench *bench)
{
	visits_leave(&bench->visits);
}
