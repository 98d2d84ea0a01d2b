/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A block heel's nose in side view: fillet out of the shaft, straight flank, a
 * turn to level at the cap's front. */
#ifndef NECKHEW_MODEL_NOSE_H
#define NECKHEW_MODEL_NOSE_H

#include "base/fault.h"
#include "model/neck_spec.h"
#include "num/curve.h"

/* Makes the nose that begins on the shaft (straight beyond its last station)
 * and is level at the heel's height at `front_mm`. Its first knot is its foot.
 * FAULT_GEOMETRY when fillet and edge alone rise higher than the heel. Release
 * with curve_free, also after a failure. */
enum fault nose_build(struct curve *out, const struct heel_spec *heel, const struct curve *shaft,
		      double front_mm, struct fault_list *faults);

/* x at which the nose reaches height z, mm; where that lies before `from_mm`, a
 * place on the nose, the straight line that touches it there instead. */
double nose_reach_mm(const struct curve *nose, double from_mm, double z_mm);

#endif
