/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What each program leaves for whatever comes after it: the next cutter or the
 * hand. */
#ifndef NECKHEW_JOB_PROGRAM_LEFT_H
#define NECKHEW_JOB_PROGRAM_LEFT_H

#include "base/fault.h"
#include "job/job.h"
#include "job/result.h"
#include "model/facets.h"

/* Fills left_mm3 and left_most_mm of result->program from the maps of blank,
 * cuts and finished surface, which must be there: the wood that stands on the
 * neck over its hand-finish stock after the program, at the maps' columns
 * within the carved range. The thickness is measured to the nearest place of
 * the finished surface, the volume with the surface's slope there. */
enum fault program_left_measure(struct job_result *result, const struct job *job,
				const struct facets *facets, struct fault_list *faults);

#endif
