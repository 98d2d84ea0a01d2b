/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A map inside an SVG is the map of the PNG, pixel for pixel. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "files/text_file.h"
#include "pictures/map.h"
#include "post/pictures/sheet_pixels.h"
#include "support/scratch.h"

#define NX ((size_t)120)
#define NY 40
#define SIZE_MOST (8u << 20)

static struct column_map make_field(float value[NX * NY])
{
	for (size_t i = 0; i < NX * NY; i++)
		value[i] = i % 11 == 0 ? NAN : (float)(i % NX) / 50.0f;
	return (struct column_map){ NX, NY, 0.0, -20.0, 1.0, value };
}

static const struct map_view view = { { -0.5, 119.5, -20.5, 19.5 }, 30.0, 20.0, 1.5 };

static void draw(struct canvas *canvas, enum canvas_kind kind)
{
	static float value[NX * NY];
	const struct column_map map = make_field(value);
	const struct map_look look = { .full = 2.0, .pale_zero = true };

	assert_int_equal(canvas_open(canvas, kind, 100.0, NULL), FAULT_NONE);
	assert_int_equal(map_draw(canvas, &map, &view, &look, NULL), FAULT_NONE);
}

/* Six bits of a base64 letter, -1 for any other. Source: RFC 4648, table 1. */
static int sextet(char c)
{
	static const char letters[] =
		"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
	const char *at = c ? strchr(letters, c) : NULL;

	return at ? (int)(at - letters) : -1;
}

struct bytes {
	unsigned char *data;
	size_t size, read;
};

static struct bytes decode(const char *text)
{
	struct bytes out = { malloc(strlen(text)), 0, 0 };
	unsigned bits = 0;
	int count = 0;

	assert_non_null(out.data);
	for (; *text && *text != '"' && *text != '='; text++) {
		if (sextet(*text) < 0)
			continue; /* a line's end */
		bits = bits << 6 | (unsigned)sextet(*text);
		count += 6;
		if (count >= 8) {
			count -= 8;
			out.data[out.size++] = (unsigned char)(bits >> count & 0xff);
		}
	}
	return out;
}

static cairo_status_t read_bytes(void *closure, unsigned char *data, unsigned int length)
{
	struct bytes *bytes = closure;

	if (bytes->read + length > bytes->size)
		return CAIRO_STATUS_READ_ERROR;
	memcpy(data, bytes->data + bytes->read, length);
	bytes->read += length;
	return CAIRO_STATUS_SUCCESS;
}

static cairo_surface_t *image_in(const char *path)
{
	static const char mark[] = "data:image/png;base64,";
	char *text;
	size_t size;

	assert_int_equal(text_file_read(&text, &size, path, SIZE_MOST, NULL), FAULT_NONE);
	const char *at = strstr(text, mark);
	assert_non_null(at);
	assert_null(strstr(at + 1, mark));
	struct bytes bytes = decode(at + strlen(mark));
	cairo_surface_t *image = cairo_image_surface_create_from_png_stream(read_bytes, &bytes);
	assert_int_equal(cairo_surface_status(image), CAIRO_STATUS_SUCCESS);
	free(bytes.data);
	free(text);
	return image;
}

static void the_svg_holds_the_pngs_map(void **state)
{
	char path[SCRATCH_ROOM];
	struct canvas svg, png;

	draw(&svg, CANVAS_SVG);
	(void)scratch_path(path, *state, "map.svg");
	assert_int_equal(canvas_save(&svg, path, NULL), FAULT_NONE);
	canvas_close(&svg);
	draw(&png, CANVAS_PNG);
	cairo_surface_t *image = image_in(path);
	size_t width = (size_t)cairo_image_surface_get_width(image);
	size_t height = (size_t)cairo_image_surface_get_height(image);
	assert_int_equal(width, 120 * 1.5 * CANVAS_PIXELS_PER_MM);
	assert_int_equal(height, 40 * 1.5 * CANVAS_PIXELS_PER_MM);
	size_t stride = (size_t)cairo_image_surface_get_stride(image), bare = 0;
	const unsigned char *data = cairo_image_surface_get_data(image);
	for (size_t py = 0; py < height; py++)
		for (size_t px = 0; px < width; px++) {
			uint32_t at =
				*(const uint32_t *)(const void *)(data + py * stride + 4 * px);
			uint32_t there = sheet_pixel(
				png.surface, px + (size_t)(view.left_mm * CANVAS_PIXELS_PER_MM),
				py + (size_t)(view.top_mm * CANVAS_PIXELS_PER_MM));
			bare += at >> 24 == 0;
			assert_int_equal(at >> 24 ? at
						  : palette_pixel(palette_colour(PALETTE_PAPER)),
					 there);
		}
	assert_in_range(bare, width * height / 15, width * height / 8);
	cairo_surface_destroy(image);
	canvas_close(&png);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(the_svg_holds_the_pngs_map, scratch_make,
						scratch_remove),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
