/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The finished neck as lines in plan, and the few places along it that several
 * pictures name. Lengths mm. */
#ifndef NECKHEW_PICTURES_NECK_LINES_H
#define NECKHEW_PICTURES_NECK_LINES_H

#include "base/fault.h"
#include "model/neck.h"

/* A flat narrower to one side than this is a round back's crest, mm. */
#define NECK_LINES_FLAT_MM 1.0

/* Half-breadths over x, rising, on both sides. */
struct neck_lines {
	size_t count;
	double *x_mm;
	/* At the gluing face or the peghead's face: half-breadths fall with height,
	 * so this is the greatest width too. */
	double *edge_mm[SIDE_COUNT];
	/* On the crest: of peghead, cap or slab, and 0 where the back is round. */
	double *flat_mm[SIDE_COUNT];
};

/* Where the shaft ends and what follows. */
struct neck_marks {
	double heel_start_mm;
	double heel_proper_mm; /* cap front, or where slab or tenon begins */
	double joint_mm; /* body joint */
	double heel_sides_mm; /* from where cap or tenon have straight sides */
	const char *heel_sides_name;
	const char *heel_proper_name; /* "cap front", "slab" or "tenon" */
};

/* Follows the outlines to 0.01 mm, with few points where they are straight. FAULT_MEMORY;
 * release with neck_lines_free in either case. */
enum fault neck_lines_build(struct neck_lines *out, const struct neck *neck,
			    struct fault_list *faults);

/* NULL is accepted. */
void neck_lines_free(struct neck_lines *lines);

struct neck_marks neck_marks_of(const struct neck *neck);

#endif
