/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measured outlines by chance. */
#ifndef NECKHEW_TESTS_SUPPORT_ANY_OUTLINE_H
#define NECKHEW_TESTS_SUPPORT_ANY_OUTLINE_H

#include <gsl/gsl_rng.h>

#include "model/neck_spec.h"

/* One that measured_make accepts: a superellipse of some fullness, here and
 * there a little fuller or leaner, taken at 5 to 24 uneven places. */
struct section_outline any_outline(const gsl_rng *rng);

/* A superellipse |b|^n + v^n = 1 at `count` even angles (to SECTION_POINTS_MAX),
 * of which `flat` of the breadth stays at the crest. */
struct section_outline outline_of(double fullness, double flat, size_t count);

/* The same without a flat, its shoulder this share of its distance from the middle
 * fuller. */
struct section_outline swollen_outline(double fullness, double swell, size_t count);

#endif
