/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Polylines that follow known curves. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/tol.h"
#include "path/track.h"
#include "support/near.h"

/* z over x, at y = 0. */
static struct vec3 straight_at(void *context, double s)
{
	const double *slope = context;

	return vec3_make(s, 0, *slope * s);
}

/* The lowest-tip line over a cylinder across the way. */
static struct vec3 arc_at(void *context, double s)
{
	const double *radius = context;

	return vec3_make(s, 0, sqrt(*radius * *radius - s * s));
}

/* Two arcs that meet in a sharp dip, as over a hollow narrower than the ball. */
static struct vec3 dip_at(void *context, double s)
{
	(void)context;
	double off = fabs(s) - 9.0;

	return vec3_make(s, 0, sqrt(144.0 - off * off));
}

static struct vec3 wave_at(void *context, double s)
{
	(void)context;
	return vec3_make(s, 2.0 * sin(s / 4.0), 3.0 * cos(s / 3.0));
}

/* An upright wall: low, then from 5 to 12 high. */
static struct vec3 wall_at(void *context, double s)
{
	const double *high = context;

	return vec3_make(s, 0, s >= 5.0 && s <= 12.0 ? *high : 0.0);
}

/* A flat level out of which the top of a ridge stands 0.03 mm, so narrow that
 * it lies between the quarters of a long piece: the ball, grown by the
 * allowance, on an edge. */
static struct vec3 ridge_at(void *context, double s)
{
	const double *top = context;
	double off = s - *top;
	double z = off * off < 16.0 ? sqrt(16.0 - off * off) - 3.97 : 0.0;

	return vec3_make(s, 0, fmax(z, 0.0));
}

static double off_track(const struct track *track, struct vec3 p)
{
	double least = INFINITY;

	for (size_t i = 1; i < track->count; i++) {
		struct vec3 a = track->p[i - 1], ab = vec3_sub(track->p[i], a);
		double t = vec3_dot(vec3_sub(p, a), ab) / vec3_dot(ab, ab);
		t = fmin(fmax(t, 0.0), 1.0);
		least = fmin(least, vec3_distance(p, vec3_add(a, vec3_scale(ab, t))));
	}
	return least;
}

static struct track followed(struct vec3 (*at)(void *, double), void *context, double s0, double s1)
{
	struct track track = { 0 };
	const struct track_curve curve = { at, context };

	assert_int_equal(track_follow(&track, &curve, s0, s1, NULL), FAULT_NONE);
	return track;
}

static void assert_follows(struct vec3 (*at)(void *, double), void *context, double s0, double s1,
			   size_t most_points)
{
	struct track track = followed(at, context, s0, s1);

	assert_near(vec3_distance(track.p[0], at(context, s0)), 0.0, 0.0, "begin, mm");
	assert_near(vec3_distance(track.p[track.count - 1], at(context, s1)), 0.0, 0.0, "end, mm");
	for (int i = 0; i <= 3000; i++)
		assert_between(off_track(&track, at(context, s0 + (s1 - s0) * i / 3000.0)), 0.0,
			       TOL_CHORD_MM, "curve off the track, mm");
	assert_true(track.count <= most_points);
	track_free(&track);
}

/* Wherever the ridge stands between the places that a long piece is judged by.
 * Between places 0.45 mm apart an arc of 4 mm rises by no more than its
 * sagitta, 0.45 squared / (8 x 4) = 0.0064 mm. */
static void a_narrow_ridge_out_of_a_level_is_seen(void **state)
{
	(void)state;
	for (int i = 0; i < 40; i++) {
		double top = 10.0 + 0.1 * i;
		struct track track = followed(ridge_at, &top, 0.0, 40.0);
		assert_near(off_track(&track, ridge_at(&top, top)), 0.0, TOL_CHORD_MM + 0.0064,
			    "top of the ridge off the track, mm");
		assert_true(track.count <= 40);
		track_free(&track);
	}
}

static void stays_by_the_curve(void **state)
{
	(void)state;
	double slope = 0.7, radius = 25.0, tight = 7.0;

	assert_follows(straight_at, &slope, 0.0, 30.0, 11);
	/* a chord of 2 sqrt(2 r e) = 1 mm has 0.005 mm under it at r 25 */
	assert_follows(arc_at, &radius, -20.0, 20.0, 140);
	assert_follows(arc_at, &tight, -6.5, 6.5, 80);
	assert_follows(dip_at, NULL, -15.0, 15.0, 200);
	assert_follows(wave_at, NULL, 0.0, 80.0, 300);
	assert_follows(wave_at, NULL, 55.5, -12.0, 300);
}

/* Going up a wall: up before over; coming off: over before down. So the track
 * never lies below the curve. */
static void jumps_go_over_the_lower_side(void **state)
{
	(void)state;
	double high = 6.0;

	for (int way = 0; way < 2; way++) {
		struct track track = followed(wall_at, &high, way ? 20.0 : 0.0, way ? 0.0 : 20.0);
		double upright = 0.0;
		for (size_t i = 1; i < track.count; i++) {
			struct vec3 a = track.p[i - 1], b = track.p[i];
			if (fabs(b.z - a.z) > TOL_CHORD_MM) {
				assert_near(a.x, b.x, 0.0, "no slant where it jumps, mm");
				/* beside the wall, not in it */
				assert_true(a.x < 5.0 || a.x > 12.0);
				assert_near(wall_at(&high, a.x).z, 0.0, 0.0, "lower side, mm");
				upright += fabs(b.z - a.z);
			}
			for (int k = 0; k <= 50; k++) {
				struct vec3 p = vec3_between(a, b, k / 50.0);
				assert_true(p.z >= wall_at(&high, p.x).z - TOL_CHORD_MM);
			}
		}
		assert_near(upright, 12.0, 1e-9, "once up, once down, mm");
		/* up and down close beside the wall: 20 mm in plan */
		assert_near(track_length_mm(&track), 32.0, 1e-6, "length, mm");
		track_free(&track);
	}
}

static void no_way_at_all(void **state)
{
	(void)state;
	double slope = 1.0;
	struct track track = followed(straight_at, &slope, 4.0, 4.0);

	assert_int_equal(track.count, 1);
	assert_near(track_length_mm(&track), 0.0, 0.0, "length, mm");
	track_free(&track);
	assert_int_equal(track.count, 0);
	track_free(NULL);
}

static void points_add_and_turn_round(void **state)
{
	(void)state;
	struct track track = { 0 };

	for (int i = 0; i < 5; i++) {
		assert_int_equal(track_add(&track, vec3_make(i, 0, 0), NULL), FAULT_NONE);
		/* the same point again is no piece */
		assert_int_equal(track_add(&track, vec3_make(i, 0, 0), NULL), FAULT_NONE);
	}
	assert_int_equal(track.count, 5);
	assert_near(track_length_mm(&track), 4.0, 0.0, "length, mm");
	track_reverse(&track);
	for (int i = 0; i < 5; i++)
		assert_near(track.p[i].x, 4.0 - i, 0.0, "turned round, mm");
	track_free(&track);
}

/* What follows is appended behind what is there. */
static void appends(void **state)
{
	(void)state;
	double slope = 0.0;
	struct track track = { 0 };
	const struct track_curve curve = { straight_at, &slope };

	assert_int_equal(track_follow(&track, &curve, 0.0, 5.0, NULL), FAULT_NONE);
	size_t before = track.count;
	assert_int_equal(track_follow(&track, &curve, 5.0, 8.0, NULL), FAULT_NONE);
	assert_int_equal(track.count, before + 1); /* 5 is there already */
	assert_near(track.p[track.count - 1].x, 8.0, 0.0, "end, mm");
	track_free(&track);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(stays_by_the_curve),
		cmocka_unit_test(a_narrow_ridge_out_of_a_level_is_seen),
		cmocka_unit_test(jumps_go_over_the_lower_side),
		cmocka_unit_test(no_way_at_all),
		cmocka_unit_test(points_add_and_turn_round),
		cmocka_unit_test(appends),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
