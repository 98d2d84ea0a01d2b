/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/canvas.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "files/text_file.h"

#define POINTS_PER_MM (72.0 / 25.4)

static cairo_status_t append(void *closure, const unsigned char *data, unsigned int length)
{
	struct canvas *canvas = closure;
	unsigned char *grown = mem_grow(canvas->bytes, &canvas->capacity, canvas->size + length, 1);

	if (!grown) {
		canvas->lost = true; /* cairo goes on, and may forget it */
		return CAIRO_STATUS_NO_MEMORY;
	}
	canvas->bytes = grown;
	memcpy(canvas->bytes + canvas->size, data, length);
	canvas->size += length;
	return CAIRO_STATUS_SUCCESS;
}

static cairo_surface_t *make_surface(struct canvas *canvas)
{
	double width_pt = canvas->width_mm * POINTS_PER_MM;
	double height_pt = canvas->height_mm * POINTS_PER_MM;

	if (canvas->kind == CANVAS_SVG)
		return cairo_svg_surface_create_for_stream(append, canvas, width_pt, height_pt);
	if (canvas->kind == CANVAS_PDF)
		return cairo_pdf_surface_create_for_stream(append, canvas, width_pt, height_pt);
	return cairo_image_surface_create(CAIRO_FORMAT_RGB24,
					  (int)lround(canvas->width_mm * CANVAS_PIXELS_PER_MM),
					  (int)lround(canvas->height_mm * CANVAS_PIXELS_PER_MM));
}

/* Hinting would move letters with the resolution: off, so that all kinds
 * agree. */
static void set_fonts(cairo_t *pen)
{
	cairo_font_options_t *options = cairo_font_options_create();

	cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
	cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
	cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
	cairo_set_font_options(pen, options);
	cairo_font_options_destroy(options);
}

/* Surface and pen of the canvas's kind and size, drawing in mm. */
static enum fault open_sheet(struct canvas *canvas, struct fault_list *faults)
{
	canvas->surface = make_surface(canvas);
	canvas->pen = cairo_create(canvas->surface);
	if (cairo_status(canvas->pen) != CAIRO_STATUS_SUCCESS)
		return fault_no_memory(faults, "a picture");
	double scale = canvas->kind == CANVAS_PNG ? CANVAS_PIXELS_PER_MM : POINTS_PER_MM;
	cairo_scale(canvas->pen, scale, scale);
	set_fonts(canvas->pen);
	cairo_set_line_join(canvas->pen, CAIRO_LINE_JOIN_ROUND);
	cairo_set_line_cap(canvas->pen, CAIRO_LINE_CAP_ROUND);
	return FAULT_NONE;
}

enum fault canvas_open(struct canvas *canvas, enum canvas_kind kind, double height_mm,
		       struct fault_list *faults)
{
	*canvas = (struct canvas){ .kind = kind, .width_mm = CANVAS_WIDTH_MM };
	canvas->height_mm = ceil(height_mm);
	if (open_sheet(canvas, faults) != FAULT_NONE)
		return FAULT_MEMORY;
	canvas_colour(canvas, palette_colour(PALETTE_PAPER));
	cairo_rectangle(canvas->pen, 0.0, 0.0, canvas->width_mm, canvas->height_mm);
	cairo_fill(canvas->pen);
	return FAULT_NONE;
}

/* Cairo would write the time of day as the file's date. */
enum fault canvas_open_paper(struct canvas *canvas, double width_mm, double height_mm,
			     const char *title, struct fault_list *faults)
{
	*canvas =
		(struct canvas){ .kind = CANVAS_PDF, .width_mm = width_mm, .height_mm = height_mm };
	if (open_sheet(canvas, faults) != FAULT_NONE)
		return FAULT_MEMORY;
	cairo_pdf_surface_set_metadata(canvas->surface, CAIRO_PDF_METADATA_CREATE_DATE, NULL);
	cairo_pdf_surface_set_metadata(canvas->surface, CAIRO_PDF_METADATA_TITLE, title);
	return FAULT_NONE;
}

void canvas_next_page(struct canvas *canvas)
{
	cairo_show_page(canvas->pen);
}

void canvas_colour(struct canvas *canvas, struct colour colour)
{
	cairo_set_source_rgb(canvas->pen, colour.r / 255.0, colour.g / 255.0, colour.b / 255.0);
}

double canvas_snap_mm(double place_mm)
{
	return round(place_mm * CANVAS_PIXELS_PER_MM) / CANVAS_PIXELS_PER_MM;
}

/* A name that cairo makes from a number: where its figures begin and end. */
struct numbered {
	size_t digits, end; /* from the start of the name; end 0: no such name */
	unsigned long number;
};

/* Looks at a place just behind `"` or `#`. Words of cairo 1.16 come first, those
 * of later versions after them. */
static struct numbered numbered_name(const unsigned char *at, size_t left)
{
	static const char *const words[] = { "surface", "image", "source-", "image-" };

	for (size_t w = 0; w < sizeof words / sizeof words[0]; w++) {
		size_t length = strlen(words[w]);
		struct numbered name = { .digits = length, .end = length };
		if (left <= length || memcmp(at, words[w], length) != 0)
			continue;
		while (name.end < left && at[name.end] >= '0' && at[name.end] <= '9')
			name.number = name.number * 10 + (unsigned long)(at[name.end++] - '0');
		if (name.end > name.digits)
			return name;
	}
	return (struct numbered){ 0 };
}

struct seen {
	unsigned long *number;
	size_t count, capacity;
};

/* 1-based place of a number in order of first appearance; 0: no memory. */
static size_t place_of(struct seen *seen, unsigned long number)
{
	for (size_t i = 0; i < seen->count; i++)
		if (seen->number[i] == number)
			return i + 1;
	unsigned long *grown =
		mem_grow(seen->number, &seen->capacity, seen->count + 1, sizeof *seen->number);
	if (!grown)
		return 0;
	seen->number = grown;
	seen->number[seen->count++] = number;
	return seen->count;
}

static bool add_bytes(struct canvas *to, const unsigned char *bytes, size_t size)
{
	return append(to, bytes, (unsigned)size) == CAIRO_STATUS_SUCCESS;
}

/* Copies `from` to `to` with every numbered name given its place instead. */
static bool copy_renumbered(struct canvas *to, const struct canvas *from, struct seen *seen)
{
	size_t done = 0;

	for (size_t i = 0; i + 1 < from->size; i++) {
		if (from->bytes[i] != '"' && from->bytes[i] != '#')
			continue;
		struct numbered name = numbered_name(from->bytes + i + 1, from->size - i - 1);
		if (name.end == 0)
			continue;
		char figures[24];
		size_t place = place_of(seen, name.number), digits = i + 1 + name.digits;
		int length = snprintf(figures, sizeof figures, "%zu", place);
		if (place == 0 || !add_bytes(to, from->bytes + done, digits - done) ||
		    !add_bytes(to, (const unsigned char *)figures, (size_t)length))
			return false;
		done = i + 1 + name.end;
		i = done - 1;
	}
	return add_bytes(to, from->bytes + done, from->size - done);
}

/* Cairo numbers surfaces through the life of the process; numbering them anew
 * within the file makes its bytes depend on the drawing alone. Letters are
 * drawn as shapes and images are base64, so neither `"` nor `#` can stand in
 * anything but the names themselves. */
static enum fault renumber(struct canvas *canvas, struct fault_list *faults)
{
	struct canvas fresh = { 0 };
	struct seen seen = { 0 };
	bool good = copy_renumbered(&fresh, canvas, &seen);

	free(seen.number);
	free(good ? canvas->bytes : fresh.bytes);
	if (!good)
		return fault_no_memory(faults, "a picture");
	canvas->bytes = fresh.bytes;
	canvas->size = fresh.size;
	canvas->capacity = fresh.capacity;
	return FAULT_NONE;
}

enum fault canvas_save(struct canvas *canvas, const char *path, struct fault_list *faults)
{
	cairo_status_t status;

	if (canvas->kind == CANVAS_PDF)
		cairo_show_page(canvas->pen); /* the last page, empty or not */
	status = cairo_status(canvas->pen);
	cairo_surface_flush(canvas->surface);
	if (status == CAIRO_STATUS_SUCCESS && canvas->kind == CANVAS_PNG)
		status = cairo_surface_write_to_png_stream(canvas->surface, append, canvas);
	cairo_surface_finish(canvas->surface);
	if (status == CAIRO_STATUS_SUCCESS)
		status = cairo_surface_status(canvas->surface);
	if (status == CAIRO_STATUS_NO_MEMORY || canvas->lost)
		return fault_no_memory(faults, "a picture");
	if (status != CAIRO_STATUS_SUCCESS)
		return fault_add(faults, FAULT_FILE, path, 0, NULL,
				 "The picture could not be drawn: %s.",
				 cairo_status_to_string(status));
	if (canvas->kind == CANVAS_SVG && renumber(canvas, faults) != FAULT_NONE)
		return FAULT_MEMORY;
	return text_file_write(path, (const char *)canvas->bytes, canvas->size, faults);
}

void canvas_close(struct canvas *canvas)
{
	if (!canvas)
		return;
	if (canvas->pen)
		cairo_destroy(canvas->pen);
	if (canvas->surface)
		cairo_surface_destroy(canvas->surface);
	free(canvas->bytes);
	*canvas = (struct canvas){ 0 };
}
