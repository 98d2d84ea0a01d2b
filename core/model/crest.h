/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The neck in side view: crest (highest line of the back) and base (under side)
 * over x. From the nut side: peghead plane, transition with an optional
 * volute, shaft through the stations, then the nose and cap of a block heel or
 * the ease and slab of a flat one. */
#ifndef NECKHEW_MODEL_CREST_H
#define NECKHEW_MODEL_CREST_H

#include "base/fault.h"
#include "model/neck_spec.h"
#include "num/curve.h"

struct crest {
	const struct neck_spec *spec; /* the caller keeps it alive */
	struct curve shaft; /* wood thickness through the stations */
	struct curve nose; /* block heel: from heel_start to heel_proper */
	double heel_start_mm; /* where the shaft ends */
	double heel_proper_mm; /* cap front or slab start */
	double to_mm; /* body joint, or the slab's end */
};

/* Builds the side view of a spec whose single settings are in range. Release
 * with crest_free, also after a failure. */
enum fault crest_build(struct crest *out, const struct neck_spec *spec, struct fault_list *faults);
void crest_free(struct crest *crest);

/* z of crest and base, mm. */
double crest_value_mm(const struct crest *crest, double x_mm);
double crest_base_mm(const struct crest *crest, double x_mm);

/* Wood thickness of a station: what is stated, less the fretboard if the
 * caliper spanned it. */
double crest_station_wood_mm(const struct neck_spec *spec, size_t station);

#endif
