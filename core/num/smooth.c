/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "num/smooth.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_bspline.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <stdlib.h>

#include "base/mem.h"

#define ORDER 4 /* of a cubic spline */
#define FREEDOM_COUNTS 1.4
/* Prices of bends that are tried, as powers of ten of the points' own weight. */
#define PRICE_LEAST (-5.0)
#define PRICE_MOST 3.0
#define PRICE_STEPS 32
/* A pin holds as if so many times all points asked for it. */
#define PIN_WEIGHT 1e4
/* Keeps coefficients that no point moves in place without moving others. */
#define PRICE_OF_NOTHING 1e-10

struct work {
	const struct smooth_ask *ask;
	size_t splines, count; /* coefficients of the curve; with the extras */
	gsl_bspline_workspace *spline;
	gsl_matrix *basis; /* of each point */
	gsl_matrix *normal; /* points' normal equations */
	gsl_matrix *held; /* pins', and what is known of the extras */
	gsl_matrix *bends;
	gsl_matrix *sum, *inverse;
	gsl_vector *right, *held_right, *row, *coefficient, *target;
	gsl_vector *at; /* basis at one place */
	gsl_matrix *slopes; /* of the basis at one place */
};

static void free_work(struct work *work)
{
	gsl_matrix *matrices[] = { work->basis, work->normal,  work->held,  work->bends,
				   work->sum,	work->inverse, work->slopes };
	gsl_vector *vectors[] = { work->right,	     work->held_right, work->row,
				  work->coefficient, work->target,     work->at };

	for (size_t i = 0; i < sizeof matrices / sizeof matrices[0]; i++)
		gsl_matrix_free(matrices[i]);
	for (size_t i = 0; i < sizeof vectors / sizeof vectors[0]; i++)
		gsl_vector_free(vectors[i]);
	gsl_bspline_free(work->spline);
}

static enum fault make_work(struct work *work, const struct smooth_ask *ask,
			    struct fault_list *faults)
{
	size_t splines = ask->pieces + ORDER - 1, n = splines + ask->extra_count;

	*work = (struct work){ .ask = ask, .splines = splines, .count = n };
	work->spline = gsl_bspline_alloc(ORDER, ask->pieces + 1);
	work->basis = gsl_matrix_calloc(ask->count, n);
	work->slopes = gsl_matrix_calloc(splines, 2);
	work->at = gsl_vector_calloc(splines);
	gsl_matrix **square[] = { &work->normal, &work->held, &work->bends, &work->sum,
				  &work->inverse };
	gsl_vector **vector[] = { &work->right, &work->held_right, &work->row, &work->coefficient,
				  &work->target };
	bool good = work->spline && work->basis && work->slopes && work->at;
	for (size_t i = 0; i < sizeof square / sizeof square[0]; i++)
		good = (*square[i] = gsl_matrix_calloc(n, n)) && good;
	for (size_t i = 0; i < sizeof vector / sizeof vector[0]; i++)
		good = (*vector[i] = gsl_vector_calloc(n)) && good;
	if (!good)
		return fault_no_memory(faults, "a smooth curve");
	gsl_bspline_knots_uniform(ask->from, ask->to, work->spline);
	return FAULT_NONE;
}

/* Adds weight * row row' and weight * y * row. */
static void add_equation(gsl_matrix *normal, gsl_vector *right, const gsl_vector *row,
			 double weight, double y)
{
	(void)gsl_blas_dsyr(CblasLower, weight, row, normal);
	(void)gsl_blas_daxpy(weight * y, row, right);
}

static double add_points(struct work *work)
{
	const struct smooth_ask *ask = work->ask;
	double whole = 0.0;

	for (size_t i = 0; i < ask->count; i++) {
		double x = fmin(fmax(ask->x[i], ask->from), ask->to);
		gsl_vector_view row = gsl_matrix_row(work->basis, i);
		(void)gsl_bspline_eval(x, work->at, work->spline);
		for (size_t k = 0; k < work->splines; k++)
			gsl_vector_set(&row.vector, k, gsl_vector_get(work->at, k));
		for (size_t k = 0; k < ask->extra_count; k++)
			gsl_vector_set(&row.vector, work->splines + k, ask->extra[k].effect[i]);
		add_equation(work->normal, work->right, &row.vector, ask->weight[i], ask->y[i]);
		whole += ask->weight[i];
	}
	return whole;
}

static void add_pins(struct work *work, double weight)
{
	const struct smooth_ask *ask = work->ask;

	for (size_t i = 0; i < ask->pin_count; i++) {
		const struct smooth_pin *pin = &ask->pin[i];
		(void)gsl_bspline_deriv_eval(pin->x, 1, work->slopes, work->spline);
		gsl_vector_set_zero(work->row);
		for (size_t k = 0; k < work->splines; k++)
			gsl_vector_set(work->row, k,
				       gsl_matrix_get(work->slopes, k, pin->of_slope));
		add_equation(work->held, work->held_right, work->row, weight * PIN_WEIGHT,
			     pin->value);
	}
}

static void add_knowledge(struct work *work)
{
	const struct smooth_ask *ask = work->ask;

	for (size_t k = 0; k < ask->extra_count; k++) {
		gsl_vector_set_zero(work->row);
		gsl_vector_set(work->row, work->splines + k, 1.0);
		add_equation(work->held, work->held_right, work->row, ask->extra[k].weight,
			     ask->extra[k].value);
	}
}

/* Squares of how much the line through the coefficients bends at each of them,
 * drawn over the places that they stand for (Greville's): straight curves are free. */
static void add_bends(struct work *work)
{
	for (size_t i = 0; i + 2 < work->splines; i++) {
		double g0 = gsl_bspline_greville_abscissa(i, work->spline);
		double g1 = gsl_bspline_greville_abscissa(i + 1, work->spline);
		double g2 = gsl_bspline_greville_abscissa(i + 2, work->spline);
		gsl_vector_set_zero(work->row);
		gsl_vector_set(work->row, i, 1.0 / (g1 - g0));
		gsl_vector_set(work->row, i + 1, -1.0 / (g1 - g0) - 1.0 / (g2 - g1));
		gsl_vector_set(work->row, i + 2, 1.0 / (g2 - g1));
		(void)gsl_blas_dsyr(CblasLower, 1.0, work->row, work->bends);
	}
}

static double trace_of(const gsl_matrix *matrix)
{
	double sum = 0.0;

	for (size_t i = 0; i < matrix->size1; i++)
		sum += gsl_matrix_get(matrix, i, i);
	return sum;
}

/* Coefficients at one price of bends, and the points' part in them. False when
 * the points do not determine the curve. */
static bool solve(struct work *work, double price, double *freedom)
{
	(void)gsl_matrix_memcpy(work->sum, work->bends);
	(void)gsl_matrix_scale(work->sum, price);
	(void)gsl_matrix_add(work->sum, work->normal);
	(void)gsl_matrix_add(work->sum, work->held);
	(void)gsl_vector_memcpy(work->target, work->right);
	(void)gsl_vector_add(work->target, work->held_right);
	if (gsl_linalg_cholesky_decomp1(work->sum) != GSL_SUCCESS)
		return false;
	if (gsl_linalg_cholesky_solve(work->sum, work->target, work->coefficient) != GSL_SUCCESS)
		return false;
	(void)gsl_matrix_memcpy(work->inverse, work->sum);
	if (gsl_linalg_cholesky_invert(work->inverse) != GSL_SUCCESS)
		return false;
	*freedom = 0.0;
	for (size_t i = 0; i < work->count; i++)
		for (size_t k = 0; k < work->count; k++)
			*freedom += gsl_matrix_get(work->inverse, i, k) *
				    gsl_matrix_get(work->normal, i > k ? i : k, i > k ? k : i);
	return true;
}

static double squares_of(struct work *work)
{
	const struct smooth_ask *ask = work->ask;
	double sum = 0.0;

	for (size_t i = 0; i < ask->count; i++) {
		gsl_vector_view row = gsl_matrix_row(work->basis, i);
		double value = 0.0;
		(void)gsl_blas_ddot(&row.vector, work->coefficient, &value);
		sum += ask->weight[i] * (ask->y[i] - value) * (ask->y[i] - value);
	}
	return sum;
}

static double points_of_weight(const struct smooth_ask *ask)
{
	double count = 0.0;

	for (size_t i = 0; i < ask->count; i++)
		count += ask->weight[i] > 0.0;
	return count;
}

/* Price with the least cross-validation figure; each is `unit` times a power of
 * ten. Returns a negative price when none has a solution. */
static double best_price(struct work *work, double unit)
{
	double best = -1.0, least = INFINITY, count = points_of_weight(work->ask);

	for (int i = 0; i <= PRICE_STEPS; i++) {
		double power = PRICE_LEAST + (PRICE_MOST - PRICE_LEAST) * i / PRICE_STEPS, freedom;
		double price = unit * pow(10.0, power);
		if (!solve(work, price, &freedom))
			continue;
		double left = 1.0 - FREEDOM_COUNTS * freedom / count;
		if (left <= 0.0)
			continue;
		double figure = squares_of(work) / (left * left);
		if (figure < least) {
			least = figure;
			best = price;
		}
	}
	return best;
}

/* The spline as value and slope at the ends of its pieces, which is all of it. */
static enum fault make_curve(struct smooth *out, struct work *work, struct fault_list *faults)
{
	const struct smooth_ask *ask = work->ask;
	struct curve *curve = &out->curve;

	*curve = (struct curve){ .count = ask->pieces + 1,
				 .x = mem_array(ask->pieces + 1, sizeof(double)),
				 .y = mem_array(ask->pieces + 1, sizeof(double)),
				 .slope = mem_array(ask->pieces + 1, sizeof(double)) };
	if (!curve->x || !curve->y || !curve->slope)
		return fault_no_memory(faults, "a smooth curve");
	for (size_t i = 0; i < curve->count; i++) {
		double x = ask->from + (ask->to - ask->from) * (double)i / (double)ask->pieces;
		curve->x[i] = fmin(x, ask->to);
		(void)gsl_bspline_deriv_eval(curve->x[i], 1, work->slopes, work->spline);
		for (size_t k = 0; k < work->splines; k++) {
			double c = gsl_vector_get(work->coefficient, k);
			curve->y[i] += c * gsl_matrix_get(work->slopes, k, 0);
			curve->slope[i] += c * gsl_matrix_get(work->slopes, k, 1);
		}
	}
	for (size_t k = 0; k < ask->extra_count; k++)
		out->amount[k] = gsl_vector_get(work->coefficient, work->splines + k);
	return FAULT_NONE;
}

static enum fault not_determined(const struct smooth_ask *ask, struct fault_list *faults)
{
	return fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
			 "%zu points do not determine a curve of %zu pieces.", ask->count,
			 ask->pieces);
}

enum fault smooth_fit(struct smooth *out, const struct smooth_ask *ask, struct fault_list *faults)
{
	struct work work;

	*out = (struct smooth){ 0 };
	if (ask->pieces < 1 || ask->pieces > SMOOTH_PIECES_MAX || !(ask->to > ask->from) ||
	    points_of_weight(ask) < 1.0)
		return not_determined(ask, faults);
	enum fault fault = make_work(&work, ask, faults);
	if (fault)
		goto cleanup;
	double whole = add_points(&work);
	add_pins(&work, whole);
	add_knowledge(&work);
	add_bends(&work);
	double unit = trace_of(work.normal) / trace_of(work.bends);
	double price = ask->price == PRICE_FOUND  ? best_price(&work, unit)
		       : ask->price == PRICE_NONE ? unit * PRICE_OF_NOTHING
						  : unit * pow(10.0, PRICE_MOST);
	if (price < 0.0 || !solve(&work, price, &out->freedom)) {
		fault = not_determined(ask, faults);
		goto cleanup;
	}
	out->squares = squares_of(&work);
	fault = make_curve(out, &work, faults);
cleanup:
	free_work(&work);
	return fault;
}

void smooth_free(struct smooth *smooth)
{
	if (!smooth)
		return;
	curve_free(&smooth->curve);
}
