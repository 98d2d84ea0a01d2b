/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Program zero stated in words, as a place on the work. */
#ifndef NECKHEW_JOB_ZERO_H
#define NECKHEW_JOB_ZERO_H

#include "base/vec3.h"
#include "job/job.h"

/* The place that the fixture's zero_spec means, on the centre line, neck
 * coordinates, mm. Where the blank's outline does not reach, its nearest end
 * counts; job_check refuses that. */
struct vec3 zero_place(const struct job *job);

/* Words that mean nothing on this job: the top of a blank where there is none,
 * the face of a fretboard that is not on yet. Adds every fault found and
 * returns the first code. */
enum fault zero_check(const struct job *job, struct fault_list *faults);

#endif
