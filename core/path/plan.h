/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole plan for one of the job's cutters: job in, moves out. */
#ifndef NECKHEW_PATH_PLAN_H
#define NECKHEW_PATH_PLAN_H

#include <stddef.h>

#include "base/fault.h"
#include "base/watch.h"
#include "job/job.h"
#include "machine/feed.h"
#include "model/facets.h"
#include "model/neck.h"
#include "motion/motion.h"
#include "motion/pass_kind.h"
#include "motion/pass_why.h"
#include "stock/stock.h"

struct plan_pass {
	enum pass_kind kind;
	double level_mm; /* lowest tip of the pass, program coordinates */
	struct feed feed; /* and what limits it */
	struct pass_why why;
};

struct plan {
	struct motion_list motions; /* program coordinates, snapped */
	struct motion_list dry_run; /* the bounds traced above everything, spindle off */
	size_t pass_count, pass_capacity;
	struct plan_pass *pass; /* numbered as MOTION_PASS says */
	struct stock left; /* the wood as it stands afterwards */
};

/* Plans the job's cutter of index `turn` on the facets of its neck. The first
 * cutter starts on the blank, each other one on what `before`, the plan of the
 * cutter before it, left, and goes only where that left more than its scallops.
 * `watch` is told how far it is; NULL when nobody waits. Release with plan_free,
 * also after a failure.
 * FAULT_PLAN when there is nothing for it to cut. A left-handed neck is planned in
 * the mirror (path/mirror.h). */
enum fault plan_make(struct plan *out, const struct facets *facets, const struct neck *neck,
		     const struct job *job, size_t turn, const struct plan *before,
		     const struct watch *watch, struct fault_list *faults);
void plan_free(struct plan *plan);

#endif
