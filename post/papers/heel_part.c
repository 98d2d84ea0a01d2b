/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/heel_part.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>

#include "model/joint.h"
#include "pictures/scale.h"

/* Heights looked at for the deepest place of a cheek. */
#define HEIGHTS 400
/* A cheek whose sides differ by less is equal, mm: a caliper's reading. */
#define EQUAL_MM 0.05
/* A cheek that dips less is straight, mm. */
#define LEAST_HOLLOW_MM 0.05

struct cheek_hollow heel_part_hollow(const struct neck *neck, enum neck_side side, double x_mm)
{
	double foot = neck_half_breadth_mm(neck, side, x_mm, 0.0);
	double cap = neck_half_breadth_mm(neck, side, x_mm, 1.0);
	double base = neck_base_mm(neck, x_mm), height = neck_crest_mm(neck, x_mm) - base;
	struct cheek_hollow hollow = { 0.0, base };

	for (int i = 1; i < HEIGHTS; i++) {
		double v = (double)i / HEIGHTS;
		double dip = foot + (cap - foot) * v - neck_half_breadth_mm(neck, side, x_mm, v);
		if (dip > hollow.depth_mm)
			hollow = (struct cheek_hollow){ dip, base + v * height };
	}
	return hollow;
}

struct heel_rows {
	const struct neck *neck;
	size_t count;
	struct {
		const char *name;
		double x_mm, v;
	} row[6];
};

static void add_row(struct heel_rows *rows, const char *name, double x_mm, double v)
{
	rows->row[rows->count].name = name;
	rows->row[rows->count].x_mm = x_mm;
	rows->row[rows->count++].v = v;
}

enum heel_column { HEEL_PLACE, HEEL_X, HEEL_Z, HEEL_WIDTH, HEEL_WIDTH_IN, HEEL_BASS, HEEL_TREBLE };

static void heel_cell(const void *context, size_t row, size_t column, char out[FLOW_CELL_ROOM])
{
	const struct heel_rows *rows = context;
	const struct neck *neck = rows->neck;
	double x = rows->row[row].x_mm, v = rows->row[row].v;
	enum neck_side bass = neck_spec_of(neck)->hand == HAND_RIGHT ? SIDE_PLUS : SIDE_MINUS;
	enum neck_side treble = bass == SIDE_PLUS ? SIDE_MINUS : SIDE_PLUS;
	double on_bass = neck_half_breadth_mm(neck, bass, x, v);
	double on_treble = neck_half_breadth_mm(neck, treble, x, v);
	double base = neck_base_mm(neck, x);

	switch ((enum heel_column)column) {
	case HEEL_PLACE:
		(void)snprintf(out, FLOW_CELL_ROOM, "%s", rows->row[row].name);
		break;
	case HEEL_X:
		flow_mm(out, x);
		break;
	case HEEL_Z:
		flow_mm(out, base + v * (neck_crest_mm(neck, x) - base));
		break;
	case HEEL_WIDTH:
		flow_mm(out, on_bass + on_treble);
		break;
	case HEEL_WIDTH_IN:
		flow_inch(out, on_bass + on_treble);
		break;
	case HEEL_BASS:
		flow_mm(out, on_bass);
		break;
	case HEEL_TREBLE:
		flow_mm(out, on_treble);
		break;
	}
}

static void put_table(struct flow *flow, const struct heel_rows *rows)
{
	static const struct flow_column column[] = {
		{ .head = "place", .width_mm = 54.0, .words = true },
		{ .head = "x, mm", .width_mm = 18.0 },
		{ .head = "height, mm", .width_mm = 22.0 },
		{ .group = "width", .head = "mm", .width_mm = 18.0 },
		{ .group = "width", .head = "in", .width_mm = 16.0 },
		{ .group = "from the centre line", .head = "bass, mm", .width_mm = 22.0 },
		{ .group = "from the centre line", .head = "treble, mm", .width_mm = 22.0 },
	};
	const struct flow_table table = { 7, column, rows->count, heel_cell, rows };

	flow_table(flow, &table);
}

/* Largest difference of the sides over the heel's rows. */
static double uneven_mm(const struct heel_rows *rows)
{
	double most = 0.0;

	for (size_t i = 0; i < rows->count; i++) {
		double x = rows->row[i].x_mm, v = rows->row[i].v;
		most = fmax(most, fabs(neck_half_breadth_mm(rows->neck, SIDE_PLUS, x, v) -
				       neck_half_breadth_mm(rows->neck, SIDE_MINUS, x, v)));
	}
	return most;
}

static void put_equality(struct flow *flow, const struct heel_rows *rows)
{
	char text[720], mm[FLOW_CELL_ROOM];
	double most = uneven_mm(rows);

	flow_both(mm, most);
	if (most < EQUAL_MM)
		(void)snprintf(text, sizeof text,
			       "Both cheeks are equal: measure each from the centre line.");
	else
		(void)snprintf(text, sizeof text,
			       "The cheeks are not meant to be equal: they differ by up to %s.",
			       mm);
	flow_text(flow, TEXT_BODY, 1, text);
}

static void put_hollow(struct flow *flow, const struct neck *neck)
{
	double x = neck_to_mm(neck);
	struct cheek_hollow hollow = heel_part_hollow(neck, SIDE_PLUS, x);
	char text[720], mm[FLOW_CELL_ROOM], at[FLOW_CELL_ROOM], place[NUMBER_MAX];

	flow_both(mm, hollow.depth_mm);
	flow_both(at, hollow.height_mm);
	if (hollow.depth_mm < LEAST_HOLLOW_MM)
		(void)snprintf(text, sizeof text,
			       "The cheeks are straight from the gluing face to the cap: no light "
			       "under a rule laid upright.");
	else
		(void)snprintf(
			text, sizeof text,
			"A rule laid upright on a cheek at the body joint (x %s mm) shows "
			"light: hollow %s, deepest %s above the gluing face; toward the nose it "
			"runs out.",
			scale_number(place, x, 1), mm, at);
	flow_text(flow, TEXT_BODY, 2, text);
}

static void put_block(struct flow *flow, const struct neck *neck)
{
	static const char *const fronts[CAP_PLAN_COUNT] = {
		[CAP_ROUND] = "its front is round",
		[CAP_POINTED] = "its front comes to a point",
		[CAP_SQUARE] = "its front is straight across",
	};
	const struct heel_spec *heel = &neck_spec_of(neck)->heel;
	double back = neck_to_mm(neck), sides = neck_heel_sides_mm(neck);
	char text[720], height[FLOW_CELL_ROOM], length[FLOW_CELL_ROOM];
	struct heel_rows rows = { .neck = neck };

	flow_both(height, neck_crest_mm(neck, back));
	flow_both(length, heel->cap_length_mm);
	(void)snprintf(text, sizeof text,
		       "Cap %s above the gluing face, level, %s long up to the body joint; %s.",
		       height, length, fronts[heel->cap_plan]);
	flow_text(flow, TEXT_BODY, 2, text);
	add_row(&rows, "sides begin, at the gluing face", sides, 0.0);
	add_row(&rows, "sides begin, half way up", sides, 0.5);
	add_row(&rows, "sides begin, on the cap", sides, 1.0);
	add_row(&rows, "body joint, at the gluing face", back, 0.0);
	add_row(&rows, "body joint, half way up", back, 0.5);
	add_row(&rows, "body joint, on the cap", back, 1.0);
	put_table(flow, &rows);
	put_equality(flow, &rows);
	put_hollow(flow, neck);
}

static void put_slab(struct flow *flow, const struct neck *neck)
{
	double front = neck_heel_proper_mm(neck), back = neck_to_mm(neck);
	bool tenon = neck_spec_of(neck)->heel.kind == HEEL_SET;
	char text[720], height[FLOW_CELL_ROOM], length[FLOW_CELL_ROOM], ease[FLOW_CELL_ROOM];
	struct heel_rows rows = { .neck = neck };

	flow_both(height, neck_crest_mm(neck, back));
	flow_both(length, back - front);
	flow_both(ease, front - neck_heel_start_mm(neck));
	(void)snprintf(text, sizeof text,
		       "%s of wood %s %s and %s long%s; the shaft eases into it over %s. Keep it "
		       "flat and square for the %s: no light under a rule either way.",
		       tenon ? "Tenon" : "Flat slab", height, tenon ? "deep" : "thick", length,
		       tenon ? " from the body joint on" : "", ease, tenon ? "body" : "pocket");
	flow_text(flow, TEXT_BODY, 2, text);
	add_row(&rows, tenon ? "body joint, at the gluing face" : "slab begins, at the gluing face",
		front, 0.0);
	add_row(&rows, tenon ? "body joint, on the back" : "slab begins, on the back", front, 1.0);
	if (tenon)
		add_row(&rows, "shoulder ends, at the gluing face", neck_heel_sides_mm(neck), 0.0);
	add_row(&rows, "neck ends, at the gluing face", back, 0.0);
	add_row(&rows, "neck ends, on the back", back, 1.0);
	put_table(flow, &rows);
	put_equality(flow, &rows);
}

static void put_joint(struct flow *flow, const struct neck *neck)
{
	char text[900], length[FLOW_CELL_ROOM], width[FLOW_CELL_ROOM], from[FLOW_CELL_ROOM],
		to[FLOW_CELL_ROOM];
	struct joint_box box;

	if (!joint_keep_out(&box, neck_spec_of(neck)))
		return;
	flow_both(length, box.x_to_mm - box.x_from_mm);
	flow_both(width, box.y_to_mm - box.y_from_mm);
	flow_both(from, box.z_from_mm);
	flow_both(to, box.z_to_mm);
	(void)snprintf(text, sizeof text,
		       "The joint (%s) stands %s out of the neck's end, %s wide, from %s to %s "
		       "above the gluing face. It is made already: keep tools off it.",
		       joint_name(neck_spec_of(neck)->heel.joint.kind), length, width, from, to);
	flow_text(flow, TEXT_BODY, 2, text);
}

void heel_part(struct flow *flow, const struct neck *neck)
{
	flow_heading(flow, "Heel", 40.0);
	if (neck_spec_of(neck)->heel.kind == HEEL_BLOCK)
		put_block(flow, neck);
	else
		put_slab(flow, neck);
	put_joint(flow, neck);
}
