/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/known_lengths.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "support/near.h"

static struct known_lengths known(const char *text, enum length_unit unit)
{
	struct known_lengths out;

	assert_int_equal(known_lengths_read(&out, "width", text, unit, 20.0, 140.0, NULL),
			 FAULT_NONE);
	return out;
}

static void one_length_is_everywhere(void **state)
{
	(void)state;
	struct known_lengths out = known("43.5", UNIT_MM);

	assert_near(known_lengths_at(&out, 0.0), 43.5, 0, "at the nut, mm");
	assert_near(known_lengths_at(&out, 7.0), 43.5, 0, "at the 7th fret, mm");
	out = known("1.75", UNIT_INCH);
	assert_near(known_lengths_at(&out, 0.0), 44.45, 1e-12, "1 3/4 in, mm");
	out = known(NULL, UNIT_MM);
	assert_near(known_lengths_at(&out, 0.0), 0.0, 0, "nothing known");
}

static void lengths_by_fret(void **state)
{
	(void)state;
	struct known_lengths out = known("nut=43.5,fret 5=48,11.5=53", UNIT_MM);

	assert_near(known_lengths_at(&out, 0.0), 43.5, 0, "at the nut, mm");
	assert_near(known_lengths_at(&out, 5.0), 48.0, 0, "at the 5th fret, mm");
	assert_near(known_lengths_at(&out, 11.5), 53.0, 0, "between frets, mm");
	assert_near(known_lengths_at(&out, 11.0), 0.0, 0, "nothing known there");
}

static void others_are_refused(void **state)
{
	(void)state;
	static const char *const words[] = { "",	"x",	 "43,5",	  "nut",  "nut=",
					     "nut=x",	"=43.5", "nut=43.5,",	  "19.9", "140.1",
					     "heel=43", "-1=43", "nut=43.5 5=48", "0x30", "inf" };

	for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
		struct known_lengths out;
		struct fault_list faults = { 0 };
		assert_int_equal(known_lengths_read(&out, "width", words[i], UNIT_MM, 20.0, 140.0,
						    &faults),
				 FAULT_USAGE);
		assert_int_equal(faults.count, 1);
		assert_non_null(strstr(faults.record[0].message, "--width is"));
		assert_non_null(strstr(faults.record[0].message, "from 20 to 140 mm"));
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(one_length_is_everywhere),
		cmocka_unit_test(lengths_by_fret),
		cmocka_unit_test(others_are_refused),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
