/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs to moves: in which order, how to get from one to the next, how to enter
 * the wood, how fast. Keeps the bench's wood up to date while it goes. */
#ifndef NECKHEW_PATH_EMIT_H
#define NECKHEW_PATH_EMIT_H

#include <stdbool.h>

#include "motion/motion.h"
#include "path/bench.h"
#include "path/order.h"
#include "path/runs.h"

struct emit {
	struct bench *bench;
	struct motion_list *out; /* neck coordinates while planning */
	struct vec3 at; /* where the tip is */
	double feed_mm_per_min; /* of the current pass */
	double link_mm; /* neighbours this near are joined without a lift */
	double floor_mm; /* lowest tip of the job */
	double link_level_mm; /* joints go no lower */
	enum cut_lines lines; /* of the runs being cut; contour lines are lengthwise */
	bool always; /* runs are cut even where the wood's columns show nothing to take */
	double lowest_mm; /* tip of the current pass so far */
	int pass;
	bool fresh; /* the pass has just begun: its first run is not joined to the last */
};

/* Spindle on, above everything, over the first place. */
enum fault emit_start(struct emit *emit, struct fault_list *faults);

/* Marks the beginning of pass `pass`. */
enum fault emit_pass(struct emit *emit, int pass, struct fault_list *faults);

/* Cuts all runs, lines of one kind, in that order, each in whichever direction is nearer unless it
 * is for one way only. The runs' tracks may be reversed; they stay the
 * caller's. */
enum fault emit_runs(struct emit *emit, struct runs *runs, enum cut_lines lines,
		     enum emit_order order, struct fault_list *faults);

/* True when some run takes wood as it stands. */
bool emit_takes_wood(const struct emit *emit, const struct runs *runs);

/* Where the machine parks from `at`, which stands above everything: at that
 * height, or higher where the way over a clamp asks for it. `at` itself when the
 * machine does not park. Neck coordinates. */
struct vec3 emit_park(const struct bench *bench, struct vec3 at);

/* Up above everything, over to the parking place, spindle off, end. */
enum fault emit_end(struct emit *emit, struct fault_list *faults);

#endif
