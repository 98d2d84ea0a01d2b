/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "base/tol.h"
#include "program/write_private.h"

/* The axes of an arc's plane, first the one that I, J or K is named after. */
struct plane_axes {
	enum axis first, second;
	const char *code;
};
static const struct plane_axes planes[] = {
	[PLANE_XY] = { AXIS_X, AXIS_Y, "G17" }, [PLANE_XZ] = { AXIS_X, AXIS_Z, "G18" }
};

/* Ends and centre in last decimals, in the two axes of the plane. */
struct arc_words {
	long long to[2], centre[2]; /* the centre from the start */
};

/* False when some figure cannot be stated, or the arc would no longer lie in its
 * plane, or its radii no longer agree. */
static bool scale_arc(struct arc_words *words, const struct writer *writer,
		      const struct motion *last, const struct motion_arc *arc)
{
	const struct plane_axes *axes = &planes[arc->plane];
	const double to_mm[AXIS_COUNT] = { last->to.x, last->to.y, last->to.z };
	const double centre_mm[AXIS_COUNT] = { arc->centre.x, arc->centre.y, arc->centre.z };
	const enum axis axis[2] = { axes->first, axes->second };
	long long place[AXIS_COUNT], centre;

	for (int i = 0; i < AXIS_COUNT; i++)
		if (!write_scale_length(writer, &place[i], to_mm[i]))
			return false;
	const enum axis across = arc->plane == PLANE_XY ? AXIS_Z : AXIS_Y;
	if (place[across] != writer->at[across])
		return false;
	double start[2], end[2];
	for (int i = 0; i < 2; i++) {
		if (!write_scale_length(writer, &centre, centre_mm[axis[i]]))
			return false;
		words->to[i] = place[axis[i]];
		words->centre[i] = centre - writer->at[axis[i]];
		start[i] = (double)words->centre[i];
		end[i] = (double)(words->to[i] - centre);
	}
	const double apart = fabs(hypot(start[0], start[1]) - hypot(end[0], end[1]));
	return apart * machine_resolution_mm(writer->machine) <= TOL_ARC_RADII_MM * 1.001;
}

static bool takes_arc(const struct writer *writer, const struct motion_arc *arc)
{
	const enum arc_ability arcs = writer->machine->reads.arcs;

	return arc->moves > 0 && writer->known == KNOWN_ALL &&
	       (arc->plane == PLANE_XY ? arcs != ARCS_NONE : arcs == ARCS_XY_XZ);
}

static void note_place(struct writer *writer, const struct arc_words *words, enum arc_plane plane)
{
	writer->at[planes[plane].first] = words->to[0];
	writer->at[planes[plane].second] = words->to[1];
}

/* Both axes of the plane and both words of the centre stand in it,
 * changed or not: controls differ in what they take for granted. */
enum fault write_arc(struct writer *writer, const struct motion *first, bool *written)
{
	const struct motion_arc *arc = &first->arc;
	const struct plane_axes *axes = &planes[arc->plane];
	const long long feed = write_scale_feed(writer, first->feed_mm_per_min);
	struct write_line line = { .length = 0 };
	struct arc_words words;
	enum fault fault = FAULT_NONE;

	*written = false;
	if (!takes_arc(writer, arc) || !scale_arc(&words, writer, first + arc->moves - 1, arc))
		return FAULT_NONE;
	if (feed <= 0)
		return write_feed_is_bad(writer);
	write_line_word(&line, 'G', arc->clockwise ? "2" : "3");
	write_add_place(writer, &line, "XYZ"[axes->first], words.to[0]);
	write_add_place(writer, &line, "XYZ"[axes->second], words.to[1]);
	write_add_place(writer, &line, "IJK"[axes->first], words.centre[0]);
	write_add_place(writer, &line, "IJK"[axes->second], words.centre[1]);
	if (!write_line_fits(&writer->lines, &line, 0))
		return FAULT_NONE;
	*written = true;
	if (arc->plane != writer->plane)
		fault = write_word(writer, axes->code);
	writer->plane = arc->plane;
	note_place(writer, &words, arc->plane);
	return fault ? fault : write_with_feed(writer, &line, feed);
}
