/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/gauges.h"

#include <math.h>
#include <stdio.h>

#include "papers/gauge_list.h"
#include "pictures/scale.h"

/* Between the lines of the hatching, mm, along the edge. */
#define HATCH_MM 3.0
/* Marks keep this far from a line to be cut, mm, so that it stays one line. */
#define CLEAR_MM 1.0
#define CENTRE_TICK_MM 4.0

static double at_y(const struct gauge *gauge, double y_mm)
{
	return gauge->centre_mm + y_mm;
}

static double at_z(const struct gauge *gauge, double z_mm)
{
	return gauge->face_mm - z_mm;
}

/* The opening: the section and, below it, the room for the fretboard. */
static void opening_path(struct canvas *canvas, const struct gauge *gauge)
{
	const struct section_line *line = &gauge->line;
	double sign = line->point[0].y_mm > 0.0 ? 1.0 : -1.0;

	cairo_new_path(canvas->pen);
	if (gauge->board_mm > 0.0) {
		cairo_line_to(canvas->pen, at_y(gauge, sign * gauge->board_half_mm),
			      at_z(gauge, -gauge->board_mm));
		cairo_line_to(canvas->pen, at_y(gauge, sign * gauge->board_half_mm),
			      at_z(gauge, 0.0));
	}
	for (size_t i = 0; i < line->count; i++)
		cairo_line_to(canvas->pen, at_y(gauge, line->point[i].y_mm),
			      at_z(gauge, line->point[i].z_mm));
	if (gauge->board_mm > 0.0) {
		cairo_line_to(canvas->pen, at_y(gauge, -sign * gauge->board_half_mm),
			      at_z(gauge, 0.0));
		cairo_line_to(canvas->pen, at_y(gauge, -sign * gauge->board_half_mm),
			      at_z(gauge, -gauge->board_mm));
	}
	cairo_close_path(canvas->pen);
}

/* Light stripes over all that is cut away. */
static void draw_waste(struct canvas *canvas, const struct gauge *gauge)
{
	double left = at_y(gauge, -gauge->half_mm), right = at_y(gauge, gauge->half_mm);
	double top = at_z(gauge, gauge->crest_mm + CLEAR_MM),
	       bottom = at_z(gauge, -gauge->board_mm);
	double rise = bottom - top;

	cairo_save(canvas->pen);
	opening_path(canvas, gauge);
	cairo_clip(canvas->pen);
	int stripes = (int)ceil((right - left + rise) / HATCH_MM);
	for (int i = 0; i < stripes; i++) {
		double x = left - rise + i * HATCH_MM;
		cairo_move_to(canvas->pen, x, bottom);
		cairo_line_to(canvas->pen, x + rise, top);
	}
	pen_stroke(canvas, LINE_RULE);
	cairo_restore(canvas->pen);
}

static void draw_lines(struct canvas *canvas, const struct gauge *gauge)
{
	double half = gauge->half_mm + GAUGE_CHEEK_MM, edge = gauge->half_mm + CLEAR_MM;

	opening_path(canvas, gauge);
	pen_stroke(canvas, LINE_CUT);
	cairo_rectangle(canvas->pen, at_y(gauge, -half),
			at_z(gauge, gauge->crest_mm + GAUGE_ROOF_MM), 2.0 * half,
			gauge->board_mm + gauge->crest_mm + GAUGE_ROOF_MM);
	pen_stroke(canvas, LINE_CUT);
	pen_line(canvas, at_y(gauge, 0.0), at_z(gauge, gauge->crest_mm + CLEAR_MM),
		 at_y(gauge, 0.0), at_z(gauge, gauge->crest_mm + CENTRE_TICK_MM), LINE_TICK);
	pen_line(canvas, at_y(gauge, 0.0), at_z(gauge, CLEAR_MM - gauge->board_mm),
		 at_y(gauge, 0.0), at_z(gauge, gauge->crest_mm - CLEAR_MM), LINE_STATION);
	if (gauge->board_mm <= 0.0)
		return;
	for (int sign = -1; sign <= 1; sign += 2)
		pen_line(canvas, at_y(gauge, sign * edge), at_z(gauge, 0.0),
			 at_y(gauge, sign * (half - CLEAR_MM)), at_z(gauge, 0.0), LINE_BLANK);
}

static void draw_words(struct canvas *canvas, const struct gauge *gauge,
		       const struct paper_content *content)
{
	bool right_hand = neck_spec_of(content->neck)->hand == HAND_RIGHT;
	double cheek = gauge->half_mm + GAUGE_CHEEK_MM / 2.0 + 1.0;
	double middle = at_z(gauge, (gauge->crest_mm - gauge->board_mm) / 2.0);
	char text[160], mm[NUMBER_MAX], inch[NUMBER_MAX];

	(void)snprintf(text, sizeof text, "%s \xc2\xb7 %s", gauge->name,
		       gauge->roughed ? "roughed" : "finished");
	pen_text(canvas, at_y(gauge, 0.0), at_z(gauge, gauge->crest_mm + 10.5), TEXT_STRONG,
		 ANCHOR_MIDDLE, text);
	(void)snprintf(text, sizeof text, "%s mm (%s in) thick%s",
		       scale_number(mm, gauge->thickness_mm, 2),
		       scale_number(inch, units_inch_from_mm(gauge->thickness_mm), 3),
		       gauge->board_mm > 0.0 ? " with the board" : "");
	pen_text(canvas, at_y(gauge, 0.0), at_z(gauge, gauge->crest_mm + 6.0), TEXT_SMALL,
		 ANCHOR_MIDDLE, text);
	pen_text_upward(canvas, at_y(gauge, -cheek), middle, TEXT_SMALL,
			right_hand ? "treble" : "bass");
	pen_text_upward(canvas, at_y(gauge, cheek), middle, TEXT_SMALL,
			right_hand ? "bass" : "treble");
}

static void write_remark(char *out, size_t room, const struct gauge_list *list,
			 const struct neck_spec *spec)
{
	char left_out[80] = "";

	if (list->left_out > 0)
		(void)snprintf(left_out, sizeof left_out,
			       " %zu cards are larger than this paper and left out.",
			       list->left_out);
	(void)snprintf(
		out, room,
		"Glue on card; cut the outlines, then the hatched part away, along the middle "
		"of the lines (0.15 mm wide). Use with the print toward the body, looking "
		"toward the nut, back up: %s side at the right. %s Roughed: finished shape and "
		"the stock asked for; its scallops stand proud of it.%s",
		spec->hand == HAND_RIGHT ? "bass" : "treble",
		spec->over_fretboard && spec->fretboard_thickness_mm > 0.0
			? "The cheeks end level with a straight edge across the fretboard; "
			  "the dashes are the glue line, for a neck still without."
			: "The cheeks end at the fretboard's gluing face.",
		left_out);
}

enum fault gauges_draw(struct sheet *sheet, const struct paper_content *content,
		       struct fault_list *faults)
{
	struct gauge_list list;
	char remark[512];
	enum fault fault = gauge_list_build(&list, content, faults);

	if (!fault) {
		gauge_list_lay(&list, sheet_area(sheet));
		write_remark(remark, sizeof remark, &list, neck_spec_of(content->neck));
		sheet->remark = remark;
		sheet->page_count = list.page_count;
	}
	for (size_t page = 1; !fault && page <= list.page_count; page++) {
		(void)sheet_begin(sheet);
		for (size_t i = 0; i < list.count; i++) {
			if (list.item[i].page != page)
				continue;
			draw_waste(sheet->canvas, &list.item[i]);
			draw_lines(sheet->canvas, &list.item[i]);
			draw_words(sheet->canvas, &list.item[i], content);
		}
	}
	sheet->remark = "";
	gauge_list_free(&list);
	return fault;
}
