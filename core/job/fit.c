/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/fit.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>

#include "model/crest.h"
#include "model/joint.h"
#include "model/neck_check.h"
#include "model/taper.h"
#include "num/blend.h"

/* Distance between the places along the neck that are looked at, mm. */
#define LOOK_STEP_MM 0.5
/* Distance between the circles of hand-finish stock, mm; what shows between two
 * of 1 mm is missed by 0.002 mm. */
#define CIRCLE_STEP_MM 0.125
/* Wood missing by less than this is nothing a builder could saw, mm. */
#define SAWN_MM 0.01

/* The place where something is short by most. */
struct shortfall {
	double by_mm, at_mm, has_mm, needs_mm;
};

static void keep_first(enum fault *first, enum fault code)
{
	if (!*first)
		*first = code;
}

static enum fault check_place(const struct place *place, const char *list, size_t i,
			      struct fault_list *faults)
{
	char setting[FAULT_SETTING_MAX];
	enum fault first = FAULT_NONE;

	(void)snprintf(setting, sizeof setting, "%s[%zu].x_to", list, i);
	if (place->x_from_mm >= place->x_to_mm)
		first = fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				  "The place \"%s\" ends at x = %.2f mm, not beyond its beginning "
				  "at %.2f mm.",
				  place->name, place->x_to_mm, place->x_from_mm);
	(void)snprintf(setting, sizeof setting, "%s[%zu].y_to", list, i);
	if (place->y_from_mm >= place->y_to_mm)
		keep_first(&first, fault_add(faults, FAULT_SETTING, NULL, 0, setting,
					     "The place \"%s\" ends at y = %.2f mm, not beyond its "
					     "beginning at %.2f mm.",
					     place->name, place->y_to_mm, place->y_from_mm));
	return first;
}

/* Side of the neck that a place stands on, in words. */
static const char *side_words(const struct job *job, const struct place *place)
{
	bool right = job->neck.hand == HAND_RIGHT;

	if (place->y_from_mm < 0.0 && place->y_to_mm > 0.0)
		return "across the centre line";
	return (place->y_to_mm > 0.0) == right ? "on the bass side" : "on the treble side";
}

/* A clamp on the neck is as good as no neck. A cylinder is taken for the square
 * around it: it would have to keep farther from the neck anyway. */
static enum fault check_keep_out(const struct job *job, size_t i, struct fault_list *faults)
{
	const struct place *place = &job->fixture.keep_out[i];
	double from = fmax(place->x_from_mm, job->carve.from_mm);
	double to = fmin(place->x_to_mm, job->carve.to_mm);
	double half = fmax(taper_wood_half_width_mm(&job->neck, from),
			   taper_wood_half_width_mm(&job->neck, to));
	char setting[FAULT_SETTING_MAX];
	enum fault code = check_place(place, "fixture.keep_out", i, faults);

	if (code || from >= to || place->y_from_mm >= half || place->y_to_mm <= -half ||
	    place->top_mm <= 0.0)
		return code;
	(void)snprintf(setting, sizeof setting, "fixture.keep_out[%zu]", i);
	return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
			 "\"%s\" stands on the neck between x = %.2f and %.2f mm, %s, where it "
			 "is to be carved.",
			 place->name, from, to, side_words(job, place));
}

static enum fault check_hold(const struct job *job, size_t i, struct fault_list *faults)
{
	const struct place *place = &job->fixture.hold[i];
	const struct blank *blank = &job->blank;
	char setting[FAULT_SETTING_MAX];
	enum fault code = check_place(place, "fixture.hold", i, faults);

	if (code || blank->top.count < 2)
		return code;
	if (place->x_to_mm > blank_from_mm(blank) && place->x_from_mm < blank_to_mm(blank))
		return FAULT_NONE;
	(void)snprintf(setting, sizeof setting, "fixture.hold[%zu]", i);
	return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
			 "\"%s\" holds nothing: it lies between x = %.2f and %.2f mm, the blank "
			 "between %.2f and %.2f mm.",
			 place->name, place->x_from_mm, place->x_to_mm, blank_from_mm(blank),
			 blank_to_mm(blank));
}

enum fault fit_check_places(const struct job *job, struct fault_list *faults)
{
	enum fault first = FAULT_NONE;

	for (size_t i = 0; i < job->fixture.keep_out_count; i++)
		keep_first(&first, check_keep_out(job, i, faults));
	for (size_t i = 0; i < job->fixture.hold_count; i++)
		keep_first(&first, check_hold(job, i, faults));
	return first;
}

/* Keeps the larger shortfall. */
static void look(struct shortfall *worst, double at_mm, double has_mm, double needs_mm)
{
	if (needs_mm - has_mm > worst->by_mm)
		*worst = (struct shortfall){ needs_mm - has_mm, at_mm, has_mm, needs_mm };
}

/* Hand-finish stock on the crest at x, mm. */
static double crest_stock_mm(const struct job *job, const struct crest *crest, double x)
{
	const struct allowance_spec *allowance = &job->neck.allowance;

	if (x < 0.0)
		return allowance->transitions_mm;
	if (x <= crest->heel_start_mm)
		return allowance->back_mm;
	return x < crest->heel_proper_mm ? allowance->transitions_mm : allowance->heel_cheeks_mm;
}

/* Top of the roughed neck at x: the highest of the circles of stock around the
 * crest's points that reach x. */
static double roughed_crest_mm(const struct job *job, const struct crest *crest, double x)
{
	const struct allowance_spec *allowance = &job->neck.allowance;
	double reach = fmax(fmax(allowance->back_mm, allowance->transitions_mm),
			    allowance->heel_cheeks_mm);
	double top = crest_value_mm(crest, x) + crest_stock_mm(job, crest, x);

	int steps = (int)ceil(reach / CIRCLE_STEP_MM);

	for (int i = -steps; i <= steps; i++) {
		double at = fmin(x + i * CIRCLE_STEP_MM, crest->to_mm);
		double stock = crest_stock_mm(job, crest, at);
		double rest = stock * stock - (x - at) * (x - at);
		if (rest > 0.0)
			top = fmax(top, crest_value_mm(crest, at) + sqrt(rest));
	}
	return top;
}

/* Half-width of the finished neck at its under side, mm; the peghead opens by
 * the same rule as in the model. */
static double neck_half_mm(const struct neck_spec *neck, double x)
{
	double half = taper_wood_half_width_mm(neck, x), start = -neck->peghead.transition_mm;
	double open = 1.0 - blend_step(x, start - neck->peghead.flare_mm, start);

	return half + (neck->peghead.width_mm / 2.0 - half) * open;
}

static enum fault report(const struct shortfall *worst, const char *setting, const char *what,
			 double margin_mm, struct fault_list *faults)
{
	if (worst->by_mm <= SAWN_MM)
		return FAULT_NONE;
	if (margin_mm <= 0.0)
		return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				 "The neck does not fit into the blank at x = %.1f mm: %s %.2f mm, "
				 "and the neck with its hand-finish stock needs %.2f mm.",
				 worst->at_mm, what, fabs(worst->has_mm), fabs(worst->needs_mm));
	return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
			 "The neck does not fit into the blank at x = %.1f mm: sawn as small as "
			 "the margin of %.2f mm allows, %s %.2f mm, and the neck with its "
			 "hand-finish stock needs %.2f mm, %.2f mm more.",
			 worst->at_mm, margin_mm, what, fabs(worst->has_mm), fabs(worst->needs_mm),
			 worst->by_mm);
}

/* The sides' shortfalls. */
static enum fault report_sides(const struct blank *blank, const struct shortfall side[BLANK_SIDES],
			       struct fault_list *faults)
{
	const struct shortfall *minus = &side[BLANK_MINUS], *plus = &side[BLANK_PLUS];
	enum fault first = FAULT_NONE;

	if (blank_sides_alike(blank))
		return report(plus, "blank.half_width", "its half-width is", blank->margin_mm,
			      faults);
	keep_first(&first, report(plus, "blank.plus_side", "its side at +y lies at",
				  blank->margin_mm, faults));
	keep_first(&first, report(minus, "blank.minus_side", "its side at -y lies at",
				  blank->margin_mm, faults));
	return first;
}

static enum fault check_around(const struct job *job, const struct crest *crest,
			       struct fault_list *faults)
{
	const struct blank *blank = &job->blank;
	struct shortfall top = { 0 }, side[BLANK_SIDES] = { top, top };
	enum fault first = FAULT_NONE;
	double below_mm = 0.0, below_at_mm = 0.0;

	int steps = (int)ceil((job->carve.to_mm - job->carve.from_mm) / LOOK_STEP_MM);

	for (int i = 0; i <= steps; i++) {
		double x = fmin(job->carve.from_mm + i * LOOK_STEP_MM, job->carve.to_mm);
		double half = neck_half_mm(&job->neck, x) + job->neck.allowance.sides_mm;
		look(&top, x, blank_top_least_mm(blank, x, x), roughed_crest_mm(job, crest, x));
		for (int k = 0; k < BLANK_SIDES; k++)
			look(&side[k], x, blank_side_least_mm(blank, (enum blank_side)k, x, x),
			     half);
		double gap = outline_most_mm(&blank->bottom, x, x) - crest_base_mm(crest, x);
		if (gap > below_mm) {
			below_mm = gap;
			below_at_mm = x;
		}
	}
	keep_first(&first, report(&top, "blank.top", "its top is at", blank->margin_mm, faults));
	keep_first(&first, report_sides(blank, side, faults));
	if (below_mm > SAWN_MM)
		keep_first(&first,
			   fault_add(faults, FAULT_SETTING, NULL, 0, "blank.bottom",
				     "The neck does not fit into the blank at x = %.1f mm: "
				     "the blank's bottom lies %.2f mm above the neck's under "
				     "side.",
				     below_at_mm, below_mm));
	return first;
}

/* The carve range must lie on the blank and on what is modelled of the neck. */
static enum fault check_range(const struct job *job, const struct crest *crest,
			      struct fault_list *faults)
{
	double model_from = -(job->neck.peghead.transition_mm + job->neck.peghead.length_mm);
	double from = fmax(blank_from_mm(&job->blank), model_from);
	double to = fmin(blank_to_mm(&job->blank), crest->to_mm);
	enum fault first = FAULT_NONE;

	if (job->carve.from_mm < from - SAWN_MM)
		first = fault_add(
			faults, FAULT_SETTING, NULL, 0, "carve.from",
			"Carving would begin at %.2f mm; blank and modelled peghead reach "
			"to %.2f mm (peghead.length sets how much is modelled).",
			job->carve.from_mm, from);
	if (job->carve.to_mm > crest->to_mm + SAWN_MM && job->neck.heel.joint.kind != JOINT_NONE)
		keep_first(
			&first,
			fault_add(faults, FAULT_SETTING, NULL, 0, "carve.to",
				  "Carving would end at %.2f mm, past the neck's end at %.2f mm, "
				  "where the joint stands that is not to be cut (heel.joint: "
				  "%s).",
				  job->carve.to_mm, crest->to_mm,
				  joint_name(job->neck.heel.joint.kind)));
	else if (job->carve.to_mm > to + SAWN_MM)
		keep_first(&first,
			   fault_add(faults, FAULT_SETTING, NULL, 0, "carve.to",
				     "Carving would end at %.2f mm; blank and neck reach to "
				     "%.2f mm.",
				     job->carve.to_mm, to));
	return first;
}

/* The wood must be wide enough for a rail somewhere; tells where least is
 * missing. */
static enum fault check_rails(const struct job *job, struct fault_list *faults)
{
	double most = -INFINITY, at_mm = 0.0, need_mm = 0.0;
	double beside = job_most_stock_mm(job) + job_channel_mm(job) + RAIL_LEAST_WIDTH_MM;

	for (int i = 0; job->carve.from_mm + i * LOOK_STEP_MM <= job->carve.to_mm; i++) {
		double x = job->carve.from_mm + i * LOOK_STEP_MM;
		for (int k = 0; k < BLANK_SIDES; k++) {
			double need = neck_half_mm(&job->neck, x) + beside;
			double has = blank_side_least_mm(&job->blank, (enum blank_side)k, x, x);
			if (has - need <= most)
				continue;
			most = has - need;
			at_mm = x;
			need_mm = need;
		}
	}
	if (most >= 0.0)
		return FAULT_NONE;
	return fault_add(faults, FAULT_SETTING, NULL, 0, "carve.waste",
			 "The blank is too narrow for rails: beside a channel of %.2f mm a rail of "
			 "%.3g mm would need wood out to %.2f mm from the centre line at x = %.1f "
			 "mm, where least is missing; %.2f mm are missing.",
			 job_channel_mm(job), RAIL_LEAST_WIDTH_MM, need_mm, at_mm, -most);
}

/* Every cutter must pass between neck and rail. */
static enum fault check_channel(const struct job *job, struct fault_list *faults)
{
	double least = job_least_channel_mm(job);

	if (job_channel_mm(job) >= least - SAWN_MM)
		return FAULT_NONE;
	return fault_add(faults, FAULT_SETTING, NULL, 0, "carve.channel",
			 "A channel of %.4g mm between neck and rails is too narrow: ball and "
			 "shank of the stoutest cutter need %.4g mm.",
			 job_channel_mm(job), least);
}

enum fault fit_check_rails(const struct job *job, struct fault_list *faults)
{
	if (job->carve.waste.kind != WASTE_RAILS)
		return FAULT_NONE;
	enum fault first = check_channel(job, faults);

	if (job->carve.from_mm < job->carve.to_mm)
		keep_first(&first, check_rails(job, faults));
	return first;
}

enum fault fit_check_blank(const struct job *job, struct fault_list *faults)
{
	struct crest crest = { 0 };
	enum fault code = FAULT_NONE;

	if (!neck_check(&job->neck, NULL) && !crest_build(&crest, &job->neck, NULL)) {
		code = check_range(job, &crest, faults);
		if (!code)
			code = check_around(job, &crest, faults);
	}
	crest_free(&crest);
	return code;
}
