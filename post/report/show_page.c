/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/show_page.h"

#include <errno.h>
#include <math.h>
#include <string.h>

#include "base/minmax.h"
#include "report/columns.h"
#include "report/pass_words.h"
#include "report/show_map.h"
#include "report/table.h"
#include "version.h"

#define CM3_PER_MM3 1e-3

/* Select graphic rendition, ECMA-48 8.3.117: bold, and bold red. */
#define BOLD "\033[1m"
#define BAD "\033[1;31m"
#define OFF "\033[0m"

static int text_columns(const struct show_page *page)
{
	return page->columns < COLUMNS_MOST ? page->columns : COLUMNS_MOST;
}

static void print_text(FILE *out, const struct show_page *page, const char *text)
{
	(void)fputs("  ", out);
	columns_wrapped(out, text_columns(page), 2, 2, text);
}

/* An empty line, the title, and what is shown; both within one line. */
static void print_title(FILE *out, const struct show_page *page, const char *title,
			const char *rest)
{
	(void)fprintf(out, "\n%s%s%s  ", page->colour ? BOLD : "", title, page->colour ? OFF : "");
	columns_text(out, page->columns - (int)strlen(title) - 2, 0, rest);
	(void)fputc('\n', out);
}

static void print_warning(FILE *out, const struct show_page *page)
{
	const struct verdict *verdict = &page->result->verdict;
	int broken = verdict_first_broken(verdict);
	char text[400];

	if (verdict->proven)
		return;
	(void)fprintf(out, "%sNOT PROVEN%s: do not run it.\n", page->colour ? BAD : "",
		      page->colour ? OFF : "");
	if (broken < 0)
		return;
	(void)snprintf(text, sizeof text, "%s: %s", promise_text((enum promise)broken)->sentence,
		       verdict->promise[broken].why);
	print_text(out, page, text);
}

static void print_head(FILE *out, const struct show_page *page)
{
	print_warning(out, page);
	(void)fprintf(out, "%s %s, neck \"", NECKHEW_NAME, NECKHEW_VERSION);
	columns_text(out, text_columns(page) - 24, 0, page->job->neck.name);
	(void)fputs("\"\n", out);
}

static void print_figures(FILE *out, const struct show_page *page, const char *low, double low_mm,
			  double bite_mm, double volume_mm3, double minutes)
{
	char text[PASS_FIGURES_ROOM];

	pass_words_figures(text, low, low_mm, bite_mm, volume_mm3 * CM3_PER_MM3, minutes);
	print_text(out, page, text);
}

/* The pass of that number over all programs, from 1, and its place. */
static const struct pass_figures *find_pass(const struct job_result *result, size_t number)
{
	for (size_t i = 0; i < result->program_count; i++) {
		const struct program_figures *program = &result->program[i];
		if (number >= 1 && number <= program->pass_count)
			return &program->pass[number - 1];
		number -= program->pass_count;
	}
	return NULL;
}

static enum fault print_pass(FILE *out, const struct show_page *page, struct fault_list *faults)
{
	const struct pass_figures *pass = find_pass(page->result, page->pass);
	char rest[96];

	if (!pass || page->pass > page->result->cut_count)
		return fault_add(faults, FAULT_USAGE, NULL, 0, NULL,
				 "There is no pass %zu; the passes are numbered from 1 to %zu.",
				 page->pass, page->result->cut_count);
	print_head(out, page);
	(void)snprintf(rest, sizeof rest, "pass %zu of %zu, %s", page->pass,
		       page->result->cut_count, pass_kind_name(pass->kind));
	print_title(out, page, "CUT DEPTH", rest);
	enum fault fault = show_map_cuts(out, page, page->pass - 1, 1, false, faults);
	if (!fault)
		print_figures(out, page, pass->kind == PASS_SURFACE ? "Lowest Z" : "Level Z",
			      pass->level_mm, pass->deepest_bite_mm, pass->volume_mm3,
			      pass->minutes);
	return fault;
}

static enum fault print_all_passes(FILE *out, const struct show_page *page,
				   struct fault_list *faults)
{
	const struct job_result *result = page->result;
	double lowest = INFINITY, bite = 0.0, volume = 0.0, minutes = 0.0;
	char rest[96], text[PASS_LIST_ROOM];

	print_head(out, page);
	(void)snprintf(rest, sizeof rest, "all %zu passes together", result->cut_count);
	print_title(out, page, "CUT DEPTH", rest);
	enum fault fault = show_map_cuts(out, page, 0, result->cut_count, true, faults);
	if (fault)
		return fault;
	for (size_t i = 0; i < result->program_count; i++) {
		minutes += result->program[i].minutes;
		for (size_t k = 0; k < result->program[i].pass_count; k++) {
			const struct pass_figures *pass = &result->program[i].pass[k];
			lowest = smaller(lowest, pass->level_mm);
			bite = larger(bite, pass->deepest_bite_mm);
			volume += pass->volume_mm3;
		}
	}
	print_figures(out, page, "Lowest Z", lowest, bite, volume, minutes);
	pass_words_list(text, result);
	print_text(out, page, text);
	return FAULT_NONE;
}

/* Each program by itself: what it takes off what those before it left. */
static enum fault print_programs(FILE *out, const struct show_page *page, struct fault_list *faults)
{
	const struct job_result *result = page->result;
	char rest[sizeof result->program->file + 16];
	size_t first = 0;

	print_head(out, page);
	for (size_t i = 0; i < result->program_count; i++) {
		const struct program_figures *program = &result->program[i];
		double bite = 0.0, volume = 0.0;
		(void)snprintf(rest, sizeof rest, "program %s", program->file);
		print_title(out, page, "CUT DEPTH", rest);
		enum fault fault =
			show_map_cuts(out, page, first, program->pass_count, true, faults);
		if (fault)
			return fault;
		first += program->pass_count;
		for (size_t k = 0; k < program->pass_count; k++) {
			bite = larger(bite, program->pass[k].deepest_bite_mm);
			volume += program->pass[k].volume_mm3;
		}
		print_figures(out, page, "Lowest Z", program->least.z, bite, volume,
			      program->minutes);
	}
	return FAULT_NONE;
}

static enum fault print_stock(FILE *out, const struct show_page *page, struct fault_list *faults)
{
	print_head(out, page);
	print_title(out, page, "HAND-FINISH STOCK", "left after all programs");
	enum fault fault = show_map_stock(out, page, faults);
	if (!fault)
		table_zones_print(out, page->result, page->colour);
	return fault;
}

static enum fault flushed(FILE *out, struct fault_list *faults)
{
	errno = 0;
	if (fflush(out) == 0 && !ferror(out))
		return FAULT_NONE;
	return fault_add(faults, FAULT_FILE, NULL, 0, NULL, "The map cannot be printed: %s.",
			 errno ? strerror(errno) : "the output took only part of it");
}

enum fault show_page_print(FILE *out, const struct show_page *page, struct fault_list *faults)
{
	enum fault fault = page->stock		 ? print_stock(out, page, faults)
			   : !page->passes_known ? print_programs(out, page, faults)
			   : page->pass > 0	 ? print_pass(out, page, faults)
						 : print_all_passes(out, page, faults);

	return fault ? fault : flushed(out, faults);
}
