/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which way runs are to be cut: climb, conventional, down the slope. */
#ifndef NECKHEW_PATH_WAY_H
#define NECKHEW_PATH_WAY_H

#include <stdbool.h>

#include "path/bench.h"
#include "path/runs.h"

/* What was asked of the runs of a pass, for telling why it is as it is. */
struct way_met {
	unsigned ways; /* bit 1 << enum cut_way for each way some stretch of a run has */
	unsigned downhill; /* bit 1 << enum neck_stretch where a slope decides */
};

/* Turns every run that has a way, and divides those whose parts have different
 * ones; what may be cut both ways keeps its order and one_way false. A part's
 * way is the slope's, where its stretch of the neck is cut downhill and slopes
 * more than CUT_STEEP_SLOPE; else its stretch's own.
 *
 * The standing wood is taken to be on the inner side of lengthwise lines,
 * toward the centre line, which holds when they are cut from the outside in.
 * Crosswise ones are only marked: see way_part_to_wood.
 * A slope is a rise along the neck; of lines that keep their height, as contours
 * do, how they widen: both are where fibres run out. Rises of less than
 * WAY_LEAST_RISE_MM, and level parts too short to be worth a lift, are cut with
 * their neighbours. */
enum fault way_choose(struct runs *runs, struct way_met *met, const struct bench *bench,
		      enum cut_lines lines, struct fault_list *faults);

/* Divides a crosswise run that has a way into parts with the wood that they would
 * take, as things stand, on one side, each turned so that it goes that way past it;
 * parts in a slot go either way. To be asked right before it is cut. */
enum fault way_part_to_wood(struct runs *out, const struct track *run, const struct bench *bench,
			    struct fault_list *faults);

/* True when some stretch asks for one way, so that lines must be cut in an
 * order in which the standing wood's side is known. */
bool way_is_asked(const struct bench *bench);

#define WAY_LEAST_RISE_MM 0.2

#endif
