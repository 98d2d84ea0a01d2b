/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/setup_tables.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>

#include "model/fretboard.h"
#include "papers/setup_extent.h"
#include "papers/setup_labels.h"
#include "pictures/scale.h"
#include "program/file_names.h"

/* "-190.00 to -120.00" in mm or in inches. */
static void range_words(char out[FLOW_CELL_ROOM], double from_mm, double to_mm, bool inch)
{
	char from[NUMBER_MAX], to[NUMBER_MAX];
	double unit = inch ? MM_PER_INCH : 1.0;
	int decimals = inch ? 3 : 2;

	(void)snprintf(out, FLOW_CELL_ROOM, "%s to %s",
		       scale_number(from, from_mm / unit, decimals),
		       scale_number(to, to_mm / unit, decimals));
}

/* One thing on the bed, in neck coordinates; above_bed_mm NAN: none told. */
struct bed_row {
	char mark[SETUP_LABEL_ROOM];
	const char *name;
	bool round; /* a cylinder within these figures */
	double x_from_mm, x_to_mm, y_from_mm, y_to_mm, above_bed_mm;
};

#define BED_ROWS_MAX (3 + 2 * FIXTURE_PLACES_MAX)

struct bed_rows {
	size_t count;
	struct bed_row row[BED_ROWS_MAX];
	struct vec3 zero;
};

static void add_places(struct bed_rows *rows, bool keep_out, size_t count,
		       const struct place *place, double bed_mm)
{
	for (size_t i = 0; i < count && i < FIXTURE_PLACES_MAX; i++) {
		struct bed_row *row = &rows->row[rows->count++];
		*row = (struct bed_row){ .name = place[i].name,
					 .round = keep_out && place[i].shape == PLACE_CYLINDER,
					 .x_from_mm = place[i].x_from_mm,
					 .x_to_mm = place[i].x_to_mm,
					 .y_from_mm = place[i].y_from_mm,
					 .y_to_mm = place[i].y_to_mm,
					 .above_bed_mm = keep_out ? place[i].top_mm - bed_mm
								  : NAN };
		setup_label(row->mark, keep_out, i);
	}
}

/* The gluing face is its upper end. */
static void add_fretboard(struct bed_rows *rows, const struct job *job)
{
	struct fretboard board = fretboard_of(&job->neck, job->fixture.fretboard.overhang_mm);
	double half = fmax(board.half_from_mm, board.half_to_mm);

	rows->row[rows->count++] = (struct bed_row){ .name = "fretboard, glued on, face down",
						     .x_from_mm = board.x_from_mm,
						     .x_to_mm = board.x_to_mm,
						     .y_from_mm = -half,
						     .y_to_mm = half,
						     .above_bed_mm = -setup_bed_mm(job) };
}

static void find_rows(struct bed_rows *rows, const struct job *job)
{
	const struct blank *blank = &job->blank;
	const struct fixture *fixture = &job->fixture;
	double from = blank_from_mm(blank), to = blank_to_mm(blank), bed = setup_bed_mm(job);
	double minus = outline_most_mm(blank_side(blank, BLANK_MINUS), from, to);
	double plus = outline_most_mm(blank_side(blank, BLANK_PLUS), from, to);

	*rows = (struct bed_rows){ .zero = fixture->work_zero_mm };
	rows->row[rows->count++] =
		(struct bed_row){ .name = "blank, at its widest and highest",
				  .x_from_mm = from,
				  .x_to_mm = to,
				  .y_from_mm = -minus,
				  .y_to_mm = plus,
				  .above_bed_mm = blank_highest_mm(blank) - bed };
	if (fixture->riser_height_mm > 0.0)
		rows->row[rows->count++] =
			(struct bed_row){ .name = "riser",
					  .x_from_mm = fixture->riser_from_mm,
					  .x_to_mm = fixture->riser_to_mm,
					  .y_from_mm = -fixture->riser_width_mm / 2.0,
					  .y_to_mm = fixture->riser_width_mm / 2.0,
					  .above_bed_mm = fixture->riser_height_mm };
	if (fixture->fretboard.glued)
		add_fretboard(rows, job);
	add_places(rows, true, fixture->keep_out_count, fixture->keep_out, bed);
	add_places(rows, false, fixture->hold_count, fixture->hold, bed);
}

static void bed_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	const struct bed_rows *rows = context;
	const struct bed_row *r = &rows->row[row];

	if (column == 0)
		(void)snprintf(out, FLOW_CELL_ROOM, "%s", r->mark);
	else if (column == 1)
		(void)snprintf(out, FLOW_CELL_ROOM, "%s%s", r->name, r->round ? " (round)" : "");
	else if (column < 4)
		range_words(out, r->x_from_mm - rows->zero.x, r->x_to_mm - rows->zero.x,
			    column == 3);
	else if (column < 6)
		range_words(out, r->y_from_mm - rows->zero.y, r->y_to_mm - rows->zero.y,
			    column == 5);
	else if (column == 6)
		flow_mm(out, r->above_bed_mm);
	else
		flow_inch(out, r->above_bed_mm);
}

void setup_tables_places(struct flow *flow, const struct paper_content *content)
{
	static const struct flow_column column[] = {
		{ .head = "", .width_mm = 9.0, .words = true },
		{ .head = "what", .width_mm = 67.0, .words = true },
		{ .group = "x from zero", .head = "mm", .width_mm = 36.0 },
		{ .group = "x from zero", .head = "in", .width_mm = 34.0 },
		{ .group = "y from zero", .head = "mm", .width_mm = 34.0 },
		{ .group = "y from zero", .head = "in", .width_mm = 32.0 },
		{ .group = "height above bed", .head = "mm", .width_mm = 18.0 },
		{ .group = "height above bed", .head = "in", .width_mm = 18.0 },
	};
	struct bed_rows rows;

	find_rows(&rows, content->job);
	const struct flow_table table = { 8, column, rows.count, bed_cell, &rows };
	flow_heading(flow, "What lies and stands on the bed", 30.0);
	flow_table(flow, &table);
}

struct travel_rows {
	double from_mm[AXIS_COUNT], to_mm[AXIS_COUNT], travel_mm[AXIS_COUNT];
};

static void travel_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	static const char *const names[] = { "x", "y", "z" };
	const struct travel_rows *rows = context;
	double from = rows->from_mm[row], to = rows->to_mm[row], span = to - from;
	const double figures[] = { span, span, rows->travel_mm[row], rows->travel_mm[row],
				   rows->travel_mm[row] - span };

	if (column == 0)
		(void)snprintf(out, FLOW_CELL_ROOM, "%s", names[row]);
	else if (column < 3)
		range_words(out, from, to, column == 2);
	else if (column == 4 || column == 6)
		flow_inch(out, figures[column - 3]);
	else
		flow_mm(out, figures[column - 3]);
}

void setup_tables_travel(struct flow *flow, const struct paper_content *content)
{
	static const struct flow_column column[] = {
		{ .head = "axis", .width_mm = 10.0, .words = true },
		{ .group = "tip moves, from zero", .head = "mm", .width_mm = 33.0 },
		{ .group = "tip moves, from zero", .head = "in", .width_mm = 31.0 },
		{ .group = "travel needed", .head = "mm", .width_mm = 18.0 },
		{ .group = "travel needed", .head = "in", .width_mm = 16.0 },
		{ .group = "machine has", .head = "mm", .width_mm = 18.0 },
		{ .group = "machine has", .head = "in", .width_mm = 16.0 },
		{ .group = "spare", .head = "mm", .width_mm = 17.0 },
	};
	struct setup_box moves = setup_moves(content->result);
	const double *travel = content->job->machine.travel_mm;
	const struct travel_rows rows = { { moves.least.x, moves.least.y, moves.least.z },
					  { moves.most.x, moves.most.y, moves.most.z },
					  { travel[AXIS_X], travel[AXIS_Y], travel[AXIS_Z] } };
	const struct flow_table table = { 8, column, AXIS_COUNT, travel_cell, &rows };

	flow_heading(flow, "Travel", flow_table_height_mm(&table));
	flow_table(flow, &table);
}

/* Fastest feed over the passes of a program. */
static double fastest_mm_per_min(const struct program_figures *program)
{
	double fastest = 0.0;

	for (size_t i = 0; i < program->pass_count; i++)
		fastest = fmax(fastest, program->pass[i].feed_mm_per_min);
	return fastest;
}

enum program_column {
	PROGRAM_NUMBER,
	PROGRAM_FILE,
	PROGRAM_BALL,
	PROGRAM_MINUTES,
	PROGRAM_FEED,
	PROGRAM_FEED_IN,
	PROGRAM_BLOCKS,
	PROGRAM_COLUMNS
};

static void program_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	const struct paper_content *content = context;

	if (column == PROGRAM_NUMBER) {
		(void)snprintf(out, FLOW_CELL_ROOM, "%u", (unsigned)(row + 1));
		return;
	}
	if (row == 0) {
		(void)snprintf(out, FLOW_CELL_ROOM, "%s",
			       column == PROGRAM_FILE ? PROGRAM_DRY_RUN_FILE
				       ", the dry run above the blank"
						      : "");
		return;
	}
	const struct program_figures *program = &content->result->program[row - 1];
	switch ((enum program_column)column) {
	case PROGRAM_FILE:
		(void)snprintf(out, FLOW_CELL_ROOM, "%s", program->file);
		break;
	case PROGRAM_BALL:
		flow_mm(out, program->ball_diameter_mm);
		break;
	case PROGRAM_MINUTES:
		flow_number(out, program->minutes, 1);
		break;
	case PROGRAM_FEED:
		flow_number(out, fastest_mm_per_min(program), 0);
		break;
	case PROGRAM_FEED_IN:
		flow_number(out, units_inch_from_mm(fastest_mm_per_min(program)), 1);
		break;
	default:
		flow_number(out, program->blocks, 0);
	}
}

/* What the machine does, or has done, at its programs' beginnings and ends. */
static void put_habits(struct flow *flow, const struct machine *machine)
{
	char text[500], x[FLOW_CELL_ROOM], y[FLOW_CELL_ROOM];

	if (machine->reads.spindle == SPINDLE_BY_HAND)
		flow_text(flow, TEXT_BODY, 2,
			  "The spindle is switched by hand: each program but the dry run stops for "
			  "it to be switched on before the first move, and once more at the end, "
			  "lifted above everything, for it to be switched off.");
	if (!machine->parks)
		return;
	flow_both(x, machine->park_x_mm);
	flow_both(y, machine->park_y_mm);
	(void)snprintf(text, sizeof text,
		       "At its end each program lifts the tool above everything and leaves it at "
		       "x %s, y %s from zero: nothing may stand higher on the way there.",
		       x, y);
	flow_text(flow, TEXT_BODY, 1, text);
}

static void put_speeds(struct flow *flow, const struct job *job, size_t turn)
{
	char text[400], whose[64] = "", rpm[NUMBER_MAX], plunge[NUMBER_MAX], inch[NUMBER_MAX];
	const struct cutter *cutter = &job->cutter[turn];

	if (job->cutter_count > 1)
		(void)snprintf(whose, sizeof whose, "Cutter %zu: ", turn + 1);
	(void)snprintf(text, sizeof text,
		       "%sspindle %s rpm, clockwise. Downward in wood at most %s mm/min (%s "
		       "in/min).",
		       whose, scale_number(rpm, cutter->spindle_rpm, 0),
		       scale_number(plunge, cutter->plunge_feed_mm_per_min, 0),
		       scale_number(inch, units_inch_from_mm(cutter->plunge_feed_mm_per_min), 1));
	if (job->cutter_count == 1)
		text[0] = 'S';
	flow_text(flow, TEXT_BODY, 2, text);
}

void setup_tables_programs(struct flow *flow, const struct paper_content *content)
{
	static const struct flow_column column[PROGRAM_COLUMNS] = {
		{ .head = "", .width_mm = 8.0, .words = true },
		{ .head = "file", .width_mm = 62.0, .words = true },
		{ .head = "ball, mm", .width_mm = 19.0 },
		{ .head = "minutes", .width_mm = 18.0 },
		{ .group = "fastest feed", .head = "mm/min", .width_mm = 19.0 },
		{ .group = "fastest feed", .head = "in/min", .width_mm = 18.0 },
		{ .head = "lines", .width_mm = 15.0 },
	};
	const struct flow_table table = { PROGRAM_COLUMNS, column,
					  content->result->program_count + 1, program_cell,
					  content };

	flow_heading(flow, "Programs in their order", 24.0);
	flow_table(flow, &table);
	for (size_t i = 0; i < content->job->cutter_count; i++)
		put_speeds(flow, content->job, i);
	flow_text(flow, TEXT_BODY, 2,
		  content->job->machine.program_unit == UNIT_INCH
			  ? "The programs are in inches: the control must show that unit."
			  : "The programs are in mm: the control must show that unit.");
	put_habits(flow, &content->job->machine);
}
