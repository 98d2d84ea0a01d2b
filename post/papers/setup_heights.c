/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/setup_heights.h"

#include <math.h>
#include <stdio.h>

#include "job/gap.h"

/* One line of the table; needs or has NAN: none told. */
struct height_row {
	char name[FLOW_CELL_ROOM];
	double needs_mm, has_mm;
};

#define ROWS_EACH 4
#define ROWS_MAX (ROWS_EACH * JOB_CUTTERS_MAX)

struct height_rows {
	size_t count;
	struct height_row row[ROWS_MAX];
};

static void add(struct height_rows *rows, const char *whose, const char *what, double needs_mm,
		double has_mm)
{
	struct height_row *row = &rows->row[rows->count++];

	(void)snprintf(row->name, sizeof row->name, "%s%s", whose, what);
	row->needs_mm = needs_mm;
	row->has_mm = has_mm;
}

static void find_rows(struct height_rows *rows, const struct job *job)
{
	rows->count = 0;
	for (size_t i = 0; i < job->cutter_count; i++) {
		struct gap_heights h = gap_heights_of(job, &job->cutter[i]);
		char whose[32] = "";
		if (job->cutter_count > 1)
			(void)snprintf(whose, sizeof whose, "cutter %zu: ", i + 1);
		add(rows, whose, "tip passes over everything at", h.tip_safe_mm, NAN);
		add(rows, whose, "holder then, at most", h.face_safe_mm, h.face_most_mm);
		add(rows, whose, "holder at the deepest cut, at least", h.face_lowest_mm,
		    h.face_least_mm);
		add(rows, whose, "under the holder, to change the cutter where it stands",
		    h.change_mm, h.face_most_mm);
	}
}

static void height_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	const struct height_row *r = &((const struct height_rows *)context)->row[row];
	double value = column < 3 ? r->needs_mm : r->has_mm;

	if (column == 0)
		(void)snprintf(out, FLOW_CELL_ROOM, "%s", r->name);
	else if (column % 2 == 1)
		flow_mm(out, value);
	else
		flow_inch(out, value);
}

void setup_heights(struct flow *flow, const struct paper_content *content)
{
	static const struct flow_column column[] = {
		{ .head = "", .width_mm = 96.0, .words = true },
		{ .group = "the job", .head = "mm", .width_mm = 20.0 },
		{ .group = "the job", .head = "in", .width_mm = 18.0 },
		{ .group = "the machine", .head = "mm", .width_mm = 20.0 },
		{ .group = "the machine", .head = "in", .width_mm = 18.0 },
	};
	struct height_rows rows;

	find_rows(&rows, content->job);
	const struct flow_table table = { 5, column, rows.count, height_cell, &rows };
	flow_heading(flow, "Heights above the bed", flow_table_height_mm(&table));
	flow_table(flow, &table);
	if (!(content->job->machine.z_gap_mm > 0.0))
		flow_text(flow, TEXT_BODY, 3,
			  "How much room lies under this machine's spindle is not stated "
			  "(machine.z_gap): move z to its top and measure from the bed to the "
			  "holder's lower face before the cutter is put in.");
}
