/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All papers of a job as files: their bytes, pages, letters, and folders that
 * cannot be written to. */
#include "papers/papers.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include <cmocka.h>

#include "base/tol.h"
#include "files/text_file.h"
#include "model/facets.h"
#include "support/near.h"
#include "support/rendered.h"
#include "support/sample_result.h"
#include "support/scratch.h"

#define SIZE_MOST (4u << 20)

struct sample {
	struct job job;
	struct neck *neck;
	struct facets facets;
	struct job_result result;
};

static void make(struct sample *s)
{
	sample_job(&s->job);
	assert_int_equal(neck_build(&s->neck, &s->job.neck, NULL), FAULT_NONE);
	assert_int_equal(facets_build(&s->facets, s->neck, TOL_FACET_MM, NULL), FAULT_NONE);
	sample_result(&s->result, s->neck, &s->job, 1.0, 4);
}

static void drop(struct sample *s)
{
	sample_result_free(&s->result);
	facets_free(&s->facets);
	neck_free(s->neck);
}

static enum fault write_to(const struct sample *s, const char *folder, enum paper_size paper,
			   struct fault_list *faults)
{
	return papers_write(folder, paper, &s->job, s->neck, &s->facets, &s->result, faults);
}

/* "folder/name.pdf" */
static const char *pdf_path(char *path, const char *folder, size_t i)
{
	char name[80];

	(void)snprintf(name, sizeof name, "%s.pdf", papers_name(i));
	return scratch_path(path, folder, name);
}

static void the_same_job_gives_the_same_bytes(void **state)
{
	char folder[2][SCRATCH_ROOM], path[SCRATCH_ROOM];
	struct sample s;

	make(&s);
	for (int i = 0; i < 2; i++) {
		(void)scratch_path(folder[i], *state, i == 0 ? "first" : "second");
		assert_int_equal(mkdir(folder[i], 0700), 0);
		assert_int_equal(write_to(&s, folder[i], PAPER_A4, NULL), FAULT_NONE);
	}
	for (size_t i = 0; papers_name(i); i++) {
		char *bytes[2];
		size_t size[2];
		for (int k = 0; k < 2; k++)
			assert_int_equal(text_file_read(&bytes[k], &size[k],
							pdf_path(path, folder[k], i), SIZE_MOST,
							NULL),
					 FAULT_NONE);
		assert_int_equal(size[0], size[1]);
		assert_memory_equal(bytes[0], bytes[1], size[0]);
		assert_memory_equal(bytes[0], "%PDF-", 5);
		free(bytes[0]);
		free(bytes[1]);
	}
	drop(&s);
}

/* Pages of the paper's size, upright or lying; a title, no date; every font
 * in the file. */
static void check_file(const char *folder, const char *pdf, enum paper_size size)
{
	const struct paper *paper = paper_of(size);
	double width, height;

	char *text = rendered_tool(folder, "pdfinfo", NULL, pdf);
	const char *at = strstr(text, "Page size:");
	assert_non_null(at);
	assert_int_equal(sscanf(at, "Page size: %lf x %lf", &width, &height), 2);
	bool lying = width > height;
	assert_near(width * 25.4 / 72.0, lying ? paper->height_mm : paper->width_mm, 0.01, "mm");
	assert_near(height * 25.4 / 72.0, lying ? paper->width_mm : paper->height_mm, 0.01, "mm");
	assert_non_null(strstr(text, "Title: "));
	assert_null(strstr(text, "Date"));
	free(text);
	text = rendered_tool(folder, "pdffonts", NULL, pdf);
	/* two lines of head, then one for each font: embedded, subset, uni */
	char *line = strchr(strchr(text, '\n') + 1, '\n') + 1;
	assert_true(*line != '\0');
	for (char *end; (end = strchr(line, '\n')) != NULL; line = end + 1) {
		*end = '\0';
		if (!strstr(line, " yes yes "))
			fail_msg("not embedded: %s", line);
	}
	free(text);
}

static void every_file_has_true_pages_and_its_fonts(void **state)
{
	char folder[SCRATCH_ROOM], path[SCRATCH_ROOM];
	struct sample s;

	make(&s);
	for (int size = 0; size < PAPER_COUNT; size++) {
		(void)scratch_path(folder, *state, paper_of((enum paper_size)size)->key);
		assert_int_equal(mkdir(folder, 0700), 0);
		assert_int_equal(write_to(&s, folder, (enum paper_size)size, NULL), FAULT_NONE);
		for (size_t i = 0; papers_name(i); i++)
			check_file(*state, pdf_path(path, folder, i), (enum paper_size)size);
	}
	drop(&s);
}

/* Numbers of the pages run from 1 to the last one that there is. */
static void pages_are_counted_right(void **state)
{
	char path[SCRATCH_ROOM];
	struct sample s;

	make(&s);
	assert_int_equal(write_to(&s, *state, PAPER_LETTER, NULL), FAULT_NONE);
	for (size_t i = 0; papers_name(i); i++) {
		char last[64], beyond[64];
		int pages = 0;
		char *text = rendered_tool(*state, "pdfinfo", NULL, pdf_path(path, *state, i));
		const char *at = strstr(text, "Pages:");
		assert_non_null(at);
		assert_int_equal(sscanf(at, "Pages: %d", &pages), 1);
		free(text);
		text = rendered_tool(*state, "pdftotext", "-raw", path);
		(void)snprintf(last, sizeof last, "page %d of %d", pages, pages);
		(void)snprintf(beyond, sizeof beyond, "page %d of", pages + 1);
		assert_non_null(strstr(text, last));
		assert_null(strstr(text, beyond));
		free(text);
	}
	drop(&s);
}

static void names_are_told_in_turn(void **state)
{
	static const char *const first[] = { "gauges", "templates", "blank" };
	size_t count = 0;

	(void)state;
	while (papers_name(count))
		count++;
	for (size_t i = 0; i < 3; i++)
		assert_string_equal(papers_name(i), first[i]);
	assert_null(papers_name(count));
	assert_null(papers_name(count + 100));
}

static void a_folder_that_is_not_there_is_told(void **state)
{
	struct fault_list faults = { 0 };
	char folder[SCRATCH_ROOM];
	struct sample s;

	make(&s);
	(void)scratch_path(folder, *state, "nowhere");
	assert_int_equal(write_to(&s, folder, PAPER_A4, &faults), FAULT_FILE);
	assert_int_equal(faults.count, 1);
	assert_non_null(strstr(faults.record[0].file, "nowhere/gauges.pdf"));
	drop(&s);
}

#define ON_FILES(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)

int main(void)
{
	const struct CMUnitTest tests[] = {
		ON_FILES(the_same_job_gives_the_same_bytes),
		ON_FILES(every_file_has_true_pages_and_its_fonts),
		ON_FILES(pages_are_counted_right),
		cmocka_unit_test(names_are_told_in_turn),
		ON_FILES(a_folder_that_is_not_there_is_told),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
