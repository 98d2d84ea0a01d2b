/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A blank as a saw leaves it: somewhere within the margin of what was drawn. */
#ifndef NECKHEW_TESTS_SUPPORT_REAL_BLANK_H
#define NECKHEW_TESTS_SUPPORT_REAL_BLANK_H

#include <gsl/gsl_rng.h>

#include "machine/blank.h"

/* Top and both sides wander to and fro within the drawn blank's margin, each for
 * itself, steps lie where they may, the ends stick out by up to it. The real
 * blank has no margin of its own. */
void real_blank(struct blank *out, const struct blank *drawn, const gsl_rng *rng);

#endif
