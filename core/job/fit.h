/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether neck, blank and fixture fit each other: parts of job_check. */
#ifndef NECKHEW_JOB_FIT_H
#define NECKHEW_JOB_FIT_H

#include "base/fault.h"
#include "job/job.h"

/* Checks each holding place and keep-out by itself, that the holding places
 * are on the blank, and that no keep-out stands on the neck where it is
 * carved. */
enum fault fit_check_places(const struct job *job, struct fault_list *faults);

/* Checks that the carve range lies on blank and modelled neck, and that over
 * it the least blank that the margin allows holds the finished neck and its
 * hand-finish stock: under the top, between the sides, above the bottom. Reports
 * the worst place of each.
 * The blank must have passed blank_check and the range must not be empty; a
 * neck that cannot be built is left to neck_build to report. Top and stock are
 * compared in side view on the centre line, every half millimetre. */
enum fault fit_check_blank(const struct job *job, struct fault_list *faults);

/* Checks that rails, when asked for, leave room for the cutters and have wood to
 * be made of. The blank must have passed blank_check. */
enum fault fit_check_rails(const struct job *job, struct fault_list *faults);

#endif
