/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lengths known of stations, as options tell them: "43.5", or "nut=43.5,11=53.2". */
#ifndef NECKHEW_CLI_KNOWN_LENGTHS_H
#define NECKHEW_CLI_KNOWN_LENGTHS_H

#include <stddef.h>

#include "base/fault.h"
#include "base/units.h"
#include "model/neck_spec.h"

struct known_lengths {
	size_t count;
	double fret[NECK_STATIONS_MAX], mm[NECK_STATIONS_MAX];
	double everywhere_mm; /* a single one without a fret; 0 for none */
};

/* Reads an option's text; NULL leaves nothing known. FAULT_USAGE names the option
 * and what is wrong, also when a length is not `least_mm` to `most_mm`. */
enum fault known_lengths_read(struct known_lengths *out, const char *option, const char *text,
			      enum length_unit unit, double least_mm, double most_mm,
			      struct fault_list *faults);

/* What is known at a fret, mm; 0 for nothing. */
double known_lengths_at(const struct known_lengths *known, double fret);

#endif
