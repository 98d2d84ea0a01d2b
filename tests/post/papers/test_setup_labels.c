/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Labels that keep off each other. */
#include "bench_sample.h"

#include "papers/setup_labels.h"

static bool overlap(const struct sheet_area *a, const struct sheet_area *b)
{
	return a->left < b->right && b->left < a->right && a->top < b->bottom && b->top < a->bottom;
}

static void names_count_from_one(void **state)
{
	char text[SETUP_LABEL_ROOM];

	(void)state;
	setup_label(text, true, 0);
	assert_string_equal(text, "K1");
	setup_label(text, false, 15);
	assert_string_equal(text, "H16");
}

static void labels_in_one_place_spread(void **state)
{
	const struct sheet_area large = { 50.0, 50.0, 90.0, 70.0 },
				small = { 20.0, 20.0, 21.0, 21.0 };
	struct setup_labels labels = { 0 };
	struct canvas canvas;

	(void)state;
	assert_int_equal(canvas_open_paper(&canvas, 200.0, 100.0, "Labels", NULL), FAULT_NONE);
	setup_label_put(&labels, &canvas, &large, "K1");
	setup_label_put(&labels, &canvas, &large, "H1");
	setup_label_put(&labels, &canvas, &large, "H2");
	setup_label_put(&labels, &canvas, &small, "K2");
	setup_label_put(&labels, &canvas, &small, "K3");
	assert_int_equal(labels.count, 5);
	for (size_t i = 0; i < 5; i++)
		for (size_t k = 0; k < i; k++)
			assert_false(overlap(&labels.taken[i], &labels.taken[k]));
	for (size_t i = 0; i < 3; i++)
		assert_true(overlap(&labels.taken[i], &large));
	/* a place too small for its label must not be covered by it */
	for (size_t i = 3; i < 5; i++)
		assert_false(overlap(&labels.taken[i], &small));
	canvas_close(&canvas);
}

static void more_labels_than_room_do_no_harm(void **state)
{
	const struct sheet_area place = { 20.0, 20.0, 21.0, 21.0 };
	struct setup_labels labels = { 0 };
	struct canvas canvas;

	(void)state;
	assert_int_equal(canvas_open_paper(&canvas, 200.0, 100.0, "Labels", NULL), FAULT_NONE);
	for (int i = 0; i < 3 * FIXTURE_PLACES_MAX; i++)
		setup_label_put(&labels, &canvas, &place, "K1");
	assert_int_equal(labels.count, 2 * FIXTURE_PLACES_MAX);
	canvas_close(&canvas);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(names_count_from_one),
		cmocka_unit_test(labels_in_one_place_spread),
		cmocka_unit_test(more_labels_than_room_do_no_harm),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
