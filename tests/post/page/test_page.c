/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole pages of a real neck with a result made by formula. What the page does
 * in a browser is tests/browser's; this is what can be read off its text. */
#include "page/page.h"

#include <jansson.h>
#include <locale.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "files/text_file.h"
#include "page/assets.h"
#include "page/markup.h"
#include "report/job_json.h"
#include "support/sampled.h"
#include "support/scratch.h"

#define PAGE_MOST_BYTES 3000000u

/* What every name from a file is in the tests of hostile ones. */
#define HOSTILE \
	"</title></script><script>x()</script><!--\"'><img src=x onerror=x()>&\xff\033[2J{{planes}}"

static char *page_text(const struct sampled *s, const char *folder)
{
	char path[SCRATCH_ROOM], *text;
	size_t size;

	assert_int_equal(page_write(scratch_path(path, folder, "page.html"), &s->job, s->neck,
				    &s->result, NULL),
			 FAULT_NONE);
	assert_int_equal(text_file_read(&text, &size, path, 64u << 20, NULL), FAULT_NONE);
	assert_int_equal(strlen(text), size); /* no NUL within */
	return text;
}

/* --- reading HTML, as far as needed ---------------------------------------- */

/* Next tag from `at` on that a browser would see as one: the insides of scripts
 * and styles are text up to their end tag. *end is put behind the tag; NULL when
 * there is none. */
static const char *next_tag(const char *at, const char **end)
{
	const char *tag = strchr(at, '<');

	while (tag && strncmp(tag, "<!--", 4) == 0) {
		const char *behind = strstr(tag, "-->");
		assert_non_null(behind);
		tag = strchr(behind, '<');
	}
	if (!tag)
		return NULL;
	bool quoted = false;
	const char *close = tag;
	for (; *close != '\0' && (quoted || *close != '>'); close++)
		quoted ^= *close == '"';
	assert_int_equal(*close, '>');
	*end = close + 1;
	if (strncmp(tag, "<script", 7) == 0)
		*end = strstr(close, "</script>");
	else if (strncmp(tag, "<style", 6) == 0)
		*end = strstr(close, "</style>");
	assert_non_null(*end);
	return tag;
}

static bool has_attribute(const char *tag, const char *end, const char *name, const char **value)
{
	size_t size = strlen(name);

	for (const char *at = tag; at < end; at++)
		if (*at == ' ' && strncmp(at + 1, name, size) == 0 && at[size + 1] == '=') {
			assert_int_equal(at[size + 2], '"');
			*value = at + size + 3;
			return true;
		}
	return false;
}

static const char *end_of_tag(const char *tag)
{
	return tag + strcspn(tag, ">");
}

/* The text of the script with this id, to be freed with free(). */
static char *script_text(const char *page, const char *id)
{
	char mark[64];

	(void)snprintf(mark, sizeof mark, "id=\"%s\">", id);
	const char *from = strstr(page, mark);
	assert_non_null(from);
	from += strlen(mark);
	size_t size = (size_t)(strstr(from, "</script>") - from);
	char *text = calloc(size + 1, 1);
	assert_non_null(text);
	memcpy(text, from, size);
	return text;
}

/* --- the tests -------------------------------------------------------------- */

struct pages {
	void *folder;
	struct sampled *sample;
	char *text;
};

static int set_up(void **state)
{
	struct pages *pages = calloc(1, sizeof *pages);

	assert_non_null(pages);
	assert_int_equal(scratch_make(&pages->folder), 0);
	pages->sample = sampled_make(2.0, 6);
	pages->text = page_text(pages->sample, pages->folder);
	*state = pages;
	return 0;
}

static int tear_down(void **state)
{
	struct pages *pages = *state;
	int failed = scratch_remove(&pages->folder);

	sampled_drop(pages->sample);
	free(pages->text);
	free(pages);
	return failed;
}

static void no_gap_is_left(void **state)
{
	struct pages *pages = *state;
	struct asset page = page_asset(ASSET_PAGE);
	size_t gaps = 0;

	for (const char *at = page.text; (at = strstr(at, "{{")) != NULL; at += 2, gaps++) {
		char gap[64];
		size_t size = (size_t)(strstr(at, "}}") - at) + 2;
		assert_true(size < sizeof gap);
		(void)snprintf(gap, sizeof gap, "%.*s", (int)size, at);
		assert_null(strstr(pages->text, gap));
	}
	assert_true(gaps >= 20);
}

/* Whatever could make a browser ask for something beyond the page. */
static void nothing_is_loaded(void **state)
{
	static const char *const loading[] = { "src",	     "srcset", "href",	     "action",
					       "formaction", "poster", "background", "data",
					       "xlink:href", "ping" };
	static const char *const refused[] = { "<iframe", "<object", "<embed", "<base",
					       "<frame",  "<audio",  "<video", "<image" };
	struct pages *pages = *state;
	const char *end, *value;

	for (const char *at = pages->text; (at = next_tag(at, &end)) != NULL; at = end) {
		for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++)
			assert_int_not_equal(strncmp(at, refused[i], strlen(refused[i])), 0);
		for (size_t i = 0; i < sizeof loading / sizeof loading[0]; i++)
			if (has_attribute(at, end_of_tag(at), loading[i], &value))
				assert_true(value[0] == '#' || strncmp(value, "data:", 5) == 0);
	}
	/* and the browser is told to refuse what might have been overlooked */
	assert_non_null(strstr(pages->text, "http-equiv=\"Content-Security-Policy\" "
					    "content=\"default-src 'none';"));
}

static void style_and_script_ask_for_nothing(void **state)
{
	static const char *const refused[] = { "http:",		 "https:",	"fetch(",
					       "XMLHttpRequest", "WebSocket",	"import(",
					       "eval(",		 "EventSource", "sendBeacon",
					       "Function(",	 "@import" };
	static const enum page_asset_name own[] = { ASSET_STYLE, ASSET_SCRIPT };

	(void)state;
	for (size_t a = 0; a < 2; a++) {
		const char *text = page_asset(own[a]).text;
		for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++)
			if (strstr(text, refused[i]))
				fail_msg("%s is in the page's own texts", refused[i]);
		for (const char *at = text; a == 0 && (at = strstr(at, "url(")) != NULL; at++)
			assert_true(strncmp(at + 4, "data:", 5) == 0 ||
				    strncmp(at + 4, "\"data:", 6) == 0 || at[4] == '#');
	}
}

static void ids_are_used_once(void **state)
{
	struct pages *pages = *state;
	static const char *seen[1000];
	size_t count = 0;
	const char *end, *value;

	for (const char *at = pages->text; (at = next_tag(at, &end)) != NULL; at = end) {
		if (!has_attribute(at, end_of_tag(at), "id", &value))
			continue;
		size_t size = strcspn(value, "\"");
		for (size_t i = 0; i < count; i++)
			if (strncmp(seen[i], value, size + 1) == 0)
				fail_msg("the id %.*s is used twice", (int)size, value);
		assert_true(count < 1000);
		seen[count++] = value;
	}
	assert_true(count > 5);
}

/* Without any script the page says the verdict and holds all tables. */
static void the_words_are_there_without_scripts(void **state)
{
	struct pages *pages = *state;
	static const char *const words[] = {
		"Steel string, 14 frets clear", "proven: 16 of 16 promises kept",
		"<th scope=\"row\">heel cheeks</th>", "<th scope=\"row\">fret 13.5</th>",
		"<tr data-pass=\"6\">", "<input type=\"checkbox\">", "right-handed",
		"0f1e2d3c4b5a69788796a5b4c3d2e1f00f1e2d3c4b5a69788796a5b4c3d2e1f0",
		/* the library's terms: its notice and permission go with it */
		"three.js authors", "Permission is hereby granted", "WITHOUT WARRANTY OF ANY KIND"
	};

	for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
		if (!strstr(pages->text, words[i]))
			fail_msg("the page does not say %s", words[i]);
}

static void figures_are_job_json(void **state)
{
	struct pages *pages = *state;
	char *inside = script_text(pages->text, "figures"), *outside;
	struct sampled *s = pages->sample;

	assert_int_equal(job_json_text(&outside, &s->job, s->neck, &s->result, NULL), FAULT_NONE);
	json_t *first = json_loads(inside, 0, NULL), *second = json_loads(outside, 0, NULL);
	assert_true(first && second);
	assert_true(json_equal(first, second));
	json_decref(first);
	json_decref(second);
	free(inside);
	free(outside);
}

static void library_and_scripts_are_whole(void **state)
{
	struct pages *pages = *state;
	static const enum page_asset_name whole[] = { ASSET_LIBRARY, ASSET_SCRIPT, ASSET_STYLE };

	for (size_t i = 0; i < 3; i++) {
		struct asset asset = page_asset(whole[i]);
		assert_true(asset.size > 20);
		assert_int_equal(strlen(asset.text), asset.size);
		assert_non_null(strstr(pages->text, asset.text));
		assert_null(strstr(asset.text, "</script"));
		assert_null(strstr(asset.text, "<!--"));
	}
}

static void give_hostile_names(struct sampled *s)
{
	(void)snprintf(s->job.neck.name, sizeof s->job.neck.name, "%s", HOSTILE);
	(void)snprintf(s->job.cutter[0].name, sizeof s->job.cutter[0].name, "%.60s", HOSTILE);
	(void)snprintf(s->job.machine.name, sizeof s->job.machine.name, "%.60s", HOSTILE);
	(void)snprintf(s->job.wood.name, sizeof s->job.wood.name, "%.60s", HOSTILE);
	(void)snprintf(s->job.digest, sizeof s->job.digest, "%.60s", HOSTILE);
	(void)snprintf(s->result.program[0].file, sizeof s->result.program[0].file, "%.60s",
		       HOSTILE);
	s->job.fixture.keep_out_count = 1;
	(void)snprintf(s->job.fixture.keep_out[0].name, FIXTURE_NAME_MAX, "%.40s", HOSTILE);
}

/* Names from files change no tag: the page of a neck with hostile ones has the
 * same tags, one by one, as that of one without. */
static void hostile_names_open_no_tag(void **state)
{
	struct pages *pages = *state;
	struct sampled *hostile = sampled_make(2.0, 6);
	const char *end, *other_end;

	give_hostile_names(hostile);
	char *text = page_text(hostile, pages->folder);
	assert_non_null(strstr(text, "&lt;/title&gt;&lt;/script&gt;&lt;script&gt;x()"));
	const char *at = pages->text, *other = text;
	for (;;) {
		at = next_tag(at, &end);
		other = next_tag(other, &other_end);
		if (!at || !other)
			break;
		size_t size = (size_t)(end_of_tag(at) - at);
		assert_int_equal(size, end_of_tag(other) - other);
		assert_memory_equal(at, other, size);
		at = end;
		other = other_end;
	}
	assert_true(!at && !other);
	for (const char *c = text; *c != '\0'; c++)
		assert_true((unsigned char)*c >= 0x20 || *c == '\n' || *c == '\t');
	char *figures = script_text(text, "figures");
	json_t *root = json_loads(figures, 0, NULL);
	const char *name =
		json_string_value(json_object_get(json_object_get(root, "inputs"), "neck"));
	assert_memory_equal(name, "</title></script><script>x()", 28); /* told in full */
	json_decref(root);
	free(figures);
	free(text);
	sampled_drop(hostile);
}

static void same_result_same_bytes(void **state)
{
	struct pages *pages = *state;

	for (int round = 0; round < 2; round++) {
		char *text = page_text(pages->sample, pages->folder);
		assert_string_equal(text, pages->text);
		free(text);
		/* a decimal comma, where the system has such a locale */
		if (round == 0 && !setlocale(LC_ALL, "de_DE.UTF-8"))
			print_message("no locale with a comma on this system\n");
	}
	(void)setlocale(LC_ALL, "C");
}

/* Columns half a millimetre apart, as a real job has them, and sixty passes. */
static void a_whole_neck_is_small_enough(void **state)
{
	struct pages *pages = *state;
	struct sampled *fine = sampled_make(0.5, 60);
	char *text = page_text(fine, pages->folder), *planes = script_text(text, "planes");

	print_message("%zu bytes, of them %zu maps and %zu the library\n", strlen(text),
		      strlen(planes), page_asset(ASSET_LIBRARY).size);
	assert_true(strlen(planes) > 10000);
	assert_true(strlen(text) < PAGE_MOST_BYTES);
	free(planes);
	free(text);
	sampled_drop(fine);
}

static void faults_leave_no_page(void **state)
{
	struct pages *pages = *state;
	struct sampled *s = pages->sample;
	struct fault_list faults = { 0 };
	char path[SCRATCH_ROOM];

	assert_int_equal(page_write("/nonexistent/page.html", &s->job, s->neck, &s->result,
				    &faults),
			 FAULT_FILE);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].file, "/nonexistent/page.html");
	s->result.stock.cell_mm *= 2.0;
	assert_int_equal(page_write(scratch_path(path, pages->folder, "other.html"), &s->job,
				    s->neck, &s->result, NULL),
			 FAULT_INTERNAL);
	s->result.stock.cell_mm /= 2.0;
	assert_null(scratch_read(pages->folder, "other.html"));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(no_gap_is_left),
		cmocka_unit_test(nothing_is_loaded),
		cmocka_unit_test(style_and_script_ask_for_nothing),
		cmocka_unit_test(ids_are_used_once),
		cmocka_unit_test(the_words_are_there_without_scripts),
		cmocka_unit_test(figures_are_job_json),
		cmocka_unit_test(library_and_scripts_are_whole),
		cmocka_unit_test(hostile_names_open_no_tag),
		cmocka_unit_test(same_result_same_bytes),
		cmocka_unit_test(a_whole_neck_is_small_enough),
		cmocka_unit_test(faults_leave_no_page),
	};

	return cmocka_run_group_tests(tests, set_up, tear_down);
}
