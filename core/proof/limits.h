/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the machine can do: travel, feed of each axis, spindle speed; and the
 * order of things: position known before motion, spindle on before cutting,
 * safe end. */
#ifndef NECKHEW_PROOF_LIMITS_H
#define NECKHEW_PROOF_LIMITS_H

#include "job/job.h"
#include "motion/motion.h"
#include "proof/verdict.h"

/* Judges start, spindle, feed, travel of one program; `top_mm` is the highest
 * thing on the bed in neck coordinates. */
void limits_judge(struct verdict *verdict, const struct job *job, const struct motion_list *list,
		  int program, double top_mm);

#endif
