/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Feeds, chip thinning, sections and power. Figures of ball geometry: circle
 * chords and segments, worked out with 40 digits. F = n z fz and P = k Q / 60
 * are definitions; see docs/feeds-and-time.md. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "machine/feed.h"
#include "support/near.h"
#include "support/seed.h"

/* Nothing but the chip load limits these. */
static struct cutter test_cutter(double ball_diameter_mm, double rpm, double chip_load_mm)
{
	return (struct cutter){ .ball_diameter_mm = ball_diameter_mm,
				.flutes = 2,
				.chip_load_mm = chip_load_mm,
				.spindle_rpm = rpm };
}

static struct machine test_machine(double feed_mm_per_min, double power_w)
{
	struct machine machine = { .spindle_power_w = power_w };

	for (int axis = 0; axis < AXIS_COUNT; axis++)
		machine.feed_limit_mm_per_min[axis] = feed_mm_per_min;
	return machine;
}

static struct wood test_wood(double energy_j_per_cm3)
{
	return (struct wood){ .cutting_energy_j_per_cm3 = energy_j_per_cm3 };
}

static void plain_feed(void **state)
{
	(void)state;
	static const struct {
		double rpm, chip_load_mm, feed;
	} cases[] = {
		{ 18000.0, 0.1, 3600.0 },
		{ 16000.0, 0.15, 4800.0 },
		{ 18000.0, 0.0508, 1828.8 },
		{ 18000.0, 2400.0 / 36000.0, 2400.0 },
	};
	struct machine machine = test_machine(1e6, 1e6);
	struct wood wood = test_wood(50.0);

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
		struct cutter cutter = test_cutter(6.0, cases[i].rpm, cases[i].chip_load_mm);
		struct feed feed = feed_choose(&cutter, &machine, &wood, 3.0, 6.0);
		assert_near(feed.mm_per_min, cases[i].feed, 1e-9, "F = n z fz, mm/min");
		assert_near(feed.chip_load_mm_per_min, cases[i].feed, 1e-9, "the same");
		assert_int_equal(feed.cap, FEED_BY_CHIP_LOAD);
	}
}

/* Ball half in the wood or deeper: sin(kappa) is 1, the strip alone counts. */
static void radial_thinning(void **state)
{
	(void)state;
	assert_near(feed_chip_thinning(10.0, 5.0, 1.0), 1.0 / 0.6, 1e-12, "e 0.1");
	assert_near(feed_chip_thinning(10.0, 7.0, 2.5), 1.154701, 5e-7, "e 0.25");
	assert_near(feed_chip_thinning(10.0, 5.0, 5.0), 1.0, 0.0, "e 0.5: no thinning");
	assert_near(feed_chip_thinning(10.0, 5.0, 9.0), 1.0, 0.0, "e above 0.5: no thinning");
}

/* A full groove: the strip does not thin, the ball's slope does. */
static void axial_thinning(void **state)
{
	(void)state;
	assert_near(feed_chip_thinning(6.0, 0.5, 6.0), 1.0 / 0.552771, 3e-6, "R3 at 0.5 mm");
	assert_near(feed_chip_thinning(12.7, 2.0, 12.7), 1.0 / 0.728506, 2e-6, "R6.35 at 2 mm");
	assert_near(feed_chip_thinning(6.0, 3.0, 6.0), 1.0, 0.0, "R3 at its radius");
}

static void both_thin(void **state)
{
	(void)state;
	/* R3, 1 mm deep: De 4.472136; 1.5 mm strip is e 0.335410 of it */
	double radial = 2.0 * sqrt(0.3354101966249685 * (1.0 - 0.3354101966249685));

	assert_near(feed_chip_thinning(6.0, 1.0, 1.5), 6.0 / 4.472135954999579 / radial, 1e-12,
		    "product of both");
}

static void thinning_is_capped(void **state)
{
	(void)state;
	assert_near(feed_chip_thinning(12.7, 0.5, 12.7), 2.0, 0.0,
		    "R6.35 at 0.5 mm: 2.57 uncapped");
	assert_near(feed_chip_thinning(6.0, 0.01, 0.01), 2.0, 0.0, "next to nothing");
	assert_near(feed_chip_thinning(6.0, 0.0, 1.0), 2.0, 0.0, "no depth");
	assert_near(feed_chip_thinning(6.0, 1.0, 0.0), 2.0, 0.0, "no strip");
}

static void groove_sections(void **state)
{
	(void)state;
	assert_near(feed_section_mm2(6.0, 1.0, 6.0), 3.097482, 5e-7, "R3, 1 mm deep");
	assert_near(feed_section_mm2(6.0, 3.0, 6.0), 14.137167, 5e-7, "R3, half a circle");
	assert_near(feed_section_mm2(12.7, 2.0, 12.7), 12.785590, 5e-7, "R6.35, 2 mm deep");
	assert_near(feed_section_mm2(12.7, 6.35, 12.7), 63.338435, 5e-7, "R6.35, half a circle");
	assert_near(feed_section_mm2(6.0, 5.0, 6.0), 14.137167 + 12.0, 5e-7, "R3, 2 mm deeper");
	assert_near(feed_section_mm2(12.7, 4.0, 5.0), 20.0, 1e-12, "5 x 4 strip");
	assert_near(feed_section_mm2(6.0, 0.0, 6.0), 0.0, 0.0, "no depth");
	assert_near(feed_section_mm2(6.0, 1.0, 0.0), 0.0, 0.0, "no strip");
}

/* Depth of a ball's groove at a distance from its middle line. */
static double groove_depth_mm(double radius_mm, double depth_mm, double aside_mm)
{
	double reach2 = radius_mm * radius_mm - aside_mm * aside_mm;

	if (reach2 <= 0.0)
		return 0.0;
	return fmax(depth_mm - radius_mm + sqrt(reach2), 0.0);
}

/* What a groove takes beside an equal one that was cut before, summed over
 * thin slices, is never more than the section the power is worked out from. */
static void section_covers_true_one(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("section_covers_true_one");
	const int slices = 4000;
	const double slices_error = 1e-4; /* as a share, at the groove's steep edges */

	for (int i = 0; i < 200; i++) {
		double radius_mm = seed_between(rng, 1.0, 10.0);
		double depth_mm = seed_between(rng, 0.05, 1.0) * radius_mm;
		double stepover_mm = seed_between(rng, 0.1, 2.0) * radius_mm;
		double width_mm = 4.0 * radius_mm / slices, taken_mm2 = 0.0;
		for (int k = 0; k < slices; k++) {
			double aside_mm = -2.0 * radius_mm + (k + 0.5) * width_mm;
			double gone_mm =
				groove_depth_mm(radius_mm, depth_mm, aside_mm + stepover_mm);
			double new_mm = groove_depth_mm(radius_mm, depth_mm, aside_mm);
			taken_mm2 += fmax(new_mm - gone_mm, 0.0) * width_mm;
		}
		double section_mm2 = feed_section_mm2(2.0 * radius_mm, depth_mm, stepover_mm);
		assert_between(taken_mm2, 0.0, section_mm2 * (1.0 + slices_error),
			       "section taken, mm2");
	}
	gsl_rng_free(rng);
}

static void power_drawn(void **state)
{
	(void)state;
	struct machine machine = test_machine(1e6, 1e6);
	struct cutter cutter = test_cutter(6.0, 18000.0, 0.05);
	struct wood wood = test_wood(50.0);
	struct feed feed = feed_choose(&cutter, &machine, &wood, 3.0, 6.0);

	assert_near(feed.mm_per_min, 1800.0, 1e-9, "mm/min");
	assert_near(feed.power_w, 21.206, 5e-4, "R3 full ball, k 50: Q 25.4469 cm3/min");
	cutter = test_cutter(12.7, 12000.0, 0.1);
	feed = feed_choose(&cutter, &machine, &wood, 6.35, 12.7);
	assert_near(feed.power_w, 126.677, 5e-4, "R6.35 full ball, k 50: Q 152.0122 cm3/min");
	wood = test_wood(37.6);
	cutter.chip_load_mm = 0.125 / feed_chip_thinning(12.7, 4.0, 5.0);
	feed = feed_choose(&cutter, &machine, &wood, 4.0, 5.0);
	assert_near(feed.mm_per_min, 3000.0, 1e-9, "mm/min");
	assert_near(feed.power_w, 37.6, 1e-9, "5 x 4 strip: Q 60 cm3/min at k 37.6");
}

static void slower_axis_caps(void **state)
{
	(void)state;
	struct machine machine = test_machine(3000.0, 1e6);
	struct cutter cutter = test_cutter(6.0, 18000.0, 0.1);
	struct wood wood = test_wood(50.0);
	struct feed feed = feed_choose(&cutter, &machine, &wood, 3.0, 6.0);

	assert_int_equal(feed.cap, FEED_BY_AXIS);
	assert_near(feed.mm_per_min, 3000.0, 0.0, "both axes alike, mm/min");
	assert_near(feed.chip_load_mm_per_min, 3600.0, 1e-9, "what the teeth would take");
	machine.feed_limit_mm_per_min[AXIS_Y] = 2500.0;
	machine.feed_limit_mm_per_min[AXIS_Z] = 800.0;
	assert_near(feed_choose(&cutter, &machine, &wood, 3.0, 6.0).mm_per_min, 2500.0, 0.0,
		    "y is slower; z does not count");
	machine.feed_limit_mm_per_min[AXIS_X] = 2000.0;
	assert_near(feed_choose(&cutter, &machine, &wood, 3.0, 6.0).mm_per_min, 2000.0, 0.0,
		    "x is slower");
}

static void weak_spindle_caps(void **state)
{
	(void)state;
	struct machine machine = test_machine(3000.0, 100.0);
	struct cutter cutter = test_cutter(12.7, 12000.0, 0.1);
	struct wood wood = test_wood(50.0);
	struct feed feed = feed_choose(&cutter, &machine, &wood, 6.35, 12.7);

	assert_int_equal(feed.cap, FEED_BY_POWER);
	assert_near(feed.mm_per_min, 2400.0 * 100.0 / 126.67687, 1e-3, "mm/min");
	assert_near(feed.power_w, 100.0, 1e-9, "all that the spindle has, W");
	assert_near(feed.chip_load_mm_per_min, 2400.0, 1e-9, "what the teeth would take");
	/* the axis limit bites first, the spindle more */
	machine.feed_limit_mm_per_min[AXIS_X] = 2000.0;
	assert_int_equal(feed_choose(&cutter, &machine, &wood, 6.35, 12.7).cap, FEED_BY_POWER);
	machine.feed_limit_mm_per_min[AXIS_X] = 1500.0;
	assert_int_equal(feed_choose(&cutter, &machine, &wood, 6.35, 12.7).cap, FEED_BY_AXIS);
}

static void largest_word_caps(void **state)
{
	(void)state;
	struct machine machine = test_machine(3000.0, 1e6);
	struct cutter cutter = test_cutter(6.0, 18000.0, 0.1);
	struct wood wood = test_wood(50.0);

	machine.reads.largest_feed_mm_per_min = 2500.0;
	struct feed feed = feed_choose(&cutter, &machine, &wood, 3.0, 6.0);
	assert_int_equal(feed.cap, FEED_BY_WORD);
	assert_near(feed.mm_per_min, 2500.0, 0.0, "no larger F than the control reads, mm/min");
	machine.reads.largest_feed_mm_per_min = 3500.0;
	assert_int_equal(feed_choose(&cutter, &machine, &wood, 3.0, 6.0).cap, FEED_BY_AXIS);
}

static void never_beyond_a_cap(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("never_beyond_a_cap");

	for (int i = 0; i < 2000; i++) {
		struct machine machine = test_machine(seed_between(rng, 500.0, 9000.0),
						      seed_between(rng, 20.0, 2000.0));
		struct cutter cutter = test_cutter(seed_between(rng, 2.0, 25.0),
						   seed_between(rng, 8000.0, 24000.0),
						   seed_between(rng, 0.02, 0.3));
		struct wood wood = test_wood(seed_between(rng, 20.0, 80.0));
		double depth_mm = seed_between(rng, 0.05, 10.0);
		double stepover_mm = seed_between(rng, 0.1, 25.0);
		struct feed feed = feed_choose(&cutter, &machine, &wood, depth_mm, stepover_mm);
		double plain = cutter.spindle_rpm * cutter.flutes * cutter.chip_load_mm;
		assert_true(feed.mm_per_min > 0.0);
		assert_true(feed.mm_per_min <= machine.feed_limit_mm_per_min[AXIS_X]);
		assert_true(feed.mm_per_min <= 2.0 * plain * (1.0 + 1e-12));
		assert_true(feed.chip_load_mm_per_min >= plain * (1.0 - 1e-12));
		assert_true(feed.power_w <= machine.spindle_power_w * (1.0 + 1e-12));
		assert_true((feed.cap == FEED_BY_CHIP_LOAD) ==
			    (feed.mm_per_min == feed.chip_load_mm_per_min));
	}
	gsl_rng_free(rng);
}

static void caps_have_names(void **state)
{
	(void)state;
	assert_string_equal(feed_cap_name(FEED_BY_CHIP_LOAD), "chip load");
	assert_string_equal(feed_cap_name(FEED_BY_AXIS), "axis feed limit");
	assert_string_equal(feed_cap_name(FEED_BY_POWER), "spindle power");
	assert_string_equal(feed_cap_name(FEED_BY_WORD), "largest feed the control reads");
	assert_string_equal(feed_cap_name((enum feed_cap)99), "");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(plain_feed),
		cmocka_unit_test(radial_thinning),
		cmocka_unit_test(axial_thinning),
		cmocka_unit_test(both_thin),
		cmocka_unit_test(thinning_is_capped),
		cmocka_unit_test(groove_sections),
		cmocka_unit_test(section_covers_true_one),
		cmocka_unit_test(power_drawn),
		cmocka_unit_test(slower_axis_caps),
		cmocka_unit_test(weak_spindle_caps),
		cmocka_unit_test(largest_word_caps),
		cmocka_unit_test(never_beyond_a_cap),
		cmocka_unit_test(caps_have_names),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
