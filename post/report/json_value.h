/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Values for JSON: rounded to sensible decimals, null for what is unknown,
 * valid text whatever the builder wrote. */
#ifndef NECKHEW_REPORT_JSON_VALUE_H
#define NECKHEW_REPORT_JSON_VALUE_H

#include <jansson.h>

#include "base/fault.h"
#include "base/vec3.h"

/* Decimals kept of each kind of figure: an order finer than anyone measures,
 * so that the last digits of two machines' arithmetic do not show. */
enum {
	JSON_DECIMALS_MM = 4,
	JSON_DECIMALS_IN = 5,
	JSON_DECIMALS_MM2 = 1,
	JSON_DECIMALS_MM3 = 1,
	JSON_DECIMALS_MIN = 3,
	JSON_DECIMALS_FEED = 1,
	JSON_DECIMALS_SHARE = 5,
	JSON_DECIMALS_DEG = 3
};

/* A new number rounded to `decimals` places; null when not finite. Never -0. */
json_t *json_value(double value, int decimals);

/* A length in mm, and the same in inches. */
json_t *json_mm(double length_mm);
json_t *json_inch(double length_mm);

/* [x, y, z] in mm. */
json_t *json_point(struct vec3 point);

/* Appends a new value; on any failure value and array are released. Returns the
 * array or NULL. */
json_t *json_appended(json_t *array, json_t *value);

/* A new string. Bytes that are not valid UTF-8 become '?'. */
json_t *json_text(const char *text);

/* The document as text ending in a line feed, to be freed with free(). Takes
 * `root` over, also on failure; NULL as root means memory ran out while it was
 * made. The same document always gives the same bytes. */
enum fault json_to_text(char **text, json_t *root, struct fault_list *faults);

#endif
