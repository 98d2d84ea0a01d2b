/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One side of a section as a half-breadth over the height fraction v: 1 at the
 * gluing face (v = 0), falling to the crest (v = 1); times the half-width at
 * the gluing face it gives mm. Families are a table in section.c. */
#ifndef NECKHEW_MODEL_SECTION_H
#define NECKHEW_MODEL_SECTION_H

#include <stdbool.h>

#include "base/fault.h"
#include "model/measured.h"
#include "model/neck_spec.h"

struct section {
	enum section_family family;
	double p[2]; /* the family's own figures, made by section_make */
	struct measured measured; /* SECTION_MEASURED */
};

/* Makes the section of `spec` for a place `half_width_mm` wide and
 * `height_mm` high. `setting` is the path of the station's shape for messages,
 * such as "stations[1]". A figure outside the family's range is FAULT_SETTING. */
enum fault section_make(struct section *out, const struct section_spec *spec, double half_width_mm,
			double height_mm, const char *setting, struct fault_list *faults);

/* Half-breadth share at v in [0, 1]. */
double section_share(const struct section *section, double v);

/* The family's letter as the trade uses it, for example "C", or word. */
const char *section_family_name(enum section_family family);

/* Share of a superellipse |b|^n + v^n = 1. Source: Lame curve. */
double section_superellipse(double v, double exponent);

#endif
