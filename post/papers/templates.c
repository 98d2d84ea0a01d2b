/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/templates.h"

#include "papers/heel_drawing.h"
#include "papers/heel_template.h"
#include "papers/plan_template.h"

enum fault templates_draw(struct sheet *sheet, const struct paper_content *content,
			  struct fault_list *faults)
{
	struct sheet_area area = sheet_area(sheet);
	struct heel_template heel;
	struct plan_template plan = { 0 };
	enum fault fault = heel_template_build(&heel, content, area, faults);

	if (!fault)
		fault = plan_template_build(&plan, content, area, faults);
	if (!fault) {
		struct tile_drawing first = heel_drawing(&heel);
		struct tile_drawing second = plan_template_drawing(&plan);
		struct tile_layout layout = tiles_layout(&first, area);
		second.marks_before = tiles_mark_count(&layout);
		sheet->page_count =
			tiles_page_count(sheet, &first) + tiles_page_count(sheet, &second);
		tiles_draw(sheet, &first);
		tiles_draw(sheet, &second);
	}
	plan_template_free(&plan);
	heel_template_free(&heel);
	return fault;
}
