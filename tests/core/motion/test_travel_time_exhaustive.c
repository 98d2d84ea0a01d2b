/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole lists of random moves: against a speed envelope built without
 * look-ahead, and by what must hold whatever the list. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "motion/travel_time.h"
#include "support/moves.h"
#include "support/near.h"
#include "support/seed.h"

#define LISTS 200
#define POINTS_MAX 24

/* A path of cuts, point[0] its start; feed[i] leads to point[i + 1]. */
struct path {
	size_t count; /* moves */
	struct vec3 point[POINTS_MAX + 1];
	double feed[POINTS_MAX];
};

static struct machine random_machine(const gsl_rng *rng)
{
	struct machine machine = { .corner_deviation_mm = seed_between(rng, 0.005, 0.05) };

	for (int axis = 0; axis < AXIS_COUNT; axis++) {
		machine.feed_limit_mm_per_min[axis] = seed_between(rng, 1000.0, 6000.0);
		machine.rapid_mm_per_min[axis] = seed_between(rng, 2000.0, 9000.0);
		machine.acceleration_mm_per_s2[axis] = seed_between(rng, 100.0, 1000.0);
	}
	return machine;
}

/* Moves no shorter than `least_mm`. Half the lists wander, half run on nearly
 * straight, as a surface line does. */
static struct path random_path(const gsl_rng *rng, double least_mm, double most_mm)
{
	struct path path = { .count = seed_whole(rng, 1, POINTS_MAX) };
	double bend = seed_whole(rng, 0, 1) ? 1.0 : 0.05;
	struct vec3 along = vec3_make(1.0, 0.0, 0.0);

	for (size_t i = 0; i < path.count; i++) {
		struct vec3 aside = vec3_make(seed_between(rng, -bend, bend),
					      seed_between(rng, -bend, bend),
					      seed_between(rng, -bend, bend));
		along = vec3_add(along, aside);
		along = vec3_scale(along, 1.0 / vec3_length(along));
		struct vec3 step = vec3_scale(along, seed_between(rng, least_mm, most_mm));
		path.point[i + 1] = vec3_add(path.point[i], step);
		path.feed[i] = seed_between(rng, 300.0, 6000.0);
	}
	return path;
}

static void list_path(struct motion_list *list, const struct path *path)
{
	moves_rapid(list, path->point[0].x, path->point[0].y, path->point[0].z);
	for (size_t i = 0; i < path->count; i++)
		moves_cut(list, path->point[i + 1].x, path->point[i + 1].y, path->point[i + 1].z,
			  path->feed[i]);
}

static double path_s(const struct path *path, const struct machine *machine)
{
	struct motion_list list = { 0 };

	list_path(&list, path);
	double seconds = moves_seconds(&list, machine);
	motion_list_free(&list);
	return seconds;
}

static double axis_share(struct vec3 direction, int axis)
{
	return fabs(axis == AXIS_X ? direction.x : axis == AXIS_Y ? direction.y : direction.z);
}

static double weakest(const double limit[AXIS_COUNT], struct vec3 direction)
{
	double most = INFINITY;

	for (int axis = 0; axis < AXIS_COUNT; axis++)
		if (axis_share(direction, axis) > 0.0)
			most = fmin(most, limit[axis] / axis_share(direction, axis));
	return most;
}

static struct vec3 direction_of(const struct path *path, size_t move)
{
	struct vec3 step = vec3_sub(path->point[move + 1], path->point[move]);

	return vec3_scale(step, 1.0 / vec3_length(step));
}

static double move_speed(const struct path *path, const struct machine *machine, size_t move)
{
	return fmin(path->feed[move],
		    weakest(machine->feed_limit_mm_per_min, direction_of(path, move))) /
	       60.0;
}

/* Speed at the corner behind `move`: the direction of pull is swung round the
 * corner in small steps and the weakest axis of all of them taken. */
static double corner_speed(const struct path *path, const struct machine *machine, size_t move)
{
	struct vec3 in = direction_of(path, move), out = direction_of(path, move + 1);
	struct vec3 side = vec3_sub(out, vec3_scale(in, vec3_dot(in, out)));
	double turn = acos(vec3_dot(in, out)), a = INFINITY;

	side = vec3_scale(side, 1.0 / vec3_length(side));
	for (int i = 0; i <= 2000; i++) {
		double angle = turn * i / 2000.0;
		struct vec3 pull =
			vec3_sub(vec3_scale(side, cos(angle)), vec3_scale(in, sin(angle)));
		a = fmin(a, weakest(machine->acceleration_mm_per_s2, pull));
	}
	double speed = corner_speed_mm_per_s(turn, machine->corner_deviation_mm, a);
	return fmin(speed,
		    fmin(move_speed(path, machine, move), move_speed(path, machine, move + 1)));
}

struct envelope {
	double at_mm[POINTS_MAX + 1]; /* corners, along the path */
	double speed[POINTS_MAX + 1]; /* at corners */
	double limit[POINTS_MAX], a[POINTS_MAX]; /* of moves */
};

static struct envelope envelope_of(const struct path *path, const struct machine *machine)
{
	struct envelope envelope = { .at_mm = { 0.0 } };

	for (size_t i = 0; i < path->count; i++) {
		envelope.at_mm[i + 1] =
			envelope.at_mm[i] + vec3_distance(path->point[i], path->point[i + 1]);
		envelope.limit[i] = move_speed(path, machine, i);
		envelope.a[i] = weakest(machine->acceleration_mm_per_s2, direction_of(path, i));
		if (i + 1 < path->count)
			envelope.speed[i + 1] = corner_speed(path, machine, i);
	}
	return envelope;
}

/* Highest speed at s on move `move`: what can be reached from every corner
 * behind and braked to every corner ahead, tried one by one. */
static double speed_at(const struct envelope *envelope, size_t count, size_t move, double s)
{
	double most2 = envelope->limit[move] * envelope->limit[move];

	for (size_t corner = 0; corner <= count; corner++) {
		double from = fmin(s, envelope->at_mm[corner]);
		double to = fmax(s, envelope->at_mm[corner]);
		double gain2 = envelope->speed[corner] * envelope->speed[corner];
		for (size_t i = 0; i < count; i++) {
			double overlap =
				fmin(to, envelope->at_mm[i + 1]) - fmax(from, envelope->at_mm[i]);
			gain2 += 2.0 * envelope->a[i] * fmax(overlap, 0.0);
		}
		most2 = fmin(most2, gain2);
	}
	return sqrt(most2);
}

/* Time under the envelope in small steps, each of even acceleration; smallest
 * at the corners, where a slow move reaches its feed within micrometres. */
static double integrated_s(const struct path *path, const struct machine *machine)
{
	struct envelope envelope = envelope_of(path, machine);
	double seconds = 0.0;
	const int steps = 1000;

	for (size_t i = 0; i < path->count; i++) {
		double s = envelope.at_mm[i], length = envelope.at_mm[i + 1] - s;
		double before = speed_at(&envelope, path->count, i, s);
		for (int k = 1; k <= steps; k++) {
			double share = (double)k / steps;
			double next =
				envelope.at_mm[i] + length * share * share * (3.0 - 2.0 * share);
			double after = speed_at(&envelope, path->count, i, next);
			seconds += 2.0 * (next - s) / (before + after);
			before = after;
			s = next;
		}
	}
	return seconds;
}

/* Moves of 8 mm and more, so that every corner has room for its circle. */
static void agrees_with_envelope(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("agrees_with_envelope");

	for (int i = 0; i < LISTS / 8; i++) {
		struct machine machine = random_machine(rng);
		struct path path = random_path(rng, 8.0, 40.0);
		double expected = integrated_s(&path, &machine);
		assert_near(path_s(&path, &machine), expected, 1e-5 * expected,
			    "look-ahead gives the fastest run under the envelope");
	}
	gsl_rng_free(rng);
}

static void never_faster_than_feed(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("never_faster_than_feed");

	for (int i = 0; i < LISTS; i++) {
		struct machine machine = random_machine(rng);
		struct path path = random_path(rng, 0.001, 5.0);
		struct motion_list list = { 0 };
		double seconds[POINTS_MAX + 1];
		list_path(&list, &path);
		assert_int_equal(travel_times(seconds, &list, &machine, NULL), FAULT_NONE);
		for (size_t k = 0; k < path.count; k++) {
			double length = vec3_distance(path.point[k], path.point[k + 1]);
			assert_true(isfinite(seconds[k + 1]));
			assert_true(seconds[k + 1] >=
				    length / move_speed(&path, &machine, k) * (1.0 - 1e-12));
		}
		motion_list_free(&list);
	}
	gsl_rng_free(rng);
}

static void raised_limits_never_slow(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("raised_limits_never_slow");

	for (int i = 0; i < LISTS; i++) {
		struct machine machine = random_machine(rng);
		struct path path = random_path(rng, 0.01, 10.0);
		double before = path_s(&path, &machine);
		int axis = (int)seed_whole(rng, 0, AXIS_COUNT - 1);
		struct machine faster = machine;
		faster.feed_limit_mm_per_min[axis] *= seed_between(rng, 1.0, 2.0);
		assert_true(path_s(&path, &faster) <= before * (1.0 + 1e-12));
		faster.acceleration_mm_per_s2[axis] *= seed_between(rng, 1.0, 2.0);
		double both = path_s(&path, &faster);
		assert_true(both <= before * (1.0 + 1e-12));
		path.feed[seed_whole(rng, 0, path.count - 1)] *= 2.0;
		assert_true(path_s(&path, &faster) <= both * (1.0 + 1e-12));
	}
	gsl_rng_free(rng);
}

static void backward_takes_as_long(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("backward_takes_as_long");

	for (int i = 0; i < LISTS; i++) {
		struct machine machine = random_machine(rng);
		struct path path = random_path(rng, 0.01, 10.0), back = { .count = path.count };
		for (size_t k = 0; k <= path.count; k++)
			back.point[k] = path.point[path.count - k];
		for (size_t k = 0; k < path.count; k++)
			back.feed[k] = path.feed[path.count - 1 - k];
		double forward_s = path_s(&path, &machine);
		assert_near(path_s(&back, &machine), forward_s, 1e-9 * forward_s,
			    "the list read backward");
	}
	gsl_rng_free(rng);
}

/* Every move cut in up to 40 pieces; `grid_mm` > 0 rounds their ends. */
static double divided_s(const gsl_rng *rng, const struct path *path, const struct machine *machine,
			double grid_mm)
{
	struct motion_list list = { 0 };

	moves_rapid(&list, path->point[0].x, path->point[0].y, path->point[0].z);
	for (size_t i = 0; i < path->count; i++) {
		unsigned long pieces = seed_whole(rng, 1, 40);
		for (unsigned long k = 1; k <= pieces; k++) {
			struct vec3 end = vec3_between(path->point[i], path->point[i + 1],
						       (double)k / (double)pieces);
			if (grid_mm > 0.0)
				end = vec3_make(round(end.x / grid_mm) * grid_mm,
						round(end.y / grid_mm) * grid_mm,
						round(end.z / grid_mm) * grid_mm);
			moves_cut(&list, end.x, end.y, end.z, path->feed[i]);
		}
	}
	double seconds = moves_seconds(&list, machine);
	motion_list_free(&list);
	return seconds;
}

static void dividing_changes_nothing(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("dividing_changes_nothing");

	for (int i = 0; i < LISTS; i++) {
		struct machine machine = random_machine(rng);
		struct path path = random_path(rng, 0.5, 20.0);
		double whole_s = path_s(&path, &machine);
		assert_near(divided_s(rng, &path, &machine, 0.0), whole_s, 1e-3 * whole_s,
			    "straight moves in pieces");
	}
	gsl_rng_free(rng);
}

/* A long straight line whose pieces end on a program's decimals. */
static void rounding_does_not_brake(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("rounding_does_not_brake");
	struct machine machine = moves_machine(6000.0, 6000.0, 500.0, 0.02);

	for (int i = 0; i < LISTS; i++) {
		struct path path = { .count = 1, .feed = { 3000.0 } };
		path.point[1] = vec3_make(seed_between(rng, 20.0, 40.0),
					  seed_between(rng, -20.0, 20.0),
					  seed_between(rng, -5.0, 5.0));
		double whole_s = path_s(&path, &machine);
		assert_near(divided_s(rng, &path, &machine, 0.001), whole_s, 1e-3 * whole_s,
			    "pieces on a grid of 0.001 mm");
	}
	gsl_rng_free(rng);
}

static void standing_moves_change_nothing(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("standing_moves_change_nothing");

	for (int i = 0; i < LISTS; i++) {
		struct machine machine = random_machine(rng);
		struct path path = random_path(rng, 0.01, 10.0);
		struct motion_list list = { 0 };
		moves_rapid(&list, 0.0, 0.0, 0.0);
		for (size_t k = 0; k < path.count; k++)
			for (int twice = 0; twice < 2; twice++)
				moves_cut(&list, path.point[k + 1].x, path.point[k + 1].y,
					  path.point[k + 1].z, path.feed[k]);
		double plain_s = path_s(&path, &machine);
		assert_near(moves_seconds(&list, &machine), plain_s, 1e-12 * plain_s,
			    "every place given twice");
		motion_list_free(&list);
	}
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(agrees_with_envelope),
		cmocka_unit_test(never_faster_than_feed),
		cmocka_unit_test(raised_limits_never_slow),
		cmocka_unit_test(backward_takes_as_long),
		cmocka_unit_test(dividing_changes_nothing),
		cmocka_unit_test(rounding_does_not_brake),
		cmocka_unit_test(standing_moves_change_nothing),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
