/* SPDX-License-Identifier: GPL-3.0-or-later */
/* neckhew prove: may these programs run, whoever wrote or edited them? */
#include <stdlib.h>

#include "base/tol.h"
#include "cli/command.h"
#include "cli/judge.h"
#include "cli/load.h"
#include "cli/opt.h"
#include "cli/progress.h"
#include "cli/terminal.h"
#include "report/table.h"
#include "report/verdict_json.h"

/* More programs than this on one blank are a mistake of the shell's pattern. */
#define PROGRAMS_MOST 64

enum { ROW_JSON, ROW_COUNT };

static const struct opt_row rows[ROW_COUNT] = {
	[ROW_JSON] = { "json", 'j', OPT_FLAG, NULL, "print the verdict as JSON" },
};

static const struct opt_command command = {
	.name = "prove",
	.arguments = "NECK PROGRAM...",
	.help = "Reads the program files as a machine would, in the order in which they are to be "
		"run on one blank, and holds every move against the neck, blank, fixture, cutter "
		"and machine of the neck file NECK. Says that all promises are kept, or which are "
		"broken, with the first line to blame and the worst figure. Where the job uses several "
		"cutters, each program is run by its own: give them in the cutters' order. Ends with "
		"status 0 only when the programs are proven.",
	.least = 2,
	.most = PROGRAMS_MOST + 1,
	.row_count = ROW_COUNT,
	.row = rows,
};

static enum fault print_json(const struct verdict *verdict, const char *digest, size_t count,
			     const char *const *file, struct fault_list *faults)
{
	char *text = NULL;
	enum fault fault = verdict_json_text(&text, verdict, digest, count, file, faults);

	if (!fault)
		(void)fputs(text, stdout);
	free(text);
	return fault;
}

/* Judges the programs and prints the verdict. FAULT_PROOF, without a record,
 * when it is bad: the verdict has said why. */
static enum fault judge_and_print(const struct opt_values *values, const struct job *job,
				  const struct neck *neck, const struct facets *facets,
				  struct fault_list *faults)
{
	struct judge_program program[PROGRAMS_MOST] = { { 0 } };
	const char *file[PROGRAMS_MOST];
	struct judgement judgement;
	size_t count = values->count - 1;
	struct progress progress;

	progress_begin(&progress, 1.0);
	progress_step(&progress, "proving", 1.0);
	struct watch watch = progress_watch(&progress);
	for (size_t i = 0; i < count; i++) {
		file[i] = values->argument[i + 1];
		program[i].path = program[i].name = file[i];
		program[i].cutter = job->cutter_count > 1 ? i : 0;
	}
	enum fault fault =
		judge_programs(&judgement, program, count, job, neck, facets, &watch, faults);
	progress_end(&progress);
	if (!fault)
		fault = values->given[ROW_JSON]
				? print_json(&judgement.verdict, job->digest, count, file, faults)
				: table_verdict_print(stdout, &judgement.verdict, count, file,
						      terminal_colour(stdout), faults);
	if (!fault && !judgement.verdict.proven)
		fault = FAULT_PROOF;
	judge_free(&judgement);
	return fault;
}

static enum fault prove(const struct opt_values *values, struct fault_list *faults)
{
	struct job job;
	struct neck *neck = NULL;
	struct facets facets = { 0 };
	enum fault fault = load_job(&job, &neck, values->argument[0], faults);

	if (!fault)
		fault = facets_build(&facets, neck, TOL_FACET_MM, faults);
	if (!fault)
		fault = load_match_programs(&job, values->count - 1, faults);
	if (!fault)
		fault = judge_and_print(values, &job, neck, &facets, faults);
	facets_free(&facets);
	neck_free(neck);
	return fault;
}

int cmd_prove(int argc, char **argv)
{
	struct opt_values values;
	struct fault_list faults = { 0 };
	enum opt_outcome outcome = opt_read(&values, &command, argc, argv, stdout, stderr);

	if (outcome != OPT_GOOD)
		return outcome == OPT_HELP ? EXIT_GOOD : EXIT_USAGE;
	enum fault fault = prove(&values, &faults);
	load_print_faults(&faults, stderr);
	return fault ? EXIT_FAULT : EXIT_GOOD;
}
