/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/crest.h"

#include <math.h>

#include "model/nose.h"
#include "model/taper.h"
#include "num/blend.h"

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

static enum fault build_block_heel(struct crest *crest, struct fault_list *faults)
{
	const struct heel_spec *heel = &crest->spec->heel;

	crest->to_mm = taper_neck_end_mm(crest->spec);
	crest->heel_proper_mm = crest->to_mm - heel->cap_length_mm;
	enum fault fault =
		nose_build(&crest->nose, heel, &crest->shaft, crest->heel_proper_mm, faults);
	if (!fault)
		crest->heel_start_mm = crest->nose.x[0];
	return fault;
}

/* A slab is measured from the neck's end, a tenon begins at the body joint. */
static void place_eased_heel(struct crest *crest)
{
	const struct neck_spec *spec = crest->spec;

	crest->to_mm = taper_neck_end_mm(spec);
	crest->heel_proper_mm = spec->heel.kind == HEEL_SET
					? taper_fret_x_mm(spec->scale_length_mm, spec->joint_fret)
					: crest->to_mm - spec->heel.slab_length_mm;
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
		place_eased_heel(out);
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
