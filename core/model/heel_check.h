/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the heel's settings agree with each other and with the neck. */
#ifndef NECKHEW_MODEL_HEEL_CHECK_H
#define NECKHEW_MODEL_HEEL_CHECK_H

#include "base/fault.h"
#include "model/neck_spec.h"

/* Adds every disagreement found, the joint's among them, and returns the first
 * code. Lengths and widths of the neck itself must be sound. */
enum fault heel_check(const struct neck_spec *spec, struct fault_list *faults);

#endif
