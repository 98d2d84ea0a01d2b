/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/nose.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"

/* The cap's front edge is rounded this much in side view, mm, as a sharp edge
 * would splinter under the hand tools (common practice, no source). */
#define NOSE_EDGE_RADIUS_MM 1.5
#define FILLET_KNOTS 48
#define EDGE_KNOTS 12
#define NOSE_KNOTS_MAX (FILLET_KNOTS + EDGE_KNOTS + 4)
/* The nose's foot slides along the shaft until its height fits; the shaft is
 * so flat that each round gains two digits. */
#define FOOT_ROUNDS 60
/* A turn's curvature rises over this share of its length, falls over as much
 * at its end, and is that of its radius in between. */
#define TURN_EASE 0.25
/* Search for a height stops at this width of the bracket, mm. */
#define REACH_END_MM 1e-10

/* Side view of the nose as a path whose slope angle rises from the shaft's to
 * the nose angle through the fillet, stays, and falls to level over the edge.
 * Positions are relative to the path's start. */
struct nose_path {
	size_t count;
	double x[NOSE_KNOTS_MAX], z[NOSE_KNOTS_MAX], angle[NOSE_KNOTS_MAX];
};

/* Share of a turn's angle that is done at the share u of its length: the
 * integral of a curvature that rises evenly, stays and falls evenly. */
static double turned_share(double u)
{
	double whole = 1.0 - TURN_EASE;

	if (u < TURN_EASE)
		return u * u / (2.0 * TURN_EASE * whole);
	if (u > 1.0 - TURN_EASE)
		return 1.0 - (1.0 - u) * (1.0 - u) / (2.0 * TURN_EASE * whole);
	return (u - TURN_EASE / 2.0) / whole;
}

/* Appends a turn from angle a0 to a1, a circle's arc between two easements on
 * which the curvature starts and ends at zero. Simpson's rule between knots. */
static void append_turn(struct nose_path *path, double a0, double a1, double radius_mm,
			size_t knots)
{
	double length = radius_mm * fabs(a1 - a0) / (1.0 - TURN_EASE);
	double ds = length / (double)knots;

	for (size_t i = 0; i < knots; i++) {
		double sum_x = 0.0, sum_z = 0.0, angle = a0;
		for (int k = 0; k <= 8; k++) {
			double u = ((double)i + (double)k / 8.0) / (double)knots;
			double weight = k == 0 || k == 8 ? 1.0 : (k % 2 ? 4.0 : 2.0);
			angle = a0 + (a1 - a0) * turned_share(u);
			sum_x += weight * cos(angle);
			sum_z += weight * sin(angle);
		}
		size_t n = path->count++;
		path->x[n] = path->x[n - 1] + sum_x * ds / 24.0;
		path->z[n] = path->z[n - 1] + sum_z * ds / 24.0;
		path->angle[n] = angle;
	}
}

/* The whole path for a rise of `rise_mm`; returns the length of its straight
 * part, negative when fillet and edge alone rise higher. */
static double make_path(struct nose_path *path, const struct heel_spec *heel, double start_angle,
			double rise_mm)
{
	struct nose_path edge = { .count = 1, .angle = { heel->nose_angle_rad } };

	*path = (struct nose_path){ .count = 1, .angle = { start_angle } };
	append_turn(path, start_angle, heel->nose_angle_rad, heel->nose_radius_mm, FILLET_KNOTS);
	append_turn(&edge, heel->nose_angle_rad, 0.0, NOSE_EDGE_RADIUS_MM, EDGE_KNOTS);
	double fillet_rise = path->z[path->count - 1], edge_rise = edge.z[edge.count - 1];
	double straight = (rise_mm - fillet_rise - edge_rise) / sin(heel->nose_angle_rad);
	double dx = path->x[path->count - 1] + straight * cos(heel->nose_angle_rad);
	double dz = fillet_rise + straight * sin(heel->nose_angle_rad);
	size_t first = straight > 1e-3 ? (size_t)0 : (size_t)1;
	for (size_t i = first; i < edge.count; i++) {
		size_t n = path->count++;
		path->x[n] = dx + edge.x[i];
		path->z[n] = dz + edge.z[i];
		path->angle[n] = edge.angle[i];
	}
	return straight;
}

static enum fault store(struct curve *nose, const struct nose_path *path, double foot_x,
			double foot_z, struct fault_list *faults)
{
	nose->count = path->count;
	nose->x = mem_array(path->count, sizeof(double));
	nose->y = mem_array(path->count, sizeof(double));
	nose->slope = mem_array(path->count, sizeof(double));
	if (!nose->x || !nose->y || !nose->slope)
		return fault_no_memory(faults, "the heel's nose");
	for (size_t i = 0; i < path->count; i++) {
		nose->x[i] = foot_x + path->x[i];
		nose->y[i] = foot_z + path->z[i];
		nose->slope[i] = tan(path->angle[i]);
	}
	return FAULT_NONE;
}

enum fault nose_build(struct curve *out, const struct heel_spec *heel, const struct curve *shaft,
		      double front_mm, struct fault_list *faults)
{
	struct nose_path path;
	double straight = 0.0, foot_mm = front_mm;

	*out = (struct curve){ 0 };
	for (int round = 0; round < FOOT_ROUNDS; round++) {
		double before = foot_mm;
		straight = make_path(&path, heel, atan(curve_slope(shaft, before)),
				     heel->height_mm - curve_value(shaft, before));
		foot_mm = front_mm - path.x[path.count - 1];
		if (fabs(foot_mm - before) < 1e-12)
			break;
	}
	if (straight < 0.0)
		return fault_add(faults, FAULT_GEOMETRY, NULL, 0, "heel.nose_radius",
				 "A nose radius of %.4g mm rises %.4g mm more than the heel's "
				 "height of %.4g mm allows. Make the radius smaller or the heel "
				 "taller.",
				 heel->nose_radius_mm, -straight * sin(heel->nose_angle_rad),
				 heel->height_mm);
	return store(out, &path, foot_mm, curve_value(shaft, foot_mm), faults);
}

/* Where the rising cubic piece behind knot i reaches z: Newton's step kept
 * inside a bracket. */
static double reach_in_piece(const struct curve *nose, size_t i, double z_mm)
{
	double low = nose->x[i], high = nose->x[i + 1], rise = nose->y[i + 1] - nose->y[i];
	double x = rise > 0.0 ? low + (high - low) * (z_mm - nose->y[i]) / rise : low;

	while (high - low > REACH_END_MM) {
		double off = curve_value(nose, x) - z_mm, slope = curve_slope(nose, x);
		if (off > 0.0)
			high = x;
		else
			low = x;
		double next = x - off / slope;
		if (fabs(next - x) < REACH_END_MM)
			return next;
		x = next > low && next < high ? next : (low + high) / 2.0;
	}
	return x;
}

double nose_reach_mm(const struct curve *nose, double from_mm, double z_mm)
{
	size_t low = 0, high = nose->count - 1;
	double from_z = curve_value(nose, from_mm);

	if (z_mm <= from_z)
		return from_mm - (from_z - z_mm) / curve_slope(nose, from_mm);
	if (z_mm >= nose->y[high])
		return nose->x[high];
	while (high - low > 1) {
		size_t middle = (low + high) / 2;
		if (nose->y[middle] <= z_mm)
			low = middle;
		else
			high = middle;
	}
	return reach_in_piece(nose, low, z_mm);
}
