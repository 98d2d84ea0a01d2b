/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/sections.h"

#include <math.h>
#include <stdio.h>

#include "pictures/scale.h"

#define LEFT_MM 11.0 /* upright axis of a panel */
#define CAPTION_MM 6.0
#define AXIS_MM 13.0
#define GUTTER_MM 5.0
#define LEGEND_MM 8.0
#define AIR_MM 2.0 /* on the neck, around the outlines */
#define RULE_EVERY 10

/* One scale and one width for all panels, a height for each row. */
struct layout {
	size_t columns;
	double pitch_mm; /* from panel to panel */
	double half_width_mm; /* on the neck: a panel shows y from -this to +this */
	double scale; /* paper mm per mm */
};

struct panel_frame {
	double left, top, right, bottom; /* on paper */
	double z_from, z_to, half_width; /* on the neck */
	double scale;
};

static double low_mm(const struct section_panel *p)
{
	return floor(fmin(p->blank_bottom_mm, -p->board_thickness_mm) - AIR_MM);
}

static double high_mm(const struct section_panel *p)
{
	return ceil(p->blank_top_mm + AIR_MM);
}

static double plain_scale(double most)
{
	static const double scales[] = { 2.0, 1.5, 1.25, 1.0, 0.8, 0.75, 0.6, 0.5, 0.4, 0.3 };

	for (size_t i = 0; i < sizeof scales / sizeof scales[0]; i++)
		if (scales[i] <= most)
			return scales[i];
	return most;
}

static struct layout layout_of(const struct sections *s)
{
	struct layout l = { .columns = s->count <= 4 ? 2 : s->count <= 12 ? 3 : 4 };
	double half = 10.0;

	for (size_t i = 0; i < s->count; i++)
		half = fmax(half, fmax(s->panel[i].blank_half_width_mm,
				       s->panel[i].board_width_mm / 2.0));
	l.half_width_mm = ceil(half + AIR_MM);
	l.pitch_mm = (CANVAS_WIDTH_MM - 2.0 * CANVAS_MARGIN_MM + GUTTER_MM) / (double)l.columns;
	l.scale = plain_scale((l.pitch_mm - GUTTER_MM - LEFT_MM) / (2.0 * l.half_width_mm));
	return l;
}

/* Height of the row that begins with panel `first`. */
static double row_height_mm(const struct sections *s, const struct layout *l, size_t first)
{
	double tallest = 0.0;

	for (size_t i = first; i < s->count && i < first + l->columns; i++)
		tallest = fmax(tallest, high_mm(&s->panel[i]) - low_mm(&s->panel[i]));
	return CAPTION_MM + tallest * l->scale + AXIS_MM;
}

double sections_height_mm(const struct sections *s)
{
	struct layout l = layout_of(s);
	double height = PEN_TITLE_HEIGHT_MM + LEGEND_MM + PEN_FOOT_HEIGHT_MM;

	for (size_t first = 0; first < s->count; first += l.columns)
		height += row_height_mm(s, &l, first);
	return height;
}

static double at_y(const struct panel_frame *f, double y_mm)
{
	return f->left + (y_mm + f->half_width) * f->scale;
}

static double at_z(const struct panel_frame *f, double z_mm)
{
	return f->bottom - (z_mm - f->z_from) * f->scale;
}

/* Millimetre ruling, every tenth line stronger. */
static void draw_ruling(struct canvas *canvas, const struct panel_frame *f)
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

static void add_outline(struct canvas *canvas, const struct panel_frame *f, size_t count,
			const double *y_mm, const double *z_mm)
{
	cairo_new_path(canvas->pen);
	for (size_t i = 0; i < count; i++)
		cairo_line_to(canvas->pen, at_y(f, y_mm[i]), at_z(f, z_mm[i]));
	cairo_close_path(canvas->pen);
}

/* Wood between y[from] and y[to - 1], down to the blank's underside. */
static void draw_roughed_run(struct canvas *canvas, const struct panel_frame *f,
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

static void draw_roughed(struct canvas *canvas, const struct panel_frame *f,
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

static void draw_outlines(struct canvas *canvas, const struct panel_frame *f,
			  const struct section_panel *p)
{
	draw_ruling(canvas, f);
	draw_roughed(canvas, f, p, true);
	add_outline(canvas, f, p->finished_count, p->finished_y_mm, p->finished_z_mm);
	canvas_colour(canvas, palette_colour(PALETTE_WOOD));
	cairo_fill(canvas->pen);
	cairo_rectangle(canvas->pen, at_y(f, -p->blank_half_width_mm), at_z(f, p->blank_top_mm),
			2.0 * p->blank_half_width_mm * f->scale,
			(p->blank_top_mm - p->blank_bottom_mm) * f->scale);
	pen_stroke(canvas, LINE_BLANK);
	draw_roughed(canvas, f, p, false);
	add_outline(canvas, f, p->finished_count, p->finished_y_mm, p->finished_z_mm);
	pen_stroke(canvas, LINE_FINISHED);
	if (p->board_thickness_mm > 0.0) {
		cairo_rectangle(canvas->pen, at_y(f, -p->board_width_mm / 2.0), at_z(f, 0.0),
				p->board_width_mm * f->scale, p->board_thickness_mm * f->scale);
		pen_stroke(canvas, LINE_BOARD);
	}
}

static void draw_caption(struct canvas *canvas, const struct panel_frame *f,
			 const struct section_panel *p)
{
	char text[160], a[NUMBER_MAX], b[NUMBER_MAX], c[NUMBER_MAX];
	double y = f->top - 1.6;

	(void)snprintf(text, sizeof text, "%s%s", p->fret == 0.0 ? "" : "fret ",
		       scale_fret(a, p->fret));
	pen_text(canvas, f->left, y, TEXT_STRONG, ANCHOR_LEFT, text);
	(void)snprintf(text, sizeof text, "x %s mm  \xc2\xb7  %s to %s mm",
		       scale_number(a, p->x_mm, 1), scale_number(b, p->roughed_mm, 2),
		       scale_number(c, p->finished_mm, 2));
	pen_text(canvas, f->right, y, TEXT_SMALL, ANCHOR_RIGHT, text);
}

static void draw_panel(struct canvas *canvas, const struct sections *s, const struct layout *l,
		       const struct section_panel *p, double x, double y, double height)
{
	struct panel_frame f = { .left = x + LEFT_MM,
				 .z_from = low_mm(p),
				 .z_to = high_mm(p),
				 .half_width = l->half_width_mm,
				 .scale = l->scale };
	char label[64];

	f.right = f.left + 2.0 * f.half_width * f.scale;
	f.bottom = y + height - AXIS_MM;
	f.top = f.bottom - (f.z_to - f.z_from) * f.scale;
	draw_outlines(canvas, &f, p);
	(void)snprintf(label, sizeof label, "y, mm (%s side left, %s side right)", s->minus_side,
		       s->plus_side);
	struct map_axis across = { -f.half_width, f.half_width, f.left, f.right, 10.0, label };
	struct map_axis up = { f.z_from, f.z_to, f.bottom, f.top, 10.0, "z, mm" };
	scale_axis_below(canvas, &across, f.bottom);
	scale_axis_left(canvas, &up, f.left);
	draw_caption(canvas, &f, p);
}

struct legend_item {
	enum line_kind line;
	const char *text;
};

static void draw_legend(struct canvas *canvas, double y)
{
	static const struct legend_item items[] = {
		{ LINE_FINISHED, "finished" },
		{ LINE_ROUGHED, "roughed" },
		{ LINE_BLANK, "blank" },
		{ LINE_BOARD, "fretboard" },
		{ LINE_RULE, "ruling 1 and 10 mm" },
	};
	double x = CANVAS_MARGIN_MM;

	for (size_t i = 0; i < sizeof items / sizeof items[0]; i++) {
		pen_line(canvas, x, y, x + 9.0, y, items[i].line);
		pen_text(canvas, x + 11.0, y + 0.9, TEXT_BODY, ANCHOR_LEFT, items[i].text);
		x += 11.0 + pen_text_width_mm(canvas, TEXT_BODY, items[i].text) + 8.0;
	}
}

void sections_draw(struct canvas *canvas, const struct sections *s)
{
	struct layout l = layout_of(s);
	char remark[200], scale[NUMBER_MAX], width[NUMBER_MAX];
	double y = PEN_TITLE_HEIGHT_MM + LEGEND_MM;

	(void)snprintf(remark, sizeof remark,
		       "Seen from the body toward the nut, back up; thickness roughed to finished. "
		       "Scale %s to 1 across and up when the sheet is %s mm wide.",
		       scale_number(scale, l.scale, 2), scale_number(width, CANVAS_WIDTH_MM, 0));
	pen_title_block(canvas, &s->words, "Sections at the stations", remark);
	draw_legend(canvas, PEN_TITLE_HEIGHT_MM + 1.0);
	for (size_t first = 0; first < s->count; first += l.columns) {
		double height = row_height_mm(s, &l, first);
		for (size_t i = first; i < s->count && i < first + l.columns; i++)
			draw_panel(canvas, s, &l, &s->panel[i],
				   CANVAS_MARGIN_MM + (double)(i - first) * l.pitch_mm, y, height);
		y += height;
	}
}
