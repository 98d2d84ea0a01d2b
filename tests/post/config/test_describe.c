/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "config/describe.h"

static const struct setting *row_of(const char *group, const char *name)
{
	const struct setting *around = settings_find(settings_root(), group);
	const struct setting *row = around ? settings_find(around->set, name) : NULL;

	assert_non_null(row);
	return row;
}

static void assert_allowed(const char *group, const char *name, enum length_unit unit,
			   const char *expected)
{
	char text[160];

	describe_allowed(text, sizeof text, row_of(group, name), unit);
	assert_string_equal(text, expected);
}

static void assert_usual(const char *group, const char *name, enum length_unit unit,
			 const char *expected)
{
	char text[160];

	describe_usual(text, sizeof text, row_of(group, name), unit);
	assert_string_equal(text, expected);
}

static void allowed_in_words(void **state)
{
	(void)state;
	assert_allowed("neck", "nut_width", UNIT_MM, "a length from 20 to 120 mm");
	assert_allowed("neck", "nut_width", UNIT_INCH, "a length from 0.78741 to 4.7244 in");
	assert_allowed("neck", "frets", UNIT_INCH, "a whole number from 5 to 36");
	assert_allowed("neck", "joint_fret", UNIT_MM, "a fret number from 5 to 30");
	assert_allowed("stations", "fret", UNIT_MM, "\"nut\" or a fret number from 0 to 36");
	assert_allowed("stations", "fullness", UNIT_INCH, "a number from 2 to 5");
	assert_allowed("peghead", "angle_deg", UNIT_INCH, "an angle from 0 to 25 degrees");
	assert_allowed("cutters", "plunge_feed", UNIT_MM, "a feed from 10 to 20000 mm per minute");
	assert_allowed("machines", "travel", UNIT_MM, "(x, y, z), each from 20 to 5000 mm");
	assert_allowed("machines", "acceleration", UNIT_MM,
		       "(x, y, z), each from 1 to 20000 mm per second squared");
	assert_allowed("machines", "spindle_power_w", UNIT_INCH, "a number from 20 to 20000 W");
	assert_allowed("neck", "name", UNIT_MM, "a text in quotes of at most 127 bytes");
	assert_allowed("heel", "kind", UNIT_MM, "\"block\", \"flat\" or \"set\"");
	assert_allowed("stations", "shape", UNIT_MM, "\"C\", \"U\", \"D\", \"V\" or \"measured\"");
	assert_allowed("neck", "thickness_over_fretboard", UNIT_MM, "true or false");
	assert_allowed(
		"blank", "top", UNIT_INCH,
		"a list ((x, value), ...) of 2 to 512 points, in in, or the name of a CSV file of them");
	assert_allowed("fixture", "hold", UNIT_MM, "a list ({ ... }, { ... }) of 1 to 16 groups");
	assert_allowed("stations", "bass", UNIT_MM, "a group { ... }");
}

static void usual_in_words(void **state)
{
	(void)state;
	assert_usual("neck", "nut_width", UNIT_MM, "must be given");
	assert_usual("carve", "clearance", UNIT_MM, "3 mm");
	assert_usual("allowance", "back", UNIT_INCH, "0.039370079 in");
	assert_usual("cutters", "ramp_deg", UNIT_INCH, "8 degrees");
	assert_usual("neck", "hand", UNIT_MM, "\"right\"");
	assert_usual("stations", "fullness", UNIT_MM, "usual for the shape");
	assert_usual("stations", "bass", UNIT_MM, "the defaults of its settings");
	assert_usual("fixture", "keep_out", UNIT_MM, "none");
	assert_usual("blank", "bottom", UNIT_MM, "0 all along");
	assert_usual("machines", "spindle_start_s", UNIT_INCH, "5 s");
}

static void figures(void **state)
{
	(void)state;
	char text[64];

	describe_figure(text, sizeof text, row_of("neck", "nut_width"), UNIT_INCH, 44.45);
	assert_string_equal(text, "1.75 in");
	describe_figure(text, sizeof text, row_of("neck", "frets"), UNIT_INCH, 20);
	assert_string_equal(text, "20");
	describe_figure(text, sizeof text, row_of("cutters", "plunge_feed"), UNIT_INCH, 2540);
	assert_string_equal(text, "100 in per minute");
}

static void texts_too_long_are_cut(void **state)
{
	(void)state;
	char text[8];

	describe_allowed(text, sizeof text, row_of("stations", "shape"), UNIT_MM);
	assert_string_equal(text, "\"C\", \"U");
	describe_allowed(text, sizeof text, row_of("neck", "nut_width"), UNIT_MM);
	assert_string_equal(text, "a lengt");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(allowed_in_words),
		cmocka_unit_test(usual_in_words),
		cmocka_unit_test(figures),
		cmocka_unit_test(texts_too_long_are_cut),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
