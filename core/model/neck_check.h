/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the settings of a neck agree with each other. */
#ifndef NECKHEW_MODEL_NECK_CHECK_H
#define NECKHEW_MODEL_NECK_CHECK_H

#include "base/fault.h"
#include "model/neck_spec.h"

/* Least thickness of wood a shaft can have, mm. */
#define NECK_LEAST_WOOD_MM 3.0

/* Adds every disagreement found and returns the first code. A spec that passes
 * can be built safely (it may still be refused, with a reason). */
enum fault neck_check(const struct neck_spec *spec, struct fault_list *faults);

#endif
