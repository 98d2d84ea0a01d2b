/* SPDX-License-Identifier: GPL-3.0-or-later */
/* neckhew rough: from a neck file to a proven output folder. */
#include <stdlib.h>

#include "cli/command.h"
#include "cli/load.h"
#include "cli/opt.h"
#include "cli/progress.h"
#include "cli/results.h"
#include "cli/roughing.h"
#include "cli/terminal.h"
#include "files/out_dir.h"
#include "job/measure.h"
#include "papers/paper.h"
#include "report/job_json.h"
#include "report/table.h"

enum { ROW_OUT, ROW_REPLACE, ROW_PAPER, ROW_JSON, ROW_COUNT };

static const struct opt_row rows[ROW_COUNT] = {
	[ROW_OUT] = { "out", 'o', OPT_VALUE, "DIR", "the folder to make (must be given)" },
	[ROW_REPLACE] = { "replace", 'r', OPT_FLAG, NULL, "renew an output that stands there" },
	[ROW_PAPER] = { "paper", 'p', OPT_VALUE, "SIZE",
			"what papers are printed on: a4 or letter" },
	[ROW_JSON] = { "json", 'j', OPT_FLAG, NULL, "print job.json instead of the table" },
};

static const struct opt_command command = {
	.name = "rough",
	.arguments = "NECK",
	.help = "Plans the program that roughs the neck of the neck file NECK, writes it, reads "
		"it back and proves it. Only when every promise is kept does the output folder "
		"appear: program, dry run, job.json, page, meshes, pictures and papers.",
	.least = 1,
	.most = 1,
	.row_count = ROW_COUNT,
	.row = rows,
};

static enum fault print_result(const struct roughing *work, const struct job_result *result,
			       bool json, struct fault_list *faults)
{
	char *text = NULL;

	if (!json)
		return table_print(stdout, &work->job, result, terminal_colour(stdout), faults);
	enum fault fault = job_json_text(&text, &work->job, work->neck, result, faults);
	if (!fault)
		(void)fputs(text, stdout);
	free(text);
	return fault;
}

/* What the papers are printed on: `asked` on the command line, or what is
 * common where the machine's programs are written. */
static enum paper_size paper_of_job(const struct job *job, const char *asked)
{
	enum paper_size paper = paper_for_unit(job->machine.program_unit);

	if (asked)
		(void)paper_by_key(&paper, asked);
	return paper;
}

static enum fault rough(const struct opt_values *values, struct fault_list *faults)
{
	struct roughing work = { 0 };
	struct out_dir out = OUT_DIR_NONE;
	struct job_result result = { 0 };
	struct progress progress;

	progress_begin(&progress, 1.0);
	enum fault fault = load_job(&work.job, &work.neck, values->argument[0], faults);

	if (!fault)
		fault = out_dir_begin(&out, values->text[ROW_OUT], values->given[ROW_REPLACE],
				      faults);
	if (!fault)
		fault = roughing_run(&work, &out, &progress, faults);
	if (!fault)
		fault = roughing_measure(&work, &result, faults);
	if (!fault)
		progress_step(&progress, "drawing", 1.0);
	if (!fault)
		fault = results_write(&out, &work, &result,
				      paper_of_job(&work.job, values->text[ROW_PAPER]), faults);
	if (!fault)
		fault = out_dir_commit(&out, faults);
	progress_end(&progress);
	if (!fault)
		fault = print_result(&work, &result, values->given[ROW_JSON], faults);
	out_dir_close(&out);
	job_result_free(&result);
	roughing_free(&work);
	return fault;
}

int cmd_rough(int argc, char **argv)
{
	struct opt_values values;
	struct fault_list faults = { 0 };
	enum opt_outcome outcome = opt_read(&values, &command, argc, argv, stdout, stderr);

	if (outcome != OPT_GOOD)
		return outcome == OPT_HELP ? EXIT_GOOD : EXIT_USAGE;
	if (!values.given[ROW_OUT]) {
		(void)fputs("neckhew rough: say where the output goes: -o DIR\n", stderr);
		return EXIT_USAGE;
	}
	enum paper_size paper;
	if (values.given[ROW_PAPER] && !paper_by_key(&paper, values.text[ROW_PAPER])) {
		(void)fputs("neckhew rough: --paper is a4 or letter\n", stderr);
		return EXIT_USAGE;
	}
	enum fault fault = rough(&values, &faults);
	load_print_faults(&faults, stderr);
	return fault ? EXIT_FAULT : EXIT_GOOD;
}
