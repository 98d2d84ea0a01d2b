/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/json_value.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "base/units.h"

/* Digits printed of a number: one less than a double surely holds, so that a
 * value rounded to decimals prints as exactly those decimals. */
#define DIGITS 15

json_t *json_value(double value, int decimals)
{
	double scale = 1.0;

	if (!isfinite(value))
		return json_null();
	for (int digit = 0; digit < decimals; digit++)
		scale *= 10.0;
	double rounded = round(value * scale) / scale;
	if (!isfinite(rounded))
		rounded = value;
	return json_real(rounded + 0.0); /* -0 + 0 is 0 */
}

json_t *json_mm(double length_mm)
{
	return json_value(length_mm, JSON_DECIMALS_MM);
}

json_t *json_inch(double length_mm)
{
	return json_value(units_inch_from_mm(length_mm), JSON_DECIMALS_IN);
}

json_t *json_point(struct vec3 point)
{
	return json_pack("[o, o, o]", json_mm(point.x), json_mm(point.y), json_mm(point.z));
}

json_t *json_text(const char *text)
{
	json_t *string = json_string(text);

	/* not UTF-8, or a moment without memory: asking again tells which */
	if (!string)
		string = json_string(text);
	if (string)
		return string;
	char *plain = mem_array(strlen(text) + 1, 1);
	if (!plain)
		return NULL;
	for (size_t i = 0; text[i] != '\0'; i++)
		plain[i] = (unsigned char)text[i] < 0x80 ? text[i] : '?';
	string = json_string(plain);
	free(plain);
	return string;
}

/* A text that grows. The library passes over one of its own failures and goes on
 * behind the gap, so a failure here stays one. */
struct growing {
	char *bytes;
	size_t size, capacity;
	bool failed;
};

static int grow(const char *bytes, size_t size, void *context)
{
	struct growing *text = context;
	char *grown = text->failed ? NULL
				   : mem_grow(text->bytes, &text->capacity, text->size + size, 1);

	if (!grown) {
		text->failed = true;
		return -1;
	}
	text->bytes = grown;
	memcpy(text->bytes + text->size, bytes, size);
	text->size += size;
	return 0;
}

json_t *json_appended(json_t *array, json_t *value)
{
	if (!array)
		json_decref(value);
	else if (json_array_append_new(array, value) != 0) {
		json_decref(array);
		array = NULL;
	}
	return array;
}

enum fault json_to_text(char **text, json_t *root, struct fault_list *faults)
{
	struct growing whole = { 0 };
	int failed = !root || json_dump_callback(root, grow, &whole,
						 JSON_INDENT(1) | JSON_REAL_PRECISION(DIGITS));

	json_decref(root);
	*text = NULL;
	if (failed || whole.failed || grow("\n", 2, &whole) != 0) {
		free(whole.bytes);
		return fault_no_memory(faults, "a JSON document");
	}
	*text = whole.bytes;
	return FAULT_NONE;
}
