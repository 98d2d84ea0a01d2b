/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scallops on a flat: h = R - sqrt(R^2 - s^2 / 4), general geometry, as public
 * calculators give it. Lengths mm. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/units.h"
#include "path/scallop.h"
#include "support/near.h"

static void heights(void **state)
{
	(void)state;
	static const double cases[][3] = { { 3, 1, 0.041960 },
					   { 3, 2, 0.171573 },
					   { 3, 3, 0.401924 },
					   { 3, 4, 0.763932 },
					   { 6.35, 1, 0.019716 },
					   { 6.35, 2, 0.079234 },
					   { 6.35, 3, 0.179708 },
					   { 6.35, 4, 0.323185 },
					   { 3, 0, 0 },
					   { 3, 6, 3 },
					   { 3, 7, 3 } };

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_near(scallop_height_mm(cases[i][0], cases[i][1]), cases[i][2], 5e-7, "mm");
}

static void spacings(void **state)
{
	(void)state;
	static const double cases[][3] = { { 3, 0.05, 1.090871 },
					   { 3, 0.1, 1.536229 },
					   { 3, 0.5, 3.316625 },
					   { 6.35, 0.05, 1.590597 },
					   { 6.35, 0.1, 2.244994 },
					   { 6.35, 0.5, 4.939636 },
					   { 3, 0, 0 },
					   { 3, 3, 6 },
					   { 3, 99, 6 } };

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_near(scallop_spacing_mm(cases[i][0], cases[i][1]), cases[i][2], 5e-7, "mm");
}

/* Lines 1 mm apart in plan on a slope lie 1 / cos a apart along it. */
static void across_a_slope(void **state)
{
	(void)state;
	static const double cases[][3] = { { 3, 30, 0.056080 },	   { 3, 45, 0.084524 },
					   { 3, 60, 0.171573 },	   { 6.35, 30, 0.026301 },
					   { 6.35, 45, 0.039493 }, { 6.35, 60, 0.079234 } };

	for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
		assert_near(scallop_height_mm(cases[i][0],
					      1.0 / cos(units_rad_from_deg(cases[i][1]))),
			    cases[i][2], 5e-7, "normal to the slope, mm");
}

static void one_is_the_others_inverse(void **state)
{
	(void)state;
	for (double radius = 1.0; radius < 8.0; radius += 0.37)
		for (double share = 0.01; share < 1.0; share += 0.07)
			assert_near(scallop_height_mm(radius,
						      scallop_spacing_mm(radius, share * radius)),
				    share * radius, 1e-12, "there and back, mm");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(heights),
		cmocka_unit_test(spacings),
		cmocka_unit_test(across_a_slope),
		cmocka_unit_test(one_is_the_others_inverse),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
