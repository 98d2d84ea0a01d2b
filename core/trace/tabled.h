/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A fitted outline as the neck file will tell it: two tables of rounded shares,
 * made to rise and fall as a section must. Distances are to what the model makes
 * of these tables, not to the fit. */
#ifndef NECKHEW_TRACE_TABLED_H
#define NECKHEW_TRACE_TABLED_H

#include "base/fault.h"
#include "model/measured.h"
#include "model/neck_spec.h"
#include "trace/outline_fit.h"
#include "trace/trace_point.h"

/* Points of each table, and of the line that distances are taken to. */
#define TABLED_POINTS 17
#define TABLED_STEPS ((size_t)400)

struct tabled {
	double half_width_mm, height_mm; /* the edges and the crest of the tables */
	struct section_outline outline[2]; /* by neck side: at -y, at +y */
	double lean_mm; /* most that the fit stood out over what lies below it */
	struct trace_place lean_at;
	/* the outline from the +y edge to the other, mm */
	struct trace_place line[2 * TABLED_STEPS + 1];
};

/* Makes the tables of a fit. FAULT_GEOMETRY when it is no section: so rough or flat
 * that too few points remain. */
enum fault tabled_make(struct tabled *out, const struct outline_fit *fit,
		       struct fault_list *faults);

/* Distance of a place from the outline, mm, positive outside. Below the gluing
 * face the flanks go on upright. */
double tabled_off_mm(const struct tabled *tabled, struct trace_place place);

/* Most that one side lies off the other mirrored, mm. */
double tabled_difference_mm(const struct tabled *tabled);

#endif
