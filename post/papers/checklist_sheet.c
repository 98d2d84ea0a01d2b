/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/checklist_sheet.h"

#include <stdio.h>

#include "papers/flow.h"
#include "program/checklist.h"

#define ROW_MM 11.4
#define BOX_MM 5.0
#define TEXT_LEFT_MM 13.0
#define SIGN_ROWS 4

static const char remark[] =
	"To go through at the machine before every run. The machine's manual, the rules of the "
	"place where you work and people licensed for the job decide; this list only helps to "
	"forget nothing. Tick what you have seen yourself.";

static const char last_words[] =
	"If a line is not as it should be, do not start. The long form with its sources is "
	"docs/safety.md.";

/* In the order of safety_checklist; docs/safety.md has the long form with its
 * sources. */
static const char *const reasons[] = {
	"They know the machine and the law; this paper knows neither.",
	"A piece that lifts is thrown; a neck blank grows weaker as it grows thinner.",
	"The programs keep clear of what stands there, no higher and no wider.",
	"Another ball, stickout or holder makes the proof void; blunt teeth burn.",
	"A wrong zero cuts clamps, riser or fingers; a second point shows it.",
	"It traces the job's bounds above the blank; watch with a hand at the stop button.",
	"Wood dust harms lungs and nose, some woods the skin; local limits decide.",
	"Splinters fly in every direction; a router with its extraction harms ears within hours.",
	"What is caught is wound in faster than a hand lets go.",
	"Stopping must not need a step or a thought; an ember can smoulder for hours.",
	"Chips are brushed away when nothing turns, never before.",
	"A loose clamp or a smell of burning needs somebody to notice it.",
	"It gets worse by itself, never better; look for the cause with the spindle still.",
};

#define REASON_COUNT (sizeof reasons / sizeof reasons[0])

const char *checklist_sheet_reason(size_t index)
{
	return index < REASON_COUNT ? reasons[index] : NULL;
}

static void put_fact(struct flow *flow, const char *name, const char *value)
{
	double y = flow_take(flow, SHEET_LEADING_MM + 0.4) + 3.0;
	struct canvas *canvas = flow->sheet->canvas;

	pen_text(canvas, flow->area.left, y, TEXT_SMALL, ANCHOR_LEFT, name);
	pen_text_fit(canvas, flow->area.left + 22.0, y, TEXT_STRONG, flow_width_mm(flow) - 22.0,
		     value);
}

static void put_facts(struct flow *flow, const struct paper_content *content)
{
	const struct job *job = content->job;
	char cutter[2 * FLOW_CELL_ROOM], length[FLOW_CELL_ROOM];

	put_fact(flow, "neck", flow->sheet->words.neck);
	put_fact(flow, "machine", job->machine.name);
	for (size_t i = 0; i < job->cutter_count; i++) {
		flow_both(length, job->cutter[i].stickout_mm);
		(void)snprintf(cutter, sizeof cutter, "%.40s, stickout at least %s",
			       job->cutter[i].name, length);
		put_fact(flow, i == 0 ? "cutter" : "then", cutter);
	}
	put_fact(flow, "wood", job->wood.name);
	if (job->machine.reads.spindle == SPINDLE_BY_HAND)
		put_fact(flow, "spindle",
			 "switched by hand where a program stops: on at its beginning, off at its "
			 "end");
	flow->y_mm += 3.0;
}

static void put_line(struct flow *flow, size_t index, const char *line)
{
	double top = flow_take(flow, ROW_MM), left = flow->area.left;
	struct canvas *canvas = flow->sheet->canvas;
	const char *reason = checklist_sheet_reason(index);
	char number[24];

	cairo_rectangle(canvas->pen, left + 0.2, top + 1.4, BOX_MM, BOX_MM);
	pen_stroke(canvas, LINE_TICK);
	(void)snprintf(number, sizeof number, "%zu", index + 1);
	pen_text(canvas, left + TEXT_LEFT_MM - 1.8, top + 4.2, TEXT_SMALL, ANCHOR_RIGHT, number);
	pen_text_fit(canvas, left + TEXT_LEFT_MM, top + 4.2, TEXT_STRONG,
		     flow_width_mm(flow) - TEXT_LEFT_MM, line);
	if (reason)
		pen_text_fit(canvas, left + TEXT_LEFT_MM, top + 8.2, TEXT_SMALL,
			     flow_width_mm(flow) - TEXT_LEFT_MM, reason);
	pen_line(canvas, left, top + ROW_MM, flow->area.right, top + ROW_MM, LINE_RULE);
}

static void empty_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	(void)context;
	(void)row;
	(void)column;
	out[0] = '\0';
}

static void put_signing(struct flow *flow)
{
	double width = flow_width_mm(flow);
	const struct flow_column column[] = {
		{ .head = "Program run", .width_mm = 0.24 * width, .words = true, .write = true },
		{ .head = "Date", .width_mm = 0.18 * width, .words = true, .write = true },
		{ .head = "Name", .width_mm = 0.28 * width, .words = true, .write = true },
		{ .head = "Signature", .width_mm = 0.30 * width, .words = true, .write = true },
	};
	const struct flow_table table = {
		.column_count = 4, .column = column, .row_count = SIGN_ROWS, .cell = empty_cell
	};

	flow_heading(flow, "Gone through, every line", flow_table_height_mm(&table));
	flow_table(flow, &table);
}

static enum fault draw_pages(struct flow *flow, const struct paper_content *content,
			     struct fault_list *faults)
{
	size_t count;
	const char *const *line = safety_checklist(&count);

	(void)faults;
	put_facts(flow, content);
	for (size_t i = 0; i < count; i++)
		put_line(flow, i, line[i]);
	flow->y_mm += 1.0;
	put_signing(flow);
	flow_text(flow, TEXT_BODY, 1, last_words);
	return FAULT_NONE;
}

enum fault checklist_sheet_draw(struct sheet *sheet, const struct paper_content *content,
				struct fault_list *faults)
{
	sheet->title = "Machine safety checklist";
	sheet->remark = remark;
	return flow_draw(sheet, content, draw_pages, faults);
}
