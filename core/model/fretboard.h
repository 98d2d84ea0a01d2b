/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fretboard as a solid under the gluing face: straight-edged, from the
 * nut's front edge to its own end, as thick everywhere as on the centre line
 * (its crown is not taken off). Neck coordinates, mm. */
#ifndef NECKHEW_MODEL_FRETBOARD_H
#define NECKHEW_MODEL_FRETBOARD_H

#include "model/neck_spec.h"

struct fretboard {
	double x_from_mm, x_to_mm;
	double half_from_mm, half_to_mm; /* half its width at either end */
	double face_mm; /* z of its face; it reaches from there up to 0 */
};

/* `overhang_mm`: how far it goes on past the last fret. */
struct fretboard fretboard_of(const struct neck_spec *spec, double overhang_mm);

#endif
