/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/fretboard.h"

#include "model/taper.h"

struct fretboard fretboard_of(const struct neck_spec *spec, double overhang_mm)
{
	double end_mm = taper_fret_x_mm(spec->scale_length_mm, spec->fret_count) + overhang_mm;

	return (struct fretboard){ .x_from_mm = 0.0,
				   .x_to_mm = end_mm,
				   .half_from_mm = taper_fretboard_width_mm(spec, 0.0) / 2.0,
				   .half_to_mm = taper_fretboard_width_mm(spec, end_mm) / 2.0,
				   .face_mm = -spec->fretboard_thickness_mm };
}
