/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/results.h"

#include <stdbool.h>
#include <stdlib.h>

#include "files/mesh_names.h"
#include "mesh/solids.h"
#include "page/page.h"
#include "papers/papers.h"
#include "pictures/pictures.h"
#include "report/job_json.h"

/* What the parts are made from. */
struct results {
	const struct roughing *work;
	const struct job_result *result;
	enum paper_size paper;
};

static enum fault write_page(const char *path, const struct results *all, struct fault_list *faults)
{
	return page_write(path, &all->work->job, all->work->neck, all->result, faults);
}

static enum fault write_pictures(const char *folder, const struct results *all,
				 struct fault_list *faults)
{
	return pictures_write(folder, all->result, all->work->neck, &all->work->job, faults);
}

static enum fault write_papers(const char *folder, const struct results *all,
			       struct fault_list *faults)
{
	const struct roughing *work = all->work;

	return papers_write(folder, all->paper, &work->job, work->neck, &work->facets, all->result,
			    faults);
}

static enum fault write_finished(const char *path, const struct results *all,
				 struct fault_list *faults)
{
	return solids_write_finished(path, all->work->neck, all->work->job.fixture.work_zero_mm,
				     faults);
}

static enum fault write_roughed(const char *path, const struct results *all,
				struct fault_list *faults)
{
	return solids_write_roughed(path, &all->work->job.blank, &all->result->roughed,
				    &all->result->blank_bottom, all->work->job.fixture.work_zero_mm,
				    faults);
}

static enum fault write_blank(const char *path, const struct results *all,
			      struct fault_list *faults)
{
	return solids_write_blank(path, &all->work->job.blank, all->work->job.fixture.work_zero_mm,
				  faults);
}

static enum fault write_figures(const char *path, const struct results *all,
				struct fault_list *faults)
{
	return job_json_write(path, &all->work->job, all->work->neck, all->result, faults);
}

struct part {
	const char *name;
	bool folder; /* a folder of files, not one file */
	enum fault (*write)(const char *place, const struct results *all,
			    struct fault_list *faults);
};

/* The slowest first, so that threads end together. */
static const struct part parts[] = {
	{ "pictures", true, write_pictures },	       { "page.html", false, write_page },
	{ MESH_FINISHED_FILE, false, write_finished }, { "papers", true, write_papers },
	{ MESH_ROUGHED_FILE, false, write_roughed },   { MESH_BLANK_FILE, false, write_blank },
	{ "job.json", false, write_figures },
};
#define PART_COUNT (sizeof parts / sizeof parts[0])

static enum fault write_part(const struct out_dir *out, const struct part *part,
			     const struct results *all, struct fault_list *faults)
{
	char *place = NULL;
	enum fault fault = FAULT_NONE;

	if (part->folder)
		fault = out_dir_folder(out, part->name, &place, faults);
	else if (!(place = out_dir_file(out, part->name, faults)))
		fault = FAULT_MEMORY;
	if (!fault)
		fault = part->write(place, all, faults);
	free(place);
	return fault;
}

enum fault results_write(const struct out_dir *out, const struct roughing *work,
			 const struct job_result *result, enum paper_size paper,
			 struct fault_list *faults)
{
	const struct results all = { work, result, paper };
	struct fault_list told[PART_COUNT] = { 0 };
	enum fault code[PART_COUNT], first = FAULT_NONE;

	/* the parts have nothing to do with each other */
#pragma omp parallel for schedule(dynamic, 1)
	for (size_t i = 0; i < PART_COUNT; i++)
		code[i] = write_part(out, &parts[i], &all, &told[i]);
	for (size_t i = 0; i < PART_COUNT; i++) {
		fault_list_append(faults, &told[i]);
		first = first ? first : code[i];
	}
	return first;
}
