/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/taper.h"

#include <math.h>

double taper_fret_x_mm(double scale_length_mm, double fret)
{
	return scale_length_mm * (1.0 - exp2(-fret / 12.0));
}

double taper_neck_end_mm(const struct neck_spec *spec)
{
	double beyond_mm = spec->heel.kind == HEEL_BLOCK ? 0.0 : spec->heel.beyond_joint_mm;

	return taper_fret_x_mm(spec->scale_length_mm, spec->joint_fret) + beyond_mm;
}

double taper_fretboard_width_mm(const struct neck_spec *spec, double x_mm)
{
	double stated_x_mm = taper_fret_x_mm(spec->scale_length_mm, spec->width_fret);

	if (x_mm <= 0.0)
		return spec->nut_width_mm;
	return spec->nut_width_mm + (spec->width_mm - spec->nut_width_mm) * x_mm / stated_x_mm;
}

double taper_wood_half_width_mm(const struct neck_spec *spec, double x_mm)
{
	return taper_fretboard_width_mm(spec, x_mm) / 2.0 - spec->side_margin_mm;
}
