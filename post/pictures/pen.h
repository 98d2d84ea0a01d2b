/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines, letters and title blocks: what each kind looks like is said once,
 * here, and described for the reader of a picture in docs/look.md. */
#ifndef NECKHEW_PICTURES_PEN_H
#define NECKHEW_PICTURES_PEN_H

#include <stdbool.h>
#include <stddef.h>

#include "pictures/canvas.h"

enum text_kind { TEXT_TITLE, TEXT_HEADING, TEXT_BODY, TEXT_STRONG, TEXT_SMALL, TEXT_KIND_COUNT };

enum anchor { ANCHOR_LEFT, ANCHOR_MIDDLE, ANCHOR_RIGHT };

enum line_kind {
	LINE_FINISHED,
	LINE_ROUGHED,
	LINE_BLANK,
	LINE_BOARD, /* fretboard */
	LINE_STATION,
	LINE_CONTOUR,
	LINE_TICK,
	LINE_FRAME,
	LINE_GRID,
	LINE_RULE, /* every tenth grid line */
	LINE_OUTLINE, /* of the neck on a map */
	LINE_CENTRE,
	LINE_HIDDEN, /* what lies inside or underneath */
	LINE_ALLOWANCE, /* finished surface plus hand-finish stock */
	LINE_HOLD, /* holding places */
	LINE_STRAIGHT, /* where a straight edge is laid */
	LINE_SLANT, /* of keep-outs */
	LINE_CUT, /* on papers: its middle is where the knife goes */
	LINE_KIND_COUNT
};

/* Where titles begin and a picture's own part may start, mm from the top. */
#define PEN_TITLE_HEIGHT_MM 25.0
/* Kept free for the last line of the sheet. */
#define PEN_FOOT_HEIGHT_MM 11.0

/* What every sheet says about the job. */
struct sheet_words {
	const char *neck; /* the neck's name, any text */
	const char *digest; /* of the inputs, "" when unknown */
};

/* Height of a letter's em, printed mm. */
double pen_text_size_mm(enum text_kind kind);

/* Writes one line with its base line at y. Bytes that are no UTF-8 and control
 * characters appear as '?'. */
void pen_text(struct canvas *canvas, double x_mm, double y_mm, enum text_kind kind,
	      enum anchor anchor, const char *text);

/* The same on a ground of paper, for letters that stand on a map. */
void pen_text_on_map(struct canvas *canvas, double x_mm, double y_mm, enum text_kind kind,
		     enum anchor anchor, const char *text);

/* Room for a text with its end, and for the ellipsis of a shortened one. */
#define PEN_TEXT_MAX 264

/* Writes to `shown` as much of a text as goes into `width_mm`, with an ellipsis
 * when it is not all; returns it. */
const char *pen_text_shorten(struct canvas *canvas, char shown[PEN_TEXT_MAX], enum text_kind kind,
			     double width_mm, const char *text);

/* Writes it shortened so to `width_mm`; starts at x. */
void pen_text_fit(struct canvas *canvas, double x_mm, double y_mm, enum text_kind kind,
		  double width_mm, const char *text);

/* Text turned a quarter so that it reads upward; centred on y. */
void pen_text_upward(struct canvas *canvas, double x_mm, double y_mm, enum text_kind kind,
		     const char *text);

/* Advance of a text, mm. */
double pen_text_width_mm(struct canvas *canvas, enum text_kind kind, const char *text);

/* What a line looks like; docs/look.md says the same. */
struct pen_line_look {
	enum palette_name colour;
	double width_mm;
	double dash_mm[6]; /* stroke and gap in turn ... */
	int dash_count; /* ... so many of them; 0: unbroken */
};

const struct pen_line_look *pen_line_look(enum line_kind kind);

/* Strokes the current path and forgets it. */
void pen_stroke(struct canvas *canvas, enum line_kind kind);

void pen_line(struct canvas *canvas, double x1, double y1, double x2, double y2,
	      enum line_kind kind);

/* A filled, framed patch of colour as legends need it. */
void pen_swatch(struct canvas *canvas, double x_mm, double y_mm, double width_mm, double height_mm,
		struct colour colour);

/* Title at the top left, remark under it, neck and digest at the foot. */
void pen_title_block(struct canvas *canvas, const struct sheet_words *words, const char *title,
		     const char *remark);

#endif
