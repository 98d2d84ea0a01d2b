/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random necks over the range of what builders ask for. */
#ifndef NECKHEW_TESTS_SUPPORT_ANY_NECK_H
#define NECKHEW_TESTS_SUPPORT_ANY_NECK_H

#include <gsl/gsl_rng.h>

#include "model/neck_spec.h"

/* Changes all but the joint of a good neck. Most of these necks can be built;
 * neck_build tells. */
void any_neck(struct neck_spec *neck, const gsl_rng *rng);

/* Now and then a joint stands out of a block heel's end, within its cap. */
void any_neck_joint(struct neck_spec *neck, const gsl_rng *rng);

/* Where its wood ends, x. */
double any_neck_end_mm(const struct neck_spec *neck);

/* The most stock that may stand anywhere on it. */
double any_neck_stock_mm(const struct neck_spec *neck);

#endif
