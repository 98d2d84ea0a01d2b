/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/traced.h"

#include <stdio.h>

#define LENGTH_ROOM 32

const struct section_outline *traced_outline(const struct traced *traced, size_t station, bool bass)
{
	enum neck_side side = bass == (traced->hand == HAND_RIGHT) ? SIDE_PLUS : SIDE_MINUS;

	return &traced->station[station].section.outline[side];
}

/* A length with its unit, as finely as points are measured. */
static const char *length(char out[LENGTH_ROOM], const struct traced *traced, double mm)
{
	if (traced->unit == UNIT_INCH)
		(void)snprintf(out, LENGTH_ROOM, "%.4f in", mm / units_mm_per(UNIT_INCH));
	else
		(void)snprintf(out, LENGTH_ROOM, "%.2f mm", mm);
	return out;
}

/* "y 12.30, z 4.00 mm" */
static const char *place(char out[2 * LENGTH_ROOM], const struct traced *traced,
			 struct trace_place at)
{
	double per = units_mm_per(traced->unit);
	int decimals = traced->unit == UNIT_INCH ? 3 : 1;

	(void)snprintf(out, (size_t)2 * LENGTH_ROOM, "y %.*f, z %.*f %s", decimals, at.y_mm / per,
		       decimals, at.z_mm / per, traced->unit == UNIT_INCH ? "in" : "mm");
	return out;
}

static const char *points(size_t count)
{
	return count == 1 ? "point" : "points";
}

/* Notes of points that were left out. */
static void say_points(char *out, const struct traced *traced, const struct trace_note *note)
{
	char size[LENGTH_ROOM], at[2 * LENGTH_ROOM];
	const char *what = points(note->count);

	(void)length(size, traced, note->size_mm < 0.0 ? -note->size_mm : note->size_mm);
	(void)place(at, traced, note->place);
	switch (note->kind) {
	case NOTE_DOUBLE:
		(void)snprintf(out, TRACED_SENTENCE_ROOM,
			       "%zu %s stood in the place of another and counted once (line %d).",
			       note->count, what, note->line);
		break;
	case NOTE_FAR:
		(void)snprintf(out, TRACED_SENTENCE_ROOM,
			       "%zu %s so far outside that it must be a mistake: left out. The "
			       "farthest is line %d, at %s.",
			       note->count, what, note->line, at);
		break;
	case NOTE_ASIDE:
		(void)snprintf(out, TRACED_SENTENCE_ROOM,
			       "%zu %s off the outline that the others agree on: left out. The "
			       "worst is line %d, %s off at %s.",
			       note->count, what, note->line, size, at);
		break;
	default:
		(void)snprintf(out, TRACED_SENTENCE_ROOM,
			       "So many points (%zu) lie off the outline that it may have been "
			       "taken twice, folded back, or the gauge slipped: look at them.",
			       note->count);
		break;
	}
}

static void say_shape(char *out, const struct traced *traced, const struct trace_note *note)
{
	char size[LENGTH_ROOM], at[2 * LENGTH_ROOM], to[2 * LENGTH_ROOM];

	(void)length(size, traced, note->size_mm < 0.0 ? -note->size_mm : note->size_mm);
	(void)place(at, traced, note->place);
	(void)place(to, traced, note->to);
	switch (note->kind) {
	case NOTE_HOOK:
		(void)snprintf(out, TRACED_SENTENCE_ROOM,
			       "The outline leans out by %s at %s: a hook that no cutter from "
			       "above can follow. It was made upright there.",
			       size, at);
		break;
	case NOTE_GAP:
		(void)snprintf(out, TRACED_SENTENCE_ROOM,
			       "There is no point between %s and %s (%s): the outline there is a "
			       "guess.",
			       at, to, size);
		break;
	case NOTE_FEW:
		(void)snprintf(out, TRACED_SENTENCE_ROOM,
			       "Only %zu points: their scatter hardly averages out.", note->count);
		break;
	case NOTE_WIDTH:
		(void)snprintf(out, TRACED_SENTENCE_ROOM,
			       "The points are %s %s than the width given.", size,
			       note->size_mm > 0.0 ? "wider" : "narrower");
		break;
	default:
		(void)snprintf(out, TRACED_SENTENCE_ROOM,
			       "The highest place lies beside the centre line, at y %.1f %s, %s "
			       "higher; a neck's crest is on the centre line. Were both edges "
			       "taken?",
			       note->place.y_mm / units_mm_per(traced->unit),
			       traced->unit == UNIT_INCH ? "in" : "mm", size);
		break;
	}
}

void traced_sentence(char *out, const struct traced *traced, const struct trace_note *note)
{
	if (note->kind <= NOTE_LAYERS)
		say_points(out, traced, note);
	else
		say_shape(out, traced, note);
}

const char *traced_datum(enum trace_datum datum)
{
	switch (datum) {
	case DATUM_FACE:
		return "points of the gluing face";
	case DATUM_THICKNESS:
		return "the thickness given";
	default:
		return "the lowest point of each side";
	}
}
