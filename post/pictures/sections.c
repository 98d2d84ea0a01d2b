/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/sections.h"

#include <math.h>
#include <stdio.h>

#include "pictures/ruler.h"
#include "pictures/scale.h"

#define GUTTER_MM 5.0
#define LEGEND_MM 11.0
#define AIR_MM 2.0 /* on the neck, beside the widest outline */
#define RULER_ROOM_MM 44.0
#define COLUMNS_MOST 3 /* more would leave no room for figures in a section */

/* One scale and one width for all panels, a height for each row. */
struct layout {
	size_t columns;
	double pitch_mm; /* from panel to panel */
	double half_width_mm; /* on the neck: a panel shows y from -this to +this */
	double scale; /* paper mm per mm */
};

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
	struct layout l = { .columns = s->count <= 4 ? 2 : COLUMNS_MOST };
	double half = 10.0;

	for (size_t i = 0; i < s->count; i++)
		half = fmax(half, fmax(fmax(s->panel[i].blank_minus_mm, s->panel[i].blank_plus_mm),
				       s->panel[i].board_width_mm / 2.0));
	l.half_width_mm = ceil(half + AIR_MM);
	l.pitch_mm = (CANVAS_WIDTH_MM - 2.0 * CANVAS_MARGIN_MM + GUTTER_MM) / (double)l.columns;
	l.scale = plain_scale((l.pitch_mm - GUTTER_MM - SECTION_LEFT_MM) / (2.0 * l.half_width_mm));
	return l;
}

/* Height of the row that begins with panel `first`. */
static double row_height_mm(const struct sections *s, const struct layout *l, size_t first)
{
	double tallest = 0.0;

	for (size_t i = first; i < s->count && i < first + l->columns; i++)
		tallest = fmax(tallest, section_panel_high_mm(&s->panel[i]) -
						section_panel_low_mm(&s->panel[i]));
	return SECTION_CAPTION_MM + tallest * l->scale + SECTION_AXIS_MM;
}

double sections_height_mm(const struct sections *s)
{
	struct layout l = layout_of(s);
	double height = PEN_TITLE_HEIGHT_MM + LEGEND_MM + PEN_FOOT_HEIGHT_MM;

	for (size_t first = 0; first < s->count; first += l.columns)
		height += row_height_mm(s, &l, first);
	return height;
}

struct legend_item {
	enum line_kind line;
	const char *text;
};

static void draw_legend(struct canvas *canvas, double y, double scale)
{
	static const struct legend_item items[] = {
		{ LINE_FINISHED, "finished" },	      { LINE_ALLOWANCE, "with allowance" },
		{ LINE_ROUGHED, "roughed" },	      { LINE_BLANK, "blank" },
		{ LINE_BOARD, "fretboard, channel" }, { LINE_RULE, "1 and 10 mm" },
	};
	double x = CANVAS_MARGIN_MM;

	for (size_t i = 0; i < sizeof items / sizeof items[0]; i++) {
		pen_line(canvas, x, y, x + 8.0, y, items[i].line);
		pen_text(canvas, x + 9.5, y + 0.9, TEXT_BODY, ANCHOR_LEFT, items[i].text);
		x += 9.5 + pen_text_width_mm(canvas, TEXT_BODY, items[i].text) + 5.0;
	}
	ruler_draw(canvas, CANVAS_WIDTH_MM - CANVAS_MARGIN_MM, y - 3.2, scale, RULER_ROOM_MM);
}

static void draw_row(struct canvas *canvas, const struct sections *s, const struct layout *l,
		     size_t first, double bottom)
{
	for (size_t i = first; i < s->count && i < first + l->columns; i++) {
		struct section_frame frame = {
			CANVAS_MARGIN_MM + (double)(i - first) * l->pitch_mm + SECTION_LEFT_MM,
			bottom - SECTION_AXIS_MM,
			l->half_width_mm,
			l->scale,
			s->minus_side,
			s->plus_side
		};
		section_panel_draw(canvas, &frame, &s->panel[i]);
	}
}

void sections_draw(struct canvas *canvas, const struct sections *s)
{
	struct layout l = layout_of(s);
	char remark[200], scale[NUMBER_MAX], width[NUMBER_MAX];
	double y = PEN_TITLE_HEIGHT_MM + LEGEND_MM;

	(void)snprintf(remark, sizeof remark,
		       "Seen from the body toward the nut, back up. Scale %s to 1 across and up "
		       "when the sheet is %s mm wide.",
		       scale_number(scale, l.scale, 2), scale_number(width, CANVAS_WIDTH_MM, 0));
	pen_title_block(canvas, &s->words, "Sections at the stations", remark);
	draw_legend(canvas, PEN_TITLE_HEIGHT_MM + 2.0, l.scale);
	for (size_t first = 0; first < s->count; first += l.columns) {
		y += row_height_mm(s, &l, first);
		draw_row(canvas, s, &l, first, y);
	}
}
