/* SPDX-License-Identifier: GPL-3.0-or-later */
/* neckhew check: is this a neck, and what are its figures? */
#include <stdlib.h>

#include "cli/command.h"
#include "cli/load.h"
#include "cli/opt.h"
#include "report/check_json.h"
#include "report/check_table.h"

enum { ROW_JSON, ROW_COUNT };

static const struct opt_row rows[ROW_COUNT] = {
	[ROW_JSON] = { "json", 'j', OPT_FLAG, NULL, "print the figures as JSON" },
};

static const struct opt_command command = {
	.name = "check",
	.arguments = "NECK",
	.help = "Reads the neck file NECK and all it includes, builds the neck and checks the job. "
		"Prints the figures that follow from it, or every fault found, one a line as "
		"file:line: setting: message. Nothing is planned or written.",
	.least = 1,
	.most = 1,
	.row_count = ROW_COUNT,
	.row = rows,
};

static enum fault print_json(const struct job *job, const struct neck *neck,
			     struct fault_list *faults)
{
	char *text = NULL;
	enum fault code = check_json_text(&text, job, neck, faults);

	if (!code)
		(void)fputs(text, stdout);
	free(text);
	return code;
}

/* Reads the neck and prints its figures. */
static enum fault check(const struct opt_values *values, struct fault_list *faults)
{
	struct job job;
	struct neck *neck = NULL;
	enum fault code = load_job(&job, &neck, values->argument[0], faults);

	if (!code && values->given[ROW_JSON])
		code = print_json(&job, neck, faults);
	else if (!code)
		check_table_print(stdout, &job, neck);
	neck_free(neck);
	return code;
}

int cmd_check(int argc, char **argv)
{
	struct opt_values values = { 0 };
	struct fault_list faults = { 0 };
	enum opt_outcome outcome = opt_read(&values, &command, argc, argv, stdout, stderr);

	if (outcome != OPT_GOOD)
		return outcome == OPT_HELP ? EXIT_GOOD : EXIT_USAGE;
	enum fault code = check(&values, &faults);
	load_print_faults(&faults, stderr);
	return code ? EXIT_FAULT : EXIT_GOOD;
}
