/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/drop.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "path/obstacle.h"
#include "path/reach.h"
#include "path/waste.h"

/* Facets are listed per square of this size, mm. */
#define BUCKET_MM 1.5
/* Below the gluing face the tip gains nothing once the ball's widest part has
 * passed the edge by this much, mm. */
#define FLOOR_PAST_EDGE_MM 0.2
/* Buckets a ball can span; larger balls see larger buckets. */
#define SPAN_MAX 40

struct bucket {
	size_t first, count; /* in drop->list */
	double top_mm; /* highest facet corner, -INFINITY when empty */
	double allowance_mm; /* largest */
	/* A plane z = at + slope_x x + slope_y y over every corner of its facets,
	 * leaning as they do on average; `tilt` = sqrt(1 + slope^2), 0 when they
	 * stand too upright for a plane to say much. */
	double at, slope_x, slope_y, tilt;
};

/* Planes more upright than this are not asked where a ball would rest on them:
 * the answer loses too many digits. */
#define UPRIGHT_NORMAL 0.01
/* A bucket whose facets lean more than this on average gets no plane. */
#define UPRIGHT_PLANE 0.1
/* More than the rounding in that question, mm. */
#define BESIDE_SLACK_MM 1e-7

/* What every drop asks of a facet, worked out once. */
struct rest {
	float x0, x1, y0, y1, top; /* plan box and highest corner, rounded outward */
	float grown; /* ball + allowance + margin, rounded up */
	struct vec3 normal; /* unit, upward */
	double offset; /* of the facet's plane: normal . p */
};

struct drop {
	const struct facets *facets;
	struct rest *rest; /* per facet */
	double radius, margin, floor, reach_mm; /* reach: ball, margin and largest allowance */
	size_t nx, ny;
	double x0, y0, size; /* bucket (ix, iy) begins at x0 + ix size */
	struct bucket *bucket;
	unsigned *list;
	struct obstacles obstacles;
	struct reach reach;
	struct waste waste;
};

struct box {
	double x0, x1, y0, y1;
};

static struct box facet_box(const struct facet *facet)
{
	const struct vec3 *p = facet->p;

	return (struct box){ smaller(p[0].x, smaller(p[1].x, p[2].x)),
			     larger(p[0].x, larger(p[1].x, p[2].x)),
			     smaller(p[0].y, smaller(p[1].y, p[2].y)),
			     larger(p[0].y, larger(p[1].y, p[2].y)) };
}

static double facet_top(const struct facet *facet)
{
	return larger(facet->p[0].z, larger(facet->p[1].z, facet->p[2].z));
}

static size_t bucket_index(double offset, double size, size_t count)
{
	double i = floor(offset / size);

	return i <= 0.0 ? 0 : (i >= (double)(count - 1) ? count - 1 : (size_t)i);
}

struct bucket_range {
	size_t ix0, ix1, iy0, iy1; /* inclusive */
};

static struct bucket_range range_of(const struct drop *drop, struct box box)
{
	return (struct bucket_range){ bucket_index(box.x0 - drop->x0, drop->size, drop->nx),
				      bucket_index(box.x1 - drop->x0, drop->size, drop->nx),
				      bucket_index(box.y0 - drop->y0, drop->size, drop->ny),
				      bucket_index(box.y1 - drop->y0, drop->size, drop->ny) };
}

static void lay_grid(struct drop *drop)
{
	struct box all = { INFINITY, -INFINITY, INFINITY, -INFINITY };
	double allowance = 0.0;

	for (size_t i = 0; i < drop->facets->count; i++) {
		struct box box = facet_box(&drop->facets->item[i]);
		all.x0 = smaller(all.x0, box.x0);
		all.x1 = larger(all.x1, box.x1);
		all.y0 = smaller(all.y0, box.y0);
		all.y1 = larger(all.y1, box.y1);
		allowance = larger(allowance, drop->facets->item[i].allowance_mm);
	}
	drop->reach_mm = drop->radius + drop->margin + allowance;
	drop->size = larger(BUCKET_MM, drop->reach_mm * 2.0 / (SPAN_MAX - 3));
	drop->x0 = all.x0;
	drop->y0 = all.y0;
	drop->nx = (size_t)ceil((all.x1 - all.x0) / drop->size) + 1;
	drop->ny = (size_t)ceil((all.y1 - all.y0) / drop->size) + 1;
}

static float rounded_down(double value)
{
	return nextafterf((float)value, -INFINITY);
}

static float rounded_up(double value)
{
	return nextafterf((float)value, INFINITY);
}

static struct vec3 facet_normal(const struct facet *facet)
{
	const struct vec3 *p = facet->p;
	struct vec3 normal = vec3_cross(vec3_sub(p[1], p[0]), vec3_sub(p[2], p[0]));

	return vec3_scale(normal, (normal.z < 0.0 ? -1.0 : 1.0) / vec3_length(normal));
}

static enum fault make_rests(struct drop *drop, struct fault_list *faults)
{
	drop->rest = mem_array(drop->facets->count, sizeof *drop->rest);
	if (!drop->rest)
		return fault_no_memory(faults, "the ball drop");
	for (size_t i = 0; i < drop->facets->count; i++) {
		const struct facet *facet = &drop->facets->item[i];
		struct box box = facet_box(facet);
		drop->rest[i] = (struct rest){
			rounded_down(box.x0),
			rounded_up(box.x1),
			rounded_down(box.y0),
			rounded_up(box.y1),
			rounded_up(facet_top(facet)),
			rounded_up(drop->radius + facet->allowance_mm + drop->margin),
			facet_normal(facet),
			vec3_dot(facet_normal(facet), facet->p[0])
		};
	}
	return FAULT_NONE;
}

/* Lays a bucket's plane over its facets. */
static void lay_plane(struct drop *drop, struct bucket *bucket)
{
	struct vec3 sum = { 0.0, 0.0, 0.0 };

	for (size_t i = 0; i < bucket->count; i++)
		sum = vec3_add(sum, drop->rest[drop->list[bucket->first + i]].normal);
	if (bucket->count == 0 || sum.z < UPRIGHT_PLANE * vec3_length(sum))
		return;
	bucket->slope_x = -sum.x / sum.z;
	bucket->slope_y = -sum.y / sum.z;
	bucket->tilt =
		sqrt(1.0 + bucket->slope_x * bucket->slope_x + bucket->slope_y * bucket->slope_y);
	bucket->at = -INFINITY;
	for (size_t i = 0; i < bucket->count; i++) {
		const struct facet *facet = &drop->facets->item[drop->list[bucket->first + i]];
		for (int corner = 0; corner < 3; corner++) {
			struct vec3 p = facet->p[corner];
			bucket->at = larger(bucket->at,
					    p.z - bucket->slope_x * p.x - bucket->slope_y * p.y);
		}
	}
}

/* Counts the facets of every bucket, turns counts into places, then lists. */
static enum fault fill_buckets(struct drop *drop, struct fault_list *faults)
{
	size_t total = 0, buckets = drop->nx * drop->ny;

	drop->bucket = mem_array(buckets, sizeof *drop->bucket);
	if (!drop->bucket)
		return fault_no_memory(faults, "the ball drop");
	for (size_t i = 0; i < drop->facets->count; i++) {
		struct bucket_range r = range_of(drop, facet_box(&drop->facets->item[i]));
		for (size_t iy = r.iy0; iy <= r.iy1; iy++)
			for (size_t ix = r.ix0; ix <= r.ix1; ix++)
				drop->bucket[iy * drop->nx + ix].count++;
	}
	for (size_t b = 0; b < buckets; b++) {
		drop->bucket[b].first = total;
		drop->bucket[b].top_mm = -INFINITY;
		total += drop->bucket[b].count;
		drop->bucket[b].count = 0;
	}
	drop->list = mem_array(total, sizeof *drop->list);
	if (!drop->list)
		return fault_no_memory(faults, "the ball drop");
	for (size_t i = 0; i < drop->facets->count; i++) {
		const struct facet *facet = &drop->facets->item[i];
		struct bucket_range r = range_of(drop, facet_box(facet));
		for (size_t iy = r.iy0; iy <= r.iy1; iy++)
			for (size_t ix = r.ix0; ix <= r.ix1; ix++) {
				struct bucket *bucket = &drop->bucket[iy * drop->nx + ix];
				drop->list[bucket->first + bucket->count++] = (unsigned)i;
				bucket->top_mm = larger(bucket->top_mm, facet_top(facet));
				bucket->allowance_mm =
					larger(bucket->allowance_mm, facet->allowance_mm);
			}
	}
	for (size_t b = 0; b < buckets; b++)
		lay_plane(drop, &drop->bucket[b]);
	return FAULT_NONE;
}

/* The tip never needs to go lower than where the ball's widest part has passed
 * the gluing face, and may not go nearer to the bed than the clearance. */
static double floor_of(const struct job *job, double grown)
{
	double bed = job_bed_mm(job) + job->fixture.bed_clearance_mm;

	return larger(-grown - FLOOR_PAST_EDGE_MM, bed);
}

double drop_lowest_mm(const struct job *job, const struct cutter *cutter)
{
	return floor_of(job, cutter_radius_mm(cutter) + job->neck.allowance.sides_mm);
}

enum fault drop_build(struct drop **out, const struct facets *facets, const struct neck *neck,
		      const struct job *job, const struct cutter *cutter, double margin_mm,
		      struct fault_list *faults)
{
	struct drop *drop = mem_array(1, sizeof *drop);

	*out = NULL;
	if (!drop)
		return fault_no_memory(faults, "the ball drop");
	drop->facets = facets;
	drop->radius = cutter_radius_mm(cutter);
	drop->margin = margin_mm;
	drop->floor = floor_of(job, drop->radius + neck_allowance_mm(neck, ZONE_SIDES));
	lay_grid(drop);
	enum fault fault = make_rests(drop, faults);
	if (fault == FAULT_NONE)
		fault = fill_buckets(drop, faults);
	if (fault == FAULT_NONE)
		fault = waste_build(&drop->waste, neck, job, cutter, faults);
	if (fault == FAULT_NONE)
		fault = reach_build(&drop->reach, facets, job, cutter, &drop->waste, drop->floor,
				    faults);
	if (fault != FAULT_NONE) {
		drop_free(drop);
		return fault;
	}
	obstacles_make(&drop->obstacles, job, cutter, margin_mm);
	*out = drop;
	return FAULT_NONE;
}

void drop_free(struct drop *drop)
{
	if (!drop)
		return;
	free(drop->rest);
	free(drop->bucket);
	free(drop->list);
	reach_free(&drop->reach);
	waste_free(&drop->waste);
	free(drop);
}

double drop_floor_mm(const struct drop *drop)
{
	return drop->floor;
}

/* True when the facet cannot raise the tip above `best`: even its highest
 * corner under the nearest point of its plan box would not. */
static inline bool is_below(const struct rest *rest, double radius, double best, double x, double y)
{
	double dx = larger(larger(rest->x0 - x, x - rest->x1), 0.0);
	double dy = larger(larger(rest->y0 - y, y - rest->y1), 0.0);
	double left = (double)rest->grown * rest->grown - dx * dx - dy * dy;
	double need = best + radius - rest->top;

	return left <= 0.0 || (need > 0.0 && need * need >= left);
}

/* True when the facet cannot raise the tip above `best` because the ball would
 * rest on its plane too far outside it. The centre's height over the plane as a
 * function of the contact's place in plan is a straight slope plus a sphere's
 * cap; so it bends down everywhere by at least 1 / grown, and at distance d
 * from the highest place it is at least d^2 / (2 grown) lower. */
static inline bool is_beside(const struct rest *rest, double radius, double best, double x,
			     double y)
{
	struct vec3 n = rest->normal;
	double grown = rest->grown;

	if (n.z < UPRIGHT_NORMAL)
		return false;
	double cx = x - grown * n.x, cy = y - grown * n.y;
	double dx = larger(larger(rest->x0 - cx, cx - rest->x1), 0.0);
	double dy = larger(larger(rest->y0 - cy, cy - rest->y1), 0.0);
	double highest = (rest->offset - n.x * x - n.y * y + grown) / n.z - radius;

	return highest - (dx * dx + dy * dy) / (2.0 * grown) <= best - BESIDE_SLACK_MM;
}

struct query {
	double x, y, best;
	size_t contact;
};

static void try_facet(const struct drop *drop, size_t index, struct query *query)
{
	const struct rest *rest = &drop->rest[index];

	if (is_below(rest, drop->radius, query->best, query->x, query->y) ||
	    is_beside(rest, drop->radius, query->best, query->x, query->y))
		return;
	const struct facet *facet = &drop->facets->item[index];
	double grown = drop->radius + facet->allowance_mm + drop->margin;
	double tip = drop_on_facet_mm(facet, drop->radius, grown, query->x, query->y);
	if (tip > query->best) {
		query->best = tip;
		query->contact = index;
	}
}

static void try_bucket(const struct drop *drop, const struct bucket *bucket, struct query *query)
{
	for (size_t i = 0; i < bucket->count; i++)
		try_facet(drop, drop->list[bucket->first + i], query);
}

/* True when nothing in the bucket can raise the tip above `best`: its highest
 * corner under the bucket's nearest point would not, or the ball on the
 * bucket's plane rests too far outside it (as in is_beside). */
static bool is_hopeless(const struct drop *drop, size_t ix, size_t iy, const struct query *query)
{
	const struct bucket *bucket = &drop->bucket[iy * drop->nx + ix];
	double x0 = drop->x0 + (double)ix * drop->size, y0 = drop->y0 + (double)iy * drop->size;
	double x = query->x, y = query->y;
	double dx = larger(larger(x0 - x, x - x0 - drop->size), 0.0);
	double dy = larger(larger(y0 - y, y - y0 - drop->size), 0.0);
	double grown = drop->radius + bucket->allowance_mm + drop->margin;
	double left = grown * grown - dx * dx - dy * dy;
	double need = query->best + drop->radius - bucket->top_mm;

	if (bucket->count == 0 || left <= 0.0 || (need > 0.0 && need * need >= left))
		return true;
	if (bucket->tilt <= 0.0)
		return false;
	double cx = x + grown * bucket->slope_x / bucket->tilt;
	double cy = y + grown * bucket->slope_y / bucket->tilt;
	dx = larger(larger(x0 - cx, cx - x0 - drop->size), 0.0);
	dy = larger(larger(y0 - cy, cy - y0 - drop->size), 0.0);
	double highest = bucket->at + bucket->slope_x * x + bucket->slope_y * y +
			 grown * bucket->tilt - drop->radius;
	return highest - (dx * dx + dy * dy) / (2.0 * grown) <= query->best - BESIDE_SLACK_MM;
}

static void search_buckets(const struct drop *drop, struct query *query)
{
	double reach = drop->reach_mm;
	struct box box = { query->x - reach, query->x + reach, query->y - reach, query->y + reach };
	struct bucket_range r = range_of(drop, box);

	for (size_t iy = r.iy0; iy <= r.iy1; iy++)
		for (size_t ix = r.ix0; ix <= r.ix1; ix++)
			if (!is_hopeless(drop, ix, iy, query))
				try_bucket(drop, &drop->bucket[iy * drop->nx + ix], query);
}

/* The ball on the neck and what belongs to it: on nothing that stands beside. */
static double bare_ball(const struct drop *drop, double x_mm, double y_mm, size_t *hint)
{
	struct query query = { x_mm, y_mm, drop->floor, *hint };

	if (*hint < drop->facets->count)
		try_facet(drop, *hint, &query);
	search_buckets(drop, &query);
	*hint = query.contact;
	return larger(query.best, obstacles_ball_mm(&drop->obstacles, OBSTACLES_OF_WORK, x_mm, y_mm,
						    x_mm, y_mm));
}

double drop_ball_mm(const struct drop *drop, double x_mm, double y_mm, size_t *hint)
{
	double ball =
		larger(bare_ball(drop, x_mm, y_mm, hint), waste_ball_mm(&drop->waste, x_mm, y_mm));

	return larger(ball,
		      obstacles_ball_mm(&drop->obstacles, OBSTACLES_ABOUT, x_mm, y_mm, x_mm, y_mm));
}

/* Shank and holder over the neck and past what belongs to the work. */
static double bare_tool(const struct drop *drop, double x_mm, double y_mm)
{
	return larger(reach_tip_mm(&drop->reach, x_mm, y_mm),
		      obstacles_tool_mm(&drop->obstacles, OBSTACLES_OF_WORK, x_mm, y_mm, x_mm,
					y_mm));
}

double drop_bare_mm(const struct drop *drop, double x_mm, double y_mm, size_t *hint)
{
	return larger(bare_ball(drop, x_mm, y_mm, hint), bare_tool(drop, x_mm, y_mm));
}

double drop_tool_mm(const struct drop *drop, double x_mm, double y_mm)
{
	double beside = larger(waste_tool_mm(&drop->waste, x_mm, y_mm),
			       obstacles_tool_mm(&drop->obstacles, OBSTACLES_ABOUT, x_mm, y_mm,
						 x_mm, y_mm));

	return larger(bare_tool(drop, x_mm, y_mm), beside);
}

double drop_about_mm(const struct drop *drop, double x0_mm, double y0_mm, double x1_mm,
		     double y1_mm)
{
	return larger(
		obstacles_ball_mm(&drop->obstacles, OBSTACLES_ABOUT, x0_mm, y0_mm, x1_mm, y1_mm),
		obstacles_tool_mm(&drop->obstacles, OBSTACLES_ABOUT, x0_mm, y0_mm, x1_mm, y1_mm));
}

double drop_beside_mm(const struct drop *drop, double x_mm, double y_mm)
{
	double waste = larger(waste_ball_mm(&drop->waste, x_mm, y_mm),
			      waste_tool_mm(&drop->waste, x_mm, y_mm));

	return larger(waste, drop_about_mm(drop, x_mm, y_mm, x_mm, y_mm));
}

bool drop_has_beside(const struct drop *drop)
{
	return waste_stays(&drop->waste) || obstacles_any_about(&drop->obstacles);
}

double drop_tip_mm(const struct drop *drop, double x_mm, double y_mm, size_t *hint)
{
	return larger(drop_bare_mm(drop, x_mm, y_mm, hint), drop_beside_mm(drop, x_mm, y_mm));
}

const struct waste *drop_waste(const struct drop *drop)
{
	return &drop->waste;
}

double drop_keep_out_mm(const struct drop *drop, double x0_mm, double y0_mm, double x1_mm,
			double y1_mm)
{
	return larger(
		obstacles_ball_mm(&drop->obstacles, OBSTACLES_ALL, x0_mm, y0_mm, x1_mm, y1_mm),
		obstacles_tool_mm(&drop->obstacles, OBSTACLES_ALL, x0_mm, y0_mm, x1_mm, y1_mm));
}
