/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/block_map.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/scratch.h"
#include "support/terminal_text.h"

#define MARGIN 8
#define LINE_ROOM 2048

/* 200 x 41 columns 0.5 mm apart: x from 0 to 99.5, y from -10 to 10. */
static struct column_map sample_map(void)
{
	struct column_map map = { .nx = 200, .ny = 41, .y0_mm = -10.0, .cell_mm = 0.5 };

	map.value = calloc(map.nx * map.ny, sizeof *map.value);
	assert_non_null(map.value);
	return map;
}

static float *at(const struct column_map *map, double x_mm, double y_mm)
{
	size_t ix = (size_t)floor((x_mm - map->x0_mm) / map->cell_mm + 0.5);
	size_t iy = (size_t)floor((y_mm - map->y0_mm) / map->cell_mm + 0.5);

	return &map->value[iy * map->nx + ix];
}

/* 58 columns give 50 cells of 2 mm, eleven rows of them. */
static struct block_map sample(const struct column_map *map)
{
	struct block_map out = { .map = map,
				 .part = { 0.0, 99.5, 10.0 },
				 .pick = BLOCK_PICK_MOST,
				 .shown = "the deepest cut",
				 .nothing = "left alone",
				 .plus_side = "bass",
				 .minus_side = "treble",
				 .columns = 58 };

	block_map_even(&out, 4.0);
	return out;
}

static char *printed(const struct block_map *map)
{
	FILE *out = tmpfile();

	assert_non_null(out);
	assert_int_equal(block_map_print(out, map, NULL), FAULT_NONE);
	return scratch_text(out);
}

/* Line `number` from 0, in line[LINE_ROOM]. */
static const char *line_of(char *line, const char *text, size_t number)
{
	for (; number > 0; number--) {
		text = strchr(text, '\n');
		assert_non_null(text);
		text++;
	}
	(void)snprintf(line, LINE_ROOM, "%.*s", (int)strcspn(text, "\n"), text);
	return line;
}

/* In ASCII a cell is a byte: the one at (x, y). */
static char cell_at(const char *text, double x_mm, double y_mm)
{
	char line[LINE_ROOM];
	size_t row = (size_t)floor((11.0 - y_mm) / 2.0);

	return line_of(line, text, row)[MARGIN + (size_t)floor(x_mm / 2.0)];
}

static void limits_are_round_and_reach_the_most(void **state)
{
	struct block_map map;

	(void)state;
	block_map_even(&map, 4.55);
	assert_near(map.upto_mm[0], 1.2, 1e-12, "a quarter of 4.8, mm");
	assert_near(map.upto_mm[3], 4.8, 1e-12, "over 4.55, mm");
	block_map_even(&map, 4.0);
	assert_near(map.upto_mm[3], 4.0, 1e-12, "4 is round itself, mm");
	block_map_doubling(&map, 73.0);
	assert_near(map.upto_mm[3], 80.0, 1e-12, "over 73, mm");
	assert_near(map.upto_mm[2], 40.0, 1e-12, "half of it, mm");
	assert_near(map.upto_mm[0], 10.0, 1e-12, "an eighth of it, mm");
	for (double most = 0.0; most < 300.0; most += 0.37) {
		block_map_even(&map, most);
		assert_true(map.upto_mm[3] >= most && map.upto_mm[0] > 0.0);
		assert_true(map.upto_mm[3] <= fmax(1.5 * most, 0.021));
		block_map_doubling(&map, most);
		assert_true(map.upto_mm[3] >= most && map.upto_mm[0] > 0.0);
	}
}

/* 1 mm a shade: a value on a limit still belongs to the lighter one. */
static void a_cell_is_as_dark_as_its_deepest_column(void **state)
{
	static const struct {
		float depth;
		char ascii;
	} cases[] = { { 0.0F, '.' },  { 0.004F, '.' }, { 0.006F, ':' }, { 1.0F, ':' },
		      { 1.01F, '+' }, { 2.5F, 'X' },   { 3.0F, 'X' },	{ 3.2F, '#' },
		      { 9.0F, '#' },  { NAN, ' ' } };
	struct column_map map = sample_map();
	struct block_map block = sample(&map);

	(void)state;
	for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
		double x = 4.0 * (double)i;
		for (double y = -1.0; y <= 1.0; y += 0.5)
			for (double along = 0.0; along < 2.0; along += 0.5)
				*at(&map, x + along, y) = isnan(cases[i].depth) ? NAN : 0.0F;
		*at(&map, x + 1.0, -0.5) = cases[i].depth;
	}
	char *text = printed(&block);
	for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
		assert_int_equal(cell_at(text, 4.0 * (double)i + 1.0, 0.0), cases[i].ascii);
		assert_int_equal(cell_at(text, 4.0 * (double)i + 3.0, 0.0), '.');
	}
	free(text);
	free(map.value);
}

static void stock_takes_the_least(void **state)
{
	(void)state;
	struct column_map map = sample_map();
	struct block_map block = sample(&map);

	for (size_t i = 0; i < map.nx * map.ny; i++)
		map.value[i] = 3.5F;
	*at(&map, 20.5, 0.5) = 0.5F;
	block.pick = BLOCK_PICK_LEAST;
	char *text = printed(&block);
	assert_int_equal(cell_at(text, 20.5, 0.0), ':');
	assert_int_equal(cell_at(text, 22.5, 0.0), '#');
	free(text);
	free(map.value);
}

static void right_is_toward_the_body_and_up_is_plus_y(void **state)
{
	(void)state;
	struct column_map map = sample_map();
	struct block_map block = sample(&map);
	char line[LINE_ROOM];

	*at(&map, 90.0, 8.0) = 4.0F;
	char *text = printed(&block);
	assert_int_equal(cell_at(text, 90.0, 8.0), '#');
	assert_int_equal(cell_at(text, 90.0, -8.0), '.');
	assert_int_equal(cell_at(text, 10.0, 8.0), '.');
	assert_memory_equal(line_of(line, text, 0), "bass    .", 9);
	assert_memory_equal(line_of(line, text, 3), "     +5 .", 9);
	assert_memory_equal(line_of(line, text, 5), "      0 .", 9);
	assert_memory_equal(line_of(line, text, 10), "treble  .", 9);
	free(text);
	free(map.value);
}

/* Every figure on the axis stands under a tick at its own place. */
static void figures_along_stand_at_their_places(void **state)
{
	(void)state;
	struct column_map map = sample_map();
	struct block_map block = sample(&map);
	char ticks[LINE_ROOM], figures[LINE_ROOM];
	char *text = printed(&block);

	(void)line_of(ticks, text, 11);
	(void)line_of(figures, text, 12);
	assert_memory_equal(ticks, "y, mm   ", MARGIN);
	assert_memory_equal(figures, "x, mm   ", MARGIN);
	for (int x = 0; x < 100; x += 20) {
		char figure[16];
		size_t column = MARGIN + (size_t)x / 2;
		(void)snprintf(figure, sizeof figure, "%d", x);
		assert_int_equal(ticks[column], '+');
		const char *found = strstr(figures + MARGIN, figure);
		assert_non_null(found);
		assert_true(found <= figures + column && found + strlen(figure) > figures + column);
	}
	assert_int_equal(strspn(ticks + MARGIN + 1, "-"), 9);
	free(text);
	free(map.value);
}

static void names_stand_at_their_places_or_give_way(void **state)
{
	static const struct block_mark marks[] = {
		{ 0.0, "nut" }, { 40.0, "5" }, { 42.0, "6" }, { 99.0, "12" }, { 250.0, "20" },
	};
	struct column_map map = sample_map();
	struct block_map block = sample(&map);
	char line[LINE_ROOM];

	(void)state;
	block.above = (struct block_marks){ "station", 5, marks };
	block.below = (struct block_marks){ "fret", 2, marks };
	char *text = printed(&block);
	(void)line_of(line, text, 0);
	assert_memory_equal(line, "station nut ", 12);
	assert_int_equal(line[MARGIN + 20], '5');
	assert_null(strchr(line, '6'));
	assert_string_equal(line + MARGIN + 48, "12");
	(void)line_of(line, text, 14);
	assert_string_equal(line, "fret    nut                 5");
	free(text);
	free(map.value);
}

/* A band of the darkest shade in the upper half of a row and in the lower half
 * of another, with nothing around it. */
static void half_blocks_tell_where_in_the_cell(void **state)
{
	(void)state;
	struct column_map map = sample_map();
	struct block_map block = sample(&map);
	char line[LINE_ROOM];

	*at(&map, 1.0, 4.5) = 4.0F; /* the row from 5 to 3 */
	*at(&map, 1.0, -4.5) = 4.0F;
	*at(&map, 5.0, 4.5) = 4.0F;
	*at(&map, 5.0, 3.5) = 1.5F;
	block.utf8 = true;
	char *text = printed(&block);
	(void)line_of(line, text, 3);
	/* upper half, dot, full: the lighter half beside it is part of the cell */
	assert_memory_equal(line + MARGIN, "\xe2\x96\x80\xc2\xb7\xe2\x96\x88", 8);
	(void)line_of(line, text, 7);
	assert_memory_equal(line + MARGIN, "\xe2\x96\x84\xc2\xb7\xc2\xb7", 7);
	free(text);
	free(map.value);
}

static void every_width_is_kept(void **state)
{
	static const struct block_mark marks[] = { { 0.0, "nut" },
						   { 99.5, "12345678901234567890" } };
	struct column_map map = sample_map();
	struct block_map block = sample(&map);

	(void)state;
	block.above = block.below = (struct block_marks){ "station", 2, marks };
	block_map_even(&block, 1234567.0);
	for (block.columns = 40; block.columns <= 400; block.columns += block.columns < 90 ? 1 : 31)
		for (int look = 0; look < 4; look++) {
			block.utf8 = look & 1;
			block.colour = look & 2;
			char *text = printed(&block);
			assert_within_columns(text, block.columns);
			free(text);
		}
	free(map.value);
}

/* With the colours taken out, both are the same. */
static void colour_says_nothing_alone(void **state)
{
	(void)state;
	struct column_map map = sample_map();
	struct block_map block = sample(&map);

	for (size_t i = 0; i < map.nx * map.ny; i++)
		map.value[i] = (float)(i % map.nx) / 40.0F;
	char *plain = printed(&block);
	block.colour = true;
	char *colour = printed(&block);
	assert_null(strchr(plain, '\033'));
	assert_non_null(strchr(colour, '\033'));
	terminal_text_plain(colour);
	assert_string_equal(colour, plain);
	free(plain);
	free(colour);
	free(map.value);
}

static void the_legend_names_every_shade(void **state)
{
	(void)state;
	struct column_map map = sample_map();
	struct block_map block = sample(&map);
	char *text = printed(&block);

	assert_non_null(strstr(text, "  . left alone  : 0 to 1  + to 2  X to 3  # to 4 mm\n"));
	assert_non_null(strstr(text, "the deepest cut in 2 x 2 mm"));
	free(text);
	block.open = true;
	text = printed(&block);
	assert_non_null(strstr(text, "X to 3  # over 3 mm\n"));
	free(text);
	free(map.value);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(limits_are_round_and_reach_the_most),
		cmocka_unit_test(a_cell_is_as_dark_as_its_deepest_column),
		cmocka_unit_test(stock_takes_the_least),
		cmocka_unit_test(right_is_toward_the_body_and_up_is_plus_y),
		cmocka_unit_test(figures_along_stand_at_their_places),
		cmocka_unit_test(names_stand_at_their_places_or_give_way),
		cmocka_unit_test(half_blocks_tell_where_in_the_cell),
		cmocka_unit_test(every_width_is_kept),
		cmocka_unit_test(colour_says_nothing_alone),
		cmocka_unit_test(the_legend_names_every_shade),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
