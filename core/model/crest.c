/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/crest.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/units.h"
#include "model/taper.h"
#include "num/blend.h"

/* The cap's front edge is rounded this much in side view, mm, as a sharp edge
 * would splinter under the hand tools (common practice, no source). */
#define NOSE_EDGE_RADIUS_MM 1.5
#define FILLET_KNOTS 28
#define EDGE_KNOTS 12
#define NOSE_KNOTS_MAX (FILLET_KNOTS + EDGE_KNOTS + 4)
/* The nose's foot slides along the shaft until its height fits; the shaft is
 * so flat that each round gains two digits. */
#define FOOT_ROUNDS 60

double crest_station_wood_mm(const struct neck_spec *spec, size_t station)
{
	double thickness_mm = spec->station[station].thickness_mm;

	return spec->over_fretboard ? thickness_mm - spec->fretboard_thickness_mm : thickness_mm;
}

static enum fault build_shaft(struct crest *crest, struct fault_list *faults)
{
	const struct neck_spec *spec = crest->spec;
	double x[NECK_STATIONS_MAX], z[NECK_STATIONS_MAX];

	for (size_t i = 0; i < spec->station_count; i++) {
		x[i] = taper_fret_x_mm(spec->scale_length_mm, spec->station[i].fret);
		z[i] = crest_station_wood_mm(spec, i);
	}
	return curve_steffen(&crest->shaft, spec->station_count, x, z, faults);
}

/* Side view of the nose as a path whose slope angle rises from the shaft's to
 * the nose angle through the fillet, stays, and falls to level over the edge.
 * Positions are relative to the path's start. */
struct nose_path {
	size_t count;
	double x[NOSE_KNOTS_MAX], z[NOSE_KNOTS_MAX], angle[NOSE_KNOTS_MAX];
};

/* Appends an arc that turns smoothly from angle a0 to a1: the angle follows
 * 3u^2 - 2u^3 along its length, so its curvature starts and ends at zero and
 * is tightest, 1/radius, in the middle. Simpson's rule between knots. */
static void append_turn(struct nose_path *path, double a0, double a1, double radius_mm,
			size_t knots)
{
	double length = 1.5 * radius_mm * fabs(a1 - a0), ds = length / (double)knots;

	for (size_t i = 0; i < knots; i++) {
		double sum_x = 0.0, sum_z = 0.0, angle = a0;
		for (int k = 0; k <= 8; k++) {
			double u = ((double)i + (double)k / 8.0) / (double)knots;
			double weight = k == 0 || k == 8 ? 1.0 : (k % 2 ? 4.0 : 2.0);
			angle = a0 + (a1 - a0) * u * u * (3.0 - 2.0 * u);
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

static enum fault store_nose(struct crest *crest, const struct nose_path *path,
			     struct fault_list *faults)
{
	struct curve *nose = &crest->nose;
	double foot_z = curve_value(&crest->shaft, crest->heel_start_mm);

	nose->count = path->count;
	nose->x = mem_array(path->count, sizeof(double));
	nose->y = mem_array(path->count, sizeof(double));
	nose->slope = mem_array(path->count, sizeof(double));
	if (!nose->x || !nose->y || !nose->slope)
		return fault_no_memory(faults, "the heel's nose");
	for (size_t i = 0; i < path->count; i++) {
		nose->x[i] = crest->heel_start_mm + path->x[i];
		nose->y[i] = foot_z + path->z[i];
		nose->slope[i] = tan(path->angle[i]);
	}
	return FAULT_NONE;
}

static enum fault build_block_heel(struct crest *crest, struct fault_list *faults)
{
	const struct heel_spec *heel = &crest->spec->heel;
	struct nose_path path;
	double straight = 0.0;

	crest->to_mm = taper_neck_end_mm(crest->spec);
	crest->heel_proper_mm = crest->to_mm - heel->cap_length_mm;
	crest->heel_start_mm = crest->heel_proper_mm;
	for (int round = 0; round < FOOT_ROUNDS; round++) {
		double foot_x = crest->heel_start_mm;
		double angle = atan(curve_slope(&crest->shaft, foot_x));
		straight = make_path(&path, heel, angle,
				     heel->height_mm - curve_value(&crest->shaft, foot_x));
		crest->heel_start_mm = crest->heel_proper_mm - path.x[path.count - 1];
		if (fabs(crest->heel_start_mm - foot_x) < 1e-12)
			break;
	}
	if (straight < 0.0)
		return fault_add(faults, FAULT_GEOMETRY, NULL, 0, "heel.nose_radius",
				 "A nose radius of %.4g mm rises %.4g mm more than the heel's "
				 "height of %.4g mm allows. Make the radius smaller or the heel "
				 "taller.",
				 heel->nose_radius_mm, -straight * sin(heel->nose_angle_rad),
				 heel->height_mm);
	return store_nose(crest, &path, faults);
}

static void place_flat_heel(struct crest *crest)
{
	const struct neck_spec *spec = crest->spec;

	crest->to_mm = taper_neck_end_mm(spec);
	crest->heel_proper_mm = crest->to_mm - spec->heel.slab_length_mm;
	crest->heel_start_mm = crest->heel_proper_mm - spec->heel.ease_length_mm;
}

/* The heel must begin after the last station, or two rules would shape one
 * place. */
static enum fault check_heel_place(const struct crest *crest, struct fault_list *faults)
{
	const struct neck_spec *spec = crest->spec;
	double last_mm =
		taper_fret_x_mm(spec->scale_length_mm, spec->station[spec->station_count - 1].fret);

	if (crest->heel_start_mm > last_mm + 1.0)
		return FAULT_NONE;
	return fault_add(faults, FAULT_GEOMETRY, NULL, 0, "heel",
			 "The heel begins %.4g mm from the nut, but the last station (fret %.4g) "
			 "lies at %.4g mm. Shorten the heel (length, nose radius) or leave that "
			 "station out.",
			 crest->heel_start_mm, spec->station[spec->station_count - 1].fret,
			 last_mm);
}

enum fault crest_build(struct crest *out, const struct neck_spec *spec, struct fault_list *faults)
{
	*out = (struct crest){ .spec = spec };
	enum fault fault = build_shaft(out, faults);
	if (fault != FAULT_NONE)
		return fault;
	if (spec->heel.kind == HEEL_BLOCK)
		fault = build_block_heel(out, faults);
	else
		place_flat_heel(out);
	if (fault != FAULT_NONE)
		return fault;
	return check_heel_place(out, faults);
}

void crest_free(struct crest *crest)
{
	if (!crest)
		return;
	curve_free(&crest->shaft);
	curve_free(&crest->nose);
}

/* z of the peghead's back plane, continued to any x. */
static double peghead_back_mm(const struct peghead_spec *peghead, double x_mm)
{
	return peghead->thickness_mm / cos(peghead->angle_rad) - x_mm * tan(peghead->angle_rad);
}

/* A bump of continuous curvature in the middle of the transition. */
static double volute_mm(const struct peghead_spec *peghead, double x_mm)
{
	if (peghead->volute_height_mm <= 0.0)
		return 0.0;
	double u = (x_mm + peghead->transition_mm / 2.0) / (peghead->volute_length_mm / 2.0);
	double rest = 1.0 - u * u;
	return rest > 0.0 ? peghead->volute_height_mm * rest * rest * rest : 0.0;
}

static double transition_mm(const struct crest *crest, double x_mm)
{
	const struct peghead_spec *peghead = &crest->spec->peghead;
	double width = peghead->transition_mm, t = (x_mm + width) / width;

	return blend_lines(t, width, peghead_back_mm(peghead, -width), -tan(peghead->angle_rad),
			   curve_value(&crest->shaft, 0.0), curve_slope(&crest->shaft, 0.0)) +
	       volute_mm(peghead, x_mm);
}

static double heel_mm(const struct crest *crest, double x_mm)
{
	if (x_mm >= crest->heel_proper_mm)
		return crest->spec->heel.height_mm;
	if (crest->spec->heel.kind == HEEL_BLOCK)
		return curve_value(&crest->nose, x_mm);
	double width = crest->heel_proper_mm - crest->heel_start_mm;
	return blend_lines((x_mm - crest->heel_start_mm) / width, width,
			   curve_value(&crest->shaft, crest->heel_start_mm),
			   curve_slope(&crest->shaft, crest->heel_start_mm),
			   crest->spec->heel.height_mm, 0.0);
}

double crest_value_mm(const struct crest *crest, double x_mm)
{
	const struct peghead_spec *peghead = &crest->spec->peghead;

	if (x_mm < -peghead->transition_mm)
		return peghead_back_mm(peghead, x_mm);
	if (x_mm < 0.0)
		return transition_mm(crest, x_mm);
	if (x_mm <= crest->heel_start_mm)
		return curve_value(&crest->shaft, x_mm);
	return heel_mm(crest, x_mm);
}

double crest_base_mm(const struct crest *crest, double x_mm)
{
	return x_mm < 0.0 ? -x_mm * tan(crest->spec->peghead.angle_rad) : 0.0;
}
