/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/heel_template.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "pictures/scale.h"
#include "report/words.h"

/* So much of the shaft is shown, for the template to be laid along it, mm. */
#define SHAFT_MM 30.0
/* Between the two views, mm. */
#define VIEW_GAP_MM 26.0

static enum fault sample(struct heel_template *heel, const struct neck *neck,
			 struct fault_list *faults)
{
	enum fault fault = curves_sample(&heel->crest, neck, heel->from_mm, heel->to_mm,
					 neck_crest_mm, faults);

	if (!fault)
		fault = curves_sample(&heel->edge[SIDE_MINUS], neck, heel->from_mm, heel->to_mm,
				      curves_minus_edge_mm, faults);
	if (!fault)
		fault = curves_sample(&heel->edge[SIDE_PLUS], neck, heel->from_mm, heel->to_mm,
				      curves_plus_edge_mm, faults);
	if (!fault && heel->block)
		fault = curves_sample(&heel->cap[SIDE_MINUS], neck, heel->proper_mm, heel->to_mm,
				      curves_minus_crest_mm, faults);
	if (!fault && heel->block)
		fault = curves_sample(&heel->cap[SIDE_PLUS], neck, heel->proper_mm, heel->to_mm,
				      curves_plus_crest_mm, faults);
	return fault ? fault : hollow_build(&heel->hollow, neck, faults);
}

static void add_side(struct heel_template *heel, const struct neck *neck, const char *name,
		     double x_mm)
{
	heel->side_count =
		corners_add(heel->side, heel->side_count, name, x_mm, neck_crest_mm(neck, x_mm));
}

static void add_width(struct heel_template *heel, const struct neck *neck, const char *name,
		      double x_mm, double v)
{
	double width = neck_half_breadth_mm(neck, SIDE_MINUS, x_mm, v) +
		       neck_half_breadth_mm(neck, SIDE_PLUS, x_mm, v);

	heel->plan[heel->plan_count++] = (struct corner){ name, x_mm, width };
}

static void find_block_corners(struct heel_template *heel, const struct neck *neck)
{
	double sides = neck_heel_sides_mm(neck);

	add_side(heel, neck, "cap front", heel->proper_mm);
	add_side(heel, neck, "cap at the body", heel->to_mm);
	add_width(heel, neck, "foot, shaft ends", neck_heel_start_mm(neck), 0.0);
	add_width(heel, neck, "foot at the body", heel->to_mm, 0.0);
	add_width(heel, neck, sides > heel->proper_mm ? "cap, sides begin" : "cap front", sides,
		  1.0);
	add_width(heel, neck, "cap at the body", heel->to_mm, 1.0);
}

/* The body joint may lie before the slab, at its beginning, on it or at the
 * neck's end; a tenon begins there and has closed in a shoulder's length behind. */
static void find_flat_corners(struct heel_template *heel, const struct neck *neck)
{
	double joint = neck_fret_x_mm(neck, neck_spec_of(neck)->joint_fret);

	add_side(heel, neck, words_heel_place(neck), heel->proper_mm);
	if (joint > heel->from_mm)
		add_side(heel, neck, "body joint", joint);
	add_side(heel, neck, "neck's end", heel->to_mm);
	if (heel->tenon)
		add_side(heel, neck, "shoulder ends", neck_heel_sides_mm(neck));
	for (size_t i = 0; i < heel->side_count; i++)
		add_width(heel, neck, heel->side[i].name, heel->side[i].along_mm, 0.0);
}

double heel_template_end_mm(const struct heel_template *heel)
{
	return heel->joint_name ? heel->joint.x_to_mm : heel->to_mm;
}

/* Side by side when both views fit on the page, else the plan below. */
static void place_plan(struct heel_template *heel, struct sheet_area area)
{
	double length = heel_template_end_mm(heel) - heel->from_mm;

	if (2.0 * (length + HEEL_EDGE_MM) + VIEW_GAP_MM <= area.right - area.left) {
		heel->plan_x_mm = length + VIEW_GAP_MM;
		heel->plan_y_mm = -heel->half_width_mm;
	} else {
		heel->plan_y_mm = heel->half_width_mm + HEEL_EDGE_MM + HEEL_TABLE_GAP_MM;
	}
}

/* Text added to the remark behind what it has. */
static void add_remark(struct heel_template *heel, const char *text)
{
	size_t used = strlen(heel->remark);

	(void)snprintf(heel->remark + used, sizeof heel->remark - used, "%s", text);
}

static void write_remark(struct heel_template *heel, const struct neck *neck)
{
	double foot = neck_half_breadth_mm(neck, SIDE_PLUS, heel->to_mm, 0.0);
	double cap = neck_half_breadth_mm(neck, SIDE_PLUS, heel->to_mm, 1.0);
	bool beside = heel->plan_x_mm > 0.0;
	char slant[NUMBER_MAX], upright[NUMBER_MAX], text[256];

	(void)snprintf(heel->remark, sizeof heel->remark,
		       "Finished shape; cut along the middle of the thin lines. %s: seen "
		       "from the %s, back up; %s: seen from the back.",
		       beside ? "Left" : "Above", words_side(neck_spec_of(neck), SIDE_MINUS),
		       beside ? "right" : "below");
	if (heel->block) {
		(void)snprintf(text, sizeof text,
			       " Hold it upright beside the centre line, not along the cheek: that "
			       "leans and is %s mm long at the body, the heel %s mm tall.",
			       scale_number(slant, hypot(heel->height_mm, foot - cap), 2),
			       scale_number(upright, heel->height_mm, 2));
		add_remark(heel, text);
	}
	if (heel->block && heel->hollow.deepest_mm > 0.0)
		add_remark(heel, " Dashes: how deep the cheeks are hollowed; the rim outside them "
				 "bears on the body.");
	if (heel->joint_name)
		add_remark(heel, " Dashed behind the end: the joint, to be kept clear.");
}

enum fault heel_template_build(struct heel_template *out, const struct paper_content *content,
			       struct sheet_area area, struct fault_list *faults)
{
	const struct neck *neck = content->neck;
	bool right = neck_spec_of(neck)->hand == HAND_RIGHT;

	*out = (struct heel_template){
		.block = neck_spec_of(neck)->heel.kind == HEEL_BLOCK,
		.tenon = neck_spec_of(neck)->heel.kind == HEEL_SET,
		.from_mm = fmax(neck_heel_start_mm(neck) - SHAFT_MM, 0.0),
		.to_mm = neck_to_mm(neck),
		.proper_mm = neck_heel_proper_mm(neck),
		.minus_side = right ? "treble" : "bass",
		.plus_side = right ? "bass" : "treble",
	};
	if (joint_keep_out(&out->joint, neck_spec_of(neck)))
		out->joint_name = joint_name(neck_spec_of(neck)->heel.joint.kind);
	enum fault fault = sample(out, neck, faults);
	if (fault)
		return fault;
	for (size_t i = 0; i < out->crest.count; i++) {
		out->height_mm = fmax(out->height_mm, out->crest.value_mm[i]);
		out->half_width_mm =
			fmax(out->half_width_mm, fmax(out->edge[SIDE_MINUS].value_mm[i],
						      out->edge[SIDE_PLUS].value_mm[i]));
	}
	add_side(out, neck, "shaft ends", neck_heel_start_mm(neck));
	if (out->block)
		find_block_corners(out, neck);
	else
		find_flat_corners(out, neck);
	place_plan(out, area);
	write_remark(out, neck);
	return FAULT_NONE;
}

void heel_template_free(struct heel_template *heel)
{
	if (!heel)
		return;
	curves_free(&heel->crest);
	for (int side = 0; side < SIDE_COUNT; side++) {
		curves_free(&heel->edge[side]);
		curves_free(&heel->cap[side]);
	}
	hollow_free(&heel->hollow);
}
