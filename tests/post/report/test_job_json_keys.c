/* SPDX-License-Identifier: GPL-3.0-or-later */
/* docs/job-json.md against the keys that are written: neither has one that the
 * other lacks. */
#include "report/job_json.h"

#include <jansson.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "support/near.h"
#include "support/sample_beside.h"
#include "support/sample_result.h"
#include "support/sampled.h"
#include "support/scratch.h"

/* Tests run from the top folder of the repository. */
#define DOCUMENT_FOLDER "docs"
#define DOCUMENT "job-json.md"

#define KEY_ROOM 256

static json_t *document_of(const struct sampled *sample)
{
	char *text;

	assert_int_equal(job_json_text(&text, &sample->job, sample->neck, &sample->result, NULL),
			 FAULT_NONE);
	json_t *root = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
	free(text);
	assert_non_null(root);
	return root;
}

/* Calls `visit` with the documented form of each key that holds a figure. */
static void walk(json_t *value, const char *path, void (*visit)(const char *key, void *context),
		 void *context)
{
	char inner[KEY_ROOM];

	if (json_is_object(value)) {
		const char *key;
		json_t *item;
		json_object_foreach(value, key, item)
		{
			bool zone = strcmp(path, "hand_finish_stock") == 0;
			bool promise = strcmp(path, "proof.promises") == 0;
			int length = snprintf(inner, sizeof inner, "%s%s%s", path,
					      path[0] ? "." : "",
					      zone	? "ZONE"
					      : promise ? "PROMISE"
							: key);
			assert_between(length, 1.0, KEY_ROOM - 1.0, "length of a key");
			walk(item, inner, visit, context);
		}
		return;
	}
	if (json_is_array(value) && json_is_object(json_array_get(value, 0))) {
		int length = snprintf(inner, sizeof inner, "%s[]", path);
		assert_between(length, 1.0, KEY_ROOM - 1.0, "length of a key");
		for (size_t i = 0; i < json_array_size(value); i++)
			walk(json_array_get(value, i), inner, visit, context);
		return;
	}
	visit(path, context);
}

static void must_be_documented(const char *key, void *context)
{
	char cell[KEY_ROOM + 8];

	(void)snprintf(cell, sizeof cell, "\n| `%s` |", key);
	if (!strstr(context, cell))
		fail_msg("%s lacks `%s`", DOCUMENT, key);
}

struct sought {
	const char *key;
	bool found;
};

static void compare_key(const char *key, void *context)
{
	struct sought *sought = context;

	sought->found = sought->found || strcmp(key, sought->key) == 0;
}

static void every_key_is_documented_and_every_documented_key_is_there(void **state)
{
	char *document = scratch_read(DOCUMENT_FOLDER, DOCUMENT);
	struct sampled *sample = sampled_make(4.0, 5);
	(void)state;
	sample->result.verdict = (struct verdict){ 0 }; /* nothing judged yet */
	sample_result_chisel(&sample->result, &sample->job);
	/* all that may be null without it */
	sample->job.fixture.riser_height_mm = 14.0;
	sample->job.fixture.fretboard = (struct glued_fretboard){ true, 0.3, 5.0, 1.0 };
	sample->job.neck.heel.joint = (struct joint_spec){ JOINT_TENON, 18, 20, 0, 70 };
	sample->job.fixture.keep_out_count = sample->job.fixture.hold_count = 1;
	sample_beside(&sample->result);
	int documented = 0;

	assert_non_null(document);
	json_t *root = document_of(sample);
	walk(root, "", must_be_documented, document);
	for (char *cell = document; (cell = strstr(cell, "\n| `")) != NULL; documented++) {
		char key[KEY_ROOM];
		cell += strlen("\n| `");
		(void)snprintf(key, sizeof key, "%.*s", (int)strcspn(cell, "`"), cell);
		struct sought sought = { key, false };
		walk(root, "", compare_key, &sought);
		if (!sought.found)
			fail_msg("%s tells of `%s`, which is not written", DOCUMENT, key);
	}
	assert_true(documented > 60);
	for (int zone = 0; zone < ZONE_COUNT; zone++)
		assert_non_null(strstr(document, stock_zone_key((enum stock_zone)zone)));
	json_decref(root);
	sampled_drop(sample);
	free(document);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(every_key_is_documented_and_every_documented_key_is_there),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
