/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The papers' keys and sizes. */
#include "papers/paper.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"

static void sizes_are_the_standards(void **state)
{
	const struct paper *a4 = paper_of(PAPER_A4), *letter = paper_of(PAPER_LETTER);

	(void)state;
	assert_near(a4->width_mm, 210.0, 0.0, "A4, mm");
	assert_near(a4->height_mm, 297.0, 0.0, "A4, mm");
	assert_near(letter->width_mm, 215.9, 1e-9, "letter, mm");
	assert_near(letter->height_mm, 279.4, 1e-9, "letter, mm");
}

static void keys_find_their_paper(void **state)
{
	enum paper_size found = PAPER_LETTER;

	(void)state;
	for (int i = 0; i < PAPER_COUNT; i++) {
		assert_true(paper_by_key(&found, paper_of((enum paper_size)i)->key));
		assert_int_equal(found, i);
	}
	assert_true(paper_by_key(&found, "letter"));
	assert_false(paper_by_key(&found, "A5"));
	assert_false(paper_by_key(&found, ""));
	assert_int_equal(found, PAPER_LETTER);
}

static void units_have_their_paper(void **state)
{
	(void)state;
	assert_int_equal(paper_for_unit(UNIT_MM), PAPER_A4);
	assert_int_equal(paper_for_unit(UNIT_INCH), PAPER_LETTER);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(sizes_are_the_standards),
		cmocka_unit_test(keys_find_their_paper),
		cmocka_unit_test(units_have_their_paper),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
