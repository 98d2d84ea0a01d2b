/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was made of points: for the table, the JSON and the neck file's lines. */
#ifndef NECKHEW_REPORT_TRACED_H
#define NECKHEW_REPORT_TRACED_H

#include <stdbool.h>
#include <stddef.h>

#include "base/units.h"
#include "model/neck_spec.h"
#include "trace/trace.h"

struct traced_station {
	double fret;
	struct trace_section section;
};

struct traced {
	enum length_unit unit; /* of the points' file, and of what is told */
	enum neck_hand hand; /* says which side lies at +y */
	bool alike; /* both sides were asked to be one shape */
	double fretboard_mm; /* to be added to the wood's thickness in the neck file */
	size_t count;
	struct traced_station station[NECK_STATIONS_MAX]; /* from the nut on */
};

/* The bass side's outline, or the treble side's. */
const struct section_outline *traced_outline(const struct traced *traced, size_t station,
					     bool bass);

#define TRACED_SENTENCE_ROOM 320

/* One note as a sentence in out[TRACED_SENTENCE_ROOM]. */
void traced_sentence(char *out, const struct traced *traced, const struct trace_note *note);

/* What the height of a station was counted from, in words. */
const char *traced_datum(enum trace_datum datum);

#endif
