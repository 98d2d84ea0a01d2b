/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config/describe.h"

#include <math.h>
#include <stdio.h>

/* Limits are shown in steps of this size or larger. */
#define LIMIT_STEP 1e-5

double describe_scale(const struct setting *row, enum length_unit unit)
{
	switch (row->kind) {
	case KIND_LENGTH:
	case KIND_FEED:
	case KIND_ACCELERATION:
	case KIND_POINTS:
		return units_mm_per(unit);
	default:
		return 1.0;
	}
}

void describe_unit(char *to, size_t size, const struct setting *row, enum length_unit unit)
{
	const char *words = unit == UNIT_INCH ? "in" : "mm", *per = "";

	switch (row->kind) {
	case KIND_LENGTH:
	case KIND_POINTS:
		break;
	case KIND_FEED:
		per = " per minute";
		break;
	case KIND_ACCELERATION:
		per = " per second squared";
		break;
	case KIND_ANGLE:
		words = "degrees";
		break;
	case KIND_NUMBER:
		words = row->unit;
		break;
	default:
		words = "";
		break;
	}
	(void)snprintf(to, size, "%s%s", words, per);
}

/* "5" or "0.19686" for a limit, rounded by `inward` (ceil or floor). */
static void limit_text(char *to, size_t size, double value, double scale, double (*inward)(double))
{
	double shown = value;

	if (scale != 1.0)
		shown = inward(value / scale / LIMIT_STEP) * LIMIT_STEP;
	(void)snprintf(to, size, "%.10g", shown);
}

static void allowed_numbers(char *to, size_t size, const struct setting *row, enum length_unit unit)
{
	static const char *const one[] = { [KIND_LENGTH] = "a length",
					   [KIND_FEED] = "a feed",
					   [KIND_ACCELERATION] = "an acceleration",
					   [KIND_ANGLE] = "an angle",
					   [KIND_NUMBER] = "a number",
					   [KIND_COUNT] = "a whole number",
					   [KIND_FRET] = "\"nut\" or a fret number" };
	double scale = describe_scale(row, unit);
	const char *what = one[row->kind];
	char least[32], most[32], words[32];

	limit_text(least, sizeof least, row->least, scale, ceil);
	limit_text(most, sizeof most, row->most, scale, floor);
	describe_unit(words, sizeof words, row, unit);
	if (row->values == 3)
		what = "(x, y, z), each";
	else if (row->kind == KIND_FRET && row->least > 0.0)
		what = "a fret number";
	(void)snprintf(to, size, "%s from %s to %s%s%s", what, least, most, words[0] ? " " : "",
		       words);
}

/* The choices in `mask`, in quotes. */
static void some_choices(char *to, size_t size, const struct setting *row, unsigned mask)
{
	size_t used = 0, last = 0;

	to[0] = '\0';
	for (size_t i = 0; row->choices[i]; i++)
		last = mask & SETTING_VARIANT(i) ? i : last;
	for (size_t i = 0; row->choices[i]; i++) {
		if (!(mask & SETTING_VARIANT(i)))
			continue;
		const char *between = used == 0 ? "" : i < last ? ", " : " or ";
		int more = snprintf(to + used, size - used, "%s\"%s\"", between, row->choices[i]);
		if (more < 0 || (size_t)more >= size - used)
			return;
		used += (size_t)more;
	}
}

static void allowed_choices(char *to, size_t size, const struct setting *row)
{
	some_choices(to, size, row, ~0U);
}

void describe_variants(char *to, size_t size, const struct setting *row,
		       const struct setting_set *set)
{
	some_choices(to, size, &set->row[0], row->variants);
}

void describe_allowed(char *to, size_t size, const struct setting *row, enum length_unit unit)
{
	switch (row->kind) {
	case KIND_TEXT:
		(void)snprintf(to, size, "a text in quotes of at most %zu bytes", row->size - 1);
		break;
	case KIND_CHOICE:
		allowed_choices(to, size, row);
		break;
	case KIND_FLAG:
		(void)snprintf(to, size, "true or false");
		break;
	case KIND_POINTS:
		(void)snprintf(
			to, size,
			"a list ((x, value), ...) of %.0f to %.0f points, in %s, or the name of a "
			"CSV file of them",
			row->least, row->most, unit == UNIT_INCH ? "in" : "mm");
		break;
	case KIND_SHARES:
		(void)snprintf(to, size, "a list ((height, breadth), ...) of %.0f to %.0f pairs",
			       row->least, row->most);
		break;
	case KIND_GROUP:
		(void)snprintf(to, size, "a group { ... }");
		break;
	case KIND_LIST:
		(void)snprintf(to, size, "a list ({ ... }, { ... }) of %.0f to %.0f groups",
			       row->least, row->most);
		break;
	default:
		allowed_numbers(to, size, row, unit);
		break;
	}
}

void describe_figure(char *to, size_t size, const struct setting *row, enum length_unit unit,
		     double value)
{
	char words[32];

	describe_unit(words, sizeof words, row, unit);
	(void)snprintf(to, size, "%.8g%s%s", value / describe_scale(row, unit), words[0] ? " " : "",
		       words);
}

void describe_usual(char *to, size_t size, const struct setting *row, enum length_unit unit)
{
	if (row->usual_text)
		(void)snprintf(to, size, "%s", row->usual_text);
	else if (row->need == NEED_GIVEN)
		(void)snprintf(to, size, "must be given");
	else if (row->need == NEED_NOTHING)
		(void)snprintf(to, size, "none");
	else if (row->kind == KIND_GROUP)
		(void)snprintf(to, size, "the defaults of its settings");
	else if (row->kind == KIND_CHOICE)
		(void)snprintf(to, size, "\"%s\"", row->choices[(int)row->usual]);
	else if (row->kind == KIND_FLAG)
		(void)snprintf(to, size, "%s", row->usual != 0.0 ? "true" : "false");
	else
		describe_figure(to, size, row, unit, row->usual);
}
