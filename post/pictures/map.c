/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/map.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"

/* Hatching: stripes this many pixels wide, ink and paper in turn. */
#define HATCH_PIXELS 3

struct map_extent map_extent_none(void)
{
	return (struct map_extent){ INFINITY, -INFINITY, INFINITY, -INFINITY };
}

bool map_extent_is_none(const struct map_extent *extent)
{
	return !(extent->x_to_mm > extent->x_from_mm && extent->y_to_mm > extent->y_from_mm);
}

/* Columns whose value is above `over`; a comparison with NAN is false. */
static void add_above(struct map_extent *extent, const struct column_map *map, float over)
{
	size_t ix_least = map->nx, ix_most = 0, iy_least = map->ny, iy_most = 0;

	for (size_t iy = 0; iy < map->ny; iy++) {
		const float *row = map->value + iy * map->nx;
		size_t from = 0, to = map->nx;
		while (from < to && !(row[from] > over))
			from++;
		while (to > from && !(row[to - 1] > over))
			to--;
		if (from == to)
			continue;
		ix_least = from < ix_least ? from : ix_least;
		ix_most = to - 1 > ix_most ? to - 1 : ix_most;
		iy_least = iy < iy_least ? iy : iy_least;
		iy_most = iy;
	}
	if (ix_least == map->nx)
		return;
	double half = map->cell_mm / 2.0;
	extent->x_from_mm =
		fmin(extent->x_from_mm, map->x0_mm + (double)ix_least * map->cell_mm - half);
	extent->x_to_mm = fmax(extent->x_to_mm, map->x0_mm + (double)ix_most * map->cell_mm + half);
	extent->y_from_mm =
		fmin(extent->y_from_mm, map->y0_mm + (double)iy_least * map->cell_mm - half);
	extent->y_to_mm = fmax(extent->y_to_mm, map->y0_mm + (double)iy_most * map->cell_mm + half);
}

void map_extent_add(struct map_extent *extent, const struct column_map *map)
{
	add_above(extent, map, -INFINITY);
}

void map_extent_add_cut(struct map_extent *extent, const struct column_map *map)
{
	add_above(extent, map, 0.0f);
}

double map_most(const struct column_map *map)
{
	float most = -INFINITY;

	/* A comparison with NAN is false, so nothing there counts for nothing. */
	for (size_t i = 0; i < map->nx * map->ny; i++)
		most = map->value[i] > most ? map->value[i] : most;
	return most > -INFINITY ? (double)most : NAN;
}

bool map_hatched(const struct column_map *map, const struct map_look *look, size_t i)
{
	return look->least && (double)map->value[i] < (double)look->least->value[i] - look->slack;
}

double map_view_x_mm(const struct map_view *view, double x_mm)
{
	return view->left_mm + (x_mm - view->part.x_from_mm) * view->scale;
}

double map_view_y_mm(const struct map_view *view, double y_mm)
{
	return view->top_mm + (view->part.y_to_mm - y_mm) * view->scale;
}

double map_view_width_mm(const struct map_view *view)
{
	return (view->part.x_to_mm - view->part.x_from_mm) * view->scale;
}

double map_view_height_mm(const struct map_view *view)
{
	return (view->part.y_to_mm - view->part.y_from_mm) * view->scale;
}

/* Columns [from, to) of one axis whose centres a pixel covers; at least the
 * nearest one, and none (from == to) outside the map. */
struct span {
	size_t from, to;
};

static struct span span_of(double low_mm, double high_mm, double origin_mm, double cell_mm,
			   size_t count)
{
	double first = ceil((low_mm - origin_mm) / cell_mm);
	double end = ceil((high_mm - origin_mm) / cell_mm);

	if (end <= first) {
		first = round(((low_mm + high_mm) / 2.0 - origin_mm) / cell_mm);
		end = first + 1.0;
	}
	first = fmax(first, 0.0);
	end = fmin(end, (double)count);
	return end > first ? (struct span){ (size_t)first, (size_t)end } : (struct span){ 0, 0 };
}

/* The spans of `pixels` pixels along one axis; the caller frees them. The value
 * under pixel p lies at start + direction * p / (scale * pixels per mm). */
static struct span *spans_along(size_t pixels, double start_mm, double direction, double scale,
				double origin_mm, double cell_mm, size_t count)
{
	struct span *spans = mem_array(pixels, sizeof *spans);
	double step = direction / (scale * CANVAS_PIXELS_PER_MM);

	for (size_t p = 0; spans && p < pixels; p++) {
		double a = start_mm + (double)p * step, b = start_mm + (double)(p + 1) * step;
		spans[p] = span_of(fmin(a, b), fmax(a, b), origin_mm, cell_mm, count);
	}
	return spans;
}

struct pixel_value {
	double value; /* NAN: nothing there */
	bool hatched;
};

static bool any_there(const struct column_map *there, struct span across, struct span along)
{
	for (size_t iy = across.from; iy < across.to; iy++)
		for (size_t ix = along.from; ix < along.to; ix++)
			if (!isnan(there->value[iy * there->nx + ix]))
				return true;
	return false;
}

/* The least is sought as the most with the other sign: sixty passes of a
 * million columns go through here, and comparing is all that is done. */
static struct pixel_value value_under(const struct column_map *map, const struct map_look *look,
				      struct span across, struct span along)
{
	float sign = look->pick == MAP_PICK_MOST ? 1.0f : -1.0f, found = -INFINITY;
	bool hatched = false;

	for (size_t iy = across.from; iy < across.to; iy++) {
		const float *row = map->value + iy * map->nx;
		for (size_t ix = along.from; ix < along.to; ix++) {
			float value = sign * row[ix];
			found = value > found ? value : found;
		}
		for (size_t ix = along.from; look->least && ix < along.to; ix++)
			hatched = hatched || map_hatched(map, look, iy * map->nx + ix);
	}
	bool none = found == -INFINITY || (look->there && !any_there(look->there, across, along));
	return (struct pixel_value){ none ? NAN : (double)(sign * found), hatched };
}

/* Everything that turns a value into a pixel, worked out once per map. */
struct inks {
	uint32_t step[PALETTE_STEPS], pale, ink, paper;
};

static struct inks make_inks(void)
{
	struct inks inks = { .pale = palette_pixel(palette_colour(PALETTE_PALE_WOOD)),
			     .ink = palette_pixel(palette_colour(PALETTE_INK)),
			     .paper = palette_pixel(palette_colour(PALETTE_PAPER)) };

	for (int i = 0; i < PALETTE_STEPS; i++)
		inks.step[i] = palette_pixel(palette_step_colour(i));
	return inks;
}

static uint32_t pixel_of(const struct inks *inks, const struct map_look *look,
			 struct pixel_value found, size_t px, size_t py)
{
	if (isnan(found.value))
		return 0;
	if (found.hatched)
		return (px + py) / HATCH_PIXELS % 2 == 0 ? inks->ink : inks->paper;
	if (look->pale_zero && found.value <= 0.0)
		return inks->pale;
	return inks->step[palette_step(found.value / look->full)];
}

static void paint(cairo_surface_t *image, const struct column_map *map, const struct map_look *look,
		  const struct span *along, const struct span *across)
{
	struct inks inks = make_inks();
	size_t width = (size_t)cairo_image_surface_get_width(image);
	size_t height = (size_t)cairo_image_surface_get_height(image);
	size_t stride = (size_t)cairo_image_surface_get_stride(image);
	unsigned char *data = cairo_image_surface_get_data(image);

	cairo_surface_flush(image);
	for (size_t py = 0; py < height; py++) {
		/* Cairo aligns every row for 32-bit access. */
		uint32_t *row = (uint32_t *)(void *)(data + py * stride);
		for (size_t px = 0; px < width; px++)
			row[px] = pixel_of(&inks, look,
					   value_under(map, look, across[py], along[px]), px, py);
	}
	cairo_surface_mark_dirty(image);
}

static void place(struct canvas *canvas, cairo_surface_t *image, const struct map_view *view)
{
	double scale = 1.0 / CANVAS_PIXELS_PER_MM;

	cairo_save(canvas->pen);
	cairo_translate(canvas->pen, view->left_mm, view->top_mm);
	cairo_scale(canvas->pen, scale, scale);
	cairo_set_source_surface(canvas->pen, image, 0.0, 0.0);
	cairo_pattern_set_filter(cairo_get_source(canvas->pen), CAIRO_FILTER_NEAREST);
	cairo_paint(canvas->pen);
	cairo_restore(canvas->pen);
}

enum fault map_draw(struct canvas *canvas, const struct column_map *map,
		    const struct map_view *view, const struct map_look *look,
		    struct fault_list *faults)
{
	size_t width = (size_t)ceil(map_view_width_mm(view) * CANVAS_PIXELS_PER_MM - 1e-6);
	size_t height = (size_t)ceil(map_view_height_mm(view) * CANVAS_PIXELS_PER_MM - 1e-6);
	cairo_surface_t *image =
		cairo_image_surface_create(CAIRO_FORMAT_ARGB32, (int)width, (int)height);
	struct span *along = spans_along(width, view->part.x_from_mm, 1.0, view->scale, map->x0_mm,
					 map->cell_mm, map->nx);
	struct span *across = spans_along(height, view->part.y_to_mm, -1.0, view->scale, map->y0_mm,
					  map->cell_mm, map->ny);
	enum fault code = FAULT_NONE;

	if (!along || !across || cairo_surface_status(image) != CAIRO_STATUS_SUCCESS) {
		code = fault_no_memory(faults, "a map");
	} else {
		paint(image, map, look, along, across);
		place(canvas, image, view);
	}
	free(across);
	free(along);
	cairo_surface_destroy(image);
	return code;
}
