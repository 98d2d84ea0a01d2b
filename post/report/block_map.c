/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/block_map.h"

#include <math.h>
#include <string.h>

#include "base/minmax.h"
#include "report/columns.h"
#include "report/name_line.h"

/* Columns in front of the map, for side names and figures across. */
#define MARGIN 8
/* Less than this is nothing, mm: what tables print of a depth. */
#define NOTHING_MM 0.005
/* Free columns between figures along, and rows between figures across. */
#define TICK_COLUMNS 9.0
#define TICK_ROWS 2.0
/* Widest text, so that long lines stay easy to read on wide terminals. */
#define TEXT_COLUMNS COLUMNS_MOST
#define NUMBER_ROOM 32
/* A figure this much over a round one still counts as that, as a share. */
#define ROUND_SLACK 1e-9

/* Levels of a place: nothing there, nothing to show, then the shades. */
enum { LEVEL_EMPTY, LEVEL_ZERO, LEVEL_FIRST, LEVEL_LAST = LEVEL_ZERO + BLOCK_SHADES, LEVEL_COUNT };

/* Blank, middle dot, light, medium and dark shade, full block. */
static const char *const block_glyph[LEVEL_COUNT] = {
	" ", "\xc2\xb7", "\xe2\x96\x91", "\xe2\x96\x92", "\xe2\x96\x93", "\xe2\x96\x88"
};
static const char *const ascii_glyph[LEVEL_COUNT] = { " ", ".", ":", "+", "X", "#" };
#define UPPER_HALF_BLOCK "\xe2\x96\x80"
#define LOWER_HALF_BLOCK "\xe2\x96\x84"

/* Of the 256 colours of a terminal (its 6 x 6 x 6 cube and greys) those nearest
 * to soft ink and to the ramp of the pictures, on paper. */
static const int ink_of_level[LEVEL_COUNT] = { 180, 138, 137, 137, 94, 235 };
#define PAPER_COLOUR 230

static void number_text(char *out, double value)
{
	(void)snprintf(out, NUMBER_ROOM, "%.4g", value);
	char *comma = strchr(out, ',');
	if (comma)
		*comma = '.';
}

/* The smallest of these figures times a power of ten that is no smaller than
 * `least` > 0; `step` rises from 1. */
static double round_up(double least, const double *step, size_t count)
{
	double power = pow(10.0, floor(log10(least)));

	for (size_t i = 0; i < count; i++)
		if (step[i] * power >= least * (1.0 - ROUND_SLACK))
			return step[i] * power;
	return 10.0 * power;
}

static double round_depth_mm(double least_mm)
{
	static const double step[] = { 1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0 };

	return round_up(least_mm, step, sizeof step / sizeof step[0]);
}

static double tick_step_mm(double least_mm)
{
	static const double step[] = { 1.0, 2.0, 5.0 };

	return round_up(least_mm, step, sizeof step / sizeof step[0]);
}

void block_map_even(struct block_map *map, double most_mm)
{
	double step = round_depth_mm(larger(most_mm / BLOCK_SHADES, NOTHING_MM));

	for (int i = 0; i < BLOCK_SHADES; i++)
		map->upto_mm[i] = step * (i + 1);
}

void block_map_doubling(struct block_map *map, double most_mm)
{
	double last = round_depth_mm(larger(most_mm, NOTHING_MM * (1 << BLOCK_SHADES)));

	for (int i = 0; i < BLOCK_SHADES; i++)
		map->upto_mm[i] = ldexp(last, i - BLOCK_SHADES + 1);
}

static int level_of(const struct block_map *map, float value)
{
	int level = LEVEL_FIRST;

	if (isnan(value))
		return LEVEL_EMPTY;
	if (!((double)value >= NOTHING_MM))
		return LEVEL_ZERO;
	while (level < LEVEL_LAST && (double)value > map->upto_mm[level - LEVEL_FIRST])
		level++;
	return level;
}

/* One character for both halves of a cell: *level for its ink. A half block
 * where the darkest shade stands alone in one half; otherwise the cell takes
 * the value that matters. */
static const char *glyph_of(const struct block_map *map, int upper, int lower, int *level)
{
	int low = upper < lower ? upper : lower, high = upper < lower ? lower : upper;
	bool alone = low == LEVEL_EMPTY || (low == LEVEL_ZERO && map->pick == BLOCK_PICK_MOST);

	*level = map->pick == BLOCK_PICK_MOST || low == LEVEL_EMPTY ? high : low;
	if (map->utf8 && alone && high == LEVEL_LAST)
		return upper == high ? UPPER_HALF_BLOCK : LOWER_HALF_BLOCK;
	return map->utf8 ? block_glyph[*level] : ascii_glyph[*level];
}

static void set_ink(FILE *out, const struct block_map *map, int level)
{
	if (map->colour)
		(void)fprintf(out, "\033[38;5;%d;48;5;%dm", ink_of_level[level], PAPER_COLOUR);
}

static void reset_ink(FILE *out, const struct block_map *map)
{
	if (map->colour)
		(void)fputs("\033[0m", out);
}

static void print_margin(FILE *out, const char *text)
{
	columns_text(out, MARGIN - 1, 1, text);
	(void)fputc(' ', out);
}

/* The side names stand at the upper and lower end, a figure where a multiple of
 * the step falls into the row. */
static void print_row_margin(FILE *out, const struct block_map *map,
			     const struct block_cells *cells, size_t row)
{
	double step = tick_step_mm(TICK_ROWS * cells->cell_mm);
	double middle = cells->y_top_mm - ((double)row + 0.5) * cells->cell_mm;
	double near = step * floor(middle / step + 0.5);
	char text[NUMBER_ROOM] = "", number[NUMBER_ROOM - 4];

	if (cells->rows > 1 && row == 0)
		(void)snprintf(text, sizeof text, "%.7s", map->plus_side);
	else if (cells->rows > 1 && row + 1 == cells->rows)
		(void)snprintf(text, sizeof text, "%.7s", map->minus_side);
	else if (near - middle > -cells->cell_mm / 2.0 && near - middle <= cells->cell_mm / 2.0) {
		(void)snprintf(number, sizeof number, "%+.3g", near);
		(void)snprintf(text, sizeof text, "%7s", near == 0.0 ? "0" : number);
	}
	print_margin(out, text);
}

static void print_row(FILE *out, const struct block_map *map, const struct block_cells *cells,
		      size_t row)
{
	const float *upper = &cells->value[2 * row * cells->columns];
	const float *lower = upper + cells->columns;
	int inked = -1, level;

	print_row_margin(out, map, cells, row);
	for (size_t i = 0; i < cells->columns; i++) {
		const char *glyph =
			glyph_of(map, level_of(map, upper[i]), level_of(map, lower[i]), &level);
		if (level != inked)
			set_ink(out, map, level);
		inked = level;
		(void)fputs(glyph, out);
	}
	reset_ink(out, map);
	(void)fputc('\n', out);
}

static void print_marks(FILE *out, const struct name_line *line, const struct block_cells *cells,
			const struct block_marks *marks)
{
	if (marks->count == 0)
		return;
	for (size_t i = 0; i < marks->count; i++) {
		double at = floor((marks->mark[i].x_mm - cells->x_from_mm) / cells->cell_mm);
		if (at >= 0.0 && at < (double)cells->columns)
			name_line_put(line, (size_t)at, marks->mark[i].text);
	}
	print_margin(out, marks->label);
	name_line_print(out, line);
}

/* True when a multiple of the step falls into column `i`, which is *tick_mm. */
static bool tick_in_column(const struct block_cells *cells, size_t i, double step_mm,
			   double *tick_mm)
{
	double from = cells->x_from_mm + (double)i * cells->cell_mm;
	double tick = step_mm * ceil(from / step_mm - ROUND_SLACK);

	*tick_mm = tick == 0.0 ? 0.0 : tick; /* a negative zero would show its sign */
	return tick < from + cells->cell_mm * (1.0 - ROUND_SLACK);
}

/* The line with the ticks, and the figures under it. Box drawing: a line with
 * and without a foot. */
static void print_axis(FILE *out, const struct block_map *map, const struct name_line *line,
		       const struct block_cells *cells)
{
	const char *tick = map->utf8 ? "\xe2\x94\xac" : "+";
	const char *plain = map->utf8 ? "\xe2\x94\x80" : "-";
	double step = tick_step_mm(TICK_COLUMNS * cells->cell_mm), x;
	char number[NUMBER_ROOM];

	print_margin(out, "y, mm");
	for (size_t i = 0; i < cells->columns; i++) {
		bool here = tick_in_column(cells, i, step, &x);
		if (here) {
			number_text(number, x);
			name_line_put(line, i, number);
		}
		(void)fputs(here ? tick : plain, out);
	}
	(void)fputc('\n', out);
	print_margin(out, "x, mm");
	name_line_print(out, line);
}

/* One item of the legend, on a new line when it finds no room. */
static void print_item(FILE *out, const struct block_map *map, int *at, int level, const char *text)
{
	int most = map->columns < TEXT_COLUMNS ? map->columns : TEXT_COLUMNS;
	int length = 4 + (int)strlen(text);

	if (*at > 0 && *at + length > most) {
		(void)fputc('\n', out);
		*at = 0;
	}
	(void)fputs("  ", out);
	set_ink(out, map, level);
	(void)fputs(map->utf8 ? block_glyph[level] : ascii_glyph[level], out);
	reset_ink(out, map);
	(void)fprintf(out, " %s", text);
	*at += length;
}

static void print_legend(FILE *out, const struct block_map *map)
{
	char text[2 * NUMBER_ROOM], number[NUMBER_ROOM];
	int at = 0;

	print_item(out, map, &at, LEVEL_ZERO, map->nothing);
	for (int i = 0; i < BLOCK_SHADES; i++) {
		bool last = i + 1 == BLOCK_SHADES;
		number_text(number, map->upto_mm[last && map->open ? i - 1 : i]);
		(void)snprintf(text, sizeof text, "%s%s%s",
			       last && map->open ? "over "
			       : i == 0		 ? "0 to "
						 : "to ",
			       number, last ? " mm" : "");
		print_item(out, map, &at, LEVEL_FIRST + i, text);
	}
	(void)fputc('\n', out);
}

static void print_sentence(FILE *out, const struct block_map *map, double cell_mm)
{
	char text[320], number[NUMBER_ROOM];
	int most = map->columns < TEXT_COLUMNS ? map->columns : TEXT_COLUMNS;

	number_text(number, cell_mm);
	(void)snprintf(text, sizeof text,
		       "Each character shows %s in %s x %s mm%s. Across is drawn about twice as "
		       "large as along.",
		       map->shown, number, number,
		       map->utf8 ? ", a half block that in half of it" : "");
	(void)fputs("  ", out);
	columns_wrapped(out, most, 2, 2, text);
}

static enum fault print_cells(FILE *out, const struct block_map *map,
			      const struct block_cells *cells, struct fault_list *faults)
{
	struct name_line line;
	enum fault fault = name_line_make(&line, cells->columns, faults);

	if (fault)
		return fault;
	print_marks(out, &line, cells, &map->above);
	for (size_t row = 0; row < cells->rows; row++)
		print_row(out, map, cells, row);
	print_axis(out, map, &line, cells);
	print_marks(out, &line, cells, &map->below);
	print_legend(out, map);
	print_sentence(out, map, cells->cell_mm);
	name_line_free(&line);
	return FAULT_NONE;
}

enum fault block_map_print(FILE *out, const struct block_map *map, struct fault_list *faults)
{
	struct block_cells cells;
	enum fault fault = block_cells_make(&cells, map->map, &map->part,
					    (size_t)(map->columns - MARGIN), map->pick, faults);

	if (!fault)
		fault = print_cells(out, map, &cells, faults);
	block_cells_free(&cells);
	return fault;
}
