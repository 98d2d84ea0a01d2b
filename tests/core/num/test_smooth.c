/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Against GSL's own least squares on the same splines, and closed forms. */
#include "num/smooth.h"

#include <gsl/gsl_bspline.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_multifit.h>
#include <gsl/gsl_randist.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/seed.h"

#define POINTS 120
#define PIECES 7
#define COEFFICIENTS (PIECES + 3)

struct cloud {
	double x[POINTS], y[POINTS], weight[POINTS];
};

static void make_cloud(struct cloud *cloud, double scatter, const gsl_rng *rng)
{
	for (size_t i = 0; i < POINTS; i++) {
		cloud->x[i] = seed_between(rng, 0.0, 3.0);
		cloud->y[i] = sin(cloud->x[i]) + gsl_ran_gaussian(rng, scatter);
		cloud->weight[i] = seed_between(rng, 0.5, 2.0);
	}
}

static struct smooth_ask ask_of(const struct cloud *cloud, enum smooth_price price)
{
	return (struct smooth_ask){ .from = 0.0,
				    .to = 3.0,
				    .pieces = PIECES,
				    .price = price,
				    .count = POINTS,
				    .x = cloud->x,
				    .y = cloud->y,
				    .weight = cloud->weight };
}

/* Sum of weighted squares and values at some places by gsl_multifit_wlinear. */
static double gsl_fit(const struct cloud *cloud, const double *at, double *value, size_t places)
{
	gsl_bspline_workspace *spline = gsl_bspline_alloc(4, PIECES + 1);
	gsl_matrix *basis = gsl_matrix_alloc(POINTS, COEFFICIENTS);
	gsl_matrix *spread = gsl_matrix_alloc(COEFFICIENTS, COEFFICIENTS);
	gsl_vector *row = gsl_vector_alloc(COEFFICIENTS), *c = gsl_vector_alloc(COEFFICIENTS);
	gsl_multifit_linear_workspace *work = gsl_multifit_linear_alloc(POINTS, COEFFICIENTS);
	double squares;

	gsl_bspline_knots_uniform(0.0, 3.0, spline);
	for (size_t i = 0; i < POINTS; i++) {
		gsl_bspline_eval(cloud->x[i], row, spline);
		gsl_matrix_set_row(basis, i, row);
	}
	gsl_vector_const_view y = gsl_vector_const_view_array(cloud->y, POINTS);
	gsl_vector_const_view w = gsl_vector_const_view_array(cloud->weight, POINTS);
	gsl_multifit_wlinear(basis, &w.vector, &y.vector, c, spread, &squares, work);
	for (size_t i = 0; i < places; i++) {
		double error;
		gsl_bspline_eval(at[i], row, spline);
		gsl_multifit_linear_est(row, c, spread, &value[i], &error);
	}
	gsl_multifit_linear_free(work);
	gsl_bspline_free(spline);
	gsl_matrix_free(basis);
	gsl_matrix_free(spread);
	gsl_vector_free(row);
	gsl_vector_free(c);
	return squares;
}

static void plain_least_squares_are_gsl_s(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("plain_least_squares_are_gsl_s");
	static const double at[] = { 0.0, 0.4, 1.1, 1.9, 2.7, 3.0 };

	for (int n = 0; n < 20; n++) {
		struct cloud cloud;
		struct smooth smooth;
		double value[6];
		make_cloud(&cloud, 0.1, rng);
		struct smooth_ask ask = ask_of(&cloud, PRICE_NONE);
		assert_int_equal(smooth_fit(&smooth, &ask, NULL), FAULT_NONE);
		double squares = gsl_fit(&cloud, at, value, 6);
		assert_near(smooth.squares, squares, 1e-7, "sum of squared residuals");
		assert_near(smooth.freedom, COEFFICIENTS, 1e-6, "freedom: every coefficient");
		for (size_t i = 0; i < 6; i++)
			assert_near(curve_value(&smooth.curve, at[i]), value[i], 1e-6,
				    "value of the curve");
		smooth_free(&smooth);
	}
	gsl_rng_free(rng);
}

/* A straight line costs no bends: whatever the price, it comes back. */
static void straight_lines_come_back(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("straight_lines_come_back");

	for (int price = PRICE_FOUND; price <= PRICE_HIGHEST; price++) {
		struct cloud cloud;
		struct smooth smooth;
		make_cloud(&cloud, 0.0, rng);
		for (size_t i = 0; i < POINTS; i++)
			cloud.y[i] = 2.0 - 0.7 * cloud.x[i];
		struct smooth_ask ask = ask_of(&cloud, (enum smooth_price)price);
		assert_int_equal(smooth_fit(&smooth, &ask, NULL), FAULT_NONE);
		for (double x = 0.0; x <= 3.0; x += 0.1)
			assert_near(curve_value(&smooth.curve, x), 2.0 - 0.7 * x, 1e-6,
				    "value on the line");
		smooth_free(&smooth);
	}
	gsl_rng_free(rng);
}

/* Found bends follow a sine without following the scatter: nearer to the truth
 * than plain least squares, and than the scatter over the root of the points. */
static void scatter_is_averaged(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("scatter_is_averaged");
	double found = 0.0, plain = 0.0;

	for (int n = 0; n < 50; n++) {
		struct cloud cloud;
		struct smooth smooth;
		make_cloud(&cloud, 0.1, rng);
		for (int price = PRICE_FOUND; price <= PRICE_NONE; price++) {
			struct smooth_ask ask = ask_of(&cloud, (enum smooth_price)price);
			assert_int_equal(smooth_fit(&smooth, &ask, NULL), FAULT_NONE);
			for (double x = 0.0; x <= 3.0; x += 0.1) {
				double off = curve_value(&smooth.curve, x) - sin(x);
				*(price == PRICE_FOUND ? &found : &plain) += off * off;
			}
			smooth_free(&smooth);
		}
	}
	assert_true(found < 0.8 * plain);
	assert_between(sqrt(found / (50.0 * 31.0)), 0.0, 0.1 * sqrt(8.0 / POINTS),
		       "root mean square of the departure");
	gsl_rng_free(rng);
}

static void pins_hold(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("pins_hold");
	struct cloud cloud;
	struct smooth smooth;

	make_cloud(&cloud, 0.1, rng);
	struct smooth_ask ask = ask_of(&cloud, PRICE_FOUND);
	ask.pin_count = 3;
	ask.pin[0] = (struct smooth_pin){ 0.0, 0.25, false };
	ask.pin[1] = (struct smooth_pin){ 1.2, 0.0, true };
	ask.pin[2] = (struct smooth_pin){ 3.0, 0.0, false };
	assert_int_equal(smooth_fit(&smooth, &ask, NULL), FAULT_NONE);
	assert_near(curve_value(&smooth.curve, 0.0), 0.25, 1e-4, "pinned value");
	assert_near(curve_slope(&smooth.curve, 1.2), 0.0, 1e-4, "pinned slope");
	assert_near(curve_value(&smooth.curve, 3.0), 0.0, 1e-4, "pinned end");
	smooth_free(&smooth);
	gsl_rng_free(rng);
}

/* An effect that the curve cannot feign is found; what is known of it weighs in. */
static void extras_are_found(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("extras_are_found");
	struct cloud cloud;
	struct smooth smooth;
	double effect[POINTS];

	make_cloud(&cloud, 0.0, rng);
	for (size_t i = 0; i < POINTS; i++) {
		effect[i] = i % 2 ? 1.0 : -1.0;
		cloud.weight[i] = 1.0;
		cloud.y[i] = 1.0 + 0.3 * effect[i];
	}
	struct smooth_ask ask = ask_of(&cloud, PRICE_FOUND);
	ask.extra_count = 1;
	ask.extra[0] = (struct smooth_extra){ effect, 0.0, 0.0 };
	assert_int_equal(smooth_fit(&smooth, &ask, NULL), FAULT_NONE);
	assert_near(smooth.amount[0], 0.3, 1e-6, "amount of the effect");
	assert_near(curve_value(&smooth.curve, 1.5), 1.0, 1e-6, "the curve without it");
	smooth_free(&smooth);
	/* as sure of 0 as all points are of 0.3: half way */
	ask.extra[0].weight = POINTS;
	ask.price = PRICE_HIGHEST;
	assert_int_equal(smooth_fit(&smooth, &ask, NULL), FAULT_NONE);
	assert_near(smooth.amount[0], 0.15, 0.005, "amount between points and knowledge");
	smooth_free(&smooth);
	gsl_rng_free(rng);
}

static void asks_without_an_answer(void **state)
{
	(void)state;
	struct cloud cloud = { .weight = { 0.0 } };
	struct smooth smooth;
	struct fault_list faults = { 0 };
	struct smooth_ask ask = ask_of(&cloud, PRICE_NONE);

	assert_int_equal(smooth_fit(&smooth, &ask, &faults), FAULT_INTERNAL);
	smooth_free(&smooth);
	cloud.weight[0] = 1.0;
	ask.pieces = SMOOTH_PIECES_MAX + 1;
	assert_int_equal(smooth_fit(&smooth, &ask, NULL), FAULT_INTERNAL);
	smooth_free(&smooth);
	ask.pieces = PIECES;
	ask.to = ask.from;
	assert_int_equal(smooth_fit(&smooth, &ask, NULL), FAULT_INTERNAL);
	smooth_free(&smooth);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(plain_least_squares_are_gsl_s),
		cmocka_unit_test(straight_lines_come_back),
		cmocka_unit_test(scatter_is_averaged),
		cmocka_unit_test(pins_hold),
		cmocka_unit_test(extras_are_found),
		cmocka_unit_test(asks_without_an_answer),
	};

	(void)gsl_set_error_handler_off();
	return cmocka_run_group_tests(tests, NULL, NULL);
}
