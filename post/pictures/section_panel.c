/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/section_panel.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>

#include "pictures/marks.h"
#include "pictures/pen.h"
#include "pictures/scale.h"

#define COVE_SLANT_MM 0.9 /* on paper, between slants over a cove */
#define COVE_AIR_MM 0.3 /* slants go on so far beyond a cove */
#define AIR_MM 2.0 /* on the neck, around the outlines */
#define WHOLE_MM 12.0 /* a blank that ends lower over the roughed line is shown whole ... */
#define ABOVE_MM 9.0 /* ... and a taller one so far */
#define BELOW_LEAST_MM 5.0 /* room under the gluing face for the width */
#define RULE_EVERY 10
#define LINE_STEP_MM 3.6

/* The panel's field on paper and on the neck. */
struct drawn {
	double left, top, right, bottom; /* on paper */
	double z_from, z_to, half_width; /* on the neck */
	double scale;
};

static double room_below_mm(const struct section_panel *p)
{
	return fmax(p->board_thickness_mm, BELOW_LEAST_MM);
}

double section_panel_low_mm(const struct section_panel *p)
{
	return floor(fmin(p->blank_bottom_mm, -room_below_mm(p)) - AIR_MM);
}

double section_panel_high_mm(const struct section_panel *p)
{
	double top = 0.0;

	for (size_t i = 0; i < p->finished_count; i++)
		top = fmax(top, p->finished_z_mm[i]);
	for (size_t i = 0; i < p->roughed_count; i++)
		top = fmax(top, p->roughed_z_mm[i]);
	if (p->blank_top_mm + AIR_MM <= top + WHOLE_MM)
		return ceil(p->blank_top_mm + AIR_MM);
	return ceil(top + ABOVE_MM);
}

static double at_y(const struct drawn *f, double y_mm)
{
	return f->left + (y_mm + f->half_width) * f->scale;
}

static double at_z(const struct drawn *f, double z_mm)
{
	return f->bottom - (z_mm - f->z_from) * f->scale;
}

/* Millimetre ruling, every tenth line stronger. */
static void draw_ruling(struct canvas *canvas, const struct drawn *f)
{
	for (int turn = 0; turn < 2; turn++) {
		int step = turn == 0 ? 1 : RULE_EVERY;
		int across = (int)(f->half_width / step);
		for (int y = -across; y <= across; y++) {
			cairo_move_to(canvas->pen, at_y(f, y * step), f->top);
			cairo_line_to(canvas->pen, at_y(f, y * step), f->bottom);
		}
		int lowest = (int)ceil(f->z_from / step), highest = (int)floor(f->z_to / step);
		for (int z = lowest; z <= highest; z++) {
			cairo_move_to(canvas->pen, f->left, at_z(f, z * step));
			cairo_line_to(canvas->pen, f->right, at_z(f, z * step));
		}
		pen_stroke(canvas, turn == 0 ? LINE_GRID : LINE_RULE);
	}
}

static void add_outline(struct canvas *canvas, const struct drawn *f, size_t count,
			const double *y_mm, const double *z_mm)
{
	cairo_new_path(canvas->pen);
	for (size_t i = 0; i < count; i++)
		cairo_line_to(canvas->pen, at_y(f, y_mm[i]), at_z(f, z_mm[i]));
	cairo_close_path(canvas->pen);
}

/* Wood between y[from] and y[to - 1], down to the blank's underside. */
static void draw_roughed_run(struct canvas *canvas, const struct drawn *f,
			     const struct section_panel *p, size_t from, size_t to, bool fill)
{
	double floor_z = at_z(f, p->blank_bottom_mm);

	cairo_move_to(canvas->pen, at_y(f, p->roughed_y_mm[from]), floor_z);
	for (size_t i = from; i < to; i++)
		cairo_line_to(canvas->pen, at_y(f, p->roughed_y_mm[i]),
			      at_z(f, p->roughed_z_mm[i]));
	cairo_line_to(canvas->pen, at_y(f, p->roughed_y_mm[to - 1]), floor_z);
	if (!fill) {
		pen_stroke(canvas, LINE_ROUGHED);
		return;
	}
	cairo_close_path(canvas->pen);
	canvas_colour(canvas, palette_colour(PALETTE_LIGHT_WOOD));
	cairo_fill(canvas->pen);
}

static void draw_roughed(struct canvas *canvas, const struct drawn *f,
			 const struct section_panel *p, bool fill)
{
	size_t from = 0;

	for (size_t i = 0; i <= p->roughed_count; i++) {
		if (i < p->roughed_count && !isnan(p->roughed_z_mm[i]))
			continue;
		if (i > from)
			draw_roughed_run(canvas, f, p, from, i, fill);
		from = i + 1;
	}
}

/* A blank that is broken off has no top and says how high it goes. */
static void draw_blank(struct canvas *canvas, const struct drawn *f, const struct section_panel *p)
{
	bool broken = p->blank_top_mm > f->z_to;
	double top = at_z(f, fmin(p->blank_top_mm, f->z_to)), bottom = at_z(f, p->blank_bottom_mm);
	double left = at_y(f, -p->blank_minus_mm), right = at_y(f, p->blank_plus_mm);
	char text[64], height[NUMBER_MAX];

	cairo_new_path(canvas->pen);
	cairo_move_to(canvas->pen, left, top);
	cairo_line_to(canvas->pen, left, bottom);
	cairo_line_to(canvas->pen, right, bottom);
	cairo_line_to(canvas->pen, right, top);
	if (!broken)
		cairo_close_path(canvas->pen);
	pen_stroke(canvas, LINE_BLANK);
	if (!broken)
		return;
	(void)snprintf(text, sizeof text, "blank up to z %s mm",
		       scale_number(height, p->blank_top_mm, 1));
	pen_text_on_map(canvas, (left + right) / 2.0, top + 1.2 * pen_text_size_mm(TEXT_SMALL),
			TEXT_SMALL, ANCHOR_MIDDLE, text);
}

static void draw_grown(struct canvas *canvas, const struct drawn *f, const struct section_panel *p)
{
	for (size_t i = 0; i < p->grown.count; i++)
		cairo_line_to(canvas->pen, at_y(f, p->grown.point[i].y_mm),
			      at_z(f, p->grown.point[i].z_mm));
	pen_stroke(canvas, LINE_ALLOWANCE);
}

/* The channel, and the wood over its floor as a dimension beside the centre. */
static void draw_channel(struct canvas *canvas, const struct drawn *f,
			 const struct section_panel *p)
{
	double floor_z = at_z(f, p->channel_depth_mm), half = p->channel_width_mm / 2.0;
	double em = pen_text_size_mm(TEXT_SMALL);
	char text[NUMBER_MAX];

	if (!(p->channel_width_mm > 0.0))
		return;
	cairo_rectangle(canvas->pen, at_y(f, -half), floor_z, 2.0 * half * f->scale,
			at_z(f, 0.0) - floor_z);
	canvas_colour(canvas, palette_colour(PALETTE_PAPER));
	cairo_fill_preserve(canvas->pen);
	pen_stroke(canvas, LINE_BOARD);
	if (isnan(p->over_channel_mm))
		return;
	double top = at_z(f, p->channel_depth_mm + p->over_channel_mm), x = at_y(f, 0.0);
	marks_span(canvas, x, floor_z, x, top, LINE_TICK);
	pen_text_on_map(canvas, x + 1.2, (floor_z + top) / 2.0 + 0.36 * em, TEXT_SMALL, ANCHOR_LEFT,
			scale_number(text, p->over_channel_mm, 2));
}

/* Width at the gluing face, as a dimension just under it. */
static void draw_width(struct canvas *canvas, const struct drawn *f, const struct section_panel *p)
{
	double y = at_z(f, -room_below_mm(p) / 2.0), em = pen_text_size_mm(TEXT_SMALL);
	char text[NUMBER_MAX];

	if (p->finished_count == 0)
		return;
	marks_span(canvas, at_y(f, p->finished_y_mm[0]), y,
		   at_y(f, p->finished_y_mm[p->finished_count - 1]), y, LINE_TICK);
	pen_text_on_map(canvas, at_y(f, 0.0), y + 0.36 * em, TEXT_SMALL, ANCHOR_MIDDLE,
			scale_number(text, p->width_mm, 2));
}

/* The cove of one side, slanted: what must be sawn or planed off. */
static void draw_cove(struct canvas *canvas, const struct drawn *f, const struct section_panel *p,
		      int side)
{
	const struct cove_figures *cove = &p->cove[side];
	double sign = side == SIDE_PLUS ? 1.0 : -1.0, edge = p->width_mm / 2.0;
	double inner = edge - cove->height_mm, outer = edge + cove->width_mm + COVE_AIR_MM;
	double left = at_y(f, sign > 0.0 ? inner : -outer), width = (outer - inner) * f->scale;
	double top = at_z(f, cove->height_mm), foot = at_z(f, p->blank_bottom_mm);

	cairo_save(canvas->pen);
	for (size_t i = 0; i < p->roughed_count; i++) {
		double z = isnan(p->roughed_z_mm[i]) ? p->blank_bottom_mm : p->roughed_z_mm[i];
		cairo_line_to(canvas->pen, at_y(f, p->roughed_y_mm[i]), at_z(f, z));
	}
	if (p->roughed_count > 0) {
		cairo_line_to(canvas->pen, at_y(f, p->roughed_y_mm[p->roughed_count - 1]), foot);
		cairo_line_to(canvas->pen, at_y(f, p->roughed_y_mm[0]), foot);
	}
	cairo_close_path(canvas->pen);
	cairo_clip(canvas->pen);
	marks_slants(canvas, left, top, width, foot - top, COVE_SLANT_MM);
	cairo_restore(canvas->pen);
}

static void write_cove(struct canvas *canvas, const struct drawn *f, const struct section_panel *p,
		       int side)
{
	const struct cove_figures *cove = &p->cove[side];
	double sign = side == SIDE_PLUS ? 1.0 : -1.0, em = pen_text_size_mm(TEXT_SMALL);
	double y = p->width_mm / 2.0 + cove->width_mm / 2.0;
	char text[64], a[NUMBER_MAX], b[NUMBER_MAX];

	(void)snprintf(text, sizeof text, "cove %s x %s", scale_number(a, cove->height_mm, 1),
		       scale_number(b, cove->width_mm, 1));
	pen_text_on_map(canvas, at_y(f, sign * y), at_z(f, cove->height_mm) - 0.6 * em, TEXT_SMALL,
			sign > 0.0 ? ANCHOR_LEFT : ANCHOR_RIGHT, text);
}

/* Slants over both coves; the stock for the hand is no part of them. */
static void draw_coves(struct canvas *canvas, const struct drawn *f, const struct section_panel *p)
{
	bool any = false;

	for (int side = 0; side < 2; side++)
		if (p->cove[side].height_mm > 0.0) {
			draw_cove(canvas, f, p, side);
			any = true;
		}
	for (size_t i = 0; any && i < p->grown.count; i++)
		cairo_line_to(canvas->pen, at_y(f, p->grown.point[i].y_mm),
			      at_z(f, p->grown.point[i].z_mm));
	if (!any)
		return;
	cairo_close_path(canvas->pen);
	canvas_colour(canvas, palette_colour(PALETTE_LIGHT_WOOD));
	cairo_fill(canvas->pen);
}

static void draw_outlines(struct canvas *canvas, const struct drawn *f,
			  const struct section_panel *p)
{
	draw_ruling(canvas, f);
	draw_roughed(canvas, f, p, true);
	draw_coves(canvas, f, p);
	add_outline(canvas, f, p->finished_count, p->finished_y_mm, p->finished_z_mm);
	canvas_colour(canvas, palette_colour(PALETTE_WOOD));
	cairo_fill(canvas->pen);
	draw_blank(canvas, f, p);
	draw_roughed(canvas, f, p, false);
	draw_grown(canvas, f, p);
	add_outline(canvas, f, p->finished_count, p->finished_y_mm, p->finished_z_mm);
	pen_stroke(canvas, LINE_FINISHED);
	draw_channel(canvas, f, p);
	if (p->board_thickness_mm > 0.0) {
		cairo_rectangle(canvas->pen, at_y(f, -p->board_width_mm / 2.0), at_z(f, 0.0),
				p->board_width_mm * f->scale, p->board_thickness_mm * f->scale);
		pen_stroke(canvas, LINE_BOARD);
	}
	for (int side = 0; side < 2; side++)
		if (p->cove[side].height_mm > 0.0)
			write_cove(canvas, f, p, side);
}

static void write_line(struct canvas *canvas, const struct drawn *f, int line, const char *text)
{
	pen_text(canvas, f->left, f->top - SECTION_CAPTION_MM + 3.6 + line * LINE_STEP_MM,
		 TEXT_SMALL, ANCHOR_LEFT, text);
}

static void draw_caption(struct canvas *canvas, const struct drawn *f,
			 const struct section_panel *p)
{
	char text[160], a[NUMBER_MAX], b[NUMBER_MAX];

	(void)snprintf(text, sizeof text, "%s%s", p->fret == 0.0 ? "" : "fret ",
		       scale_fret(a, p->fret));
	pen_text(canvas, f->left, f->top - SECTION_CAPTION_MM + 3.6, TEXT_STRONG, ANCHOR_LEFT,
		 text);
	double after = f->left + pen_text_width_mm(canvas, TEXT_STRONG, text) + 3.0;
	(void)snprintf(text, sizeof text, "x %s mm", scale_number(a, p->x_mm, 2));
	pen_text(canvas, after, f->top - SECTION_CAPTION_MM + 3.6, TEXT_SMALL, ANCHOR_LEFT, text);
	(void)snprintf(text, sizeof text, "roughed %s, finished %s mm thick",
		       scale_number(a, p->roughed_mm, 2), scale_number(b, p->finished_mm, 2));
	write_line(canvas, f, 1, text);
	(void)snprintf(text, sizeof text, "least stock left %s mm",
		       scale_number(a, p->least_stock_mm, 3));
	write_line(canvas, f, 2, text);
}

void section_panel_draw(struct canvas *canvas, const struct section_frame *frame,
			const struct section_panel *p)
{
	struct drawn f = { .left = frame->left,
			   .bottom = frame->bottom,
			   .z_from = section_panel_low_mm(p),
			   .z_to = section_panel_high_mm(p),
			   .half_width = frame->half_width_mm,
			   .scale = frame->scale };
	char label[64];

	f.right = f.left + 2.0 * f.half_width * f.scale;
	f.top = f.bottom - (f.z_to - f.z_from) * f.scale;
	draw_outlines(canvas, &f, p);
	draw_width(canvas, &f, p);
	(void)snprintf(label, sizeof label, "y, mm (%s left, %s right)", frame->minus_side,
		       frame->plus_side);
	struct map_axis across = { -f.half_width, f.half_width, f.left, f.right, 10.0, label };
	struct map_axis up = { f.z_from, f.z_to, f.bottom, f.top, 10.0, "z, mm" };
	scale_axis_below(canvas, &across, f.bottom);
	scale_axis_left(canvas, &up, f.left);
	draw_caption(canvas, &f, p);
}
