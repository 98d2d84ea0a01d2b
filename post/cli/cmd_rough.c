/* SPDX-License-Identifier: GPL-3.0-or-later */
/* neckhew rough: from a neck file to a proven output folder. */
#include <stdlib.h>

#include "cli/command.h"
#include "cli/load.h"
#include "cli/opt.h"
#include "cli/progress.h"
#include "cli/roughing.h"
#include "cli/terminal.h"
#include "files/out_dir.h"
#include "job/measure.h"
#include "mesh/solids.h"
#include "page/page.h"
#include "papers/papers.h"
#include "pictures/pictures.h"
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

static enum fault write_solids(const struct roughing *work, const struct job_result *result,
			       const struct out_dir *out, struct fault_list *faults)
{
	struct vec3 zero = work->job.fixture.work_zero_mm;
	char *finished = out_dir_file(out, "finished.stl", faults);
	char *roughed = out_dir_file(out, "roughed.stl", faults);
	char *blank = out_dir_file(out, "blank.stl", faults);
	enum fault fault = finished && roughed && blank ? FAULT_NONE : FAULT_MEMORY;

	if (!fault)
		fault = solids_write_finished(finished, work->neck, zero, faults);
	if (!fault)
		fault = solids_write_roughed(roughed, &result->roughed, &result->blank_bottom, zero,
					     faults);
	if (!fault)
		fault = solids_write_blank(blank, &work->job.blank, zero, faults);
	free(finished);
	free(roughed);
	free(blank);
	return fault;
}

static enum fault write_pictures(const struct roughing *work, const struct job_result *result,
				 const struct out_dir *out, struct fault_list *faults)
{
	char *folder;
	enum fault fault = out_dir_folder(out, "pictures", &folder, faults);

	if (!fault)
		fault = pictures_write(folder, result, work->neck, &work->job, faults);
	free(folder);
	return fault;
}

static enum fault write_papers(const struct roughing *work, const struct job_result *result,
			       const struct out_dir *out, enum paper_size paper,
			       struct fault_list *faults)
{
	char *folder;
	enum fault fault = out_dir_folder(out, "papers", &folder, faults);

	if (!fault)
		fault = papers_write(folder, paper, &work->job, work->neck, &work->facets, result,
				     faults);
	free(folder);
	return fault;
}

static enum fault write_page(const struct roughing *work, const struct job_result *result,
			     const struct out_dir *out, struct fault_list *faults)
{
	char *path = out_dir_file(out, "page.html", faults);
	enum fault fault = path ? FAULT_NONE : FAULT_MEMORY;

	if (!fault)
		fault = page_write(path, &work->job, work->neck, result, faults);
	free(path);
	return fault;
}

static enum fault write_figures(const struct roughing *work, const struct job_result *result,
				const struct out_dir *out, struct fault_list *faults)
{
	char *path = out_dir_file(out, "job.json", faults);
	enum fault fault = path ? FAULT_NONE : FAULT_MEMORY;

	if (!fault)
		fault = job_json_write(path, &work->job, work->neck, result, faults);
	free(path);
	return fault;
}

/* Everything but the programs, from the result of the proof. Page, pictures,
 * papers and meshes have nothing to do with each other, so each may have a
 * thread. */
static enum fault write_results(const struct roughing *work, const struct job_result *result,
				const struct out_dir *out, enum paper_size paper,
				struct progress *progress, struct fault_list *faults)
{
	struct fault_list page_faults = { 0 }, picture_faults = { 0 }, paper_faults = { 0 };
	enum fault page = FAULT_NONE, pictures = FAULT_NONE, papers = FAULT_NONE,
		   solids = FAULT_NONE;

	progress_step(progress, "drawing", 1.0);
#pragma omp parallel sections
	{
#pragma omp section
		page = write_page(work, result, out, &page_faults);
#pragma omp section
		pictures = write_pictures(work, result, out, &picture_faults);
#pragma omp section
		papers = write_papers(work, result, out, paper, &paper_faults);
#pragma omp section
		solids = write_solids(work, result, out, faults);
	}
	fault_list_append(faults, &page_faults);
	fault_list_append(faults, &picture_faults);
	fault_list_append(faults, &paper_faults);
	if (page || pictures || papers || solids)
		return page ? page : pictures ? pictures : papers ? papers : solids;
	return write_figures(work, result, out, faults);
}

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
		fault = write_results(&work, &result, &out,
				      paper_of_job(&work.job, values->text[ROW_PAPER]), &progress,
				      faults);
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
