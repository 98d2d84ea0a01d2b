/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The curves of a cap's front against ellipse and circle. */
#include "model/cap_plan.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"

static struct heel_spec cap(enum cap_plan plan, double curve_mm)
{
	return (struct heel_spec){ .cap_plan = plan,
				   .cap_length_mm = 20,
				   .cap_curve_mm = curve_mm,
				   .cap_width_front_mm = 20,
				   .cap_width_back_mm = 20 };
}

static void usual_lengths(void **state)
{
	struct heel_spec heel = cap(CAP_ROUND, 0);

	(void)state;
	assert_near(cap_plan_curve(&heel).length_mm, 10.0, 0.0, "half of 20 wide, mm");
	heel.cap_length_mm = 10;
	assert_near(cap_plan_curve(&heel).length_mm, 6.0, 1e-12, "0.6 of a short cap, mm");
	heel.cap_plan = CAP_POINTED;
	assert_near(cap_plan_curve(&heel).length_mm, 8.0, 1e-12, "0.8 of a short cap, mm");
	heel.cap_length_mm = 30;
	assert_near(cap_plan_curve(&heel).length_mm, 15.0, 1e-12, "three quarters of 20, mm");
	heel.cap_curve_mm = 12;
	assert_near(cap_plan_curve(&heel).length_mm, 12.0, 0.0, "as stated, mm");
	assert_near(cap_plan_curve(&heel).aspect, 1.2, 1e-12, "over half the width");
	heel.cap_plan = CAP_SQUARE;
	assert_near(cap_plan_curve(&heel).length_mm, 0.0, 0.0, "square, mm");
}

/* (x / a)^2 + (y / b)^2 = 1, and at the tip a chord of its hundredth. */
static void round_is_an_ellipse(void **state)
{
	struct heel_spec heel = cap(CAP_ROUND, 8);
	struct cap_plan_curve curve = cap_plan_curve(&heel);

	(void)state;
	for (double t = 0.01; t <= 1.0; t += 0.01) {
		double across = cap_plan_share(&curve, t);
		assert_near((1.0 - t) * (1.0 - t) + across * across, 1.0, 1e-12, "ellipse");
		assert_near(cap_plan_inverse(&curve, across), t, 1e-7, "back again");
	}
	assert_near(cap_plan_share(&curve, 0.0), 0.0705, 0.001, "blunt tip, of the half-width");
	assert_near(cap_plan_share(&curve, -1.0), cap_plan_share(&curve, 0.0), 0.0, "before it");
	assert_near(cap_plan_share(&curve, 1.5), 1.0, 0.0, "behind it");
}

/* Points of the curve, length L and half-width w, lie on a circle about
 * (L, w - r), r = (L^2 + w^2) / 2w, which the side touches. */
static void pointed_is_two_arcs(void **state)
{
	struct heel_spec heel = cap(CAP_POINTED, 16);
	struct cap_plan_curve curve = cap_plan_curve(&heel);
	double radius = (16.0 * 16.0 + 100.0) / 20.0;

	(void)state;
	for (double t = 0.0; t <= 1.0; t += 0.01) {
		double x = 16.0 * t, y = 10.0 * cap_plan_share(&curve, t);
		assert_near(hypot(x - 16.0, y - 10.0 + radius), radius, 1e-9, "radius, mm");
		assert_near(cap_plan_inverse(&curve, y / 10.0), t, 1e-9, "back again");
	}
	assert_near(cap_plan_share(&curve, 0.0), 0.0, 1e-12, "the point");
	assert_near(cap_plan_share(&curve, 0.999) - cap_plan_share(&curve, 1.0), 0.0, 1e-5,
		    "runs into the side without a corner");
}

static void square_is_straight_across(void **state)
{
	struct heel_spec heel = cap(CAP_SQUARE, 8);
	struct cap_plan_curve curve = cap_plan_curve(&heel);

	(void)state;
	for (double t = -0.5; t <= 1.5; t += 0.1)
		assert_near(cap_plan_share(&curve, t), 1.0, 0.0, "square");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(usual_lengths),
		cmocka_unit_test(round_is_an_ellipse),
		cmocka_unit_test(pointed_is_two_arcs),
		cmocka_unit_test(square_is_straight_across),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
