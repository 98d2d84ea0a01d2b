/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heel's half-breadths: what each kind of heel makes of the shaft's
 * section. Kinds are a table in heel.c. */
#ifndef NECKHEW_MODEL_HEEL_H
#define NECKHEW_MODEL_HEEL_H

#include <stddef.h>

#include "model/cap_plan.h"
#include "model/crest.h"
#include "model/neck_spec.h"

/* Stretches of x that a heel has blends in, each with the widest piece that
 * follows it, mm: a table of waterlines lays its knots by them. */
#define HEEL_STRETCHES_MAX 4
struct heel_stretch {
	double to_mm, widest_mm;
};

struct heel {
	const struct neck_spec *spec; /* the caller keeps both alive */
	const struct crest *crest;
	/* HEEL_BLOCK */
	struct cap_plan_curve plan;
	double open_from_mm; /* the nose turns from a dome to the cap's plan from here ... */
	double open_to_mm; /* ... and the cap's sides begin here */
};

struct heel heel_make(const struct neck_spec *spec, const struct crest *crest);

/* Half-breadth at the height fraction v, mm, x from the heel's start on, where
 * the shaft's share at that fraction is `share`. Falls with v; at v = 0 it is
 * the wood's half-width, except past the joint of a set heel. */
double heel_breadth_mm(const struct heel *heel, double x_mm, double share, double v);

/* The same for the heel alone, without the shaft's section that turns into it. */
double heel_own_breadth_mm(const struct heel *heel, double x_mm, double v);

/* Half-width of a block heel's cap between its straight sides, gone on with
 * under the front's curve, mm. */
double heel_cap_side_mm(const struct heel *heel, double x_mm);

/* How far a cheek dips at v, mm: a parabola between the two rims. */
double heel_hollow_mm(const struct heel_spec *heel, double v);

/* The most it can dip so that no cheek turns outward again below the cap, for
 * half-widths at gluing face and cap, mm. */
double heel_most_hollow_mm(const struct heel_spec *heel, double foot_mm, double cap_mm);

/* x of places across which the heel's outline must be followed over v, mm;
 * returns how many. */
#define HEEL_PLACES_MAX 8
size_t heel_places_mm(const struct heel *heel, double x_mm[HEEL_PLACES_MAX]);

/* The heel's stretches from its start to the neck's end; returns how many. */
size_t heel_stretches(const struct heel *heel, struct heel_stretch out[HEEL_STRETCHES_MAX]);

/* The kind in a word ("block") and what begins at its own place ("cap front",
 * "slab", "tenon"). */
const char *heel_kind_name(enum heel_kind kind);
const char *heel_proper_name(enum heel_kind kind);

#endif
