/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The gap between bed and spindle: whether a cutter can be lifted over the neck,
 * come down to its lowest cut, and be changed while the neck lies there. */
#ifndef NECKHEW_JOB_GAP_H
#define NECKHEW_JOB_GAP_H

#include <stdbool.h>

#include "base/fault.h"
#include "job/job.h"

/* Heights over the bed, mm. */
struct gap_heights {
	bool known; /* the machine states its gap; false: `most`, `least` and `longest` are NAN */
	double highest_mm; /* wood or keep-out */
	/* The highest within a hand's reach of where the cutter is changed: the
	 * machine's parking place, or anywhere when it has none. */
	double change_over_mm;
	double tip_safe_mm, tip_lowest_mm; /* of rapids over everything, of the deepest cut */
	double face_safe_mm, face_lowest_mm; /* the holder's lower face then */
	double face_most_mm, face_least_mm; /* where z can hold it */
	double change_mm; /* room needed to draw the cutter out there */
	/* Longest stickout of any cutter that can still be lifted over everything
	 * and changed there. */
	double longest_mm;
	double overall_mm; /* length of the cutter, as stated or as taken */
};

struct gap_heights gap_heights_of(const struct job *job, const struct cutter *cutter);

/* Refuses cutters that do not pass under the spindle, cannot come down far
 * enough, or cannot be changed over the neck. Asks nothing of a machine whose
 * gap is not known. Adds every fault; returns the first code. */
enum fault gap_check(const struct job *job, struct fault_list *faults);

#endif
