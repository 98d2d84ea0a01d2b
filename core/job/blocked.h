/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finished surface that a clamp, a screw, a glued fretboard or the joint keeps the
 * tool from. */
#ifndef NECKHEW_JOB_BLOCKED_H
#define NECKHEW_JOB_BLOCKED_H

#include "job/job.h"

/* Puts every cutter's ball on each facet of the finished surface, its stock
 * between, and asks whether ball, shank and holder stay clear of what stands
 * about the neck, of a glued fretboard and of the joint. Where no cutter does on more than a patch
 * too small to matter, the thing in the way is named, with where along the
 * neck, on which side, and how much it blocks. Adds every such fault and
 * returns the first code. Call with a job that is good otherwise; what stands
 * far from the neck costs nothing. */
enum fault blocked_check(const struct job *job, struct fault_list *faults);

#endif
