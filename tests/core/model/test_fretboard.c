/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fretboard as a solid. */
#include "model/fretboard.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/sample_job.h"

static void from_the_nut_past_the_last_fret(void **state)
{
	(void)state;
	struct neck_spec spec = sample_steel_job().neck;
	struct fretboard board = fretboard_of(&spec, 6.5);

	/* fret 20 of 645.16 and fret 14, where it is 54.8 wide: computed to 40 digits */
	assert_near(board.x_from_mm, 0.0, 0.0, "from the nut, mm");
	assert_near(board.x_to_mm, 441.947333862 + 6.5, 1e-8, "to, mm");
	assert_near(board.half_from_mm, 21.85, 1e-12, "half the nut, mm");
	assert_near(board.half_to_mm, (43.7 + 11.1 * 448.447333862 / 357.773891502) / 2.0, 1e-8,
		    "half its end, mm");
	assert_near(board.face_mm, -6.0, 0.0, "face, mm");
	/* the wood's margin is the wood's */
	spec.side_margin_mm = 0.3;
	assert_near(fretboard_of(&spec, 0.0).half_from_mm, 21.85, 1e-12, "half the nut, mm");
	assert_near(fretboard_of(&spec, 0.0).x_to_mm, 441.947333862, 1e-8, "no overhang, mm");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(from_the_nut_past_the_last_fret),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
