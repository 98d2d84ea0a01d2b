/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Moves to text: whole programs compared, and random moves read back. */
#include <locale.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "program/read.h"
#include "program/write.h"
#include "support/moves.h"
#include "support/near.h"
#include "support/seed.h"

#define LINE_MOST 80

static const struct machine metric = { .program_unit = UNIT_MM, .decimals = 3 };
static const struct machine imperial = { .program_unit = UNIT_INCH, .decimals = 4 };

static void move(struct motion_list *list, enum motion_kind kind, double x, double y, double z,
		 unsigned known)
{
	moves_add(list, (struct motion){ .kind = kind,
					 .to = { x, y, z },
					 .known = known,
					 .feed_mm_per_min = kind == MOTION_CUT ? 1800.0 : 0.0 });
}

/* A program with every kind of item, moves of no length among them. */
static struct motion_list small_program(void)
{
	struct motion_list list = { 0 };

	moves_add(&list, (struct motion){ .kind = MOTION_SPINDLE_ON, .spindle_rpm = 18000.0 });
	moves_add(&list, (struct motion){ .kind = MOTION_DWELL, .dwell_s = 3.0 });
	move(&list, MOTION_RAPID, 0.0, 0.0, 50.8, KNOWN_Z);
	moves_add(&list, (struct motion){ .kind = MOTION_PASS, .pass = 0 });
	move(&list, MOTION_RAPID, -12.7, 25.4, 50.8, KNOWN_ALL);
	move(&list, MOTION_CUT, -12.7, 25.4, 50.8, KNOWN_ALL); /* no way to go */
	move(&list, MOTION_CUT, -12.7, 25.4, -0.0001, KNOWN_ALL);
	move(&list, MOTION_CUT, 127.0, 25.4, 0.0001, KNOWN_ALL);
	moves_add(&list, (struct motion){ .kind = MOTION_PASS, .pass = 1 });
	moves_add(&list, (struct motion){ .kind = MOTION_CUT,
					  .to = { 127.0, 0.0, 2.54 },
					  .known = KNOWN_ALL,
					  .feed_mm_per_min = 2400.04 });
	move(&list, MOTION_RAPID, 127.0, 0.0, 50.8, KNOWN_ALL);
	moves_add(&list, (struct motion){ .kind = MOTION_SPINDLE_OFF });
	moves_add(&list, (struct motion){ .kind = MOTION_DWELL, .dwell_s = 2.5 });
	moves_add(&list, (struct motion){ .kind = MOTION_END });
	return list;
}

static void expect_text(const struct motion_list *list, const struct program_head *head,
			const struct machine *machine, const char *expected)
{
	struct program_text text = { 0 };

	assert_int_equal(program_write(&text, list, head, machine, NULL), FAULT_NONE);
	assert_string_equal(text.bytes, expected);
	assert_int_equal(text.size, strlen(expected));
	program_text_free(&text);
}

#define STATE "G17\nG90\nG94\nG40\nG49\nG54\n"

static void whole_program_mm(void **state)
{
	(void)state;
	const char *const line[] = { "Neck: plain, 24.75 in scale", "", "Zero: nut (centre line)" };
	const char *const label[] = { "level 1 of 6", "surface lines" };
	int block[] = { 0, 0 };
	const struct program_head head = { 3, line, 2, label, block };
	struct motion_list list = small_program();

	expect_text(&list, &head, &metric,
		    "(- Neck: plain, 24.75 in scale)\n"
		    "(- Zero: nut centre line)\n"
		    "G21\n" STATE "S18000 M3\n"
		    "G4 P3\n"
		    "G0 Z50.800\n"
		    "(- level 1 of 6)\n"
		    "G0 X-12.700 Y25.400\n"
		    "G1 Z0.000 F1800.0\n"
		    "G1 X127.000\n"
		    "(- surface lines)\n"
		    "G1 Y0.000 Z2.540 F2400.0\n"
		    "G0 Z50.800\n"
		    "M5\n"
		    "G4 P2.5\n"
		    "M2\n");
	assert_int_equal(block[0], 13);
	assert_int_equal(block[1], 17);
	motion_list_free(&list);
}

static void whole_program_inch(void **state)
{
	(void)state;
	struct motion_list list = small_program();

	expect_text(&list, NULL, &imperial,
		    "G20\n" STATE "S18000 M3\n"
		    "G4 P3\n"
		    "G0 Z2.0000\n"
		    "G0 X-0.5000 Y1.0000\n"
		    "G1 Z0.0000 F70.866\n"
		    "G1 X5.0000\n"
		    "G1 Y0.0000 Z0.1000 F94.489\n"
		    "G0 Z2.0000\n"
		    "M5\n"
		    "G4 P2.5\n"
		    "M2\n");
	motion_list_free(&list);
}

/* An axis never known is never written, whatever stands in its place. */
static void only_known_axes(void **state)
{
	(void)state;
	struct motion_list list = { 0 };

	move(&list, MOTION_RAPID, NAN, NAN, 10.0, KNOWN_Z);
	move(&list, MOTION_CUT, 0.0, INFINITY, 10.0, KNOWN_X | KNOWN_Z);
	move(&list, MOTION_CUT, 0.0, 0.0, 10.0, KNOWN_ALL);
	move(&list, MOTION_CUT, 0.0, 0.0, 10.0, KNOWN_ALL);
	moves_add(&list, (struct motion){ .kind = MOTION_PASS, .pass = 4 });
	moves_add(&list, (struct motion){ .kind = MOTION_END });
	expect_text(&list, NULL, &metric,
		    "G21\n" STATE "G0 Z10.000\nG1 X0.000 F1800.0\nG1 Y0.000\nM2\n");
	motion_list_free(&list);
}

/* The longest block there can be still fits a line. */
static void longest_block(void **state)
{
	(void)state;
	const struct machine fine = { .program_unit = UNIT_INCH, .decimals = 6 };
	struct motion_list list = { 0 };
	struct program_text text = { 0 };

	moves_add(&list, (struct motion){ .kind = MOTION_CUT,
					  .to = { -25.4e6, -25.4e6, -25.4e6 },
					  .known = KNOWN_ALL,
					  .feed_mm_per_min = 1e6 });
	moves_add(&list, (struct motion){ .kind = MOTION_END });
	assert_int_equal(program_write(&text, &list, NULL, &fine, NULL), FAULT_NONE);
	assert_non_null(strstr(text.bytes, "\nG1 X-1000000.000000 Y-1000000.000000 "
					   "Z-1000000.000000 F39370.078\nM2\n"));
	program_text_free(&text);
	motion_list_free(&list);
}

static void expect_refusal(struct motion motion, const struct machine *machine, const char *word)
{
	struct motion_list list = { 0 };
	struct program_text text = { 0 };
	struct fault_list faults = { 0 };

	moves_add(&list, motion);
	moves_add(&list, (struct motion){ .kind = MOTION_END });
	assert_int_equal(program_write(&text, &list, NULL, machine, &faults), FAULT_INTERNAL);
	assert_int_equal(faults.count, 1);
	assert_non_null(strstr(faults.record[0].message, word));
	assert_null(text.bytes);
	assert_int_equal(text.size, 0);
	motion_list_free(&list);
}

static void refuses_what_cannot_be_stated(void **state)
{
	(void)state;
	const double bad_place[] = { NAN, INFINITY, -INFINITY, 1.01e6 };
	const double bad_feed[] = { NAN, INFINITY, 0.0, -5.0, 0.01, 1.01e6 };
	const double bad_speed[] = { NAN, INFINITY, 0.0, 0.4, -1.0, 1.01e6 };
	const double bad_time[] = { NAN, INFINITY, -0.001, 1.01e6 };
	struct motion cut = { .kind = MOTION_CUT, .known = KNOWN_ALL, .feed_mm_per_min = 1.0 };

	for (size_t i = 0; i < sizeof bad_place / sizeof *bad_place; i++) {
		cut.to.y = bad_place[i];
		expect_refusal(cut, &metric, "place");
	}
	cut.to.y = 0.0;
	for (size_t i = 0; i < sizeof bad_feed / sizeof *bad_feed; i++) {
		cut.feed_mm_per_min = bad_feed[i];
		expect_refusal(cut, &metric, "feed");
	}
	for (size_t i = 0; i < sizeof bad_speed / sizeof *bad_speed; i++)
		expect_refusal((struct motion){ .kind = MOTION_SPINDLE_ON,
						.spindle_rpm = bad_speed[i] },
			       &metric, "speed");
	for (size_t i = 0; i < sizeof bad_time / sizeof *bad_time; i++)
		expect_refusal((struct motion){ .kind = MOTION_DWELL, .dwell_s = bad_time[i] },
			       &metric, "time");
	expect_refusal((struct motion){ .kind = MOTION_RAPID }, &metric, "known");
	expect_refusal((struct motion){ .kind = MOTION_END }, &metric, "ended");
	expect_refusal((struct motion){ .kind = MOTION_SPINDLE_OFF },
		       &(struct machine){ .decimals = 7 }, "decimals");
	expect_refusal((struct motion){ .kind = MOTION_SPINDLE_OFF },
		       &(struct machine){ .decimals = -1 }, "decimals");
}

static void refuses_a_missing_end(void **state)
{
	(void)state;
	struct motion_list list = { 0 };
	struct program_text text = { 0 };
	struct fault_list faults = { 0 };

	assert_int_equal(program_write(&text, &list, NULL, &metric, &faults), FAULT_INTERNAL);
	assert_non_null(strstr(faults.record[0].message, "no end"));
	assert_null(text.bytes);
}

/* Whatever the head holds, the program begins within a screen or three. */
static void head_is_capped(void **state)
{
	(void)state;
	const char *line[1000];
	const struct program_head head = { 1000, line, 0, NULL, NULL };
	struct motion_list list = { 0 };
	struct program_text text = { 0 };
	int comments = 0;

	for (size_t i = 0; i < 1000; i++)
		line[i] = "remark";
	moves_add(&list, (struct motion){ .kind = MOTION_END });
	assert_int_equal(program_write(&text, &list, &head, &metric, NULL), FAULT_NONE);
	for (const char *at = text.bytes; *at == '('; at = strchr(at, '\n') + 1)
		comments++;
	assert_between(comments, 100.0, 120.0, "comment lines of a long head");
	assert_non_null(strstr(text.bytes, "(- further remarks are left out)\nG21\n"));
	program_text_free(&text);
	motion_list_free(&list);
}

/* Short steps at random, so that some round to none. */
static struct motion_list random_moves(const gsl_rng *rng, double resolution_mm)
{
	struct motion_list list = { 0 };
	struct vec3 at = { 0.0, 0.0, seed_between(rng, 20.0, 60.0) };
	double feed = seed_between(rng, 100.0, 6000.0);

	moves_add(&list, (struct motion){ .kind = MOTION_SPINDLE_ON,
					  .spindle_rpm = (double)seed_whole(rng, 1, 30000) });
	moves_add(&list, (struct motion){ .kind = MOTION_RAPID, .to = at, .known = KNOWN_Z });
	for (int i = 0; i < 300; i++) {
		const double step = seed_whole(rng, 0, 2) ? 40.0 : 2.0 * resolution_mm;
		at.x += seed_between(rng, -step, step);
		at.y += seed_whole(rng, 0, 1) ? seed_between(rng, -step, step) : 0.0;
		at.z += seed_whole(rng, 0, 1) ? seed_between(rng, -step, step) : 0.0;
		if (!seed_whole(rng, 0, 9))
			feed = seed_between(rng, 100.0, 6000.0);
		moves_add(&list, (struct motion){ .kind = seed_whole(rng, 0, 3) ? MOTION_CUT
										: MOTION_RAPID,
						  .to = at,
						  .known = KNOWN_ALL,
						  .feed_mm_per_min = feed });
	}
	moves_add(&list, (struct motion){ .kind = MOTION_SPINDLE_OFF });
	moves_add(&list, (struct motion){ .kind = MOTION_END });
	return list;
}

static bool same_place(struct vec3 a, struct vec3 b, double step)
{
	return lround(a.x / step) == lround(b.x / step) &&
	       lround(a.y / step) == lround(b.y / step) && lround(a.z / step) == lround(b.z / step);
}

/* Each item planned is read back, but for moves that round to no move. */
static void assert_same_moves(const struct motion_list *planned, const struct motion_list *read,
			      double step, double feed_step)
{
	struct vec3 last = { NAN, NAN, NAN };
	unsigned known = 0;
	size_t at = 0;

	for (size_t i = 0; i < planned->count; i++) {
		const struct motion *a = &planned->item[i];
		if (motion_moves(a) && known == a->known && same_place(a->to, last, step))
			continue;
		assert_true(at < read->count);
		const struct motion *b = &read->item[at++];
		assert_int_equal(b->kind, a->kind);
		assert_int_equal(b->known, a->known);
		assert_near(b->spindle_rpm, a->spindle_rpm, 0.0, "spindle speed, rpm");
		if (!motion_moves(a))
			continue;
		last = a->to;
		known = a->known;
		if (known == KNOWN_ALL) {
			assert_near(b->to.x, a->to.x, step * 0.5000001, "x, mm");
			assert_near(b->to.y, a->to.y, step * 0.5000001, "y, mm");
		}
		assert_near(b->to.z, a->to.z, step * 0.5000001, "z, mm");
		if (a->kind == MOTION_CUT)
			assert_between(b->feed_mm_per_min, a->feed_mm_per_min - feed_step,
				       a->feed_mm_per_min + 1e-5 * feed_step, "feed, mm/min");
	}
	assert_int_equal(at, read->count);
}

static void assert_lines_fit(const struct program_text *text)
{
	for (const char *line = text->bytes; *line; line += strcspn(line, "\n") + 1)
		assert_true(strcspn(line, "\n") <= LINE_MOST);
	assert_null(strstr(text->bytes, "-0.000 "));
	assert_null(strstr(text->bytes, "-0.000\n"));
}

static void random_moves_come_back(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("random_moves_come_back");

	for (int i = 0; i < 200; i++) {
		const struct machine machine = { .program_unit = i % 2 ? UNIT_INCH : UNIT_MM,
						 .decimals = (int)seed_whole(rng, 2, 5) };
		const double step = machine_resolution_mm(&machine);
		const double feed_step = i % 2 ? 0.0254 : 0.1;
		struct motion_list planned = random_moves(rng, step), read = { 0 };
		struct program_text text = { 0 }, again = { 0 };
		struct read_fault first;

		assert_int_equal(program_write(&text, &planned, NULL, &machine, NULL), FAULT_NONE);
		if (program_read(&read, text.bytes, text.size, "random", &machine, &first, NULL))
			fail_msg("block %d: %s", first.block, first.why);
		assert_lines_fit(&text);
		assert_same_moves(&planned, &read, step, feed_step);
		/* what was read writes the same bytes again */
		assert_int_equal(program_write(&again, &read, NULL, &machine, NULL), FAULT_NONE);
		assert_string_equal(again.bytes, text.bytes);
		program_text_free(&again);
		program_text_free(&text);
		motion_list_free(&read);
		motion_list_free(&planned);
	}
	gsl_rng_free(rng);
}

/* True when a locale that writes 1,5 for one and a half is now set. */
static bool set_comma_locale(void)
{
	static const char *const names[] = { "de_DE.UTF-8", "de_DE.utf8",  "fr_FR.UTF-8",
					     "fr_FR.utf8",  "nl_NL.UTF-8", "es_ES.UTF-8",
					     "it_IT.UTF-8", "pl_PL.UTF-8", "de_DE",
					     "fr_FR" };

	for (size_t i = 0; i < sizeof names / sizeof *names; i++)
		if (setlocale(LC_ALL, names[i]) && strcmp(localeconv()->decimal_point, ",") == 0)
			return true;
	(void)setlocale(LC_ALL, "C");
	return false;
}

static void same_bytes_in_a_comma_locale(void **state)
{
	(void)state;
	const char *const line[] = { "Z\xfcrich \xc3\xa9 1.5 (a) MSG," };
	const struct program_head head = { 1, line, 0, NULL, NULL };
	struct motion_list list = small_program(), read = { 0 };
	struct program_text plain = { 0 }, comma = { 0 };

	assert_int_equal(program_write(&plain, &list, &head, &metric, NULL), FAULT_NONE);
	if (!set_comma_locale()) {
		program_text_free(&plain);
		motion_list_free(&list);
		skip();
	}
	assert_int_equal(program_write(&comma, &list, &head, &metric, NULL), FAULT_NONE);
	const enum fault fault =
		program_read(&read, comma.bytes, comma.size, "comma", &metric, NULL, NULL);
	(void)setlocale(LC_ALL, "C");
	assert_int_equal(fault, FAULT_NONE);
	assert_string_equal(comma.bytes, plain.bytes);
	assert_near(read.item[2].to.z, 50.8, 1e-12, "z read in a comma locale, mm");
	motion_list_free(&read);
	program_text_free(&comma);
	program_text_free(&plain);
	motion_list_free(&list);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(whole_program_mm),
		cmocka_unit_test(whole_program_inch),
		cmocka_unit_test(only_known_axes),
		cmocka_unit_test(longest_block),
		cmocka_unit_test(refuses_what_cannot_be_stated),
		cmocka_unit_test(refuses_a_missing_end),
		cmocka_unit_test(head_is_capped),
		cmocka_unit_test(random_moves_come_back),
		cmocka_unit_test(same_bytes_in_a_comma_locale),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
