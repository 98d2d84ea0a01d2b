/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs of straight cuts that are marked as arcs: circles that are known, what
 * must not become one, and how far arc and cuts are apart, looked at point by
 * point. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/tol.h"
#include "path/arc_fit.h"
#include "support/moves.h"
#include "support/near.h"
#include "support/seed.h"

#define FEED 1000.0

static const struct cutter cutter = { .ramp_angle_rad = 0.14, .plunge_feed_mm_per_min = 600.0 };

static struct machine machine_of(enum arc_ability arcs, enum length_unit unit)
{
	struct machine machine = moves_machine(3000.0, 4000.0, 300.0, 0.02);

	machine.program_unit = unit;
	machine.decimals = unit == UNIT_INCH ? 4 : 3;
	machine.reads.arcs = arcs;
	return machine;
}

static double snapped(double value, double step)
{
	return floor(value / step + 0.5) * step;
}

/* A place on the circle of radius r about (10, 20), in the plane, at an angle
 * counted as a program's arcs count: from x to y, or from z to x. */
static struct vec3 on_circle(enum arc_plane plane, double r, double angle, double step)
{
	double a = r * cos(angle), b = r * sin(angle);

	if (plane == PLANE_XY)
		return vec3_make(snapped(10.0 + a, step), snapped(20.0 + b, step), 5.08);
	return vec3_make(snapped(10.0 + b, step), 5.08, snapped(20.0 + a, step));
}

/* Cuts round the circle between two angles, in so many moves, after a rapid to
 * where it begins. */
static void go_round(struct motion_list *list, enum arc_plane plane, double r, double from,
		     double to, int moves, double step)
{
	struct vec3 p = on_circle(plane, r, from, step);

	moves_rapid(list, p.x, p.y, p.z);
	for (int i = 1; i <= moves; i++) {
		p = on_circle(plane, r, from + (to - from) * i / moves, step);
		moves_cut(list, p.x, p.y, p.z, FEED);
	}
}

static void known_circles(void **state)
{
	(void)state;
	static const struct {
		enum arc_plane plane;
		double r, from, to;
		int moves;
	} cases[] = {
		{ PLANE_XY, 30.0, 0.2, 1.7, 60 },     { PLANE_XY, 30.0, 1.7, 0.2, 60 },
		{ PLANE_XY, 4.0, 3.0, 5.5, 40 },      { PLANE_XY, 250.0, -0.1, 0.1, 30 },
		{ PLANE_XZ, 400.0, 0.06, -0.06, 20 }, { PLANE_XZ, 400.0, -0.06, 0.06, 20 },
	};
	struct machine machine = machine_of(ARCS_XY_XZ, UNIT_MM);

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct motion_list list = { 0 };
		go_round(&list, cases[i].plane, cases[i].r, cases[i].from, cases[i].to,
			 cases[i].moves, 0.001);
		size_t held = arc_fit(&list, &machine, &cutter);
		const struct motion_arc *arc = &list.item[1].arc;
		double off = cases[i].plane == PLANE_XY
				     ? hypot(arc->centre.x - 10.0, arc->centre.y - 20.0)
				     : hypot(arc->centre.x - 10.0, arc->centre.z - 20.0);
		assert_int_equal(held, cases[i].moves);
		assert_int_equal(arc->moves, cases[i].moves);
		assert_int_equal(arc->plane, cases[i].plane);
		assert_int_equal(arc->clockwise, cases[i].to < cases[i].from);
		/* a bulge wrong by 0.001 moves the centre by r2 / (c2 / 8) of it */
		double half = fabs(cases[i].to - cases[i].from) / 2.0;
		assert_near(off, 0.0, 0.002 + 0.002 / (1.0 - cos(half)), "centre, mm");
		motion_list_free(&list);
	}
}

static size_t held_by(struct motion_list *list, const struct machine *machine)
{
	size_t held = arc_fit(list, machine, &cutter);

	motion_list_free(list);
	return held;
}

static void no_arcs_of_these(void **state)
{
	(void)state;
	struct machine machine = machine_of(ARCS_XY_XZ, UNIT_MM);
	struct machine flat = machine_of(ARCS_XY, UNIT_MM), none = machine_of(ARCS_NONE, UNIT_MM);
	struct motion_list list = { 0 };

	go_round(&list, PLANE_XY, 30.0, 0.2, 1.7, 60, 0.001);
	assert_int_equal(held_by(&list, &none), 0);
	go_round(&list, PLANE_XZ, 400.0, 0.06, -0.06, 20, 0.001);
	assert_int_equal(held_by(&list, &flat), 0);
	/* chords that stand out by 0.1 mm: r (1 - cos(w / 2)), r 30, w 0.163 */
	go_round(&list, PLANE_XY, 30.0, 0.2, 1.83, 10, 0.001);
	assert_int_equal(held_by(&list, &machine), 0);
	/* a straight line, and two moves */
	moves_rapid(&list, 0, 0, 0);
	for (int i = 1; i < 9; i++)
		moves_cut(&list, i, 2.0 * i, 0, FEED);
	assert_int_equal(held_by(&list, &machine), 0);
	go_round(&list, PLANE_XY, 30.0, 0.2, 0.25, 2, 0.001);
	assert_int_equal(held_by(&list, &machine), 0);
	/* a helix */
	go_round(&list, PLANE_XY, 30.0, 0.2, 1.7, 60, 0.001);
	for (size_t i = 0; i < list.count; i++)
		list.item[i].to.z += 0.01 * (double)i;
	assert_int_equal(held_by(&list, &machine), 0);
	/* rapids, and a start that is not known */
	go_round(&list, PLANE_XY, 30.0, 0.2, 1.7, 60, 0.001);
	for (size_t i = 0; i < list.count; i++)
		list.item[i].kind = MOTION_RAPID;
	assert_int_equal(held_by(&list, &machine), 0);
	assert_int_equal(held_by(&list, &machine), 0); /* nothing at all */
}

static void ends_at_a_new_feed_or_way(void **state)
{
	(void)state;
	struct machine machine = machine_of(ARCS_XY, UNIT_MM);
	struct motion_list list = { 0 };

	go_round(&list, PLANE_XY, 30.0, 0.2, 1.7, 60, 0.001);
	for (size_t i = 31; i < list.count; i++)
		list.item[i].feed_mm_per_min = 900.0;
	assert_int_equal(arc_fit(&list, &machine, &cutter), 60);
	assert_int_equal(list.item[1].arc.moves, 30);
	assert_int_equal(list.item[31].arc.moves, 30);
	motion_list_free(&list);
	/* to and fro: no move goes back inside one arc */
	go_round(&list, PLANE_XY, 30.0, 0.2, 1.2, 50, 0.001);
	for (int i = 49; i >= 0; i--) {
		struct vec3 p = list.item[i].to;
		moves_cut(&list, p.x, p.y, p.z, FEED);
	}
	assert_int_equal(arc_fit(&list, &machine, &cutter), 100);
	assert_int_equal(list.item[1].arc.moves, 50);
	assert_false(list.item[1].arc.clockwise);
	assert_true(list.item[51].arc.clockwise);
	motion_list_free(&list);
	/* more than half round: two arcs at least */
	go_round(&list, PLANE_XY, 30.0, 0.0, 6.0, 200, 0.001);
	assert_int_equal(arc_fit(&list, &machine, &cutter), 200);
	assert_between((double)list.item[1].arc.moves, 60.0, 94.0, "moves of the first of them");
	motion_list_free(&list);
}

/* In the xz plane z and the plunge bind where the arc is steep. */
static void feeds_are_kept(void **state)
{
	(void)state;
	struct machine machine = machine_of(ARCS_XY_XZ, UNIT_MM);
	struct motion_list list = { 0 };

	/* at 43 degrees and more 1000 mm/min are 680 and more downward, beyond the
	 * plunge feed; up that is allowed */
	go_round(&list, PLANE_XZ, 50.0, 1.0, 0.75, 20, 0.001);
	assert_int_equal(held_by(&list, &machine), 20);
	go_round(&list, PLANE_XZ, 50.0, 0.75, 1.0, 20, 0.001);
	assert_int_equal(held_by(&list, &machine), 0);
	machine.feed_limit_mm_per_min[AXIS_Z] = 680.0;
	go_round(&list, PLANE_XZ, 50.0, 1.0, 0.75, 20, 0.001);
	assert_int_equal(held_by(&list, &machine), 0);
	/* flat enough for both */
	go_round(&list, PLANE_XZ, 50.0, 0.06, -0.06, 8, 0.001);
	assert_int_equal(held_by(&list, &machine), 8);
}

static double distance_to_cuts(const struct motion_list *list, size_t first, size_t moves,
			       struct vec3 p)
{
	double least = INFINITY;

	for (size_t i = first; i < first + moves; i++) {
		struct vec3 a = list->item[i - 1].to, d = vec3_sub(list->item[i].to, a);
		double t = vec3_dot(vec3_sub(p, a), d) / vec3_dot(d, d);
		t = fmin(fmax(t, 0.0), 1.0);
		least = fmin(least, vec3_distance(p, vec3_add(a, vec3_scale(d, t))));
	}
	return least;
}

/* A place on the arc by one of its radii, `share` of the way from one end to
 * the other: worked out from the marked figures alone. */
static struct vec3 place_on(const struct motion_list *list, size_t first, double share,
			    double radius_share)
{
	const struct motion_arc *arc = &list->item[first].arc;
	struct vec3 s = vec3_sub(list->item[first - 1].to, arc->centre);
	struct vec3 e = vec3_sub(list->item[first + arc->moves - 1].to, arc->centre);
	bool xy = arc->plane == PLANE_XY;
	double from = xy ? atan2(s.y, s.x) : atan2(s.x, s.z);
	double to = xy ? atan2(e.y, e.x) : atan2(e.x, e.z);
	double turn = to - from, radius;

	if (arc->clockwise && turn > 0.0)
		turn -= 2.0 * PI;
	if (!arc->clockwise && turn < 0.0)
		turn += 2.0 * PI;
	radius = vec3_length(s) + radius_share * (vec3_length(e) - vec3_length(s));
	double angle = from + share * turn;
	struct vec3 off = xy ? vec3_make(radius * cos(angle), radius * sin(angle), 0.0)
			     : vec3_make(radius * sin(angle), 0.0, radius * cos(angle));
	return vec3_add(arc->centre, off);
}

static void assert_arc_near(const struct motion_list *list, size_t first, double step_mm)
{
	const struct motion_arc *arc = &list->item[first].arc;
	struct vec3 start = list->item[first - 1].to;
	struct vec3 end = list->item[first + arc->moves - 1].to;
	double i = (arc->centre.x - start.x) / step_mm;
	double radii = vec3_distance(start, arc->centre) - vec3_distance(end, arc->centre);

	assert_near(i, floor(i + 0.5), 1e-6, "the centre is one that a program states, steps");
	assert_near(radii, 0.0, TOL_ARC_RADII_MM, "radii apart, mm");
	for (int k = 0; k <= 200; k++)
		for (int radius = 0; radius < 2; radius++) {
			struct vec3 p = place_on(list, first, k / 200.0, radius);
			assert_between(distance_to_cuts(list, first, arc->moves, p), 0.0,
				       TOL_ARC_MM + 1e-9, "arc from cuts, mm");
		}
}

/* Random bent ways, some of them round, some nearly, in both units: whatever is
 * marked lies within the tolerance of what was planned. */
static void never_farther_than_told(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("never_farther_than_told");
	size_t held = 0, cuts = 0;

	for (int i = 0; i < 150; i++) {
		struct machine machine = machine_of(ARCS_XY_XZ, i % 2 ? UNIT_INCH : UNIT_MM);
		double step = machine_resolution_mm(&machine);
		enum arc_plane plane = seed_whole(rng, 0, 1) ? PLANE_XY : PLANE_XZ;
		double r = exp(seed_between(rng, log(1.5), log(900.0)));
		double noise = seed_whole(rng, 0, 1) ? 0.0 : seed_between(rng, 0.0, 0.004);
		double turn = fmin(seed_between(rng, 5.0, 80.0) / r, 2.0), w = 0.0;
		double from = seed_between(rng, -PI, PI);
		double sense = seed_whole(rng, 0, 1) ? 1.0 : -1.0;
		struct motion_list list = { 0 };
		struct vec3 p = on_circle(plane, r, from, step);
		moves_rapid(&list, p.x, p.y, p.z);
		while (w < turn) {
			w += 2.0 * sqrt(2.0 * seed_between(rng, 0.0002, 0.005) / r);
			p = on_circle(plane, r + seed_between(rng, -noise, noise) - noise / 9.0,
				      from + sense * w, step);
			moves_cut(&list, p.x, p.y, p.z, 200.0);
		}
		held += arc_fit(&list, &machine, &cutter);
		cuts += list.count - 1;
		for (size_t k = 1; k < list.count; k++)
			if (list.item[k].arc.moves > 0)
				assert_arc_near(&list, k, step);
		motion_list_free(&list);
	}
	print_message("%zu of %zu cuts are held by arcs\n", held, cuts);
	assert_between((double)held / (double)cuts, 0.3, 1.0, "share of cuts held by arcs");
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(known_circles),
		cmocka_unit_test(no_arcs_of_these),
		cmocka_unit_test(ends_at_a_new_feed_or_way),
		cmocka_unit_test(feeds_are_kept),
		cmocka_unit_test(never_farther_than_told),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
