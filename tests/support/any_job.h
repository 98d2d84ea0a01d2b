/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random whole jobs over the range of what builders ask for. */
#ifndef NECKHEW_TESTS_SUPPORT_ANY_JOB_H
#define NECKHEW_TESTS_SUPPORT_ANY_JOB_H

#include <gsl/gsl_rng.h>

#include "job/job.h"

/* All heels, some with a joint, all section families, even or uneven sides, either
 * hand, pegheads straight or angled, with or without volute, some fretboards
 * glued on; ball ends of 6 to 12.7 mm, now and then a smaller one to follow;
 * blanks sawn close or wide, some of them with rails left or screws beside, some
 * on a low riser or none; lines along or across the neck, cut both ways, one way
 * or down the slope. Columns of the simulated wood are 0.5 mm apart, so that it
 * is quick. Most jobs are valid; job_check and neck_build tell. */
void any_job(struct job *out, const gsl_rng *rng);

/* One line with the figures that tell one random job from another. */
void any_job_print(const struct job *job);

#endif
