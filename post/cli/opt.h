/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A command's options as a table, read from its arguments and printed as its
 * help. "--name value", "--name=value", "-n value", "-nvalue" and "-abc" for
 * flags are understood; "--" ends the options, "--help" (-h) is always one. */
#ifndef NECKHEW_CLI_OPT_H
#define NECKHEW_CLI_OPT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#define OPT_ROWS_MAX 16

enum opt_kind { OPT_FLAG, OPT_VALUE };

struct opt_row {
	const char *name; /* without the dashes */
	char letter; /* 0 for none */
	enum opt_kind kind;
	const char *value; /* what stands for the value in help, such as "DIR" */
	const char *help;
};

struct opt_command {
	const char *name;
	const char *arguments; /* as in "NECK PROGRAM..." */
	const char *help; /* what the command does; wrapped when printed */
	size_t least, most; /* arguments that are no options */
	size_t row_count; /* at most OPT_ROWS_MAX */
	const struct opt_row *row;
};

struct opt_values {
	bool given[OPT_ROWS_MAX]; /* by row */
	const char *text[OPT_ROWS_MAX]; /* value of the option, or NULL */
	size_t count;
	char **argument; /* the others, in order; a part of argv */
};

enum opt_outcome {
	OPT_GOOD, /* go on */
	OPT_HELP, /* help was asked for and printed: end well */
	OPT_REFUSED /* the fault was told: end with the status for usage */
};

/* Reads argv[1] and following (argv[0] is the command's name); argv is put in
 * another order. Help goes to `out`, faults to `errors`. */
enum opt_outcome opt_read(struct opt_values *values, const struct opt_command *command, int argc,
			  char **argv, FILE *out, FILE *errors);

/* Prints the command's help, at most 80 columns wide. */
void opt_print_help(const struct opt_command *command, FILE *out);

#endif
