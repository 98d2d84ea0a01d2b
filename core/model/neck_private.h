/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The neck's own parts, for the files that make up its queries. */
#ifndef NECKHEW_MODEL_NECK_PRIVATE_H
#define NECKHEW_MODEL_NECK_PRIVATE_H

#include <math.h>
#include <stddef.h>

#include "model/crest.h"
#include "model/neck_spec.h"
#include "model/neck_table.h"

/* Checks along x walk in steps of at most this, mm, both ends included. */
#define WALK_STEP_MM 0.5

static inline size_t walk_steps(double from_mm, double to_mm)
{
	return 1 + (size_t)fmax(0.0, ceil((to_mm - from_mm) / WALK_STEP_MM));
}

static inline double walk_place(double from_mm, double to_mm, size_t i, size_t steps)
{
	return from_mm + (to_mm - from_mm) * (double)i / (double)steps;
}

struct neck {
	struct neck_spec spec;
	struct crest crest; /* points at spec */
	struct neck_table table;
};

#endif
