/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/opt.h"

#include <string.h>

#include "config/nearest.h"
#include "config/utf8.h"
#include "report/columns.h"

/* Column where the help of an option begins. */
#define HELP_COLUMN 26

struct opt_read {
	struct opt_values *values;
	const struct opt_command *command;
	int argc, at;
	char **argv;
	FILE *errors;
};

static enum opt_outcome refuse(const struct opt_read *read, const char *before, const char *what,
			       const char *behind)
{
	char plain[64];

	utf8_make_plain(plain, sizeof plain, what);
	(void)fprintf(read->errors, "neckhew %s: %s%s%s\n", read->command->name, before, plain,
		      behind);
	(void)fprintf(read->errors, "Try: neckhew %s --help\n", read->command->name);
	return OPT_REFUSED;
}

static const char *row_name(const void *context, size_t i)
{
	const struct opt_command *command = context;

	return i < command->row_count ? command->row[i].name : "help";
}

static enum opt_outcome refuse_unknown(const struct opt_read *read, const char *name)
{
	const struct opt_command *command = read->command;
	char behind[64] = "\"; the nearest is --";
	size_t nearest = nearest_word(name, command->row_count + 1, row_name, command);

	(void)strncat(behind, row_name(command, nearest), sizeof behind - strlen(behind) - 1);
	return refuse(read, "there is no option \"--", name, behind);
}

/* Stores an option; `value` is what stands behind '=' or the letter, or NULL,
 * when the next argument is the value. */
static enum opt_outcome store(struct opt_read *read, size_t row, const char *value)
{
	const struct opt_row *option = &read->command->row[row];

	if (option->kind == OPT_FLAG && value)
		return refuse(read, "option --", option->name, " takes no value");
	if (option->kind == OPT_VALUE) {
		if (read->values->given[row])
			return refuse(read, "option --", option->name, " is given twice");
		if (!value && read->at + 1 >= read->argc)
			return refuse(read, "option --", option->name, " needs a value");
		read->values->text[row] = value ? value : read->argv[++read->at];
	}
	read->values->given[row] = true;
	return OPT_GOOD;
}

static enum opt_outcome read_long(struct opt_read *read, const char *text)
{
	size_t length = strcspn(text, "=");
	const char *value = text[length] == '=' ? text + length + 1 : NULL;

	if (length == 4 && strncmp(text, "help", 4) == 0)
		return OPT_HELP;
	for (size_t i = 0; i < read->command->row_count; i++) {
		const char *name = read->command->row[i].name;
		if (strlen(name) == length && strncmp(name, text, length) == 0)
			return store(read, i, value);
	}
	return refuse_unknown(read, text);
}

static enum opt_outcome read_letters(struct opt_read *read, const char *letters)
{
	for (; *letters; letters++) {
		size_t i = 0;
		if (*letters == 'h')
			return OPT_HELP;
		while (i < read->command->row_count && read->command->row[i].letter != *letters)
			i++;
		if (i == read->command->row_count) {
			const char unknown[2] = { *letters, '\0' };
			return refuse(read, "there is no option \"-", unknown, "\"");
		}
		bool takes = read->command->row[i].kind == OPT_VALUE;
		enum opt_outcome outcome = store(read, i, takes && letters[1] ? letters + 1 : NULL);
		if (outcome || takes)
			return outcome;
	}
	return OPT_GOOD;
}

static enum opt_outcome check_count(const struct opt_read *read)
{
	const struct opt_command *command = read->command;

	if (read->values->count < command->least)
		return refuse(read, "an argument is missing: ", command->arguments, "");
	if (read->values->count > command->most)
		return refuse(read, "one argument too many: \"",
			      read->values->argument[command->most], "\"");
	return OPT_GOOD;
}

enum opt_outcome opt_read(struct opt_values *values, const struct opt_command *command, int argc,
			  char **argv, FILE *out, FILE *errors)
{
	*values = (struct opt_values){ .argument = argv + 1 };
	struct opt_read read = { values, command, argc, 1, argv, errors };
	enum opt_outcome outcome = OPT_GOOD;
	bool ended = false;

	for (; read.at < argc && !outcome; read.at++) {
		char *text = argv[read.at];
		if (ended || text[0] != '-' || text[1] == '\0')
			values->argument[values->count++] = text;
		else if (strcmp(text, "--") == 0)
			ended = true;
		else if (text[1] == '-')
			outcome = read_long(&read, text + 2);
		else
			outcome = read_letters(&read, text + 1);
	}
	if (outcome == OPT_HELP)
		opt_print_help(command, out);
	return outcome ? outcome : check_count(&read);
}

static void print_row(const struct opt_row *row, FILE *out)
{
	char left[HELP_COLUMN];

	(void)snprintf(left, sizeof left, "  %c%c --%s%s%s", row->letter ? '-' : ' ',
		       row->letter ? row->letter : ' ', row->name,
		       row->kind == OPT_VALUE ? " " : "", row->value ? row->value : "");
	(void)fprintf(out, "%-*s", HELP_COLUMN, left);
	columns_paragraph(out, HELP_COLUMN, HELP_COLUMN, row->help);
}

void opt_print_help(const struct opt_command *command, FILE *out)
{
	static const struct opt_row help = { "help", 'h', OPT_FLAG, NULL, "print this" };

	(void)fprintf(out, "Usage: neckhew %s [OPTION...] %s\n\n", command->name,
		      command->arguments);
	columns_paragraph(out, 0, 0, command->help);
	(void)fprintf(out, "\nOptions:\n");
	for (size_t i = 0; i < command->row_count; i++)
		print_row(&command->row[i], out);
	print_row(&help, out);
}
