/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "config/nearest.h"
#include "support/seed.h"

static const char *word_at(const void *context, size_t i)
{
	const char *const *words = context;

	return words[i];
}

static void one_edit_of_each_kind(void **state)
{
	(void)state;
	assert_int_equal(nearest_distance("thickness", "thickness"), 0);
	assert_int_equal(nearest_distance("thicknes", "thickness"), 1);
	assert_int_equal(nearest_distance("thicckness", "thickness"), 1);
	assert_int_equal(nearest_distance("thickmess", "thickness"), 1);
	assert_int_equal(nearest_distance("thikcness", "thickness"), 1);
}

static void several_edits(void **state)
{
	(void)state;
	assert_int_equal(nearest_distance("", "nut"), 3);
	assert_int_equal(nearest_distance("nut", ""), 3);
	assert_int_equal(nearest_distance("", ""), 0);
	assert_int_equal(nearest_distance("kitten", "sitting"), 3);
	/* a swap and then an insertion inside it is not one step shorter here */
	assert_int_equal(nearest_distance("ca", "abc"), 3);
}

static void case_and_dashes_do_not_count(void **state)
{
	(void)state;
	assert_int_equal(nearest_distance("Nut-Width", "nut_width"), 0);
	assert_int_equal(nearest_distance("C", "c"), 0);
}

static void long_words_are_cut(void **state)
{
	(void)state;
	char a[200], b[200];

	memset(a, 'x', sizeof a);
	memset(b, 'y', sizeof b);
	a[199] = b[199] = '\0';
	assert_int_equal(nearest_distance(a, b), 63);
	assert_int_equal(nearest_distance(a, ""), 63);
}

/* Distance is symmetric and keeps the triangle rule for single edits. */
static void distance_is_symmetric(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("distance_is_symmetric");

	for (int i = 0; i < 2000; i++) {
		char a[12] = "", b[12] = "";
		unsigned long length_a = seed_whole(rng, 0, 11), length_b = seed_whole(rng, 0, 11);
		for (unsigned long k = 0; k < length_a; k++)
			a[k] = (char)('a' + seed_whole(rng, 0, 3));
		for (unsigned long k = 0; k < length_b; k++)
			b[k] = (char)('a' + seed_whole(rng, 0, 3));
		size_t distance = nearest_distance(a, b);
		size_t longer = length_a > length_b ? length_a : length_b;
		size_t shorter = length_a < length_b ? length_a : length_b;
		assert_int_equal(distance, nearest_distance(b, a));
		assert_in_range(distance, longer - shorter, longer);
		assert_int_equal(distance == 0, strcmp(a, b) == 0);
	}
	gsl_rng_free(rng);
}

static void nearest_of_a_list(void **state)
{
	(void)state;
	static const char *const words[] = { "machine", "cutter", "wood", "woods" };

	assert_int_equal(nearest_word("machin", 4, word_at, words), 0);
	assert_int_equal(nearest_word("cuter", 4, word_at, words), 1);
	assert_int_equal(nearest_word("wods", 4, word_at, words), 3);
	assert_int_equal(nearest_word("woo", 4, word_at, words), 2);
	assert_int_equal(nearest_word("machine", 0, word_at, words), 0);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(one_edit_of_each_kind),
		cmocka_unit_test(several_edits),
		cmocka_unit_test(case_and_dashes_do_not_count),
		cmocka_unit_test(long_words_are_cut),
		cmocka_unit_test(distance_is_symmetric),
		cmocka_unit_test(nearest_of_a_list),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
