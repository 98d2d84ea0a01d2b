/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/pen.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define MM_PER_POINT (25.4 / 72.0)
#define TEXT_MAX (PEN_TEXT_MAX - 4) /* less an ellipsis */

struct text_look {
	const char *family; /* generic: every system has one */
	double size_pt;
	bool bold;
	enum palette_name colour;
};

static const struct text_look text_looks[TEXT_KIND_COUNT] = {
	[TEXT_TITLE] = { "serif", 16.0, true, PALETTE_INK },
	[TEXT_HEADING] = { "serif", 10.0, true, PALETTE_INK },
	[TEXT_BODY] = { "sans-serif", 8.0, false, PALETTE_INK },
	[TEXT_STRONG] = { "sans-serif", 8.0, true, PALETTE_INK },
	[TEXT_SMALL] = { "sans-serif", 7.0, false, PALETTE_SOFT_INK },
};

static const struct pen_line_look line_looks[LINE_KIND_COUNT] = {
	[LINE_FINISHED] = { PALETTE_INK, 0.50, { 0 }, 0 },
	[LINE_ROUGHED] = { PALETTE_BROWN, 0.35, { 0 }, 0 },
	[LINE_BLANK] = { PALETTE_SOFT_INK, 0.25, { 2.4, 1.4 }, 2 },
	[LINE_BOARD] = { PALETTE_SOFT_INK, 0.25, { 0 }, 0 },
	[LINE_STATION] = { PALETTE_SOFT_INK, 0.18, { 0.4, 0.9 }, 2 },
	[LINE_CONTOUR] = { PALETTE_INK, 0.20, { 0 }, 0 },
	[LINE_TICK] = { PALETTE_INK, 0.20, { 0 }, 0 },
	[LINE_FRAME] = { PALETTE_SOFT_INK, 0.20, { 0 }, 0 },
	[LINE_GRID] = { PALETTE_GRID, 0.12, { 0 }, 0 },
	[LINE_RULE] = { PALETTE_RULE, 0.15, { 0 }, 0 },
	[LINE_OUTLINE] = { PALETTE_INK, 0.12, { 0 }, 0 },
	[LINE_CENTRE] = { PALETTE_INK, 0.18, { 5.0, 0.9, 0.4, 0.9 }, 4 },
	[LINE_HIDDEN] = { PALETTE_INK, 0.22, { 1.2, 0.8 }, 2 },
	[LINE_ALLOWANCE] = { PALETTE_INK, 0.18, { 0.7, 0.7 }, 2 },
	[LINE_HOLD] = { PALETTE_SOFT_INK, 0.30, { 3.0, 0.8, 0.4, 0.8, 0.4, 0.8 }, 6 },
	[LINE_STRAIGHT] = { PALETTE_INK, 0.30, { 0 }, 0 },
	[LINE_SLANT] = { PALETTE_SOFT_INK, 0.15, { 0 }, 0 },
	[LINE_CUT] = { PALETTE_INK, 0.15, { 0 }, 0 },
};

/* Bytes of the UTF-8 character at `s`, 0 when it is none. Source: RFC 3629. */
static size_t character_length(const unsigned char *s)
{
	size_t length = s[0] < 0x80		      ? 1
			: s[0] >= 0xc2 && s[0] < 0xe0 ? 2
			: (s[0] & 0xf0) == 0xe0	      ? 3
			: s[0] >= 0xf0 && s[0] < 0xf5 ? 4
						      : 0;

	for (size_t i = 1; i < length; i++)
		if ((s[i] & 0xc0) != 0x80)
			return 0;
	if (length == 3 && ((s[0] == 0xe0 && s[1] < 0xa0) || (s[0] == 0xed && s[1] >= 0xa0)))
		return 0;
	if (length == 4 && ((s[0] == 0xf0 && s[1] < 0x90) || (s[0] == 0xf4 && s[1] >= 0x90)))
		return 0;
	return length;
}

/* Cairo refuses a whole drawing for one bad byte, so none may reach it. */
static void clean(char out[TEXT_MAX], const char *text)
{
	const unsigned char *s = (const unsigned char *)(text ? text : "");
	size_t n = 0;

	while (*s) {
		size_t length = character_length(s);
		bool shown = length > 0 && *s >= 0x20 && *s != 0x7f;
		size_t taken = shown ? length : 1;
		if (n + taken >= TEXT_MAX)
			break;
		if (shown)
			memcpy(out + n, s, length);
		else
			out[n] = '?';
		n += taken;
		s += taken;
	}
	out[n] = '\0';
}

double pen_text_size_mm(enum text_kind kind)
{
	return text_looks[kind].size_pt * MM_PER_POINT;
}

static void choose_font(struct canvas *canvas, enum text_kind kind)
{
	const struct text_look *look = &text_looks[kind];

	cairo_select_font_face(canvas->pen, look->family, CAIRO_FONT_SLANT_NORMAL,
			       look->bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
	cairo_set_font_size(canvas->pen, pen_text_size_mm(kind));
}

static double clean_width_mm(struct canvas *canvas, const char *text)
{
	cairo_text_extents_t extents;

	cairo_text_extents(canvas->pen, text, &extents);
	return extents.x_advance;
}

double pen_text_width_mm(struct canvas *canvas, enum text_kind kind, const char *text)
{
	char shown[TEXT_MAX];

	clean(shown, text);
	choose_font(canvas, kind);
	return clean_width_mm(canvas, shown);
}

void pen_text(struct canvas *canvas, double x_mm, double y_mm, enum text_kind kind,
	      enum anchor anchor, const char *text)
{
	char shown[TEXT_MAX];

	clean(shown, text);
	choose_font(canvas, kind);
	canvas_colour(canvas, palette_colour(text_looks[kind].colour));
	double back = anchor == ANCHOR_LEFT ? 0.0 : clean_width_mm(canvas, shown);
	cairo_move_to(canvas->pen, x_mm - (anchor == ANCHOR_MIDDLE ? back / 2.0 : back), y_mm);
	cairo_show_text(canvas->pen, shown);
	cairo_new_path(canvas->pen);
}

void pen_text_on_map(struct canvas *canvas, double x_mm, double y_mm, enum text_kind kind,
		     enum anchor anchor, const char *text)
{
	double width = pen_text_width_mm(canvas, kind, text), em = pen_text_size_mm(kind);
	double back = anchor == ANCHOR_LEFT ? 0.0 : anchor == ANCHOR_MIDDLE ? width / 2.0 : width;

	canvas_colour(canvas, palette_colour(PALETTE_PAPER));
	cairo_rectangle(canvas->pen, x_mm - back - 0.4 * em / 2.0, y_mm - 0.86 * em,
			width + 0.4 * em, 1.12 * em);
	cairo_fill(canvas->pen);
	pen_text(canvas, x_mm, y_mm, kind, anchor, text);
}

const char *pen_text_shorten(struct canvas *canvas, char shown[PEN_TEXT_MAX], enum text_kind kind,
			     double width_mm, const char *text)
{
	static const char ellipsis[] = "\xe2\x80\xa6";
	bool cut = false;

	clean(shown, text);
	size_t length = strlen(shown);
	while (length > 0 && pen_text_width_mm(canvas, kind, shown) > width_mm) {
		do
			length--;
		while (length > 0 && ((unsigned char)shown[length] & 0xc0) == 0x80);
		memcpy(shown + length, ellipsis, sizeof ellipsis);
		cut = true;
	}
	if (length == 0 && cut)
		shown[0] = '\0';
	return shown;
}

void pen_text_fit(struct canvas *canvas, double x_mm, double y_mm, enum text_kind kind,
		  double width_mm, const char *text)
{
	char shown[PEN_TEXT_MAX];

	pen_text(canvas, x_mm, y_mm, kind, ANCHOR_LEFT,
		 pen_text_shorten(canvas, shown, kind, width_mm, text));
}

void pen_text_upward(struct canvas *canvas, double x_mm, double y_mm, enum text_kind kind,
		     const char *text)
{
	cairo_save(canvas->pen);
	cairo_translate(canvas->pen, x_mm, y_mm);
	cairo_rotate(canvas->pen, -1.57079632679489661923);
	pen_text(canvas, 0.0, 0.0, kind, ANCHOR_MIDDLE, text);
	cairo_restore(canvas->pen);
}

const struct pen_line_look *pen_line_look(enum line_kind kind)
{
	return &line_looks[kind];
}

void pen_stroke(struct canvas *canvas, enum line_kind kind)
{
	const struct pen_line_look *look = &line_looks[kind];

	canvas_colour(canvas, palette_colour(look->colour));
	cairo_set_line_width(canvas->pen, look->width_mm);
	cairo_set_dash(canvas->pen, look->dash_mm, look->dash_count, 0.0);
	cairo_stroke(canvas->pen);
}

void pen_line(struct canvas *canvas, double x1, double y1, double x2, double y2,
	      enum line_kind kind)
{
	cairo_move_to(canvas->pen, x1, y1);
	cairo_line_to(canvas->pen, x2, y2);
	pen_stroke(canvas, kind);
}

void pen_swatch(struct canvas *canvas, double x_mm, double y_mm, double width_mm, double height_mm,
		struct colour colour)
{
	cairo_rectangle(canvas->pen, x_mm, y_mm, width_mm, height_mm);
	canvas_colour(canvas, colour);
	cairo_fill_preserve(canvas->pen);
	pen_stroke(canvas, LINE_FRAME);
}

void pen_title_block(struct canvas *canvas, const struct sheet_words *words, const char *title,
		     const char *remark)
{
	double left = CANVAS_MARGIN_MM, width = canvas->width_mm - 2.0 * CANVAS_MARGIN_MM;
	double foot = canvas->height_mm - 5.0;
	char digest[48] = "";

	pen_text_fit(canvas, left, 13.0, TEXT_TITLE, width, title);
	pen_text_fit(canvas, left, 19.0, TEXT_BODY, width, remark);
	pen_line(canvas, left, foot - 3.6, left + width, foot - 3.6, LINE_RULE);
	pen_text_fit(canvas, left, foot, TEXT_SMALL, width - 60.0, words->neck);
	if (words->digest && words->digest[0])
		(void)snprintf(digest, sizeof digest, "inputs %.16s", words->digest);
	pen_text(canvas, left + width, foot, TEXT_SMALL, ANCHOR_RIGHT, digest);
}
