/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/beside_table.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "report/table.h"
#include "support/sample_beside.h"
#include "support/sampled.h"
#include "support/scratch.h"
#include "support/terminal_text.h"

#define WIDEST 80

static char *lines_of(const struct sampled *sample)
{
	FILE *out = tmpfile();

	assert_non_null(out);
	beside_table_print(out, &sample->job, &sample->result);
	return scratch_text(out);
}

/* The sample is a right-handed neck: its bass side lies at +y. */
static void figures_stand_in_their_columns(void **state)
{
	struct sampled *sample = *state;

	sample_beside(&sample->result);
	assert_true(beside_is_told(&sample->result));
	char *text = lines_of(sample);
	assert_line(text, "  rails behind a channel of 16.50 mm, the wood up to 86.3 mm high");
	assert_line(text, "  treble side   -31.5   355.5");
	assert_line(text, "  bass side     -30.5   356.5");
	assert_line(text, "  treble side    61.5    8.25    3.13   8.20    3.12");
	assert_line(text, "  bass side     258.8    8.25    3.13   8.20    3.12");
	assert_line(text, "  nut            3.00    2.00    3.50    2.00");
	assert_non_null(strstr(text, "tallest 5.87 by 4.63 mm at x 301.5 mm, bass side; 5.43 cm3"));
	assert_line(text, "  a skin of 0.75 mm stays under the ball beside the neck");
	assert_within_columns(text, WIDEST);
	free(text);
}

/* Each part alone, and none. */
static void only_what_is_there_is_told(void **state)
{
	struct sampled *sample = *state;
	struct beside_figures *beside = &sample->result.beside;

	assert_false(beside_is_told(&sample->result));
	sample_beside(&sample->result);
	beside->channel_mm = 0.0;
	beside->tab_count = 0;
	char *text = lines_of(sample);
	assert_null(strstr(text, "rails"));
	assert_null(strstr(text, "tabs"));
	assert_non_null(strstr(text, "cove"));
	free(text);
	beside->cove.height_mm = 0.0;
	beside->tab_count = 1;
	assert_true(beside_is_told(&sample->result));
	text = lines_of(sample);
	assert_non_null(strstr(text, "tabs"));
	assert_null(strstr(text, "cove"));
	free(text);
	beside->tab_count = 0;
	assert_false(beside_is_told(&sample->result));
}

static void the_whole_table_holds_it(void **state)
{
	struct sampled *sample = *state;
	FILE *out = tmpfile();

	assert_non_null(out);
	sample_beside(&sample->result);
	assert_int_equal(table_print(out, &sample->job, &sample->result, false, NULL), FAULT_NONE);
	char *text = scratch_text(out);
	assert_non_null(strstr(text, "\nBESIDE THE NECK\n"));
	free(text);
}

#define WITH_SAMPLE(test) cmocka_unit_test_setup_teardown(test, sampled_setup, sampled_teardown)

int main(void)
{
	const struct CMUnitTest tests[] = {
		WITH_SAMPLE(figures_stand_in_their_columns),
		WITH_SAMPLE(only_what_is_there_is_told),
		WITH_SAMPLE(the_whole_table_holds_it),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
