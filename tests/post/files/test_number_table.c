/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "files/number_table.h"

#include <locale.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/scratch.h"

static const struct number_column columns[] = {
	{ .name = "station", .may_lack = true, .label = true },
	{ .name = "y", .least = -200, .most = 200 },
	{ .name = "z", .least = -200, .most = 200 },
};
#define COLUMNS (sizeof columns / sizeof *columns)

static void read_good(struct number_table *out, const char *folder, const char *text)
{
	char path[SCRATCH_ROOM];
	struct fault_list faults = { 0 };

	scratch_write(folder, "points.csv", text);
	scratch_path(path, folder, "points.csv");
	enum fault fault = number_table_read(out, path, columns, COLUMNS, &faults);
	if (fault)
		fail_msg("refused: %s", faults.record[0].message);
}

/* The table of two columns and two rows: 1, -2.5 and 0.25, 40. */
static void assert_two_rows(const char *folder, const char *text)
{
	struct number_table table;

	read_good(&table, folder, text);
	assert_int_equal(table.count, 2);
	assert_false(table.has[0]);
	assert_string_equal(table.row[0].label, "");
	assert_near(table.row[0].value[1], 1.0, 0, "first y");
	assert_near(table.row[0].value[2], -2.5, 0, "first z");
	assert_near(table.row[1].value[1], 0.25, 0, "second y");
	assert_near(table.row[1].value[2], 40.0, 0, "second z");
	number_table_free(&table);
}

/* Refused with one message that names file and line and says `part`. */
static void assert_refused(const char *folder, const char *text, int line, const char *part)
{
	char path[SCRATCH_ROOM];
	struct number_table table;
	struct fault_list faults = { 0 };

	scratch_write(folder, "points.csv", text);
	scratch_path(path, folder, "points.csv");
	assert_int_equal(number_table_read(&table, path, columns, COLUMNS, &faults), FAULT_FILE);
	assert_int_equal(faults.count, 1);
	assert_null(table.row);
	assert_int_equal(table.count, 0);
	assert_string_equal(faults.record[0].file, path);
	if (faults.record[0].line != line || !strstr(faults.record[0].message, part))
		fail_msg("line %d: %s", faults.record[0].line, faults.record[0].message);
}

static void values_stand_apart_by_comma_semicolon_tab_or_blanks(void **state)
{
	assert_two_rows(*state, "1,-2.5\n0.25,40\n");
	assert_two_rows(*state, "1 , -2.5\n 0.25 ,  40  \n");
	assert_two_rows(*state, "1;-2.5\n0.25; 40");
	assert_two_rows(*state, "1\t-2.5\n0.25\t40\n");
	assert_two_rows(*state, "  1   -2.5\n0.25 40\n");
}

static void headings_comments_blank_lines_and_crlf(void **state)
{
	assert_two_rows(*state, "y,z\n1,-2.5\n0.25,40\n");
	assert_two_rows(*state,
			"# by caliper, mm\r\n\r\n z ; Y \r\n-2.5;1\r\n  # more\r\n40;.25\r\n");
	assert_two_rows(*state, "\xef\xbb\xbf\"y\",\"z\"\n\"1\",\"-2.5\"\n+.25,4e1\n");
	assert_two_rows(*state, "1. -25e-1\n2.5E-01 0040.000000000000000000000000\n");
}

static void labels_are_taken_by_heading_or_by_order(void **state)
{
	struct number_table table;

	read_good(&table, *state, "nut, 1, 2\nfifth fret, 3, 4\n");
	assert_true(table.has[0]);
	assert_string_equal(table.row[0].label, "nut");
	assert_string_equal(table.row[1].label, "fifth fret");
	assert_near(table.row[1].value[2], 4.0, 0, "z");
	assert_int_equal(table.row[1].line, 2);
	number_table_free(&table);
	read_good(&table, *state, "z,station,y\n1,11,2\n");
	assert_string_equal(table.row[0].label, "11");
	assert_near(table.row[0].value[1], 2.0, 0, "y of the third column");
	assert_near(table.row[0].value[2], 1.0, 0, "z of the first column");
	number_table_free(&table);
}

static void a_locale_changes_nothing(void **state)
{
	/* where the locale is not installed the test still reads the table */
	(void)setlocale(LC_ALL, "de_DE.UTF-8");
	assert_two_rows(*state, "1,-2.5\n0.25,40\n");
	(void)setlocale(LC_ALL, "C");
}

static void decimal_commas_are_refused(void **state)
{
	assert_refused(*state, "1.5;2\n12,5;3,4\n", 2, "\"12,5\"; a decimal takes a point");
	assert_refused(*state, "12,5\t3\n", 1, "a decimal takes a point");
	assert_refused(*state, "12,5,3,4\n", 1, "takes a point");
	assert_refused(*state, "12,5 3,4\n", 1, "takes a point");
	/* 12,5 and 3: never the label 12 with two numbers */
	assert_refused(*state, "12,5,3\n13,5,2\n", 1, "takes a point");
}

static void what_is_no_plain_number_is_refused(void **state)
{
	static const char *const words[] = { "nan",   "inf", "-infinity", "0x10", "1e",	 "1.2.3",
					     "--1",   "1e+", ".",	  "-",	  "1 2", "1mm",
					     "1e999", "",    "\x80",	  "1'5" };
	char text[64];

	for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
		(void)snprintf(text, sizeof text, "y,z\n1,2\n3,%s\n", words[i]);
		assert_refused(*state, text, 3, "a number is needed");
	}
	assert_refused(*state, "y,z\n3,200.5\n", 2, "Found \"200.5\"; z can be -200 to 200.");
	assert_refused(*state, "y,z\n1,2\n-201,1\n", 3, "y can be -200 to 200.");
	assert_refused(*state, "y,z\n1,\x1b[31m2\n", 2, "Found \"?[31m2\"");
	assert_refused(*state, "y z\n1 1234567890123456789012345678901234\n", 2,
		       "\"1234567890123456789012345678...\"");
}

static void wrong_rows_and_headings_are_refused(void **state)
{
	assert_refused(*state, "1,2\n3\n", 2, "holds 1 value; the lines before it hold 2");
	assert_refused(*state, "1,2\nnut,3,4\n", 2, "holds 3 values");
	assert_refused(*state, "1,2,3,4,5,6,7,8,9,10,11\n", 1, "needed are 2 of the columns");
	assert_refused(*state, "y,height\n1,2\n", 1,
		       "\"height\"; a heading can name the columns station, y, z, each once.");
	assert_refused(*state, "y,y\n1,2\n", 1, "each once");
	assert_refused(*state, "\n\nstation,y\nnut,2\n", 3, "lacks the column \"z\"");
	assert_refused(*state, "y,z\n", 0, "no numbers");
	assert_refused(*state, "", 0, "no numbers");
	assert_refused(*state, "# only words\n", 0, "no numbers");
}

static void wrong_labels_are_refused(void **state)
{
	assert_refused(*state, "station,y,z\n,1,2\n", 2, "1 to 39 characters");
	assert_refused(*state, "station,y,z\na23456789012345678901234567890123456789x,1,2\n", 2,
		       "1 to 39 characters");
	assert_refused(*state, "station,y,z\nn\xc3\xbct,1,2\n", 2, "plain letters");
	assert_refused(*state, "station,y,z\nn\"t,1,2\n", 2, "quotation marks");
	assert_refused(*state, "station,y,z\nn\\t,1,2\n", 2, "backslashes");
	assert_refused(*state, "station,y,z\n\"a,b\",1,2\n", 2, "holds 4 values");
}

static void signs_that_are_no_text_are_refused(void **state)
{
	char path[SCRATCH_ROOM];
	struct number_table table;
	FILE *file = fopen(scratch_path(path, *state, "nul.csv"), "wb");

	assert_non_null(file);
	assert_int_equal(fwrite("1,2\0,3\n", 1, 7, file), 7);
	assert_int_equal(fclose(file), 0);
	assert_int_equal(number_table_read(&table, path, columns, COLUMNS, NULL), FAULT_FILE);
	assert_refused(*state, "1,2\r3,4\n", 1, "no place in a text of numbers");
}

static void limits_of_size(void **state)
{
	struct number_table table;
	static char text[NUMBER_TABLE_BYTES + 2];
	char *at = text;

	for (int i = 0; i < NUMBER_TABLE_ROWS; i++)
		at += sprintf(at, "%d,2\n", i % 100);
	read_good(&table, *state, text);
	assert_int_equal(table.count, NUMBER_TABLE_ROWS);
	assert_near(table.row[NUMBER_TABLE_ROWS - 1].value[1], 99.0, 0, "last y");
	number_table_free(&table);
	(void)sprintf(at, "1,2\n");
	assert_refused(*state, text, NUMBER_TABLE_ROWS + 1, "beyond the 20000 rows");
	memset(text, ' ', NUMBER_TABLE_LINE + 1);
	(void)strcpy(text + NUMBER_TABLE_LINE + 1, "\n1,2\n");
	assert_refused(*state, text, 1, "401 characters; it can have 400");
	(void)strcpy(text + NUMBER_TABLE_LINE, "\n1,2\n");
	read_good(&table, *state, text);
	number_table_free(&table);
	memset(text, '\n', NUMBER_TABLE_BYTES + 1);
	text[NUMBER_TABLE_BYTES + 1] = '\0';
	assert_refused(*state, text, 0, "larger than the 1000000 bytes");
}

static void a_file_that_is_not_there_is_told(void **state)
{
	char path[SCRATCH_ROOM];
	struct number_table table;
	struct fault_list faults = { 0 };

	scratch_path(path, *state, "none.csv");
	assert_int_equal(number_table_read(&table, path, columns, COLUMNS, &faults), FAULT_FILE);
	assert_string_equal(faults.record[0].file, path);
	number_table_free(&table);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
#define IN_SCRATCH(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)
		IN_SCRATCH(values_stand_apart_by_comma_semicolon_tab_or_blanks),
		IN_SCRATCH(headings_comments_blank_lines_and_crlf),
		IN_SCRATCH(labels_are_taken_by_heading_or_by_order),
		IN_SCRATCH(a_locale_changes_nothing),
		IN_SCRATCH(decimal_commas_are_refused),
		IN_SCRATCH(what_is_no_plain_number_is_refused),
		IN_SCRATCH(wrong_rows_and_headings_are_refused),
		IN_SCRATCH(wrong_labels_are_refused),
		IN_SCRATCH(signs_that_are_no_text_are_refused),
		IN_SCRATCH(limits_of_size),
		IN_SCRATCH(a_file_that_is_not_there_is_told),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
