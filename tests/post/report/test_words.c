/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Program zero as a sentence, from figures and from the builder's own words. */
#include "report/words.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "job/zero.h"
#include "support/sample_job.h"

static void assert_words(const struct job *job, const char *expected)
{
	char words[WORDS_ZERO_ROOM];

	words_zero(words, job);
	assert_string_equal(words, expected);
}

static void from_figures(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	assert_words(&job,
		     "Program zero is at the nut's front edge, on the centre line, level with "
		     "the gluing face.");
	job.fixture.work_zero_mm = vec3_make(-12.5, 3.0, -14.0);
	assert_words(&job, "Program zero is 12.5 mm from the nut's front edge toward the peghead, "
			   "3 mm from the centre line on the bass side, on the machine's bed.");
	/* with 6 of fretboard and 1 of shim the bed is 7 lower */
	job.fixture.fretboard = (struct glued_fretboard){ true, 0.3, 0.0, 1.0 };
	job.fixture.work_zero_mm = vec3_make(0.0, 0.0, -21.0);
	assert_words(&job, "Program zero is at the nut's front edge, on the centre line, on the "
			   "machine's bed.");
}

static void assert_stated(struct job *job, struct zero_spec zero, const char *expected)
{
	job->fixture.zero = zero;
	job->fixture.work_zero_mm = zero_place(job);
	assert_words(job, expected);
}

static void from_words(void **state)
{
	(void)state;
	struct job job = sample_steel_job();

	assert_stated(&job, (struct zero_spec){ true, ZERO_HEEL, ZERO_BED, 0 },
		      "Program zero is at the heel's end, 357.774 mm from the nut's front edge, on "
		      "the centre line, on the machine's bed.");
	assert_stated(
		&job, (struct zero_spec){ true, ZERO_BLANK_END, ZERO_BLANK_TOP, 100 },
		"Program zero is at the blank's end toward the body, 357.77 mm from the nut's "
		"front edge, on the centre line, level with the blank's top 100 mm from the "
		"nut.");
	assert_stated(&job, (struct zero_spec){ true, ZERO_NUT, ZERO_GLUING_FACE, 0 },
		      "Program zero is at the nut's front edge, on the centre line, level with the "
		      "gluing face.");
	job.fixture.fretboard = (struct glued_fretboard){ true, 0.3, 0.0, 1.0 };
	assert_stated(&job, (struct zero_spec){ true, ZERO_NUT, ZERO_FRETBOARD_FACE, 0 },
		      "Program zero is at the nut's front edge, on the centre line, level with the "
		      "fretboard's face.");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(from_figures),
		cmocka_unit_test(from_words),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
