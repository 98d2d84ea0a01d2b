/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "trace/trace.h"

#include <math.h>

#include "base/units.h"
#include "trace/face_line.h"
#include "trace/findings.h"
#include "trace/outline_fit.h"
#include "trace/sift.h"
#include "trace/tabled.h"

/* Fits, one after another: the first ones find formulas anew, one looks where the
 * crest would be, the last ones fit the departure from the formulas. */
#define FINDING_FITS 3
#define LOOKING_FIT 5
#define DEPARTURE_FIT 9
#define ALL_FITS 13
/* No step changes width or height by more than this share. */
#define STEP_MOST 0.05
/* The outline may turn the frame by so much from the gluing face's line, rad. */
#define TILT_TRUST_RAD 0.015
/* Sizes of necks and more; others were measured in another unit. */
#define WIDTH_LEAST_MM 15.0
#define WIDTH_MOST_MM 160.0

static double limited(double step)
{
	return fmin(fmax(step, -STEP_MOST), STEP_MOST);
}

static enum fault check_size(double width_mm, struct fault_list *faults)
{
	if (width_mm >= WIDTH_LEAST_MM && width_mm <= WIDTH_MOST_MM)
		return FAULT_NONE;
	return fault_add(faults, FAULT_GEOMETRY, NULL, 0, NULL,
			 "The section would be %.4g mm wide; a neck's is %.0f to %.0f. Were the "
			 "points taken in another unit (--unit)?",
			 width_mm, WIDTH_LEAST_MM, WIDTH_MOST_MM);
}

/* Makes the steps that a fit tells. The tilt keeps near the gluing face's. */
static void settle(struct outline_ask *next, const struct outline_fit *fit,
		   const struct face_line *face)
{
	const struct outline_steps *steps = &fit->steps;
	double datum = next->frame.tilt_rad + next->tilt_off_rad;
	double tilt = next->frame.tilt_rad + steps->tilt_rad;

	trace_frame_move(&next->frame, steps->y_mm, steps->z_mm);
	next->frame.tilt_rad = fmin(fmax(tilt, datum - TILT_TRUST_RAD), datum + TILT_TRUST_RAD);
	next->tilt_off_rad = datum - next->frame.tilt_rad;
	/* where the outline fits badly, as when unlike sides are to be one shape, its
	 * points say little of the tilt beside those of the face */
	double trust = fmax(1.0, pow(fit->scatter_mm / face->scatter_mm, 2.0));
	next->tilt_weight_mm2 = face->lever_mm2 * trust;
	next->lift_weight = (double)face->count * trust;
	if (next->lift_weight > 0.0)
		next->lift_off_mm -= steps->z_mm;
	next->half_width_mm *= 1.0 + limited(steps->width_share);
	next->height_mm *= 1.0 + limited(steps->height_share);
	for (int side = 0; side < SIDE_COUNT; side++)
		next->base[side] = base_shape_moved(&fit->ask.base[side], next->half_width_mm,
						    next->height_mm, steps->figure[side]);
}

/* What is asked of a round. The formulas come first, freely and then as the builder
 * asked; between these one look at the crest; the departure from them comes last. */
static void prepare(struct outline_ask *next, const struct trace_ask *ask, int round)
{
	bool looking = round == LOOKING_FIT, asked = round > LOOKING_FIT;

	next->level_crest = !looking;
	next->alike = ask->alike && asked;
	next->find_base = round < FINDING_FITS || (next->alike && round == LOOKING_FIT + 1);
	next->formulas_only = !looking && round < DEPARTURE_FIT;
	next->hold_height = ask->thickness_mm > 0.0;
	next->hold_width = ask->width_mm > 0.0 && asked;
	if (next->hold_width)
		next->half_width_mm = ask->width_mm / 2.0;
	if (next->hold_height && next->height_mm != ask->thickness_mm) {
		next->lift_off_mm -= next->height_mm - ask->thickness_mm;
		trace_frame_move(&next->frame, 0.0, next->height_mm - ask->thickness_mm);
		next->height_mm = ask->thickness_mm;
	}
}

/* Fits again and again until the frame rests. *fit is the last one; *free_crest
 * the highest place of the one whose crest was not held. */
static enum fault fit_all(struct outline_fit *fit, struct trace_place *free_crest,
			  const struct face_line *face, struct trace_point *point, size_t count,
			  const struct trace_ask *ask, struct fault_list *faults)
{
	struct outline_ask next = { .frame = face->frame,
				    .tilt_weight_mm2 = face->lever_mm2,
				    .lift_weight = (double)face->count,
				    .half_width_mm = face->half_width_mm,
				    .height_mm = face->height_mm };

	for (int round = 0; round < ALL_FITS; round++) {
		/* the look at the crest is only a look */
		if (round > 0 && round != LOOKING_FIT + 1)
			settle(&next, fit, face);
		prepare(&next, ask, round);
		outline_fit_free(fit);
		enum fault fault = outline_fit_make(fit, &next, point, count, faults);
		if (fault)
			return fault;
		if (round == LOOKING_FIT)
			*free_crest = findings_crest(fit);
	}
	return FAULT_NONE;
}

static void measure(struct trace_section *out, const struct tabled *tabled,
		    const struct trace_point *point, size_t count)
{
	double squares = 0.0;

	for (size_t i = 0; i < count; i++) {
		const struct trace_point *p = &point[i];
		out->face += p->fate == FATE_FACE;
		out->aside += p->fate == FATE_ASIDE || p->fate == FATE_FAR;
		if (p->fate != FATE_OUTLINE)
			continue;
		struct trace_place place = trace_upright(&out->frame, p->y_mm, p->z_mm);
		double off_mm = tabled_off_mm(tabled, place);
		squares += off_mm * off_mm;
		out->used++;
		if (fabs(off_mm) > fabs(out->worst_mm)) {
			out->worst_mm = off_mm;
			out->worst = place;
			out->worst_line = p->line;
		}
	}
	out->rms_mm = out->used > 0 ? sqrt(squares / (double)out->used) : 0.0;
}

static enum fault finish(struct trace_section *out, const struct outline_fit *fit,
			 const struct trace_place *free_crest, const struct face_line *face,
			 struct trace_point *point, size_t count, const struct trace_ask *ask,
			 struct fault_list *faults)
{
	struct tabled tabled;
	enum fault fault = tabled_make(&tabled, fit, faults);

	if (!fault)
		fault = check_size(2.0 * tabled.half_width_mm, faults);
	if (fault)
		return fault;
	for (int side = 0; side < 2; side++)
		out->outline[side] = tabled.outline[side];
	out->frame = fit->ask.frame;
	out->width_mm = 2.0 * tabled.half_width_mm;
	out->thickness_mm = ask->thickness_mm > 0.0 ? ask->thickness_mm : tabled.height_mm;
	out->datum = ask->thickness_mm > 0.0 ? DATUM_THICKNESS
		     : face->seen	     ? DATUM_FACE
					     : DATUM_LOWEST;
	measure(out, &tabled, point, count);
	out->difference_mm = tabled_difference_mm(&tabled);
	return findings_note(out, &tabled, fit->scatter_mm, free_crest, point, count, ask, faults);
}

enum fault trace_section_make(struct trace_section *out, struct trace_point *point, size_t count,
			      const struct trace_ask *ask, struct fault_list *faults)
{
	struct face_line face;
	struct outline_fit fit = { 0 };
	struct trace_place free_crest = { 0.0, 0.0 };

	*out = (struct trace_section){ 0 };
	enum fault fault = sift_points(point, count, faults);
	if (!fault)
		fault = face_line_find(&face, point, count, faults);
	if (!fault)
		fault = check_size(2.0 * face.half_width_mm, faults);
	if (fault)
		return fault;
	fault = fit_all(&fit, &free_crest, &face, point, count, ask, faults);
	if (!fault)
		fault = finish(out, &fit, &free_crest, &face, point, count, ask, faults);
	outline_fit_free(&fit);
	return fault;
}
