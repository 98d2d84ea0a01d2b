/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/pass_words.h"

#include <ctype.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#define NUMBER_ROOM 32

/* With a point in any locale; a figure too large for a sentence by its power. */
static const char *number(char *out, double value, int decimals)
{
	if (!isfinite(value))
		return "-";
	(void)snprintf(out, NUMBER_ROOM, fabs(value) < 1e7 ? "%.*f" : "%.*e", decimals, value);
	char *comma = strchr(out, ',');
	if (comma)
		*comma = '.';
	return out;
}

void pass_words_figures(char *out, const char *low, double low_mm, double bite_mm,
			double volume_cm3, double minutes)
{
	char text[4][NUMBER_ROOM];

	(void)snprintf(out, PASS_FIGURES_ROOM,
		       "%s %s mm, deepest bite %s mm, %s cm3 of wood, %s min.", low,
		       number(text[0], low_mm, 2), number(text[1], bite_mm, 2),
		       number(text[2], volume_cm3, 2), number(text[3], minutes, 1));
}

/* Room is kept for how the list ends. */
#define LIST_END_ROOM 128

static void add(char *out, const char *text)
{
	(void)strncat(out, text, PASS_LIST_ROOM - strlen(out) - 1);
}

static enum pass_kind kind_of(const struct job_result *result, size_t number)
{
	size_t i = 0;

	while (number >= result->program[i].pass_count)
		number -= result->program[i++].pass_count;
	return result->program[i].pass[number].kind;
}

/* The last pass, from 0, of the stretch of one kind that begins at `first`. */
static size_t stretch_end(const struct job_result *result, size_t count, size_t first)
{
	size_t last = first;

	while (last + 1 < count && kind_of(result, last + 1) == kind_of(result, first))
		last++;
	return last;
}

static void add_kind(char *out, const struct job_result *result, size_t count, enum pass_kind kind)
{
	char text[3 * NUMBER_ROOM], name[NUMBER_ROOM];
	bool any = false;

	(void)snprintf(name, sizeof name, "%s", pass_kind_name(kind));
	name[0] = (char)toupper((unsigned char)name[0]);
	for (size_t first = 0, last; first < count; first = last + 1) {
		last = stretch_end(result, count, first);
		if (kind_of(result, first) != kind)
			continue;
		if (strlen(out) + LIST_END_ROOM > PASS_LIST_ROOM) {
			add(out, " and more");
			break;
		}
		if (last > first)
			(void)snprintf(text, sizeof text, "%zu%s%zu", first + 1,
				       last > first + 1 ? " to " : ", ", last + 1);
		else
			(void)snprintf(text, sizeof text, "%zu", first + 1);
		if (!any) {
			add(out, name);
			add(out, ": ");
		}
		add(out, any ? ", " : "");
		add(out, text);
		any = true;
	}
	add(out, any ? ". " : "");
}

void pass_words_list(char *out, const struct job_result *result)
{
	size_t count = 0;

	out[0] = '\0';
	for (size_t i = 0; i < result->program_count; i++)
		count += result->program[i].pass_count;
	for (int kind = PASS_LEVEL; kind <= PASS_SURFACE; kind++)
		add_kind(out, result, count, (enum pass_kind)kind);
	add(out, "One of them is shown by --pass N.");
}
