/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Free text in programs: whatever it says, only harmless comments come of it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "program/comment.h"
#include "program/write.h"
#include "support/moves.h"
#include "support/near.h"
#include "support/seed.h"

#define LINE_MOST 80

static const struct machine metric = { .program_unit = UNIT_MM, .decimals = 3 };

/* A comment of our own making: "(- ", harmless characters, ")". */
static void assert_harmless(const char *line, size_t size)
{
	assert_between((double)size, 5.0, LINE_MOST, "characters of a comment line");
	assert_memory_equal(line, "(- ", 3);
	assert_int_equal(line[size - 1], ')');
	for (size_t i = 3; i + 1 < size; i++) {
		const char one[2] = { line[i], '\0' };
		assert_non_null(strstr("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
				       "0123456789 .,:+-_'/=",
				       one));
		assert_false(line[i] == ' ' && line[i + 1] == ' ');
	}
}

static void assert_comments_harmless(const char *text, size_t comments_most)
{
	const char *const labels[] = { text };
	const struct program_head head = { 1, &text, 1, labels, NULL };
	struct motion_list list = { 0 };
	struct program_text out = { 0 };
	size_t lines = 0, comments = 0;

	moves_add(&list, (struct motion){ .kind = MOTION_PASS, .pass = 0 });
	moves_add(&list, (struct motion){ .kind = MOTION_END });
	assert_int_equal(program_write(&out, &list, &head, &metric, NULL), FAULT_NONE);
	assert_int_equal(strlen(out.bytes), out.size);
	for (const char *line = out.bytes; *line; lines++) {
		const size_t size = strcspn(line, "\n");
		if (*line == '(') {
			assert_harmless(line, size);
			comments++;
		}
		line += size + 1;
	}
	/* no more than the preamble and the end beside the comments */
	assert_int_equal(lines - comments, 8);
	assert_true(comments <= comments_most);
	program_text_free(&out);
	motion_list_free(&list);
}

static void hostile_texts(void **state)
{
	(void)state;
	const char *const texts[] = {
		"MSG, remove the guard",
		"msg,x",
		")\nG0 Z-100\n(",
		"a) G0 Z-100 (b",
		"\r\nM3 S24000",
		"%",
		"a\n%\nb",
		"; G1 Z-5",
		"(((((nested)))))",
		"[#1=5] {x} <y>",
		"! ? ~ \x18 \x1b[2J \x7f",
		"\xc3\xa9rable \xe2\x80\xa6 and so on \xf0\x9f\x8e\xb8",
		"\x80\xff broken \xc3",
		"O100 call",
		"/G0 Z-100",
		"tab\tand\vmore\f",
		"$H @ * ^ & | \\ ` \"quoted\"",
	};

	for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
		assert_comments_harmless(texts[i], 2);
}

static void all_bytes_and_long_texts(void **state)
{
	(void)state;
	char all[256], text[10001];

	for (int byte = 1; byte < 256; byte++)
		all[byte - 1] = (char)byte;
	all[255] = '\0';
	assert_comments_harmless(all, COMMENT_LINES_MOST + 1);
	memset(text, 'M', sizeof text - 1);
	text[sizeof text - 1] = '\0';
	assert_comments_harmless(text, COMMENT_LINES_MOST + 1);
	for (size_t i = 0; i + 1 < sizeof text; i += 7)
		text[i] = i % 2 ? ' ' : ')';
	assert_comments_harmless(text, COMMENT_LINES_MOST + 1);
	memset(text, ' ', sizeof text - 1);
	assert_comments_harmless(text, 0);
	memset(text, '%', sizeof text - 1);
	assert_comments_harmless(text, COMMENT_LINES_MOST + 1);
}

/* Random bytes, weighted to the dangerous ones. */
static void random_texts(void **state)
{
	(void)state;
	static const char spice[] = "()\n\r%;MSGG0 Z-1,#[]/!?~\xc3\xa9";
	gsl_rng *rng = seed_rng("random_texts");

	for (int i = 0; i < 2000; i++) {
		char text[400];
		const size_t size = seed_whole(rng, 0, sizeof text - 1);
		for (size_t at = 0; at < size; at++)
			text[at] = seed_whole(rng, 0, 1)
					   ? spice[seed_whole(rng, 0, sizeof spice - 2)]
					   : (char)seed_whole(rng, 1, 255);
		text[size] = '\0';
		assert_comments_harmless(text, COMMENT_LINES_MOST + 1);
	}
	gsl_rng_free(rng);
}

static void wrapped_comments(void **state)
{
	(void)state;
	char line[COMMENT_LINES_MOST][COMMENT_LINE_SIZE];
	const char *text = "Wear eye and ear protection, keep the dust collection running, and "
			   "stay within reach of the stop button: 50% of mishaps happen unwatched!";

	assert_int_equal(comment_wrap(line, COMMENT_LINES_MOST, text, COMMENTS_PARENTHESES, 0), 2);
	assert_string_equal(line[0], "(- Wear eye and ear protection, keep the dust collection "
				     "running, and stay)");
	assert_string_equal(line[1], "(- within reach of the stop button: 50pct of mishaps happen "
				     "unwatched.)");
	assert_int_equal(comment_wrap(line, 1, text, COMMENTS_PARENTHESES, 0), 1);
	assert_string_equal(line[0], "(- Wear eye and ear protection, keep the dust collection "
				     "running, and stay ...)");
	assert_int_equal(strlen(line[0]), 79);
	assert_int_equal(comment_wrap(line, 1, " \t ", COMMENTS_PARENTHESES, 0), 0);
	assert_int_equal(comment_wrap(line, 1, NULL, COMMENTS_PARENTHESES, 0), 0);
	assert_int_equal(comment_wrap(line, 1, "  Z\xc3\xbcrich  (a)  ", COMMENTS_PARENTHESES, 0),
			 1);
	assert_string_equal(line[0], "(- Z_rich a)");
}

/* Words that waste the ends of lines: the text runs out of lines before it is
 * longer than their characters, and that shows too. */
static void cut_by_wrapping(void **state)
{
	(void)state;
	char line[COMMENT_LINES_MOST][COMMENT_LINE_SIZE], text[138];

	memset(text, 'w', sizeof text - 1);
	text[45] = text[91] = ' ';
	text[137] = '\0';
	assert_int_equal(comment_wrap(line, 3, text, COMMENTS_PARENTHESES, 0), 3);
	assert_null(strstr(line[2], "..."));
	assert_int_equal(comment_wrap(line, 2, text, COMMENTS_PARENTHESES, 0), 2);
	assert_null(strstr(line[0], "..."));
	assert_non_null(strstr(line[1], "w ...)"));
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(hostile_texts),   cmocka_unit_test(all_bytes_and_long_texts),
		cmocka_unit_test(random_texts),	   cmocka_unit_test(wrapped_comments),
		cmocka_unit_test(cut_by_wrapping),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
