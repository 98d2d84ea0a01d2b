/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random moves for machines of random abilities: what the writer makes of them
 * the reader understands, and it is what was meant. A reader for a machine that
 * lacks one of the abilities a text uses refuses it. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/tol.h"
#include "path/arc_fit.h"
#include "program/read.h"
#include "program/write.h"
#include "support/moves.h"
#include "support/near.h"
#include "support/seed.h"

#define CASES 400

static const struct cutter cutter = { .ramp_angle_rad = 0.14, .plunge_feed_mm_per_min = 300.0 };

static struct machine random_machine(const gsl_rng *rng)
{
	struct machine machine = { .program_unit = seed_whole(rng, 0, 1) ? UNIT_INCH : UNIT_MM };
	struct abilities *reads = &machine.reads;

	machine.decimals = (int)seed_whole(rng, machine.program_unit == UNIT_INCH ? 4 : 3, 5);
	for (int axis = 0; axis < AXIS_COUNT; axis++)
		machine.feed_limit_mm_per_min[axis] = 5000.0;
	reads->arcs = (enum arc_ability)seed_whole(rng, 0, 2);
	reads->number_step = seed_whole(rng, 0, 1) ? (int)seed_whole(rng, 1, 1000) : 0;
	reads->percent_lines = seed_whole(rng, 0, 1);
	reads->spindle = (enum spindle_switch)seed_whole(rng, 0, 1);
	reads->longest_line = (int)seed_whole(rng, 60, 253);
	reads->comments = (enum comment_style)seed_whole(rng, 0, 2);
	reads->feed_decimals_stated = seed_whole(rng, 0, 1);
	reads->feed_decimals = (int)seed_whole(rng, 0, 4);
	reads->largest_feed_mm_per_min = seed_whole(rng, 0, 1) ? 4000.0 : 0.0;
	return machine;
}

static double snapped(double value, double step)
{
	return floor(value / step + 0.5) * step;
}

/* A bend of many short cuts from `at`, in one of the planes. */
static void add_bend(struct motion_list *list, const gsl_rng *rng, struct vec3 *at, double step,
		     double feed)
{
	bool flat = seed_whole(rng, 0, 1);
	double r = exp(seed_between(rng, log(2.0), log(400.0))), w = seed_between(rng, -PI, PI);
	double turn = (seed_whole(rng, 0, 1) ? 2.0 : -2.0) * sqrt(2.0 * 0.002 / r);
	double a = at->x - r * cos(w), b = (flat ? at->y : at->z) - r * sin(w);

	for (unsigned long i = seed_whole(rng, 3, 60); i > 0 && fabs(turn) * (double)i < 100.0;
	     i--) {
		w += turn;
		at->x = snapped(a + r * cos(w), step);
		*(flat ? &at->y : &at->z) = snapped(b + r * sin(w), step);
		moves_add(list, (struct motion){ .kind = MOTION_CUT,
						 .to = *at,
						 .known = KNOWN_ALL,
						 .feed_mm_per_min = feed });
	}
}

static struct motion_list random_moves(const gsl_rng *rng, double step)
{
	struct motion_list list = { 0 };
	struct vec3 at = { 0.0, 0.0, snapped(40.0, step) };

	moves_add(&list, (struct motion){ .kind = MOTION_SPINDLE_ON,
					  .spindle_rpm = (double)seed_whole(rng, 1, 30000) });
	moves_add(&list, (struct motion){ .kind = MOTION_RAPID, .to = at, .known = KNOWN_Z });
	for (int i = 0; i < 12; i++) {
		double feed = seed_between(rng, 120.0, 3900.0);
		at.x = snapped(seed_between(rng, -90.0, 90.0), step);
		at.y = snapped(seed_between(rng, -90.0, 90.0), step);
		moves_add(&list, (struct motion){ .kind = MOTION_PASS, .pass = i });
		moves_add(&list, (struct motion){ .kind = seed_whole(rng, 0, 1) ? MOTION_RAPID
										: MOTION_CUT,
						  .to = at,
						  .known = KNOWN_ALL,
						  .feed_mm_per_min = feed });
		add_bend(&list, rng, &at, step, feed);
	}
	moves_add(&list, (struct motion){ .kind = MOTION_SPINDLE_OFF });
	moves_add(&list, (struct motion){ .kind = MOTION_END });
	return list;
}

/* What the reader should make of an item that is no move. */
static enum motion_kind read_kind(const struct motion *motion, const struct machine *machine)
{
	bool spindle = motion->kind == MOTION_SPINDLE_ON || motion->kind == MOTION_SPINDLE_OFF;

	return spindle && machine->reads.spindle == SPINDLE_BY_HAND ? MOTION_STOP : motion->kind;
}

static double off_way(struct vec3 a, struct vec3 b, struct vec3 p)
{
	struct vec3 d = vec3_sub(b, a);
	double square = vec3_dot(d, d), t = 0.0;

	if (square > 0.0)
		t = fmin(fmax(vec3_dot(vec3_sub(p, a), d) / square, 0.0), 1.0);
	return vec3_distance(p, vec3_add(a, vec3_scale(d, t)));
}

static bool same_place(struct vec3 a, struct vec3 b)
{
	return vec3_distance(a, b) < 1e-6;
}

/* The pieces of one arc, which stand in one block, against the moves it stands
 * for. */
static void check_arc(const struct motion_list *planned, size_t first,
		      const struct motion_list *read, size_t *at)
{
	size_t moves = planned->item[first].arc.moves;
	int block = read->item[*at].block;

	for (; *at < read->count && read->item[*at].block == block; ++*at) {
		const struct motion *piece = &read->item[*at];
		double least = INFINITY;
		assert_int_equal(piece->kind, MOTION_CUT);
		assert_between(piece->stray_mm, 1e-9,
			       TOL_ARC_PIECE_MM + TOL_ARC_RADII_MM * 1.01 + 1e-9, "stray, mm");
		for (size_t i = first; i < first + moves; i++)
			least = fmin(least, off_way(planned->item[i - 1].to, planned->item[i].to,
						    piece->to));
		assert_between(least, 0.0, TOL_ARC_MM + 1e-6, "piece's end from the cuts, mm");
	}
	assert_true(same_place(read->item[*at - 1].to, planned->item[first + moves - 1].to));
}

/* Counts the moves that came back as arcs. */
static size_t check_same(const struct motion_list *planned, const struct motion_list *read,
			 const struct machine *machine)
{
	struct vec3 last = { 0 };
	unsigned known = 0;
	size_t at = 0, held = 0;

	for (size_t i = 0; i < planned->count; i++) {
		const struct motion *a = &planned->item[i], *b = &read->item[at];
		if (a->kind == MOTION_PASS ||
		    (motion_moves(a) && known == a->known && same_place(a->to, last)))
			continue;
		assert_true(at < read->count);
		assert_int_equal(b->kind, read_kind(a, machine));
		if (a->arc.moves > 0 && b->stray_mm > 0.0) {
			check_arc(planned, i, read, &at);
			i += a->arc.moves - 1;
			held += a->arc.moves;
			last = planned->item[i].to;
			continue;
		}
		at++;
		if (!motion_moves(a))
			continue;
		assert_int_equal(b->known, a->known);
		assert_true(a->known != KNOWN_ALL || same_place(a->to, b->to));
		assert_near(b->stray_mm, 0.0, 0.0, "a straight cut does not stray, mm");
		last = a->to;
		known = a->known;
		double feed_step = units_mm_per(machine->program_unit) *
				   pow(10.0, -machine_feed_decimals(machine));
		if (a->kind == MOTION_CUT)
			assert_between(b->feed_mm_per_min, a->feed_mm_per_min - feed_step,
				       a->feed_mm_per_min * (1.0 + 1e-9), "feed, mm/min");
	}
	assert_int_equal(at, read->count);
	return held;
}

/* Takes one ability away that the text makes use of; false when there is none
 * of this number. */
static bool spoil(struct machine *machine, unsigned long which, const char *text)
{
	struct abilities *reads = &machine->reads;

	switch (which) {
	case 0:
		reads->arcs = ARCS_NONE;
		return strstr(text, " I") != NULL;
	case 1:
		reads->arcs = ARCS_XY;
		return strstr(text, "G18") != NULL;
	case 2:
		reads->number_step = reads->number_step > 0 ? 0 : -1;
		return reads->number_step == 0;
	case 3:
		reads->percent_lines = !reads->percent_lines;
		return true;
	case 4:
		reads->spindle = reads->spindle == SPINDLE_BY_HAND ? SPINDLE_BY_PROGRAM
								   : SPINDLE_BY_HAND;
		return true;
	case 5:
		reads->longest_line = 20;
		return true;
	case 6:
		reads->comments = COMMENTS_NONE;
		return strpbrk(text, "(;") != NULL;
	case 7:
		reads->comments = reads->comments == COMMENTS_SEMICOLON ? COMMENTS_PARENTHESES
									: COMMENTS_SEMICOLON;
		return strpbrk(text, "(;") != NULL;
	case 8:
		reads->largest_feed_mm_per_min = 100.0;
		return true;
	case 9:
		machine->decimals--;
		return true;
	default:
		reads->feed_decimals = machine_feed_decimals(machine) - 1;
		reads->feed_decimals_stated = true;
		return reads->feed_decimals >= 0;
	}
}

static void check_spoiled(const struct program_text *text, const struct machine *machine,
			  size_t refused[11])
{
	for (unsigned long which = 0; which < 11; which++) {
		struct machine lesser = *machine;
		struct motion_list list = { 0 };
		struct read_fault first;
		if (!spoil(&lesser, which, text->bytes))
			continue;
		if (program_read(&list, text->bytes, text->size, NULL, &lesser, &first, NULL) !=
		    FAULT_PROGRAM)
			fail_msg("spoiling %lu is not refused:\n%s", which, text->bytes);
		assert_true(first.block > 0 && first.why[0] != '\0');
		refused[which]++;
	}
}

static void what_is_written_is_read(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("what_is_written_is_read");
	const char *const line[] = { "a head", "of two lines" };
	const char *label[12];
	size_t refused[11] = { 0 }, held = 0;

	for (int i = 0; i < 12; i++)
		label[i] = "a pass";
	for (int i = 0; i < CASES; i++) {
		const struct machine machine = random_machine(rng);
		const struct program_head head = { 2, line, 12, label, NULL };
		struct motion_list planned = random_moves(rng, machine_resolution_mm(&machine));
		struct motion_list read = { 0 };
		struct program_text text = { 0 };
		struct read_fault first;

		(void)arc_fit(&planned, &machine, &cutter);
		assert_int_equal(program_write(&text, &planned, &head, &machine, NULL), FAULT_NONE);
		if (program_read(&read, text.bytes, text.size, NULL, &machine, &first, NULL))
			fail_msg("line %d: %s\n%s", first.block, first.why, text.bytes);
		held += check_same(&planned, &read, &machine);
		if (i < 40)
			check_spoiled(&text, &machine, refused);
		program_text_free(&text);
		motion_list_free(&read);
		motion_list_free(&planned);
	}
	print_message("%zu moves came back as arcs\n", held);
	assert_true(held > (size_t)CASES * 20);
	for (int which = 0; which < 11; which++)
		assert_true(refused[which] > 2);
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_is_written_is_read),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
