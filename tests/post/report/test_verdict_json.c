/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/verdict_json.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "support/near.h"

static const char *const files[] = { "one.ngc", "bad \xff name.ngc" };

static json_t *document_of(const struct verdict *verdict, const char *digest, size_t count)
{
	char *text;

	assert_int_equal(verdict_json_text(&text, verdict, digest, count, files, NULL), FAULT_NONE);
	json_t *root = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
	assert_non_null(root);
	free(text);
	return root;
}

static void a_broken_promise_names_its_file_and_line(void **state)
{
	(void)state;
	struct verdict verdict = { .proven = false };
	const char *key = promise_text(PROMISE_BITE)->key;

	verdict.promise[PROMISE_BITE] = (struct promise_result){ .judged = true,
								 .worst = 6.68049,
								 .limit = 5.0,
								 .program = 1,
								 .block = 491,
								 .why = "A bite of 6.680 mm." };
	json_t *root = document_of(&verdict, "ab12", 2);
	assert_string_equal(json_string_value(json_object_get(root, "digest")), "ab12");
	const json_t *programs = json_object_get(root, "programs");
	assert_int_equal(json_array_size(programs), 2);
	assert_string_equal(json_string_value(json_array_get(programs, 0)), "one.ngc");
	assert_string_equal(json_string_value(json_array_get(programs, 1)), "bad ? name.ngc");
	const json_t *proof = json_object_get(root, "proof");
	assert_true(json_is_false(json_object_get(proof, "proven")));
	const json_t *bite = json_object_get(json_object_get(proof, "promises"), key);
	assert_string_equal(json_string_value(json_object_get(bite, "program")), "bad ? name.ngc");
	assert_int_equal(json_integer_value(json_object_get(bite, "block")), 491);
	assert_near(json_real_value(json_object_get(bite, "worst")), 6.6805, 1e-12, "bite, mm");
	json_decref(root);
	/* an index that no file has blames none */
	root = document_of(&verdict, "", 1);
	bite = json_object_get(json_object_get(json_object_get(root, "proof"), "promises"), key);
	assert_true(json_is_null(json_object_get(bite, "program")));
	assert_true(json_is_null(json_object_get(root, "digest")));
	json_decref(root);
}

static void every_promise_has_a_key_of_its_own(void **state)
{
	(void)state;
	struct verdict verdict = { .proven = true };
	json_t *root = document_of(&verdict, "", 0);
	const json_t *proof = json_object_get(root, "proof");

	assert_true(json_is_true(json_object_get(proof, "proven")));
	assert_int_equal(json_object_size(json_object_get(proof, "promises")), PROMISE_COUNT);
	assert_int_equal(json_array_size(json_object_get(root, "programs")), 0);
	json_decref(root);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_broken_promise_names_its_file_and_line),
		cmocka_unit_test(every_promise_has_a_key_of_its_own),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
