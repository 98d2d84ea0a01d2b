/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the machine can do: travel, feed of each axis, spindle speed; and the
 * order of things: position known before motion, spindle on before cutting - by
 * the program, or by hand at a stop -, safe end, at the parking place if the
 * machine has one. */
#ifndef NECKHEW_PROOF_LIMITS_H
#define NECKHEW_PROOF_LIMITS_H

#include "job/job.h"
#include "motion/motion.h"
#include "proof/verdict.h"

/* Judges start, spindle, feed, travel of one program, run with `cutter`; `top_mm`
 * is the highest thing on the bed in neck coordinates. Travel is held
 * against its length; and, where the machine's gap is known, every z against where
 * that axis can hold this cutter. */
void limits_judge(struct verdict *verdict, const struct job *job, const struct cutter *cutter,
		  const struct motion_list *list, int program, double top_mm);

#endif
