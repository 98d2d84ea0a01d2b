/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The programs in tests/refused, each sound but for one fault, against the
 * table beside them: refused at that block and for that reason. The path is
 * relative to the top folder, where the tests are run. */
#include <dirent.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "program/read.h"

#define FOLDER "tests/refused/"
#define TABLE FOLDER "table.txt"
#define LINE_SIZE 256
#define PROGRAM_SIZE 4096

struct row {
	/* the texts lie in the line that was read */
	const char *file, *words;
	const struct machine *machine;
	int block;
};

#define CONTROL(...)                                    \
	{                                               \
		.decimals = 3, .reads = { __VA_ARGS__ } \
	}
static const struct {
	const char *name;
	struct machine machine;
} controls[] = {
	{ "", { .decimals = 3 } },
	{ "numbered", CONTROL(.number_step = 10) },
	{ "marked", CONTROL(.percent_lines = true) },
	{ "hand", CONTROL(.spindle = SPINDLE_BY_HAND) },
	{ "arcs", CONTROL(.arcs = ARCS_XY) },
	{ "arcs_upright", CONTROL(.arcs = ARCS_XY_XZ) },
	{ "short", CONTROL(.longest_line = 40) },
	{ "semicolon", CONTROL(.comments = COMMENTS_SEMICOLON) },
	{ "silent", CONTROL(.comments = COMMENTS_NONE) },
	{ "whole_feeds", CONTROL(.feed_decimals_stated = true, .feed_decimals = 0,
				 .largest_feed_mm_per_min = 2000.0) },
};

static const struct machine *find_control(const char *name)
{
	for (size_t i = 0; i < sizeof controls / sizeof *controls; i++)
		if (strcmp(controls[i].name, name) == 0)
			return &controls[i].machine;
	fail_msg("%s has a control \"%s\" that is not known here", TABLE, name);
	return NULL;
}

/* The next row of the table; false at its end. */
static bool next_row(FILE *table, struct row *row, char line[LINE_SIZE])
{
	while (fgets(line, LINE_SIZE, table)) {
		if (*line == '#')
			continue;
		char *const number = strchr(line, ' ');
		char *words = NULL;
		assert_non_null(number);
		row->block = (int)strtol(number, &words, 10);
		assert_int_equal(*words, ' ');
		words[strcspn(words, "\n")] = '\0';
		row->words = words + 1;
		*number = '\0';
		row->file = line;
		char *const control = strchr(line, '@');
		if (control)
			*control = '\0';
		row->machine = find_control(control ? control + 1 : "");
		assert_true(*row->words != '\0');
		return true;
	}
	return false;
}

static FILE *open_table(void)
{
	FILE *table = fopen(TABLE, "r");

	if (!table)
		fail_msg("%s cannot be read: run the tests in the top folder", TABLE);
	return table;
}

static size_t load(char text[PROGRAM_SIZE], const char *name)
{
	char path[LINE_SIZE];

	(void)snprintf(path, sizeof path, "%s%s", FOLDER, name);
	FILE *file = fopen(path, "rb");
	if (!file)
		fail_msg("%s stands in the table but cannot be read", path);
	const size_t size = fread(text, 1, PROGRAM_SIZE, file);
	(void)fclose(file);
	assert_true(size < PROGRAM_SIZE);
	return size;
}

static void check_row(const struct row *row)
{
	char text[PROGRAM_SIZE];
	const size_t size = load(text, row->file);
	struct motion_list list = { 0 };
	struct read_fault first;
	const enum fault fault =
		program_read(&list, text, size, row->file, row->machine, &first, NULL);

	if (first.block != row->block || (row->block > 0 && !strstr(first.why, row->words)))
		fail_msg("%s: got block %d, \"%s\"; expected block %d, \"%s\"", row->file,
			 first.block, first.why, row->block, row->words);
	assert_int_equal(fault, row->block > 0 ? FAULT_PROGRAM : FAULT_NONE);
	motion_list_free(&list);
}

static void each_for_its_reason(void **state)
{
	(void)state;
	FILE *table = open_table();
	char line[LINE_SIZE];
	struct row row;
	int refused = 0, sound = 0;

	while (next_row(table, &row, line)) {
		check_row(&row);
		refused += row.block > 0;
		sound += row.block == 0;
	}
	(void)fclose(table);
	assert_true(sound > 10);
	assert_true(refused > 80);
}

static bool in_table(const char *name)
{
	FILE *table = open_table();
	char line[LINE_SIZE];
	struct row row;
	bool found = false;

	while (!found && next_row(table, &row, line))
		found = strcmp(row.file, name) == 0;
	(void)fclose(table);
	return found;
}

/* A program without a row would never be tried. */
static void no_file_forgotten(void **state)
{
	(void)state;
	DIR *folder = opendir(FOLDER);
	int programs = 0;

	assert_non_null(folder);
	for (const struct dirent *entry = readdir(folder); entry; entry = readdir(folder)) {
		const char *dot = strrchr(entry->d_name, '.');
		if (!dot || strcmp(dot, ".nc") != 0)
			continue;
		programs++;
		if (!in_table(entry->d_name))
			fail_msg("%s is not in %s", entry->d_name, TABLE);
	}
	(void)closedir(folder);
	assert_true(programs > 50);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(each_for_its_reason),
		cmocka_unit_test(no_file_forgotten),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
