/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Outlines of a section: as finished, and as finished with its stock on it,
 * which is what the machine aims at. */
#ifndef NECKHEW_JOB_SECTION_LINE_H
#define NECKHEW_JOB_SECTION_LINE_H

#include <stddef.h>

#include "base/fault.h"
#include "model/facets.h"
#include "model/neck.h"

struct section_point {
	double y_mm, z_mm;
};

/* From the bass edge on the under side over the crest to the treble edge on the
 * under side; the under side itself closes it. */
struct section_line {
	size_t count;
	struct section_point *point;
};

/* The finished section at x: neck_section as points. Release it with
 * section_line_free, after a fault too. FAULT_MEMORY. */
enum fault section_line_finished(struct section_line *out, const struct neck *neck, double x_mm,
				 struct fault_list *faults);

/* The section at x of the finished surface grown by each zone's allowance a:
 *
 *     z(x, y) = max over points s of the surface: s_z + sqrt(a^2 - |(x, y) - s_xy|^2)
 *
 * the lowest place for the tip of a ball of no size (path/drop.h with radius
 * 0). Where no point is within its allowance in plan the line falls straight
 * down to the under side, as a cutter from above leaves it. Exact for the
 * facets, which stand at most facets->deviation_mm from the surface; between
 * the outline's points at most SECTION_LINE_CHORD_MM are lost. Bed, riser, clamps
 * and the blank are not asked. Release as above. FAULT_MEMORY; FAULT_INTERNAL
 * when x is not on the neck. */
enum fault section_line_grown(struct section_line *out, const struct facets *facets,
			      const struct neck *neck, double x_mm, struct fault_list *faults);

/* How far a chord of the grown line may be from it, mm: far below what a knife
 * can follow. */
#define SECTION_LINE_CHORD_MM 0.01

/* NULL and an empty line are accepted. */
void section_line_free(struct section_line *line);

#endif
