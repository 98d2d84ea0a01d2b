/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/gap.h"

#include <math.h>
#include <stdio.h>

#include "path/drop.h"

/* A collet holds about this much of a shank, mm (common practice, no source):
 * taken where a cutter's whole length is not stated. */
#define IN_COLLET_MM 25.0
/* A hand and a spanner want so much room around the cutter, mm. */
#define HAND_MM 60.0
/* Figures in files may be off by this much, mm: what rounding inches leaves. */
#define ROUNDED_MM 0.001

/* Highest wood or keep-out that comes within `HAND_MM` of a place, z; the bed
 * when nothing does. */
static double highest_near(const struct job *job, double x, double y)
{
	const struct blank *blank = &job->blank;
	double from = fmax(x - HAND_MM, blank_from_most_mm(blank));
	double to = fmin(x + HAND_MM, blank_to_most_mm(blank));
	double top = job_bed_mm(job);

	if (from < to && y - HAND_MM < blank_side_most_mm(blank, BLANK_PLUS, from, to) &&
	    -y - HAND_MM < blank_side_most_mm(blank, BLANK_MINUS, from, to))
		top = fmax(top, blank_top_most_mm(blank, from, to));
	for (size_t i = 0; i < job->fixture.keep_out_count; i++) {
		const struct place *place = &job->fixture.keep_out[i];
		if (place->x_from_mm < x + HAND_MM && place->x_to_mm > x - HAND_MM &&
		    place->y_from_mm < y + HAND_MM && place->y_to_mm > y - HAND_MM)
			top = fmax(top, place->top_mm);
	}
	return top;
}

static double change_over(const struct job *job)
{
	const struct machine *machine = &job->machine;
	struct vec3 zero = job->fixture.work_zero_mm;

	return machine->parks
		       ? highest_near(job, zero.x + machine->park_x_mm, zero.y + machine->park_y_mm)
		       : job_highest_mm(job);
}

struct gap_heights gap_heights_of(const struct job *job, const struct cutter *cutter)
{
	double bed = job_bed_mm(job), gap = job->machine.z_gap_mm;
	struct gap_heights h = { .known = gap > 0.0,
				 .highest_mm = job_highest_mm(job) - bed,
				 .change_over_mm = change_over(job) - bed,
				 .tip_lowest_mm = drop_lowest_mm(job, cutter) - bed,
				 .face_most_mm = NAN,
				 .face_least_mm = NAN,
				 .longest_mm = NAN,
				 .overall_mm = cutter->overall_length_mm };

	if (h.overall_mm <= 0.0)
		h.overall_mm = cutter->stickout_mm + IN_COLLET_MM;
	h.tip_safe_mm = h.highest_mm + job->carve.clearance_mm;
	h.face_safe_mm = h.tip_safe_mm + cutter->stickout_mm;
	h.face_lowest_mm = h.tip_lowest_mm + cutter->stickout_mm;
	h.change_mm = h.change_over_mm + h.overall_mm;
	if (!h.known)
		return h;
	h.face_most_mm = gap;
	h.face_least_mm = gap - job->machine.travel_mm[AXIS_Z];
	h.longest_mm = gap - fmax(h.tip_safe_mm, h.change_over_mm + IN_COLLET_MM);
	return h;
}

/* Path of a cutter's setting: the first one's stands under "cutter". */
static const char *setting_of(char path[FAULT_SETTING_MAX], size_t turn, const char *name)
{
	if (turn == 0)
		(void)snprintf(path, FAULT_SETTING_MAX, "cutter.%s", name);
	else
		(void)snprintf(path, FAULT_SETTING_MAX, "use.then[%zu].%s", turn - 1, name);
	return path;
}

static enum fault check_lift(const struct gap_heights *h, const struct cutter *cutter,
			     const char *setting, struct fault_list *faults)
{
	if (h->face_safe_mm <= h->face_most_mm + ROUNDED_MM)
		return FAULT_NONE;
	return fault_add(
		faults, FAULT_SETTING, NULL, 0, setting,
		"To pass over everything the tip must be lifted to %.1f mm above the bed; "
		"with a stickout of %.1f mm the holder is then at %.1f mm, and the machine "
		"lifts it to %.1f mm (machine.z_gap). Over this neck a cutter may stick out "
		"%.1f mm.",
		h->tip_safe_mm, cutter->stickout_mm, h->face_safe_mm, h->face_most_mm,
		h->face_most_mm - h->tip_safe_mm);
}

static enum fault check_depth(const struct gap_heights *h, const struct cutter *cutter,
			      const char *setting, struct fault_list *faults)
{
	if (h->face_lowest_mm >= h->face_least_mm - ROUNDED_MM)
		return FAULT_NONE;
	return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
			 "With a stickout of %.1f mm and z at its lowest the tip is %.1f mm above "
			 "the bed (machine.z_gap less machine.travel less the stickout); the job "
			 "goes down to %.1f mm. The cutter must stick out at least %.1f mm.",
			 cutter->stickout_mm, h->face_least_mm - cutter->stickout_mm,
			 h->tip_lowest_mm, h->face_least_mm - h->tip_lowest_mm);
}

static enum fault check_change(const struct gap_heights *h, const char *setting,
			       struct fault_list *faults)
{
	if (h->change_mm <= h->face_most_mm + ROUNDED_MM)
		return FAULT_NONE;
	return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
			 "The cutter is %.1f mm long and must be drawn out downward over what is "
			 "%.1f mm above the bed; under the spindle are %.1f mm (machine.z_gap), "
			 "which leaves %.1f mm.",
			 h->overall_mm, h->change_over_mm, h->face_most_mm,
			 h->face_most_mm - h->change_over_mm);
}

enum fault gap_check(const struct job *job, struct fault_list *faults)
{
	enum fault first = FAULT_NONE;
	char path[FAULT_SETTING_MAX];

	for (size_t i = 0; i < job->cutter_count; i++) {
		const struct cutter *cutter = &job->cutter[i];
		struct gap_heights h = gap_heights_of(job, cutter);
		if (!h.known)
			break;
		enum fault lift = check_lift(&h, cutter, setting_of(path, i, "stickout"), faults);
		enum fault depth = check_depth(&h, cutter, setting_of(path, i, "stickout"), faults);
		enum fault change = check_change(&h, setting_of(path, i, "overall_length"), faults);
		first = first ? first : lift ? lift : depth ? depth : change;
	}
	return first;
}
