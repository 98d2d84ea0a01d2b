/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/setup_sheet.h"

#include <stdio.h>

#include "base/minmax.h"
#include "papers/beside_part.h"
#include "papers/chisel_part.h"
#include "papers/flow.h"
#include "papers/setup_blank.h"
#include "papers/setup_cutter.h"
#include "papers/setup_drawing.h"
#include "papers/setup_heights.h"
#include "papers/setup_tables.h"
#include "pictures/scale.h"
#include "report/words.h"

#define CUTTER_MOST_MM 128.0
#define BESIDE_MM 8.0 /* between tables and cutter */
#define REMARK_ROOM 800

static void make_remark(char out[REMARK_ROOM], const struct job *job)
{
	char zero[WORDS_ZERO_ROOM];

	words_zero(zero, job);
	(void)snprintf(
		out, REMARK_ROOM,
		"%s x runs toward the body, y toward the %s, z up; the neck lies face down%s. "
		"Machine: %.40s; wood: %.40s.",
		zero, words_side(&job->neck, SIDE_PLUS),
		job->fixture.fretboard.glued ? " with its fretboard glued on" : "",
		job->machine.name, job->wood.name);
}

static void put_checks(struct flow *flow)
{
	static const char *const steps[] = {
		"The machine's manual, local rules and the safety checklist come first.",
		"Bed clean. Riser, clamps and screws where the drawing shows them, none higher. "
		"Pull and twist the blank: it must not move.",
		"Blank: measure length, thickness and width; each between the least and the "
		"most of the table.",
		"Cutter: measure ball, flutes, holder and stickout; no stickout shorter and no "
		"holder larger than drawn.",
		"Zero: set x, y and z, then drive to a second point you know, such as the blank's "
		"end on the centre line, and read the control.",
		"Drive x, y and z to the bounds at safe height: nothing may stop or touch.",
		"Run the dry run with a hand at the stop button; only then the program.",
	};

	flow_heading(flow, "Before the start", 3.0 * SHEET_LEADING_MM);
	flow_steps(flow, 2, sizeof steps / sizeof steps[0], steps);
}

static void put_cutter_words(struct flow *flow, const struct cutter *cutter)
{
	char text[320], flutes[NUMBER_MAX], rpm[NUMBER_MAX];

	(void)snprintf(text, sizeof text, "%s flutes, %s rpm: %.60s",
		       scale_number(flutes, cutter->flutes, 0),
		       scale_number(rpm, cutter->spindle_rpm, 0), cutter->name);
	flow_text(flow, TEXT_BODY, 1, text);
}

/* What is to be done between two programs. */
static void put_change(struct flow *flow, size_t turn)
{
	static const char *const steps[] = {
		"Let the program before end and the spindle stop. Switch the spindle off at its "
		"plug before a hand goes near the cutter.",
		"Leave the blank as it is held, and x and y zero as they are.",
		"Change the cutter. Measure ball, flutes, holder and stickout as drawn here.",
		"Set z zero anew with this cutter's tip, at the place where it was set before: its "
		"tip is not where the last one's was.",
		"Clear the chips, drive to a second point you know and read the control.",
	};
	char title[64];

	(void)snprintf(title, sizeof title, "Before program %zu", turn + 1);
	flow_heading(flow, title, 3.0 * SHEET_LEADING_MM);
	flow_steps(flow, 2, sizeof steps / sizeof steps[0], steps);
}

/* The cutter stands at the right; what is to be done before its program runs
 * beside it as far as the page goes. */
static void put_cutter_page(struct flow *flow, const struct paper_content *content, size_t turn)
{
	flow_need(flow, CUTTER_MOST_MM);
	double top = flow->y_mm, left = flow->area.left, right = flow->area.right;
	const struct cutter *cutter = &content->job->cutter[turn];
	struct flow beside = *flow;
	size_t page = flow->sheet->page;
	char title[32] = "Cutter";

	if (content->job->cutter_count > 1)
		(void)snprintf(title, sizeof title, "Cutter %zu", turn + 1);
	beside.area.left = right - SETUP_CUTTER_WIDTH_MM;
	flow_heading(&beside, title, 0.0);
	put_cutter_words(&beside, cutter);
	const struct sheet_area area = { beside.area.left, beside.y_mm, right,
					 top + CUTTER_MOST_MM };
	setup_cutter_put(flow->sheet->canvas, cutter, &area);
	flow->area.right = beside.area.left - BESIDE_MM;
	if (turn == 0)
		put_checks(flow);
	else
		put_change(flow, turn);
	if (flow->sheet->page == page)
		flow->y_mm = larger(flow->y_mm, top + CUTTER_MOST_MM);
	flow->area.left = left;
	flow->area.right = right;
}

static enum fault draw_pages(struct flow *flow, const struct paper_content *content,
			     struct fault_list *faults)
{
	struct neck_lines lines;
	enum fault fault = neck_lines_build(&lines, content->neck, faults);

	if (fault == FAULT_NONE) {
		const struct setup_drawing drawing = setup_drawing_of(
			content, &lines, flow_width_mm(flow), flow->area.bottom - flow->area.top);
		setup_drawing_put(flow->sheet->canvas, &drawing, &flow->area);
		flow->y_mm = flow->area.bottom;
		setup_tables_places(flow, content);
		setup_blank_put(flow, content);
		beside_part_setup(flow, content);
		setup_tables_travel(flow, content);
		setup_heights(flow, content);
		setup_tables_programs(flow, content);
		chisel_part_words(flow, content);
		for (size_t i = 0; i < content->job->cutter_count; i++)
			put_cutter_page(flow, content, i);
	}
	neck_lines_free(&lines);
	return fault;
}

enum fault setup_sheet_draw(struct sheet *sheet, const struct paper_content *content,
			    struct fault_list *faults)
{
	char remark[REMARK_ROOM];

	make_remark(remark, content->job);
	sheet->title = "Set-up sheet";
	sheet->remark = remark;
	enum fault fault = flow_draw(sheet, content, draw_pages, faults);
	sheet->remark = "";
	return fault;
}
