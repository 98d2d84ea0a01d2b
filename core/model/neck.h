/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finished neck: a continuous surface built from a neck_spec.
 *
 * The surface is a stack of waterlines. A waterline is one height fraction v
 * (0 gluing face, 1 crest) followed along x: its half-breadth is a piecewise
 * cubic in x, and between neighbouring waterlines the section is straight.
 * The levels are so dense that a section differs from its family's formula by
 * at most TOL_SECTION_MM. Everything else (height, facets, meshes) is derived
 * from this one definition, so there is nothing between the lines to guess. */
#ifndef NECKHEW_MODEL_NECK_H
#define NECKHEW_MODEL_NECK_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "base/vec3.h"
#include "model/neck_spec.h"
#include "model/zone.h"

struct neck;

/* Builds the neck, or reports every fault of the design it can find (with the
 * setting's name) and returns the first code. *out is NULL on failure. The
 * spec is copied. */
enum fault neck_build(struct neck **out, const struct neck_spec *spec, struct fault_list *faults);

/* Releases a neck; NULL is accepted. */
void neck_free(struct neck *neck);

/* The spec it was built from. */
const struct neck_spec *neck_spec_of(const struct neck *neck);

/* Extent of the modelled surface along x, mm: from the far end of the
 * modelled peghead to the body joint (block heel) or the slab's end. */
double neck_from_mm(const struct neck *neck);
double neck_to_mm(const struct neck *neck);

/* Where the shaft ends and the heel's nose (or the slab's ease) begins, and
 * where the heel proper (cap front, slab) begins, mm. */
double neck_heel_start_mm(const struct neck *neck);
double neck_heel_proper_mm(const struct neck *neck);

/* From where on the heel's sides are straight in plan: behind the curve of a
 * cap's front, behind the shoulders of a tenon, else where the heel proper
 * begins, mm. */
double neck_heel_sides_mm(const struct neck *neck);

/* Distance of a fret from the nut, mm; fret 0 is the nut. Fractions fall
 * between. Source: equal temperament, x = L (1 - 2^(-n/12)). */
double neck_fret_x_mm(const struct neck *neck, double fret);

/* Full width of fretboard and wood at x, mm. The wood is narrower by twice the
 * side margin; both follow straight edges. */
double neck_fretboard_width_mm(const struct neck *neck, double x_mm);

/* Half-breadth at height fraction v (0..1) on one side, mm. */
double neck_half_breadth_mm(const struct neck *neck, enum neck_side side, double x_mm, double v);

/* z of the crest and of the wood's under side (0 behind the nut, the peghead's
 * face in front of it), mm. */
double neck_crest_mm(const struct neck *neck, double x_mm);
double neck_base_mm(const struct neck *neck, double x_mm);

/* z of the finished surface over (x, y), or -INFINITY where there is no neck.
 * Exact for the waterline definition. */
double neck_height_mm(const struct neck *neck, double x_mm, double y_mm);

/* Outward unit normal of the surface over (x, y), smooth between waterlines;
 * (0, 0, 1) where there is no neck. */
struct vec3 neck_normal(const struct neck *neck, double x_mm, double y_mm);

/* Zone of the surface point at (x, height fraction v). */
enum stock_zone neck_zone(const struct neck *neck, double x_mm, double v);
double neck_allowance_mm(const struct neck *neck, enum stock_zone zone);

/* A section as a closed outline, bass edge on the gluing face to treble edge
 * over the crest, in (y, z): *count points in arrays the caller frees with
 * free(). */
enum fault neck_section(const struct neck *neck, double x_mm, size_t *count, double **y_mm,
			double **z_mm, struct fault_list *faults);

/* Finished thickness at x as the neck file states it, mm. */
double neck_stated_thickness_mm(const struct neck *neck, double x_mm);

/* Wood between channel floor and finished crest at x, mm; NAN where no channel
 * runs. The least over the channel's width. */
double neck_wood_over_channel_mm(const struct neck *neck, double x_mm);

/* Least of it over the whole channel, and where. NAN without a channel. */
double neck_least_wood_over_channel_mm(const struct neck *neck, double *at_x_mm);

/* Largest departure from a straight line between two x: of the crest
 * (centre) and of each edge, mm. */
double neck_crest_straightness_mm(const struct neck *neck, double from_mm, double to_mm);
double neck_edge_straightness_mm(const struct neck *neck, enum neck_side side, double from_mm,
				 double to_mm);

/* Largest difference of half-breadth between the sides anywhere, mm. */
double neck_asymmetry_mm(const struct neck *neck);

/* The waterline levels, from 0 to 1, *count of them; owned by the neck. */
const double *neck_levels(const struct neck *neck, size_t *count);

/* x of the knots of the waterlines' cubics, ascending; owned by the neck. */
const double *neck_knots(const struct neck *neck, size_t *count);

#endif
