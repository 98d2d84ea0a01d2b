/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/track.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/tol.h"

/* Longest piece, mm. */
#define LONGEST_PIECE_MM 4.0
/* Up to this length the three inner points are sure to show the whole departure,
 * mm: the tightest turn of a lowest-tip surface is wider than their distance. A
 * longer piece could hide a turn between them, as a flat level hides the top of
 * a ridge that stands out of it: it is held to a finer tolerance, as if it were
 * one smooth arc, and looked at as closely as its short ones would be. */
#define SURE_PIECE_MM 1.8
/* Pieces shorter than this are jumps, mm. */
#define SHORTEST_PIECE_MM 0.008

enum fault track_add(struct track *track, struct vec3 point, struct fault_list *faults)
{
	if (track->count > 0 && vec3_distance(track->p[track->count - 1], point) < 1e-9)
		return FAULT_NONE;
	struct vec3 *grown = mem_grow(track->p, &track->capacity, track->count + 1, sizeof *grown);
	if (!grown)
		return fault_no_memory(faults, "a pass");
	track->p = grown;
	track->p[track->count++] = point;
	return FAULT_NONE;
}

void track_reverse(struct track *track)
{
	for (size_t i = 0; i < track->count / 2; i++) {
		struct vec3 swap = track->p[i];
		track->p[i] = track->p[track->count - 1 - i];
		track->p[track->count - 1 - i] = swap;
	}
}

void track_free(struct track *track)
{
	if (!track)
		return;
	free(track->p);
	*track = (struct track){ 0 };
}

double track_length_mm(const struct track *track)
{
	double sum = 0.0;

	for (size_t i = 1; i < track->count; i++)
		sum += vec3_distance(track->p[i - 1], track->p[i]);
	return sum;
}

/* Distance of a point from the straight piece a-b. */
static double off_piece(struct vec3 a, struct vec3 b, struct vec3 point)
{
	struct vec3 along = vec3_sub(b, a), to = vec3_sub(point, a);
	double length2 = vec3_dot(along, along);

	if (length2 <= 0.0)
		return vec3_length(to);
	double t = fmin(fmax(vec3_dot(to, along) / length2, 0.0), 1.0);
	return vec3_distance(point, vec3_between(a, b, t));
}

struct piece {
	double s0, s1;
	struct vec3 p0, p1;
};

static enum fault add_jump(struct track *out, const struct piece *piece, struct fault_list *faults)
{
	struct vec3 corner = piece->p0.z < piece->p1.z ? piece->p0 : piece->p1;

	if (fabs(piece->p0.z - piece->p1.z) > TOL_CHORD_MM) {
		corner.z = fmax(piece->p0.z, piece->p1.z);
		enum fault fault = track_add(out, corner, faults);
		if (fault != FAULT_NONE)
			return fault;
	}
	return track_add(out, piece->p1, faults);
}

/* A point of the curve that may be known already. */
struct known {
	bool yes;
	struct vec3 p;
};

static struct vec3 point_at(const struct track_curve *curve, double s, struct known *known)
{
	if (!known->yes)
		*known = (struct known){ true, curve->at(curve->context, s) };
	return known->p;
}

/* Whether nothing stands out of a long piece between its quarters. */
static bool smooth_all_along(const struct track_curve *curve, const struct piece *piece)
{
	double length = fabs(piece->s1 - piece->s0);
	size_t quarters = (size_t)ceil(length / SURE_PIECE_MM);

	if (quarters < 2)
		return true;
	for (size_t i = 1; i < 4 * quarters; i++) {
		if (i % quarters == 0)
			continue; /* known already */
		double s =
			piece->s0 + (piece->s1 - piece->s0) * (double)i / (4.0 * (double)quarters);
		if (off_piece(piece->p0, piece->p1, curve->at(curve->context, s)) > TOL_CHORD_MM)
			return false;
	}
	return true;
}

/* Appends everything behind p0 up to p1. `half` is the piece's middle; what is
 * worked out here becomes the middles of its halves. */
static enum fault follow(struct track *out, const struct track_curve *curve,
			 const struct piece *piece, struct known half, struct fault_list *faults)
{
	double s0 = piece->s0, s1 = piece->s1, middle = (s0 + s1) / 2.0;

	if (fabs(s1 - s0) <= SHORTEST_PIECE_MM)
		return add_jump(out, piece, faults);
	double sure = fmin(1.0, SURE_PIECE_MM / fabs(s1 - s0)), tol = TOL_CHORD_MM * sure * sure;
	struct vec3 p = point_at(curve, middle, &half);
	struct known quarter[2] = { { .yes = false }, { .yes = false } };
	bool close = off_piece(piece->p0, piece->p1, p) <= tol;
	for (int k = 0; close && k < 2; k++) {
		double s = s0 + (s1 - s0) * (k == 0 ? 0.25 : 0.75);
		close = off_piece(piece->p0, piece->p1, point_at(curve, s, &quarter[k])) <= tol;
	}
	if (close && smooth_all_along(curve, piece))
		return track_add(out, piece->p1, faults);
	struct piece first = { s0, middle, piece->p0, p };
	struct piece second = { middle, s1, p, piece->p1 };
	enum fault fault = follow(out, curve, &first, quarter[0], faults);
	return fault != FAULT_NONE ? fault : follow(out, curve, &second, quarter[1], faults);
}

enum fault track_follow(struct track *out, const struct track_curve *curve, double s0, double s1,
			struct fault_list *faults)
{
	size_t pieces = (size_t)ceil(fabs(s1 - s0) / LONGEST_PIECE_MM);
	struct vec3 last = curve->at(curve->context, s0);
	enum fault fault = track_add(out, last, faults);

	if (pieces == 0)
		return fault;
	for (size_t i = 0; i < pieces && fault == FAULT_NONE; i++) {
		struct piece piece = {
			.s0 = s0 + (s1 - s0) * (double)i / (double)pieces,
			.s1 = s0 + (s1 - s0) * (double)(i + 1) / (double)pieces,
			.p0 = last,
		};
		piece.p1 = curve->at(curve->context, piece.s1);
		fault = follow(out, curve, &piece, (struct known){ .yes = false }, faults);
		last = piece.p1;
	}
	return fault;
}
