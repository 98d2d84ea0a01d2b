/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/verdict_json.h"

#include "report/json_value.h"
#include "version.h"

/* Raised when a key changes its meaning or goes away. */
#define VERDICT_JSON_SCHEMA 1

/* Decimals of a promise's figures, whatever their unit. */
#define DECIMALS 4

static json_t *promise_json(const struct promise_result *result, const struct promise_text *text,
			    const char *file)
{
	json_t *program = file ? json_text(file) : json_null();
	json_t *block = result->block > 0 ? json_integer(result->block) : json_null();

	return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "judged",
			 json_boolean(result->judged), "kept", json_boolean(result->kept), "worst",
			 json_value(result->worst, DECIMALS), "limit",
			 json_value(result->limit, DECIMALS), "unit", json_text(text->unit),
			 "sentence", json_text(text->sentence), "program", program, "block", block,
			 "why", json_text(result->why));
}

json_t *verdict_json(const struct verdict *verdict, size_t file_count, const char *const *file)
{
	json_t *promises = json_object();

	for (int i = 0; promises && i < PROMISE_COUNT; i++) {
		const struct promise_result *result = &verdict->promise[i];
		const struct promise_text *text = promise_text((enum promise)i);
		bool blamed = result->block > 0 && result->program >= 0 &&
			      (size_t)result->program < file_count;
		json_t *entry = promise_json(result, text, blamed ? file[result->program] : NULL);
		if (i == PROMISE_KEEP_OUT && entry &&
		    json_object_set_new(entry, "fretboard_mm",
					json_value(verdict->fretboard_mm, DECIMALS)) != 0) {
			json_decref(entry);
			entry = NULL;
		}
		if (json_object_set_new(promises, text->key, entry) == 0)
			continue;
		json_decref(promises);
		promises = NULL;
	}
	return json_pack("{s:o, s:o}", "proven", json_boolean(verdict->proven), "promises",
			 promises);
}

enum fault verdict_json_text(char **text, const struct verdict *verdict, const char *digest,
			     size_t file_count, const char *const *file, struct fault_list *faults)
{
	json_t *programs = json_array();

	for (size_t i = 0; programs && i < file_count; i++) {
		if (json_array_append_new(programs, json_text(file[i])) == 0)
			continue;
		json_decref(programs);
		programs = NULL;
	}
	json_t *root = json_pack("{s:i, s:s, s:s, s:o, s:o, s:o}", "schema", VERDICT_JSON_SCHEMA,
				 "generator", NECKHEW_NAME, "version", NECKHEW_VERSION, "digest",
				 digest[0] ? json_text(digest) : json_null(), "programs", programs,
				 "proof", verdict_json(verdict, file_count, file));
	return json_to_text(text, root, faults);
}
