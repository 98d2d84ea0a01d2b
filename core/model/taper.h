/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Frets and the fretboard's straight edges. Lengths mm. */
#ifndef NECKHEW_MODEL_TAPER_H
#define NECKHEW_MODEL_TAPER_H

#include "model/neck_spec.h"

/* Distance of fret n from the nut: L (1 - 2^(-n/12)), twelve-tone equal
 * temperament. n may be a fraction. */
double taper_fret_x_mm(double scale_length_mm, double fret);

/* Where the neck ends: at the body joint, or as far past it as a heel without
 * a cap goes, mm from the nut. */
double taper_neck_end_mm(const struct neck_spec *spec);

/* Full width of the fretboard at x: the straight line through the two stated
 * widths, held at the nut's width in front of the nut. */
double taper_fretboard_width_mm(const struct neck_spec *spec, double x_mm);

/* Half-width of the wood at the gluing face, same rules, less the margin. */
double taper_wood_half_width_mm(const struct neck_spec *spec, double x_mm);

#endif
