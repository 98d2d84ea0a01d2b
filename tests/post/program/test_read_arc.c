/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Arcs as they are read: which way round, how long, and that the arc, by either
 * radius, lies nowhere farther from its pieces than they tell. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "base/tol.h"
#include "base/units.h"
#include "program/read.h"
#include "program/read_arc.h"
#include "support/moves.h"
#include "support/near.h"
#include "support/seed.h"

static double length_of(const struct read_arc *arc)
{
	struct arc_pieces pieces;
	struct vec3 at = arc->from;
	double length = 0.0;
	char why[160];

	if (!arc_pieces_make(&pieces, arc, why, sizeof why))
		fail_msg("%s", why);
	for (size_t k = 0; k < pieces.count; k++) {
		struct vec3 to = arc_piece_end(&pieces, k);
		length += vec3_distance(at, to);
		at = to;
	}
	assert_near(vec3_distance(at, arc->to), 0.0, 0.0, "the last piece ends at the end, mm");
	return length;
}

/* NIST IR 6556: G3 turns from +x to +y in the plane of G17, from +z to +x in
 * that of G18. Lengths: quarters and three quarters of 20 pi, in closed form. */
static void which_way_round(void **state)
{
	(void)state;
	struct read_arc arc = { .from = { 10, 0, 4 },
				.to = { 0, 10, 4 },
				.offset = { -10, 0, 0 },
				.plane = PLANE_XY,
				.radii_apart_mm = 0.002 };

	assert_near(length_of(&arc), 15.707963, 0.002, "G17 G3, a quarter, mm");
	arc.clockwise = true;
	assert_near(length_of(&arc), 47.123890, 0.005, "G17 G2, three quarters, mm");
	arc = (struct read_arc){ .from = { 0, 3, 10 },
				 .to = { 10, 3, 0 },
				 .offset = { 0, 0, -10 },
				 .plane = PLANE_XZ,
				 .radii_apart_mm = 0.002 };
	assert_near(length_of(&arc), 15.707963, 0.002, "G18 G3, a quarter, mm");
	arc.clockwise = true;
	assert_near(length_of(&arc), 47.123890, 0.005, "G18 G2, three quarters, mm");
}

/* The lines that the report's interpreter was tried on. */
static void radii_that_differ(void **state)
{
	(void)state;
	struct read_arc arc = { .to = { 20.002, 0, 0 },
				.offset = { 10, 0, 0 },
				.plane = PLANE_XY,
				.radii_apart_mm = 0.002 + 1e-9 };
	struct arc_pieces pieces;
	char why[160] = "";

	assert_true(arc_pieces_make(&pieces, &arc, why, sizeof why));
	assert_between(pieces.stray_mm, 0.002, 0.002 + TOL_ARC_PIECE_MM + 1e-9, "stray, mm");
	arc.to.x = 20.003;
	assert_false(arc_pieces_make(&pieces, &arc, why, sizeof why));
	assert_non_null(strstr(why, "10.0000 and 10.0030"));
}

static double off_piece(struct vec3 a, struct vec3 b, struct vec3 p)
{
	struct vec3 d = vec3_sub(b, a);
	double t = vec3_dot(vec3_sub(p, a), d) / vec3_dot(d, d);

	return vec3_distance(p, vec3_add(a, vec3_scale(d, fmin(fmax(t, 0.0), 1.0))));
}

/* A circle's place and direction at an angle from +x to +y, or +z to +x. */
static struct vec3 turned(enum arc_plane plane, double length, double angle)
{
	return plane == PLANE_XY ? vec3_make(length * cos(angle), length * sin(angle), 0.0)
				 : vec3_make(length * sin(angle), 0.0, length * cos(angle));
}

struct random_arc {
	struct read_arc arc;
	struct vec3 centre;
	double radius[2], from_rad, sweep_rad;
};

static struct random_arc random_arc(const gsl_rng *rng)
{
	struct random_arc out = { .from_rad = seed_between(rng, -PI, PI) };
	double sense = seed_whole(rng, 0, 1) ? 1.0 : -1.0;

	out.radius[0] = exp(seed_between(rng, log(0.2), log(2000.0)));
	out.radius[1] = out.radius[0] + seed_between(rng, -0.002, 0.002);
	out.sweep_rad = sense * seed_between(rng, fmin(1.0, 0.4 / out.radius[0]), 5.9);
	out.arc.plane = seed_whole(rng, 0, 1) ? PLANE_XY : PLANE_XZ;
	out.arc.clockwise = sense < 0.0;
	out.arc.radii_apart_mm = 0.002;
	out.centre = vec3_make(seed_between(rng, -50, 50), seed_between(rng, -50, 50),
			       seed_between(rng, -50, 50));
	struct vec3 start = turned(out.arc.plane, out.radius[0], out.from_rad);
	out.arc.from = vec3_add(out.centre, start);
	out.arc.offset = vec3_scale(start, -1.0);
	out.arc.to = vec3_add(out.centre,
			      turned(out.arc.plane, out.radius[1], out.from_rad + out.sweep_rad));
	return out;
}

/* Places all along the arc, by both radii and between them. */
static void check_pieces(const struct random_arc *random, const struct arc_pieces *pieces)
{
	struct vec3 a = random->arc.from;

	for (size_t k = 0; k < pieces->count; k++) {
		struct vec3 b = arc_piece_end(pieces, k);
		struct vec3 along = vec3_scale(vec3_sub(b, a), 1.0 / vec3_distance(a, b));
		for (int i = 0; i <= 8; i++) {
			double share = ((double)k + i / 8.0) / (double)pieces->count;
			double angle = random->from_rad + share * random->sweep_rad;
			double onward = angle + (random->sweep_rad > 0.0 ? PI / 2.0 : -PI / 2.0);
			struct vec3 way = turned(random->arc.plane, 1.0, onward);
			for (int r = 0; r < 2; r++) {
				struct vec3 p =
					vec3_add(random->centre, turned(random->arc.plane,
									random->radius[r], angle));
				assert_between(off_piece(a, b, p), 0.0, pieces->stray_mm + 1e-9,
					       "arc from its piece, mm");
			}
			assert_near(way.x, along.x, pieces->lean.x + 1e-9, "x of the direction");
			assert_near(way.y, along.y, pieces->lean.y + 1e-9, "y of the direction");
			assert_near(way.z, along.z, pieces->lean.z + 1e-9, "z of the direction");
		}
		a = b;
	}
}

static void never_farther_than_told(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("never_farther_than_told");
	char why[160];

	for (int i = 0; i < 1000; i++) {
		struct random_arc random = random_arc(rng);
		struct arc_pieces pieces;
		if (!arc_pieces_make(&pieces, &random.arc, why, sizeof why))
			fail_msg("%s", why);
		assert_between(pieces.stray_mm, 0.0, 0.002 + TOL_ARC_PIECE_MM + 1e-9, "stray, mm");
		check_pieces(&random, &pieces);
	}
	gsl_rng_free(rng);
}

static void refusals(void **state)
{
	(void)state;
	static const struct {
		struct read_arc arc;
		const char *words;
	} cases[] = {
		{ { .to = { 10, 10, 1 }, .offset = { 0, 10, 0 } }, "leaves its plane" },
		{ { .to = { 10, 1, 10 }, .offset = { 0, 0, 10 }, .plane = PLANE_XZ }, "plane" },
		{ { .to = { 0.03, 0, 0 }, .offset = { 0.015, 0, 0 } }, "next to nothing" },
		{ { .to = { 20000, 20000, 0 }, .offset = { 0, 20000, 0 } }, "ten metres" },
		{ { .to = { 0, 0, 0 }, .offset = { 0, 10, 0 } }, "its ends meet" },
		{ { .to = { 0.049, 0.0001, 0 }, .offset = { 0, 10, 0 } }, "its ends meet" },
	};
	struct arc_pieces pieces;

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		char why[160] = "";
		struct read_arc arc = cases[i].arc;
		arc.radii_apart_mm = 0.002;
		assert_false(arc_pieces_make(&pieces, &arc, why, sizeof why));
		if (!strstr(why, cases[i].words))
			fail_msg("got \"%s\", expected \"%s\"", why, cases[i].words);
	}
}

/* A hundred thousand arcs as long as can be: refused before memory is full. */
static void too_many_pieces(void **state)
{
	(void)state;
	static char text[400000];
	const struct machine machine = { .decimals = 3, .reads = { .arcs = ARCS_XY } };
	size_t size = (size_t)snprintf(text, sizeof text, "G21 G17 G90 G94\nG0 X0 Y0 Z0\nF9\n");
	struct motion_list list = { 0 };
	struct read_fault first;

	while (size + 64 < sizeof text)
		size += (size_t)snprintf(text + size, sizeof text - size, "G3X9Y0I0J9999\nG0X0\n");
	assert_int_equal(program_read(&list, text, size, NULL, &machine, &first, NULL),
			 FAULT_PROGRAM);
	assert_non_null(strstr(first.why, "its centre to its ends"));
	size = (size_t)snprintf(text, sizeof text, "G21 G17 G90 G94\nG0 X0 Y0 Z0\nF9\n");
	while (size + 64 < sizeof text)
		size += (size_t)snprintf(text + size, sizeof text - size, "G3X-1I-.5J9999\nG0X0\n");
	assert_int_equal(program_read(&list, text, size, NULL, &machine, &first, NULL),
			 FAULT_PROGRAM);
	assert_non_null(strstr(first.why, "too long to be judged"));
}

/* Seconds that a machine takes for the quarter from (r, 0) to (0, r). */
static double quarter_s(const char *text, double acceleration)
{
	struct machine machine = moves_machine(9000.0, 9000.0, acceleration, 0.02);
	struct motion_list list = { 0 };
	struct read_fault first;

	machine.decimals = 3;
	machine.reads.arcs = ARCS_XY;
	if (program_read(&list, text, strlen(text), NULL, &machine, &first, NULL))
		fail_msg("%s", first.why);
	double seconds = moves_seconds(&list, &machine);
	motion_list_free(&list);
	return seconds;
}

#define HEAD "G21 G17 G90 G94\n"

/* An arc takes the time of its own way. From any mechanics text: L / v + v / a
 * from rest to rest; and no faster than v2 = a r, here 80 x 5 = 20 x 20. Axes
 * give more together than alone, so starting, braking and turning aslant are a
 * little quicker. */
static void time_of_an_arc(void **state)
{
	(void)state;
	double way = PI / 2.0 * 100.0;

	assert_near(quarter_s(HEAD "G0 X100 Y0 Z0\nG3 X0 Y100 I-100 J0 F3000\nM2\n", 500.0),
		    way / 50.0 + 50.0 / 500.0, 0.005, "a quarter of 100 mm at 50 mm/s, s");
	way = PI / 2.0 * 5.0;
	double seconds = quarter_s(HEAD "G0 X5 Y0 Z0\nG3 X0 Y5 I-5 J0 F6000\nM2\n", 80.0);
	assert_between(seconds, way / (20.0 * 1.19), way / 20.0 + 20.0 / 80.0,
		       "a quarter of 5 mm, held to the speed of its radius, s");
	double unhurried = quarter_s(HEAD "G0 X5 Y0 Z0\nG3 X0 Y5 I-5 J0 F600\nM2\n", 80.0);
	assert_near(unhurried, way / 10.0 + 10.0 / 80.0, 0.01, "the same at 10 mm/s, s");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(which_way_round),	   cmocka_unit_test(radii_that_differ),
		cmocka_unit_test(never_farther_than_told), cmocka_unit_test(refusals),
		cmocka_unit_test(too_many_pieces),	   cmocka_unit_test(time_of_an_arc),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
