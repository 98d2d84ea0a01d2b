/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The stretch a straight edge is laid on. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "model/straight_edge.h"
#include "support/near.h"
#include "support/sample_job.h"

static void from_the_first_station_to_the_eleventh_fret(void **state)
{
	(void)state;
	struct job job = sample_steel_job();
	struct neck *neck = sample_neck_built(&job.neck);
	struct straight_edge edge = straight_edge_of(neck);

	assert_near(edge.from_mm, 0.0, 1e-9, "the straight edge begins at the nut, mm");
	assert_near(edge.to_mm, 303.398395, 1e-5, "and ends at fret 11, mm");
	assert_near(edge.from_z_mm, 15.0, 1e-6, "21 mm less a board of 6, mm");
	assert_near(edge.to_z_mm, 18.0, 1e-6, "24 mm less a board of 6, mm");
	assert_near(edge.crest_off_mm, neck_crest_straightness_mm(neck, edge.from_mm, edge.to_mm),
		    1e-12, "the neck's own figure, mm");
	assert_between(edge.edge_off_mm[SIDE_MINUS], 0.0, 0.01, "edges are straight, mm");
	neck_free(neck);
}

/* A heel that begins before the 11th fret ends the straight edge. */
static void the_heel_ends_the_straight_edge(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct neck *neck = sample_neck_built(&job.neck);
	struct straight_edge edge = straight_edge_of(neck);

	assert_near(edge.to_mm, fmin(neck_heel_start_mm(neck), neck_fret_x_mm(neck, 11.0)), 1e-9,
		    "end of the straight edge, mm");
	neck_free(neck);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(from_the_first_station_to_the_eleventh_fret),
		cmocka_unit_test(the_heel_ends_the_straight_edge),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
