/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spoiled neck files: whatever bytes stand in them, reading ends in a job or in
 * faults that say where, and never in anything else. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/mem.h"
#include "config/read.h"
#include "support/scratch.h"
#include "support/seed.h"

#define CASES 1500

/* The example with its includes leading back to the shop's files. */
static char *sound_text(void)
{
	char here[SCRATCH_ROOM], *text = scratch_read("examples/steel-string", "neck.cfg");
	char *whole = mem_array(32768, 1);

	assert_non_null(text);
	assert_non_null(whole);
	assert_non_null(getcwd(here, sizeof here));
	char *to = whole;
	for (const char *at = text; *at;) {
		if (strncmp(at, "../..", 5) == 0) {
			to += sprintf(to, "%s", here);
			at += 5;
		} else {
			*to++ = *at++;
		}
	}
	free(text);
	return whole;
}

/* One edit: a byte changed, a piece cut out, doubled, or a token put in. */
static void spoil(char *text, size_t room, const gsl_rng *rng)
{
	static const char *const tokens[] = { "{",
					      "}",
					      "(",
					      ")",
					      "[",
					      "]",
					      ";",
					      "=",
					      "\"",
					      "@",
					      "@include \"",
					      "/*",
					      "#",
					      "1e99",
					      "-",
					      "0x1",
					      "99999999999",
					      "\\",
					      "nan",
					      "true",
					      "\x01",
					      "\xff",
					      "\n",
					      ",",
					      "L",
					      ".",
					      "1L",
					      "units",
					      "@include \"neck.cfg\"" };
	size_t length = strlen(text), at = seed_whole(rng, 0, length - 1);
	size_t piece = seed_whole(rng, 1, 40);
	const char *token = tokens[seed_whole(rng, 0, sizeof tokens / sizeof tokens[0] - 1)];

	if (piece > length - at)
		piece = length - at;
	switch (seed_whole(rng, 0, 3)) {
	case 0:
		text[at] = (char)seed_whole(rng, 1, 255);
		break;
	case 1:
		memmove(text + at, text + at + piece, length - at - piece + 1);
		break;
	case 2:
		if (length + piece + 1 < room)
			memmove(text + at + piece, text + at, length - at + 1);
		break;
	default:
		if (length + strlen(token) + 1 < room) {
			memmove(text + at + strlen(token), text + at, length - at + 1);
			memcpy(text + at, token, strlen(token));
		}
		break;
	}
}

/* A refusal names a file, and says a sentence; a good job has its digest. */
static void check_outcome(const char *path)
{
	struct job job;
	struct config_places places = { 0 };
	struct fault_list faults = { 0 };
	enum fault code = config_load(&job, &places, path, &faults);

	assert_int_equal(code == FAULT_NONE, faults.count == 0);
	for (size_t i = 0; i < faults.count; i++) {
		const char *message = faults.record[i].message;
		assert_true(faults.record[i].code == FAULT_SETTING ||
			    faults.record[i].code == FAULT_FILE);
		assert_true(faults.record[i].file[0] != '\0');
		assert_true(strlen(message) > 10);
		for (size_t k = 0; message[k]; k++)
			assert_true((unsigned char)message[k] >= 0x20);
	}
	assert_int_equal(code == FAULT_NONE, strlen(job.digest) == 64);
	config_places_free(&places);
}

static void spoiled_files_are_read_or_refused(void **state)
{
	gsl_rng *rng = seed_rng("spoiled_files_are_read_or_refused");
	char *sound = sound_text(), *text = mem_array(65536, 1), path[SCRATCH_ROOM];

	assert_non_null(text);
	(void)scratch_path(path, *state, "neck.cfg");
	for (int i = 0; i < CASES; i++) {
		unsigned long edits = seed_whole(rng, 1, 6);
		memcpy(text, sound, strlen(sound) + 1);
		while (edits-- > 0)
			spoil(text, 65536, rng);
		scratch_write(*state, "neck.cfg", text);
		check_outcome(path);
	}
	free(text);
	free(sound);
	gsl_rng_free(rng);
}

static void the_sound_file_is_good(void **state)
{
	struct job job;
	struct config_places places = { 0 };
	char *sound = sound_text(), path[SCRATCH_ROOM];

	scratch_write(*state, "neck.cfg", sound);
	assert_int_equal(config_load(&job, &places, scratch_path(path, *state, "neck.cfg"), NULL),
			 FAULT_NONE);
	config_places_free(&places);
	free(sound);
}

/* Cut short anywhere, a file is refused or, between two settings, misses some. */
static void files_cut_short(void **state)
{
	char *sound = sound_text(), path[SCRATCH_ROOM];

	(void)scratch_path(path, *state, "neck.cfg");
	for (size_t length = strlen(sound); length > 0; length -= length > 13 ? 13 : length) {
		sound[length] = '\0';
		scratch_write(*state, "neck.cfg", sound);
		check_outcome(path);
	}
	free(sound);
}

#define SCRATCH_TEST(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)

int main(void)
{
	const struct CMUnitTest tests[] = {
		SCRATCH_TEST(the_sound_file_is_good),
		SCRATCH_TEST(spoiled_files_are_read_or_refused),
		SCRATCH_TEST(files_cut_short),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
