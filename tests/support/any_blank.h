/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random blanks for a neck. */
#ifndef NECKHEW_TESTS_SUPPORT_ANY_BLANK_H
#define NECKHEW_TESTS_SUPPORT_ANY_BLANK_H

#include <gsl/gsl_rng.h>

#include "machine/blank.h"
#include "model/neck_spec.h"

/* Sawn close around the neck or wide, with a block for the heel glued on where it
 * is tall, and long enough at the peghead for a clamp. Sets the outlines alone. */
void any_blank(struct blank *blank, const struct neck_spec *neck, const gsl_rng *rng);

#endif
