/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The whole job as one plain value: what a config becomes. */
#ifndef NECKHEW_JOB_JOB_H
#define NECKHEW_JOB_JOB_H

#include <stddef.h>

#include "machine/blank.h"
#include "machine/cutter.h"
#include "machine/cutting.h"
#include "machine/fixture.h"
#include "machine/machine.h"
#include "machine/waste.h"
#include "machine/wood.h"
#include "model/neck_spec.h"
#include "model/stretch.h"

struct carve_spec {
	double from_mm, to_mm; /* along x: where the ball's axis may go */
	double scallop_limit_mm; /* of the last passes */
	double clearance_mm; /* of rapids above standing wood */
	double cell_mm; /* of the simulated stock */
	struct waste_spec waste; /* beside the neck */
	double cove_limit_mm; /* tallest cove that the ball may leave at the edges */
};

/* More cutters than this on one neck are a slip of the pen. */
#define JOB_CUTTERS_MAX 4

struct job {
	struct neck_spec neck;
	struct blank blank;
	struct machine machine;
	/* One program each, in this order; a later cutter takes only what the
	 * earlier ones left. */
	size_t cutter_count;
	struct cutter cutter[JOB_CUTTERS_MAX];
	struct wood wood;
	struct fixture fixture;
	struct carve_spec carve;
	struct tabs tabs; /* none until tabs_choose (path/tabs.h) has been asked, once */
	struct cutting cutting[STRETCH_COUNT]; /* by stretch of the neck */
	char digest[65]; /* SHA-256 of the inputs in hex, "" when unknown */
};

/* Checks what no single setting can show: spindle speed within the machine's
 * range, riser narrower than the neck, blank around the neck, carve range on
 * the neck, holder wider than shank, cutters that pass under the spindle, no clamp
 * in the way of the cut and the like. Every fault found is added;
 * returns the first code. */
enum fault job_check(const struct job *job, struct fault_list *faults);

/* Half the largest ball of the job's cutters, mm. */
double job_most_radius_mm(const struct job *job);

/* Width of the channel between neck and rail, mm: as asked for, or what the
 * stoutest of ball and shank needs and 4 mm for lines beside each other. */
double job_channel_mm(const struct job *job);

/* The least width that lets every cutter pass between neck and rail, mm. */
double job_least_channel_mm(const struct job *job);

/* Room that shank and holder keep from a rail's wall, mm: more than the cells
 * of the simulated wood may hide. */
double job_rail_room_mm(const struct job *job);

/* The most hand-finish stock of any zone, mm. */
double job_most_stock_mm(const struct job *job);

/* Height above the gluing face of the cove that is left along the edges because
 * the ball's widest part cannot come down to it, mm; 0 when it can. */
double job_cove_mm(const struct job *job);

/* z of what the work lies on, mm: the gluing face, or the shim under the face of
 * a fretboard that is glued on. The riser, if any, reaches up to there. */
double job_rest_mm(const struct job *job);

/* z of the machine's bed, mm: the riser's height below that. */
double job_bed_mm(const struct job *job);

/* z of the highest wood or keep-out on the bed, mm; the blank as high as its
 * margin allows. */
double job_highest_mm(const struct job *job);

#endif
