/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/pass_words.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define PASSES_MOST 3000

/* A result of one or two programs with passes of these kinds: 'l', 'c', 's'. */
struct sample {
	struct job_result result;
	struct program_figures program[2];
	struct pass_figures pass[PASSES_MOST];
};

static void fill(struct sample *sample, const char *first, const char *second)
{
	size_t count[2] = { strlen(first), strlen(second) }, next = 0;

	*sample = (struct sample){ .result = { .program_count = 2, .program = sample->program } };
	for (int i = 0; i < 2; i++) {
		sample->program[i].pass_count = count[i];
		sample->program[i].pass = &sample->pass[next];
		for (size_t k = 0; k < count[i]; k++) {
			char kind = (i == 0 ? first : second)[k];
			sample->pass[next++].kind = kind == 'l'	  ? PASS_LEVEL
						    : kind == 'c' ? PASS_CONTOUR
								  : PASS_SURFACE;
		}
	}
}

static void assert_list(const char *first, const char *second, const char *expected)
{
	struct sample *sample = calloc(1, sizeof *sample);
	char text[PASS_LIST_ROOM];

	assert_non_null(sample);
	fill(sample, first, second);
	pass_words_list(text, &sample->result);
	assert_string_equal(text, expected);
	free(sample);
}

static void passes_are_listed_by_kind(void **state)
{
	(void)state;
	assert_list("lclcs", "",
		    "Level lines: 1, 3. Contour lines: 2, 4. Surface lines: 5. One of them is "
		    "shown by --pass N.");
	/* stretches, one of them over the end of a program; two are no stretch */
	assert_list("lllcc", "ccl",
		    "Level lines: 1 to 3, 8. Contour lines: 4 to 7. One of them is shown by "
		    "--pass N.");
	assert_list("", "ss", "Surface lines: 1, 2. One of them is shown by --pass N.");
}

static void a_list_too_long_says_so(void **state)
{
	(void)state;
	struct sample *sample = calloc(1, sizeof *sample);
	char kinds[PASSES_MOST + 1], text[PASS_LIST_ROOM];

	assert_non_null(sample);
	for (size_t i = 0; i < PASSES_MOST; i++)
		kinds[i] = i % 2 ? 'l' : 'c';
	kinds[PASSES_MOST] = '\0';
	fill(sample, kinds, "");
	pass_words_list(text, &sample->result);
	assert_true(strlen(text) < PASS_LIST_ROOM);
	assert_non_null(strstr(text, "and more"));
	assert_non_null(strstr(text, "One of them is shown by --pass N."));
	free(sample);
}

static void figures_make_a_sentence(void **state)
{
	(void)state;
	char text[PASS_FIGURES_ROOM];

	pass_words_figures(text, "Level Z", 2.149, 1.482, 5.246, 1.46);
	assert_string_equal(text,
			    "Level Z 2.15 mm, deepest bite 1.48 mm, 5.25 cm3 of wood, 1.5 min.");
	pass_words_figures(text, "Lowest Z", NAN, -INFINITY, 1e300, 1e12);
	assert_string_equal(
		text, "Lowest Z - mm, deepest bite - mm, 1.00e+300 cm3 of wood, 1.0e+12 min.");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(passes_are_listed_by_kind),
		cmocka_unit_test(a_list_too_long_says_so),
		cmocka_unit_test(figures_make_a_sentence),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
