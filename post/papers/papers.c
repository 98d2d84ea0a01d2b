/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/papers.h"

#include <stdio.h>

#include "papers/blank_outline.h"
#include "papers/checklist_sheet.h"
#include "papers/finishing_sheet.h"
#include "papers/gauges.h"
#include "papers/rounding_sheet.h"
#include "papers/setup_sheet.h"
#include "papers/sheet.h"
#include "papers/templates.h"

#define PATH_LENGTH_MAX 4096

/* One PDF. `draw` sets title, remark and page_count, then begins page after
 * page (papers/sheet.h). */
struct paper_row {
	const char *name; /* of the file, without ending */
	const char *title; /* what a viewer of the file shows */
	bool lying; /* pages lie on their long side */
	bool true_scale;
	enum fault (*draw)(struct sheet *sheet, const struct paper_content *content,
			   struct fault_list *faults);
};

static const struct paper_row rows[] = {
	{ "gauges", "Contour gauges", false, true, gauges_draw },
	{ "templates", "Templates", true, true, templates_draw },
	{ "blank", "Blank to saw out", true, true, blank_outline_draw },
	{ "checklist", "Machine safety checklist", false, false, checklist_sheet_draw },
	{ "finishing", "Finishing sheet", false, false, finishing_sheet_draw },
	{ "setup", "Set-up sheet", true, false, setup_sheet_draw },
	{ "rounding", "Facet lines for rounding by hand", false, false, rounding_sheet_draw },
};

#define ROW_COUNT (sizeof rows / sizeof rows[0])

const char *papers_name(size_t index)
{
	return index < ROW_COUNT ? rows[index].name : NULL;
}

static enum fault draw_paper(struct canvas *canvas, const struct paper_row *row,
			     enum paper_size size, const struct paper_content *content,
			     struct fault_list *faults)
{
	const struct paper *paper = paper_of(size);
	struct sheet sheet = {
		.canvas = canvas,
		.paper = paper,
		.words = { neck_spec_of(content->neck)->name, content->job->digest },
		.title = row->title,
		.remark = "",
		.true_scale = row->true_scale,
		.page_count = 1,
	};
	enum fault code = canvas_open_paper(canvas, row->lying ? paper->height_mm : paper->width_mm,
					    row->lying ? paper->width_mm : paper->height_mm,
					    row->title, faults);

	return code ? code : row->draw(&sheet, content, faults);
}

static enum fault write_paper(const char *folder, const struct paper_row *row, enum paper_size size,
			      const struct paper_content *content, struct fault_list *faults)
{
	char path[PATH_LENGTH_MAX];
	struct canvas canvas;
	int length = snprintf(path, sizeof path, "%s/%s.pdf", folder, row->name);

	if (length < 0 || (size_t)length >= sizeof path)
		return fault_add(faults, FAULT_FILE, folder, 0, NULL,
				 "The folder's name is too long for a paper in it.");
	enum fault code = draw_paper(&canvas, row, size, content, faults);
	if (code == FAULT_NONE)
		code = canvas_save(&canvas, path, faults);
	canvas_close(&canvas);
	return code;
}

enum fault papers_write(const char *folder, enum paper_size paper, const struct job *job,
			const struct neck *neck, const struct facets *facets,
			const struct job_result *result, struct fault_list *faults)
{
	struct paper_content content = { job, neck, facets, result };

	for (size_t i = 0; i < ROW_COUNT; i++) {
		enum fault code = write_paper(folder, &rows[i], paper, &content, faults);
		if (code != FAULT_NONE)
			return code;
	}
	return FAULT_NONE;
}
