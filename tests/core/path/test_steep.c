/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Moves up beside tall wood: the proof looks at holder and shank as they are at a
 * move's lower end, all along it, so a long steep move must come in pieces. */
#include "path/steep.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "path/emit.h"
#include "support/near.h"
#include "support/sample_bed.h"

/* The board is 12.5 mm high up to x = 38 and 50 mm from there on. */
#define STEP_X_MM 38.0
#define HIGH_MM 50.0
/* Over the tip a disc of 20 mm begins. At (20, 13) its rim is at x = 30 and well
 * clear; at (29, 33) at x = 39, but 5 mm over the high wood. */
#define DISC_RADIUS_MM 10.0
#define DISC_ABOVE_MM 22.0

/* The disc is the holder's, or that of a shank wider than the ball. */
static struct job stepped_job(bool shank)
{
	struct job job = sample_board_job();

	job.blank.top = (struct outline){ 4,
					  { 0, STEP_X_MM, STEP_X_MM, 60 },
					  { 12.5, 12.5, HIGH_MM, HIGH_MM } };
	job.cutter[0].flute_length_mm = DISC_ABOVE_MM;
	job.cutter[0].stickout_mm = shank ? 70.0 : DISC_ABOVE_MM;
	job.cutter[0].holder_diameter_mm = 2.0 * DISC_RADIUS_MM;
	if (shank)
		job.cutter[0].shank_diameter_mm = 2.0 * DISC_RADIUS_MM;
	return job;
}

/* The moves for a run straight from one place to another, just over the board. */
static void emit_line(struct motion_list *out, const struct job *job, struct vec3 from,
		      struct vec3 to)
{
	struct sample_bed bed;
	struct runs runs = { 0 };

	sample_bed_make(&bed, job);
	struct emit emit = {
		.bench = &bed.bench, .out = out, .feed_mm_per_min = 1000.0, .always = true
	};
	struct track *run = runs_add(&runs);
	assert_non_null(run);
	assert_int_equal(track_add(run, from, NULL), FAULT_NONE);
	assert_int_equal(track_add(run, to, NULL), FAULT_NONE);
	assert_int_equal(emit_start(&emit, NULL), FAULT_NONE);
	assert_int_equal(emit_pass(&emit, 0, NULL), FAULT_NONE);
	assert_int_equal(emit_runs(&emit, &runs, CUT_LENGTHWISE, EMIT_NEAREST, NULL), FAULT_NONE);
	runs_free(&runs);
	sample_bed_free(&bed);
}

/* Whether the disc at the move's lower end reaches the high wood anywhere on its
 * way and is not above it. */
static bool touches(struct vec3 from, struct vec3 to)
{
	return fmax(from.x, to.x) + DISC_RADIUS_MM >= STEP_X_MM &&
	       fmin(from.z, to.z) + DISC_ABOVE_MM <= HIGH_MM;
}

/* Index of the move that ends at the place. */
static size_t first_at(const struct motion_list *moves, struct vec3 place)
{
	for (size_t i = 0; i < moves->count; i++)
		if (motion_moves(&moves->item[i]) && vec3_distance(moves->item[i].to, place) < 1e-9)
			return i;
	fail_msg("no move to (%g, %g, %g)", place.x, place.y, place.z);
	return 0;
}

static double off_line_mm(struct vec3 p, struct vec3 from, struct vec3 to)
{
	struct vec3 along = vec3_scale(vec3_sub(to, from), 1.0 / vec3_distance(from, to));

	return vec3_length(vec3_cross(vec3_sub(p, from), along));
}

/* Long and steep, then in halves, then level; and where the disc's rim stays clear
 * of the high wood. */
static void what_may_meet_wood_is_seen(void **state)
{
	(void)state;
	const struct vec3 low = { 20, 0, 13 }, half = { 24.5, 0, 23 }, high = { 29, 0, 33 };

	for (int shank = 0; shank < 2; shank++) {
		struct job job = stepped_job(shank);
		struct sample_bed bed;
		sample_bed_make(&bed, &job);
		assert_true(steep_meets_wood(&bed.bench, low, high));
		assert_true(steep_meets_wood(&bed.bench, high, low));
		assert_false(steep_meets_wood(&bed.bench, low, half));
		assert_true(steep_meets_wood(&bed.bench, half, high));
		assert_false(steep_meets_wood(&bed.bench, vec3_make(28, 0, 31), high));
		assert_false(steep_meets_wood(&bed.bench, low, vec3_make(29, 0, 13.02)));
		assert_false(steep_meets_wood(&bed.bench, low, vec3_make(27, 0, 33)));
		sample_bed_free(&bed);
	}
}

static void steep_moves_beside_tall_wood_come_in_pieces(void **state)
{
	(void)state;
	const struct vec3 from = { 20, 0, 13 }, to = { 29, 0, 33 };

	assert_true(touches(from, to)); /* in one piece */
	for (int shank = 0; shank < 2; shank++) {
		struct job job = stepped_job(shank);
		struct motion_list moves = { 0 };
		emit_line(&moves, &job, from, to);
		size_t first = first_at(&moves, to);
		assert_between((double)(moves.count - first), 3.0, 32.0, "pieces");
		for (size_t i = first + 1; i < moves.count; i++) {
			const struct motion *move = &moves.item[i];
			assert_int_equal(move->kind, MOTION_CUT);
			assert_false(touches(moves.item[i - 1].to, move->to));
			assert_between(off_line_mm(move->to, from, to), 0.0, 0.002,
				       "off the line, mm");
		}
		assert_near(vec3_distance(moves.item[moves.count - 1].to, from), 0.0, 1e-9,
			    "ends where the run does, mm");
		motion_list_free(&moves);
	}
}

/* Where dividing does not help it ends all the same: what cannot be cut is the
 * proof's to refuse. */
static void level_moves_are_not_divided(void **state)
{
	(void)state;
	const struct vec3 from = { 20, 0, 13 }, to = { 29, 0, 13.02 };
	struct job job = stepped_job(false);
	struct motion_list moves = { 0 };

	assert_true(touches(from, to));
	emit_line(&moves, &job, from, to);
	assert_int_equal(moves.count - first_at(&moves, to), 2);
	motion_list_free(&moves);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_may_meet_wood_is_seen),
		cmocka_unit_test(steep_moves_beside_tall_wood_come_in_pieces),
		cmocka_unit_test(level_moves_are_not_divided),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
