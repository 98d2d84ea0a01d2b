/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scallops left between neighbouring lines of a ball. Lengths mm. */
#ifndef NECKHEW_PATH_SCALLOP_H
#define NECKHEW_PATH_SCALLOP_H

/* Height of the scallop between two lines `spacing` apart along the surface on
 * which the ball's centre runs, for a flat: R - sqrt(R^2 - s^2 / 4). On convex
 * surfaces it is lower, as the contacts lie closer than the centres. General
 * geometry. Spacings beyond the diameter give the radius. */
double scallop_height_mm(double radius, double spacing);

/* The inverse: spacing for a scallop, 2 sqrt(2 R h - h^2). */
double scallop_spacing_mm(double radius, double height);

#endif
