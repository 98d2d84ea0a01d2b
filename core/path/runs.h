/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs: tracks of one pass that are cut without a lift, in no order yet. */
#ifndef NECKHEW_PATH_RUNS_H
#define NECKHEW_PATH_RUNS_H

#include "path/track.h"

struct runs {
	size_t count, capacity;
	struct track *run;
};

/* Appends an empty run and returns it, or NULL without memory. The pointer
 * holds until the next call. */
struct track *runs_add(struct runs *runs);

/* Moves all of `from`'s runs to the end of `to`; `from` is left empty. */
enum fault runs_take(struct runs *to, struct runs *from, struct fault_list *faults);
void runs_free(struct runs *runs);

#endif
