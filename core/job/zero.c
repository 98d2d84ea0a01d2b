/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/zero.h"

#include "model/taper.h"

static double along_mm(const struct job *job)
{
	switch (job->fixture.zero.along) {
	case ZERO_HEEL:
		return taper_neck_end_mm(&job->neck);
	case ZERO_BLANK_END:
		return job->blank.top.count > 0 ? blank_to_mm(&job->blank) : 0.0;
	case ZERO_NUT:
		break;
	}
	return 0.0;
}

static double height_mm(const struct job *job)
{
	const struct zero_spec *zero = &job->fixture.zero;

	switch (zero->height) {
	case ZERO_BED:
		return job_bed_mm(job);
	case ZERO_BLANK_TOP:
		return job->blank.top.count > 0 ? outline_value_mm(&job->blank.top, zero->top_at_mm)
						: 0.0;
	case ZERO_FRETBOARD_FACE:
		return -job->neck.fretboard_thickness_mm;
	case ZERO_GLUING_FACE:
		break;
	}
	return 0.0;
}

struct vec3 zero_place(const struct job *job)
{
	return vec3_make(along_mm(job), 0.0, height_mm(job));
}

enum fault zero_check(const struct job *job, struct fault_list *faults)
{
	const struct zero_spec *zero = &job->fixture.zero;
	const struct blank *blank = &job->blank;

	if (!zero->by_words)
		return FAULT_NONE;
	if (zero->height == ZERO_FRETBOARD_FACE && !job->fixture.fretboard.glued)
		return fault_add(faults, FAULT_SETTING, NULL, 0, "fixture.zero.height",
				 "There is no fretboard to set zero on; state fixture.fretboard "
				 "with glued = true, or choose another height.");
	if (zero->height == ZERO_BLANK_TOP && blank->top.count > 1 &&
	    (zero->top_at_mm < blank_from_mm(blank) || zero->top_at_mm > blank_to_mm(blank)))
		return fault_add(faults, FAULT_SETTING, NULL, 0, "fixture.zero.top_at",
				 "The blank's top is to be touched at x = %.2f mm, but the blank "
				 "lies between %.2f and %.2f mm.",
				 zero->top_at_mm, blank_from_mm(blank), blank_to_mm(blank));
	return FAULT_NONE;
}
