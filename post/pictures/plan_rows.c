/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/plan_rows.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "pictures/neck_lines.h"
#include "pictures/scale.h"

#define SAME_PLACE_MM 0.05 /* nearer than this, two names share a row */

struct rows {
	struct plan_row *row;
	size_t count;
	const struct neck *neck;
	const struct job *job;
};

static double full_width_mm(const struct neck *neck, double x, double v)
{
	return neck_half_breadth_mm(neck, SIDE_MINUS, x, v) +
	       neck_half_breadth_mm(neck, SIDE_PLUS, x, v);
}

static void measure(struct plan_row *row, const struct neck *neck, const struct job *job)
{
	double x = row->x_mm, flat = full_width_mm(neck, x, 1.0);
	bool board = x >= 0.0 && x <= neck_fret_x_mm(neck, neck_spec_of(neck)->fret_count);

	row->board_mm = board ? neck_fretboard_width_mm(neck, x) : NAN;
	row->edge_mm = full_width_mm(neck, x, 0.0);
	row->flat_mm = flat >= 2.0 * NECK_LINES_FLAT_MM ? flat : NAN;
	row->blank_mm = outline_value_mm(blank_side(&job->blank, BLANK_MINUS), x) +
			outline_value_mm(blank_side(&job->blank, BLANK_PLUS), x);
}

/* Puts a place where it belongs by x, or its name to the one that is there. */
static void add(struct rows *rows, const char *name, double x)
{
	size_t at = rows->count;

	while (at > 0 && rows->row[at - 1].x_mm > x + SAME_PLACE_MM)
		at--;
	if (at > 0 && fabs(rows->row[at - 1].x_mm - x) <= SAME_PLACE_MM) {
		char *words = rows->row[at - 1].name;
		size_t used = strlen(words);
		(void)snprintf(words + used, PLAN_NAME_MAX - used, ", %s", name);
		return;
	}
	memmove(rows->row + at + 1, rows->row + at, (rows->count - at) * sizeof *rows->row);
	rows->row[at].x_mm = x;
	(void)snprintf(rows->row[at].name, PLAN_NAME_MAX, "%s", name);
	measure(&rows->row[at], rows->neck, rows->job);
	rows->count++;
}

size_t plan_rows_fill(struct plan_row *row, const struct job_result *result,
		      const struct neck *neck, const struct job *job)
{
	struct rows rows = { row, 0, neck, job };
	struct neck_marks marks = neck_marks_of(neck);
	char name[PLAN_NAME_MAX], fret[NUMBER_MAX];

	for (size_t i = 0; i < result->station_count; i++) {
		const struct station_figures *s = &result->station[i];
		(void)snprintf(name, sizeof name, "%s%s", s->fret == 0.0 ? "" : "fret ",
			       scale_fret(fret, s->fret));
		add(&rows, name, s->x_mm);
	}
	add(&rows, "peghead end", neck_from_mm(neck));
	add(&rows, "heel begins", marks.heel_start_mm);
	add(&rows, marks.heel_proper_name, marks.heel_proper_mm);
	if (marks.heel_sides_mm > marks.heel_proper_mm)
		add(&rows, marks.heel_sides_name, marks.heel_sides_mm);
	add(&rows, "body joint", marks.joint_mm);
	if (neck_to_mm(neck) > marks.joint_mm + SAME_PLACE_MM)
		add(&rows, "neck's end", neck_to_mm(neck));
	return rows.count;
}
