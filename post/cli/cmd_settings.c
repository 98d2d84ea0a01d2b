/* SPDX-License-Identifier: GPL-3.0-or-later */
/* neckhew settings: the table of settings, for reading. */
#include <stdbool.h>
#include <string.h>

#include "cli/command.h"
#include "cli/opt.h"
#include "config/describe.h"
#include "config/settings.h"
#include "config/utf8.h"
#include "report/columns.h"

#define PATH_ROOM 96
#define INDENT 8

enum { ROW_UNITS, ROW_COUNT };

static const struct opt_row rows[ROW_COUNT] = {
	[ROW_UNITS] = { "units", 'u', OPT_VALUE, "mm|in", "unit the limits are shown in" },
};

static const struct opt_command command = {
	.name = "settings",
	.arguments = "[GROUP]",
	.help = "Prints every setting a neck file and its shop files may contain: what is "
		"allowed, what holds when it is left out, and what it means. GROUP, such as heel "
		"or cutters, prints that group alone.",
	.least = 0,
	.most = 1,
	.row_count = ROW_COUNT,
	.row = rows,
};

/* "allowed; default. help", with the variant a setting is bound to. */
static void print_setting(const struct setting *row, const struct setting_set *set,
			  const char *path, enum length_unit unit)
{
	char allowed[160], usual[64], text[512];
	char words[DESCRIBE_VARIANTS_ROOM], only[112] = "";

	describe_allowed(allowed, sizeof allowed, row, unit);
	describe_usual(usual, sizeof usual, row, unit);
	if (row->variants) {
		describe_variants(words, sizeof words, row, set);
		(void)snprintf(only, sizeof only, " (%.24s %s only)", set->row[0].name, words);
	}
	(void)snprintf(text, sizeof text, "%s; %s%s%s", allowed,
		       row->need == NEED_GIVEN ? "" : "default: ", usual, only);
	(void)printf("%s\n%*s", path, INDENT, "");
	columns_paragraph(stdout, INDENT, INDENT, text);
	(void)printf("%*s", INDENT, "");
	columns_paragraph(stdout, INDENT, INDENT, row->help);
}

/* The list of the top level whose groups have the same settings, or NULL. */
static const char *same_as(const struct setting *row)
{
	const struct setting_set *root = settings_root();

	for (size_t i = 0; i < root->count && row->kind == KIND_GROUP; i++) {
		if (root->row[i].kind == KIND_LIST && root->row[i].set == row->set)
			return root->row[i].name;
	}
	return NULL;
}

static void print_row(const struct setting *row, const struct setting_set *set, const char *around,
		      enum length_unit unit)
{
	char path[PATH_ROOM];
	const char *same = same_as(row);

	(void)snprintf(path, sizeof path, "%.64s%s%s%s", around, around[0] ? "." : "", row->name,
		       row->kind == KIND_LIST ? "[]" : "");
	print_setting(row, set, path, unit);
	if (same)
		(void)printf("%*sIts settings are those of %s[].\n", INDENT, "", same);
	else if (row->set)
		for (size_t i = 0; i < row->set->count; i++)
			print_row(&row->set->row[i], row->set, path, unit);
}

static int print_all(const char *group, enum length_unit unit)
{
	const struct setting_set *root = settings_root();
	const struct setting *only = group ? settings_find(root, group) : NULL;
	char plain[48];

	if (group && !only) {
		utf8_make_plain(plain, sizeof plain, group);
		(void)fprintf(stderr,
			      "neckhew settings: there is no group \"%s\"; the nearest known name "
			      "is \"%s\"\n",
			      plain, settings_nearest(root, group));
		return EXIT_USAGE;
	}
	for (size_t i = 0; i < root->count; i++) {
		if (!only || only == &root->row[i])
			print_row(&root->row[i], root, "", unit);
	}
	return EXIT_GOOD;
}

int cmd_settings(int argc, char **argv)
{
	struct opt_values values = { 0 };
	enum opt_outcome outcome = opt_read(&values, &command, argc, argv, stdout, stderr);

	if (outcome != OPT_GOOD)
		return outcome == OPT_HELP ? EXIT_GOOD : EXIT_USAGE;
	const char *units = values.given[ROW_UNITS] ? values.text[ROW_UNITS] : "mm";
	bool inches = strcmp(units, "in") == 0;
	if (!inches && strcmp(units, "mm") != 0) {
		(void)fprintf(stderr, "neckhew settings: --units is mm or in\n");
		return EXIT_USAGE;
	}
	return print_all(values.count ? values.argument[0] : NULL, inches ? UNIT_INCH : UNIT_MM);
}
