/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "trace/face_line.h"

#include <stdlib.h>

#include "base/mem.h"
#include "base/units.h"

#define TILT_MOST_DEG 30.0
/* A neck's outline fills its hull from below: the hull's centroid stands lower
 * than this share of its height (a rectangle: 0.5), or it lies upside down. */
#define CENTROID_MOST 0.54
/* A hull that fills less of the square around it is a line. */
#define LEAST_FILLED 0.02
/* Edges nearer than this share of the whole width are no edges. */
#define EDGES_LEAST 0.65
/* Points of the face are looked for within these shares of half-width and height
 * (no section is so low so far inside), then within this distance of the line. */
#define FACE_INSIDE 0.75
#define FACE_INSIDE_LAST 0.9 /* when the line is nearly found */
#define FACE_LOW 0.1
#define FACE_BAND_MM 0.3
#define FACE_ROUNDS 8
/* The outer so much of the face's points must span this share of the width. */
#define FACE_SPAN 0.6
/* Single points are this far off, mm (common practice, no source), and points of a
 * line never less than that. */
#define EDGE_SCATTER_MM 0.1
#define SCATTER_LEAST_MM 0.02

struct hull {
	size_t count;
	struct trace_place *at; /* counterclockwise */
};

static int by_place(const void *a, const void *b)
{
	const struct trace_place *p = a, *q = b;

	if (p->y_mm != q->y_mm)
		return p->y_mm > q->y_mm ? 1 : -1;
	return (p->z_mm > q->z_mm) - (p->z_mm < q->z_mm);
}

/* Twice the area of the triangle a, b, c; positive counterclockwise. */
static double turn(struct trace_place a, struct trace_place b, struct trace_place c)
{
	return (b.y_mm - a.y_mm) * (c.z_mm - a.z_mm) - (b.z_mm - a.z_mm) * (c.y_mm - a.y_mm);
}

static size_t chain(struct trace_place *to, size_t from, size_t count, struct trace_place next)
{
	while (count >= from + 2 && turn(to[count - 2], to[count - 1], next) <= 0.0)
		count--;
	to[count] = next;
	return count + 1;
}

/* Convex hull, A. Andrew's monotone chain (Inf. Process. Lett. 9 (1979) 216; from
 * memory). `sorted` holds the places by y; `to` has room for twice as many. */
static size_t hull_of(struct trace_place *to, const struct trace_place *sorted, size_t count)
{
	size_t used = 0;

	for (size_t i = 0; i < count; i++)
		used = chain(to, 0, used, sorted[i]);
	size_t lower = used - 1;
	for (size_t i = count - 1; i-- > 0;)
		used = chain(to, lower, used, sorted[i]);
	return used - 1;
}

static enum fault make_hull(struct hull *out, const struct trace_point *point, size_t count,
			    struct fault_list *faults)
{
	struct trace_place *sorted = mem_array(count, sizeof *sorted);
	size_t used = 0;

	*out = (struct hull){ .at = mem_array(2 * count + 2, sizeof *out->at) };
	if (!sorted || !out->at) {
		free(sorted);
		return fault_no_memory(faults, "the hull of a section");
	}
	for (size_t i = 0; i < count; i++)
		if (point[i].fate == FATE_OUTLINE)
			sorted[used++] = (struct trace_place){ point[i].y_mm, point[i].z_mm };
	qsort(sorted, used, sizeof *sorted, by_place);
	out->count = used > 2 ? hull_of(out->at, sorted, used) : 0;
	free(sorted);
	return FAULT_NONE;
}

/* Centroid and area of a polygon (surveyor's formula). */
static double hull_area(const struct hull *hull, struct trace_place *centroid)
{
	double area2 = 0.0, y = 0.0, z = 0.0;
	struct trace_place o = hull->at[0];

	for (size_t i = 1; i + 1 < hull->count; i++) {
		struct trace_place a = hull->at[i], b = hull->at[i + 1];
		double t = turn(o, a, b);
		area2 += t;
		y += t * (o.y_mm + a.y_mm + b.y_mm) / 3.0;
		z += t * (o.z_mm + a.z_mm + b.z_mm) / 3.0;
	}
	*centroid = (struct trace_place){ y / area2, z / area2 };
	return area2 / 2.0;
}

/* Square of the hull's longer side, seen as it lies. */
static double square_of(const struct hull *hull)
{
	double y[2] = { INFINITY, -INFINITY }, z[2] = { INFINITY, -INFINITY };

	for (size_t i = 0; i < hull->count; i++) {
		y[0] = fmin(y[0], hull->at[i].y_mm);
		y[1] = fmax(y[1], hull->at[i].y_mm);
		z[0] = fmin(z[0], hull->at[i].z_mm);
		z[1] = fmax(z[1], hull->at[i].z_mm);
	}
	return fmax(pow(y[1] - y[0], 2.0), pow(z[1] - z[0], 2.0));
}

/* The hull's edge below its centroid, from left to right. */
static void edge_below(const struct hull *hull, struct trace_place centroid,
		       struct trace_place edge[2])
{
	for (size_t i = 0; i < hull->count; i++) {
		struct trace_place a = hull->at[i], b = hull->at[(i + 1) % hull->count];
		if (a.y_mm <= centroid.y_mm && b.y_mm > centroid.y_mm) {
			edge[0] = a;
			edge[1] = b;
		}
	}
}

static void set_frame(struct face_line *line)
{
	struct trace_place a = line->edge[0], b = line->edge[1];

	line->frame = (struct trace_frame){ (a.y_mm + b.y_mm) / 2.0, (a.z_mm + b.z_mm) / 2.0,
					    atan2(b.z_mm - a.z_mm, b.y_mm - a.y_mm) };
}

/* Extent of the hull seen upright; its middle becomes the frame's. */
static void measure(struct face_line *line, const struct hull *hull)
{
	double least = INFINITY, most = -INFINITY, top = -INFINITY;

	for (size_t i = 0; i < hull->count; i++) {
		struct trace_place p =
			trace_upright(&line->frame, hull->at[i].y_mm, hull->at[i].z_mm);
		least = fmin(least, p.y_mm);
		most = fmax(most, p.y_mm);
		top = fmax(top, p.z_mm);
	}
	line->half_width_mm = (most - least) / 2.0;
	line->height_mm = top;
	trace_frame_move(&line->frame, (least + most) / 2.0, 0.0);
}

/* Sums of a weighted straight line. */
struct line_sums {
	double w, y, z, yy, yz;
	double lever, squares; /* squares of y and z, unweighed */
};

/* Turns and lifts the frame onto the least-squares line of the weighed points. */
static void settle(struct trace_frame *frame, const struct line_sums *s)
{
	double y = s->y / s->w, z = s->z / s->w;
	double slope = (s->yz / s->w - y * z) / (s->yy / s->w - y * y);

	trace_frame_move(frame, 0.0, z - slope * y);
	frame->tilt_rad += atan(slope);
}

/* One round of the fit to points within `band_mm` of the line. Returns how many
 * there are and how far they span, mm. */
static size_t fit_round(struct face_line *line, const struct trace_point *point, size_t count,
			double band_mm, double inside, double *span_mm)
{
	struct line_sums s = { 0 };
	double least = INFINITY, most = -INFINITY;
	size_t met = 0;

	for (size_t i = 0; i < count; i++) {
		struct trace_place p = trace_upright(&line->frame, point[i].y_mm, point[i].z_mm);
		double share = p.z_mm / band_mm;
		if (point[i].fate != FATE_OUTLINE || fabs(share) >= 1.0 ||
		    fabs(p.y_mm) > inside * line->half_width_mm)
			continue;
		double w = (1.0 - share * share) * (1.0 - share * share);
		s.w += w;
		s.y += w * p.y_mm;
		s.z += w * p.z_mm;
		s.yy += w * p.y_mm * p.y_mm;
		s.yz += w * p.y_mm * p.z_mm;
		least = fmin(least, p.y_mm);
		most = fmax(most, p.y_mm);
		s.lever += p.y_mm * p.y_mm;
		s.squares += p.z_mm * p.z_mm;
		met++;
	}
	*span_mm = met > 0 ? most - least : 0.0;
	if (met >= FACE_POINTS_LEAST && *span_mm > FACE_SPAN * line->half_width_mm)
		settle(&line->frame, &s);
	line->lever_mm2 = s.lever;
	line->scatter_mm = fmax(SCATTER_LEAST_MM, sqrt(s.squares / fmax((double)met - 2.0, 1.0)));
	return met;
}

/* Looks for points of the face in ever narrower bands. False when there are not
 * enough; the frame is then as it was. */
static bool find_face(struct face_line *line, const struct trace_point *point, size_t count)
{
	struct trace_frame before = line->frame;
	double band = FACE_LOW * line->height_mm, span = 0.0;
	size_t met = 0;

	for (int round = 0; round < FACE_ROUNDS; round++) {
		met = fit_round(line, point, count, band,
				round < FACE_ROUNDS / 2 ? FACE_INSIDE : FACE_INSIDE_LAST, &span);
		if (met < FACE_POINTS_LEAST || span < FACE_SPAN * line->half_width_mm) {
			line->frame = before;
			return false;
		}
		band = fmax(band / 2.0, 2.0 * FACE_BAND_MM);
	}
	line->count = met;
	return true;
}

/* Near the face its points and the outline's cannot be told apart: all of them
 * are left to the face. */
static void mark_face(struct face_line *line, struct trace_point *point, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		struct trace_place p = trace_upright(&line->frame, point[i].y_mm, point[i].z_mm);
		if (point[i].fate != FATE_OUTLINE || p.z_mm > FACE_BAND_MM)
			continue;
		point[i].fate = FATE_FACE;
	}
	line->seen = true;
}

static enum fault refuse(struct fault_list *faults, const char *sentence)
{
	return fault_add(faults, FAULT_GEOMETRY, NULL, 0, NULL, "%s", sentence);
}

static enum fault look(struct face_line *out, const struct hull *hull, struct trace_point *point,
		       size_t count, struct fault_list *faults)
{
	struct trace_place centroid;

	if (hull->count < 3 || !(hull_area(hull, &centroid) > LEAST_FILLED * square_of(hull)))
		return refuse(faults, "The points lie on one line or in one place; an outline of "
				      "a section is needed.");
	edge_below(hull, centroid, out->edge);
	set_frame(out);
	measure(out, hull);
	struct trace_place middle = trace_upright(&out->frame, centroid.y_mm, centroid.z_mm);
	if (middle.z_mm > CENTROID_MOST * out->height_mm)
		return refuse(faults, "The points lie upside down: z must grow from the gluing "
				      "face out of the neck's back. Change the sign of z.");
	if (fabs(out->frame.tilt_rad) > units_rad_from_deg(TILT_MOST_DEG))
		return fault_add(faults, FAULT_GEOMETRY, NULL, 0, NULL,
				 "The edges lie on a line turned by %.1f degrees; up to %.0f can "
				 "be taken for a tilted gauge.",
				 units_deg_from_rad(out->frame.tilt_rad), TILT_MOST_DEG);
	double apart =
		hypot(out->edge[1].y_mm - out->edge[0].y_mm, out->edge[1].z_mm - out->edge[0].z_mm);
	if (find_face(out, point, count)) {
		measure(out, hull);
		mark_face(out, point, count);
		return FAULT_NONE;
	}
	out->lever_mm2 = apart * apart / 2.0;
	out->scatter_mm = EDGE_SCATTER_MM;
	if (apart < 2.0 * EDGES_LEAST * out->half_width_mm)
		return fault_add(faults, FAULT_GEOMETRY, NULL, 0, NULL,
				 "The lowest points of both sides are %.1f mm apart, the whole "
				 "is %.1f mm wide: the edges of the gluing face cannot be told. "
				 "Take points down to both edges.",
				 apart, 2.0 * out->half_width_mm);
	return FAULT_NONE;
}

enum fault face_line_find(struct face_line *out, struct trace_point *point, size_t count,
			  struct fault_list *faults)
{
	struct hull hull;

	*out = (struct face_line){ 0 };
	enum fault fault = make_hull(&hull, point, count, faults);
	if (!fault)
		fault = look(out, &hull, point, count, faults);
	free(hull.at);
	return fault;
}
