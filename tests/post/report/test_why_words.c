/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences that say why passes are as they are. */
#include "report/why_words.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "model/stretch.h"

static void assert_words(const struct pass_figures *pass, const char *expected)
{
	char words[WHY_ROOM];

	why_words(words, pass);
	assert_string_equal(words, expected);
}

static struct pass_figures level_pass(void)
{
	return (struct pass_figures){ .kind = PASS_LEVEL,
				      .why = { .stepover_mm = 5.0,
					       .step_cap = STEP_BY_CUTTER,
					       .level_cap = LEVEL_BY_DEPTH,
					       .drop_mm = 4.037,
					       .lengthwise = true,
					       .ways = 1U << CUT_BOTH_WAYS } };
}

static void a_sentence_for_each_kind(void **state)
{
	(void)state;
	struct pass_figures pass = level_pass();

	assert_words(&pass, "Level lines, lengthwise both ways, outside in so that the waste stays "
			    "held; 5 mm apart, the cutter's stepover limit; 4.04 mm deep, what the "
			    "cutter's depth limit leaves beside ridges.");
	pass.kind = PASS_CONTOUR;
	pass.why = (struct pass_why){ .stepover_mm = 1.86,
				      .step_cap = STEP_BY_SCALLOP,
				      .scallop_limit_mm = 0.08,
				      .lengthwise = true,
				      .ways = 1U << CUT_CLIMB,
				      .downhill = 1U << STRETCH_NOSE };
	assert_words(&pass, "Contour lines on sides steeper than 45 degrees, climb, from wide to "
			    "narrow at nose where fibres run out; 1.86 mm apart keep ridges under "
			    "0.08 mm.");
	pass.kind = PASS_SURFACE;
	pass.why.crosswise = pass.why.leftovers = true;
	pass.why.ways = 7;
	pass.why.downhill = 1U << STRETCH_PEGHEAD | 1U << STRETCH_NOSE | 1U << STRETCH_HEEL;
	assert_words(&pass,
		     "Surface lines, lengthwise and crosswise both ways, climb and "
		     "conventional, downhill at peghead, nose and heel where fibres run out; "
		     "1.86 mm apart keep ridges under 0.08 mm; only where the cutter before "
		     "left more than ridges.");
}

static void every_cap_is_told(void **state)
{
	(void)state;
	static const struct {
		enum step_cap step;
		enum level_cap level;
		const char *words;
	} cases[] = {
		{ STEP_BY_BALL, LEVEL_BY_SKIN,
		  "5 mm apart, as far as this ball leaves no tall ridges; no deeper, so that no "
		  "thin skin is left to the next." },
		{ STEP_BY_DEPTH, LEVEL_BY_FLOOR,
		  "5 mm apart, so that ridges and a bite keep the depth limit; down to the lowest "
		  "the ball may or need go." },
	};
	char words[WHY_ROOM];

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct pass_figures pass = level_pass();
		pass.why.step_cap = cases[i].step;
		pass.why.level_cap = cases[i].level;
		why_words(words, &pass);
		assert_non_null(strstr(words, cases[i].words));
	}
	struct pass_figures crosswise = level_pass();
	crosswise.why.lengthwise = false;
	crosswise.why.crosswise = true;
	why_words(words, &crosswise);
	assert_non_null(strstr(words, "crosswise both ways, from the body on so that"));
	crosswise.why.from_peghead = true;
	why_words(words, &crosswise);
	assert_non_null(strstr(words, "crosswise both ways, from the peghead on so that"));
}

/* No plan, no reason. */
static void nothing_to_say_of_a_foreign_program(void **state)
{
	(void)state;
	struct pass_figures pass = { .kind = PASS_SURFACE };

	assert_words(&pass, "");
	assert_string_equal(why_lines(&pass.why), "");
}

static void figures_that_are_none_stay_within_the_room(void **state)
{
	(void)state;
	static const double odd[] = { NAN, INFINITY, -1e300, 0.0, 1e-9 };
	char words[WHY_ROOM];

	for (size_t i = 0; i < sizeof odd / sizeof *odd; i++) {
		struct pass_figures pass = level_pass();
		pass.why.stepover_mm = pass.why.drop_mm = odd[i];
		pass.why.downhill = 15;
		pass.why.ways = 7;
		pass.why.crosswise = pass.why.leftovers = true;
		why_words(words, &pass);
		assert_non_null(memchr(words, '\0', sizeof words));
		assert_true(strlen(words) > 100);
	}
}

/* The longest sentence there can be ends as it should. */
static void the_longest_sentence_has_room(void **state)
{
	(void)state;
	struct pass_figures pass = level_pass();
	char words[WHY_ROOM];

	pass.why.step_cap = STEP_BY_DEPTH;
	pass.why.stepover_mm = pass.why.drop_mm = 12.34;
	pass.why.crosswise = pass.why.leftovers = true;
	pass.why.ways = 7;
	pass.why.downhill = 15;
	why_words(words, &pass);
	assert_non_null(strstr(words, "left more than ridges."));
}

static void like_passes_are_listed_together(void **state)
{
	(void)state;
	struct pass_figures pass[7];
	struct program_figures program = { .pass_count = 7, .pass = pass };
	char list[WHY_PASSES_ROOM];

	for (int i = 0; i < 7; i++) {
		pass[i] = level_pass();
		if (i == 1 || i == 6) /* levels 2 and 7 are of another kind */
			pass[i].why.level_cap = LEVEL_BY_FLOOR;
	}
	pass[5].level_mm = 3.0; /* figures of no reason do not matter */
	why_passes(list, &program, 0, 1);
	assert_string_equal(list, "1, 3 to 6");
	why_passes(list, &program, 1, 11);
	assert_string_equal(list, "12, 17");
	assert_true(why_is_new(&program, 0) && why_is_new(&program, 1));
	for (size_t i = 2; i < 7; i++)
		assert_false(why_is_new(&program, i));
}

static void too_long_a_list_says_so(void **state)
{
	(void)state;
	struct program_figures program = { .pass_count = 900 };
	char list[WHY_PASSES_ROOM];

	program.pass = calloc(program.pass_count, sizeof *program.pass);
	assert_non_null(program.pass);
	for (size_t i = 0; i < program.pass_count; i++) {
		program.pass[i] = level_pass();
		program.pass[i].why.crosswise = i % 2 == 1;
	}
	why_passes(list, &program, 0, 1);
	assert_non_null(strstr(list, "1, 3, 5, 7"));
	assert_non_null(strstr(list, " and more"));
	free(program.pass);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_sentence_for_each_kind),
		cmocka_unit_test(every_cap_is_told),
		cmocka_unit_test(nothing_to_say_of_a_foreign_program),
		cmocka_unit_test(figures_that_are_none_stay_within_the_room),
		cmocka_unit_test(the_longest_sentence_has_room),
		cmocka_unit_test(like_passes_are_listed_together),
		cmocka_unit_test(too_long_a_list_says_so),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
