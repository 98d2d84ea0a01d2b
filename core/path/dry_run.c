/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/dry_run.h"

#include <math.h>

#include "base/minmax.h"
#include "path/emit.h"

struct bounds {
	struct vec3 low, high;
};

static struct bounds cut_bounds(const struct motion_list *motions)
{
	struct bounds bounds = { { INFINITY, INFINITY, INFINITY },
				 { -INFINITY, -INFINITY, -INFINITY } };

	for (size_t i = 0; i < motions->count; i++) {
		if (motions->item[i].kind != MOTION_CUT)
			continue;
		struct vec3 p = motions->item[i].to;
		bounds.low = vec3_make(smaller(bounds.low.x, p.x), smaller(bounds.low.y, p.y),
				       smaller(bounds.low.z, p.z));
		bounds.high = vec3_make(larger(bounds.high.x, p.x), larger(bounds.high.y, p.y),
					larger(bounds.high.z, p.z));
	}
	return bounds;
}

/* Up and over to the machine's parking place, if it has one, from where the
 * rapid `last` ended. */
static enum fault park_at_end(struct motion_list *out, const struct bench *bench,
			      struct motion last, struct fault_list *faults)
{
	struct vec3 park = emit_park(bench, last.to);
	enum fault fault = FAULT_NONE;

	if (!bench->job->machine.parks)
		return FAULT_NONE;
	if (park.z > last.to.z) {
		last.to.z = park.z;
		fault = motion_list_add(out, &last, faults);
	}
	last.to = park;
	return fault != FAULT_NONE ? fault : motion_list_add(out, &last, faults);
}

enum fault dry_run_make(struct motion_list *out, const struct bench *bench,
			const struct motion_list *motions, struct fault_list *faults)
{
	struct bounds b = cut_bounds(motions);
	double z = snap_up(&bench->snap, bench->safe_mm);
	const struct vec3 corner[] = { { b.low.x, b.low.y, z },	 { b.low.x, b.low.y, z },
				       { b.high.x, b.low.y, z }, { b.high.x, b.high.y, z },
				       { b.low.x, b.high.y, z }, { b.low.x, b.low.y, z } };
	struct motion motion = { .kind = MOTION_RAPID, .pass = -1, .known = KNOWN_Z };
	enum fault fault = FAULT_NONE;

	for (size_t i = 0; i < sizeof corner / sizeof corner[0] && fault == FAULT_NONE; i++) {
		motion.to = corner[i];
		fault = motion_list_add(out, &motion, faults);
		motion.known = KNOWN_ALL;
	}
	if (fault == FAULT_NONE)
		fault = park_at_end(out, bench, motion, faults);
	motion = (struct motion){ .kind = MOTION_END, .pass = -1 };
	return fault != FAULT_NONE ? fault : motion_list_add(out, &motion, faults);
}
