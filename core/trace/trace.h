/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From points of one section, as a contour gauge or a caliper gives them, to a
 * measured section for the neck file. The points may be in any order, scattered,
 * shifted and tilted. What is assumed is that the lowest points of both sides are
 * the edges of the gluing face, unless points of the face itself are among them. */
#ifndef NECKHEW_TRACE_TRACE_H
#define NECKHEW_TRACE_TRACE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "model/neck_spec.h"
#include "trace/trace_point.h"

struct trace_ask {
	bool alike; /* both sides are to be one shape */
	double width_mm; /* at the gluing face; 0: as the points say */
	double thickness_mm; /* of the wood on the centre line; 0: as the points say */
};

/* What height was counted from. */
enum trace_datum { DATUM_FACE, DATUM_THICKNESS, DATUM_LOWEST };

enum trace_note_kind {
	NOTE_DOUBLE, /* count points stood at the place of another; line is the first's */
	NOTE_FAR, /* count points far outside; the farthest's line and place */
	NOTE_ASIDE, /* count points off the outline; the worst's line and place, size */
	NOTE_LAYERS, /* so many are aside that the outline may have been taken twice */
	NOTE_HOOK, /* the outline leans out, by size, at place: no cutter from above follows */
	NOTE_GAP, /* no point between place and to, size apart */
	NOTE_FEW, /* count points: the scatter is hardly averaged */
	NOTE_WIDTH, /* the points are wider than the width given by size (less: minus) */
	NOTE_CREST /* the crest lies beside the centre line, at place, size higher */
};

/* Places are upright, y from the middle, z from the gluing face. */
struct trace_note {
	enum trace_note_kind kind;
	size_t count;
	int line; /* 0: none */
	double size_mm;
	struct trace_place place, to;
};

#define TRACE_NOTES_MAX 24

struct trace_section {
	struct section_outline outline[2]; /* by neck side: at -y, at +y */
	double width_mm, thickness_mm; /* as given, or as found */
	struct trace_frame frame;
	enum trace_datum datum;
	size_t used, face, aside; /* points of the outline, of the face, left out */
	double rms_mm; /* points used to the section as the neck file tells it */
	double worst_mm; /* the farthest of them, beyond the outline positive */
	int worst_line;
	struct trace_place worst;
	double difference_mm; /* most between one side and the other mirrored */
	size_t note_count;
	struct trace_note note[TRACE_NOTES_MAX];
};

/* Finds tilt, middle and height, fits the outline and tells how far the points lie
 * from it, each square to the outline. point[].fate is set. Outlines come rounded
 * to four decimals, as they are written. FAULT_GEOMETRY says why points make no
 * section; FAULT_MEMORY. */
enum fault trace_section_make(struct trace_section *out, struct trace_point *point, size_t count,
			      const struct trace_ask *ask, struct fault_list *faults);

#endif
