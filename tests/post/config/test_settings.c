/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table itself: every row makes sense and is described in the manual. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "config/describe.h"
#include "config/settings.h"
#include "support/scratch.h"

/* Longest line of help: it must fit under its setting. */
#define HELP_MOST 72

typedef void visit(const struct setting *row, const struct setting_set *set, const char *path,
		   void *context);

/* Visits every row of the table with its path. */
static size_t each_row(const struct setting_set *set, const char *around, visit *visit_row,
		       void *context)
{
	size_t count = 0;

	for (size_t i = 0; i < set->count; i++) {
		const struct setting *row = &set->row[i];
		char path[128];
		(void)snprintf(path, sizeof path, "%.80s%s%s%s", around, around[0] ? "." : "",
			       row->name, row->kind == KIND_LIST ? "[]" : "");
		visit_row(row, set, path, context);
		count += 1 + (row->set ? each_row(row->set, path, visit_row, context) : 0);
	}
	return count;
}

static bool is_number(const struct setting *row)
{
	return row->kind <= KIND_FRET;
}

static void check_row(const struct setting *row, const struct setting_set *set, const char *path,
		      void *context)
{
	(void)context;
	print_message("%s\n", path);
	assert_non_null(row->help);
	assert_in_range(strlen(row->help), 8, HELP_MOST);
	assert_in_range(strlen(row->name), 2, 40);
	assert_ptr_equal(settings_find(set, row->name), row); /* no name stands twice */
	assert_int_equal(strspn(row->name, "abcdefghijklmnopqrstuvwxyz_0123456789"),
			 strlen(row->name));
	assert_true(row->values == 1 || (row->values == 3 && is_number(row)));
	assert_true((row->kind == KIND_CHOICE) == (row->choices != NULL));
	assert_true((row->kind == KIND_GROUP || row->kind == KIND_LIST) == (row->set != NULL));
	if (is_number(row) || row->kind == KIND_LIST || row->kind == KIND_POINTS ||
	    row->kind == KIND_SHARES)
		assert_true(row->least < row->most);
	if (row->kind == KIND_TEXT || row->kind == KIND_LIST)
		assert_true(row->size > 1);
	if (row->variants != 0)
		assert_int_equal(set->row[0].kind, KIND_CHOICE);
}

static void every_row_makes_sense(void **state)
{
	(void)state;
	assert_true(each_row(settings_root(), "", check_row, NULL) > 100);
}

static void check_usual(const struct setting *row, const struct setting_set *set, const char *path,
			void *context)
{
	(void)set;
	(void)context;
	if (row->need != NEED_USUAL || row->usual_text)
		return;
	print_message("%s\n", path);
	if (is_number(row)) {
		assert_true(row->usual >= row->least);
		assert_true(row->usual <= row->most);
	} else if (row->kind == KIND_CHOICE) {
		for (int i = 0; i <= (int)row->usual; i++)
			assert_non_null(row->choices[i]);
	}
}

static void every_default_is_allowed(void **state)
{
	(void)state;
	(void)each_row(settings_root(), "", check_usual, NULL);
}

/* A group taken for its defaults has nothing in it that must be given. */
static void check_default_group(const struct setting *row, const struct setting_set *set,
				const char *path, void *context)
{
	(void)set;
	(void)path;
	(void)context;
	if (row->kind != KIND_GROUP || row->need != NEED_USUAL)
		return;
	for (size_t i = 0; i < row->set->count; i++)
		assert_int_not_equal(row->set->row[i].need, NEED_GIVEN);
}

static void groups_by_default_are_complete(void **state)
{
	(void)state;
	(void)each_row(settings_root(), "", check_default_group, NULL);
}

/* roff's way of writing a hyphen that is one. */
static void escape(char *to, const char *from)
{
	for (; *from; from++) {
		if (*from == '-')
			*to++ = '\\';
		*to++ = *from;
	}
	*to = '\0';
}

/* The single groups machine, cutter and wood hold what the lists hold; the
 * manual says so instead of repeating it. */
static bool is_repeated(const char *path)
{
	return strncmp(path, "machine.", 8) == 0 || strncmp(path, "cutter.", 7) == 0 ||
	       strncmp(path, "wood.", 5) == 0;
}

static void check_manual(const struct setting *row, const struct setting_set *set, const char *path,
			 void *context)
{
	char allowed[160], usual[64], words[DESCRIBE_VARIANTS_ROOM], only[112] = "", entry[512],
								     wanted[1024];
	const char *manual = context;

	if (is_repeated(path))
		return;
	describe_allowed(allowed, sizeof allowed, row, UNIT_MM);
	describe_usual(usual, sizeof usual, row, UNIT_MM);
	if (row->variants) {
		describe_variants(words, sizeof words, row, set);
		(void)snprintf(only, sizeof only, " (%.24s %s only)", set->row[0].name, words);
	}
	(void)snprintf(entry, sizeof entry, "\n.TP\n.B %s\n%s; %s%s%s.\n", path, allowed,
		       row->need == NEED_GIVEN ? "" : "default: ", usual, only);
	escape(wanted, entry);
	if (!strstr(manual, wanted))
		fail_msg("docs/neckhew.cfg.5 does not have:%s", wanted);
}

static void the_manual_names_every_setting(void **state)
{
	(void)state;
	char *manual = scratch_read("docs", "neckhew.cfg.5");

	assert_non_null(manual);
	(void)each_row(settings_root(), "", check_manual, manual);
	free(manual);
}

/* And nothing that is no setting. */
static void the_manual_names_nothing_else(void **state)
{
	(void)state;
	char *manual = scratch_read("docs", "neckhew.cfg.5");
	size_t entries = 0, files = 2;

	assert_non_null(manual);
	for (const char *at = manual; (at = strstr(at, "\n.TP\n")); at++)
		entries++;
	size_t rows = each_row(settings_root(), "", check_row, NULL);
	for (int i = 0; i < 3; i++) {
		static const char *const single[] = { "machine", "cutter", "wood" };
		const struct setting *row = settings_find(settings_root(), single[i]);
		rows -= each_row(row->set, "", check_row, NULL);
	}
	assert_int_equal(entries, rows + files);
	free(manual);
}

static void nearest_names(void **state)
{
	(void)state;
	const struct setting_set *root = settings_root();

	assert_string_equal(settings_nearest(root, "pegheads"), "peghead");
	assert_string_equal(settings_nearest(root, "Station"), "stations");
	assert_string_equal(settings_nearest(settings_find(root, "heel")->set, "hight"), "height");
}

static void homes(void **state)
{
	(void)state;
	assert_string_equal(settings_home_of("hollow"), "heel");
	assert_string_equal(settings_home_of("scale_length"), "neck");
	assert_null(settings_home_of("no_such"));
}

/* Every range stated in inches lies within the range it stands for. */
static void check_inches(const struct setting *row, const struct setting_set *set, const char *path,
			 void *context)
{
	char allowed[160];
	double least, most;

	(void)set;
	(void)path;
	(void)context;
	if (describe_scale(row, UNIT_INCH) == 1.0 || row->kind == KIND_POINTS)
		return;
	describe_allowed(allowed, sizeof allowed, row, UNIT_INCH);
	const char *from = strstr(allowed, "from ");
	assert_non_null(from);
	assert_int_equal(sscanf(from, "from %lf to %lf in", &least, &most), 2);
	assert_true(least * 25.4 >= row->least);
	assert_true(most * 25.4 <= row->most);
	assert_true(fabs(most * 25.4 - row->most) <= 1e-3);
}

static void limits_in_inches_are_allowed(void **state)
{
	(void)state;
	(void)each_row(settings_root(), "", check_inches, NULL);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_row_makes_sense),
		cmocka_unit_test(every_default_is_allowed),
		cmocka_unit_test(groups_by_default_are_complete),
		cmocka_unit_test(the_manual_names_every_setting),
		cmocka_unit_test(the_manual_names_nothing_else),
		cmocka_unit_test(nearest_names),
		cmocka_unit_test(homes),
		cmocka_unit_test(limits_in_inches_are_allowed),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
