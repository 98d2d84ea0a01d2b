/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A smooth curve through scattered points by least squares: a cubic spline over
 * even pieces that is also made to pay for its bends (P. Eilers and B. Marx,
 * Statistical Science 11 (1996) 89; from memory). How dear bends are is found by
 * generalised cross-validation (P. Craven and G. Wahba, Numerische Mathematik 31
 * (1979) 377; from memory), with each freedom counted 1.4 times, which keeps it
 * from following noise (Y.-J. Kim and C. Gu, J. R. Statist. Soc. B 66 (2004) 337;
 * from memory). */
#ifndef NECKHEW_NUM_SMOOTH_H
#define NECKHEW_NUM_SMOOTH_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "num/curve.h"

#define SMOOTH_PIECES_MAX 40
#define SMOOTH_PINS_MAX 4
#define SMOOTH_EXTRAS_MAX 8

/* How dear bends are. */
enum smooth_price {
	PRICE_FOUND, /* as the points say */
	PRICE_NONE, /* nothing: plain least squares */
	PRICE_HIGHEST /* so dear that next to nothing bends */
};

/* A value, or slope, that the curve must have at x. */
struct smooth_pin {
	double x, value;
	bool of_slope;
};

/* Something besides the curve that moves the points: y = curve + amount x effect.
 * What else is known of the amount counts as one more residual. */
struct smooth_extra {
	const double *effect; /* on each point */
	double value, weight; /* what it is thought to be; weight 0: nothing is known */
};

struct smooth_ask {
	double from, to; /* the curve's ends; points lie between */
	size_t pieces; /* 1 to SMOOTH_PIECES_MAX, of equal width */
	enum smooth_price price;
	size_t count;
	const double *x, *y;
	const double *weight; /* of each point's squared residual; not negative */
	size_t pin_count;
	struct smooth_pin pin[SMOOTH_PINS_MAX];
	size_t extra_count;
	struct smooth_extra extra[SMOOTH_EXTRAS_MAX];
};

struct smooth {
	struct curve curve; /* value and slope at the ends of the pieces */
	double amount[SMOOTH_EXTRAS_MAX]; /* of the extras */
	double freedom; /* parameters that the points have moved: trace of the hat matrix */
	double squares; /* sum of weighted squared residuals */
};

/* Fits the curve. Fewer points of weight than the curve needs, or all in one
 * place, are FAULT_INTERNAL; FAULT_MEMORY. Release with smooth_free, also after a
 * failure. */
enum fault smooth_fit(struct smooth *out, const struct smooth_ask *ask, struct fault_list *faults);
void smooth_free(struct smooth *smooth);

#endif
