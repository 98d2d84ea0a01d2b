/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The neck's half-breadths before they are tabulated: one function of x for
 * each waterline level and side. */
#ifndef NECKHEW_MODEL_BREADTH_H
#define NECKHEW_MODEL_BREADTH_H

#include <stddef.h>

#include "base/fault.h"
#include "model/crest.h"
#include "model/heel.h"
#include "model/neck_spec.h"
#include "model/section.h"
#include "num/curve.h"

#define BREADTH_LEVELS_MAX 1024

struct breadth {
	const struct neck_spec *spec; /* the caller keeps both alive */
	const struct crest *crest;
	struct heel heel;
	struct section section[SIDE_COUNT][NECK_STATIONS_MAX];
	size_t level_count;
	double *level; /* height fractions, 0 first, 1 last */
	/* Per level, over the stations: by how much the share exceeds the next
	 * higher level's; at the top level the share itself. */
	struct curve *excess[SIDE_COUNT];
};

/* Prepares levels and shares. The levels are laid so densely that every
 * station's section and the heel's front differ from the straight pieces between
 * them by at most TOL_SECTION_MM. Release with breadth_free, also after a
 * failure. */
enum fault breadth_build(struct breadth *out, const struct neck_spec *spec,
			 const struct crest *crest, struct fault_list *faults);
void breadth_free(struct breadth *breadth);

/* Half-breadths of all levels at x, mm, in out[level_count]. They fall with the
 * level everywhere. */
void breadth_values_mm(const struct breadth *breadth, enum neck_side side, double x_mm,
		       double *out);

#endif
