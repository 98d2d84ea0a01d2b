/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/why_words.h"

#include <ctype.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "model/stretch.h"

#define NUMBER_ROOM 24
/* Room is kept for how the list ends. */
#define LIST_END_ROOM 16

/* Appends; what does not fit is cut off. */
static void add(char *out, size_t room, const char *format, ...)
	__attribute__((format(printf, 3, 4)));

static void add(char *out, size_t room, const char *format, ...)
{
	size_t length = strlen(out);
	va_list args;

	va_start(args, format);
	(void)vsnprintf(out + length, room - length, format, args);
	va_end(args);
}

/* Hundredths of a mm without trailing zeros, with a point in any locale. */
static const char *number(char *out, double value)
{
	(void)snprintf(out, NUMBER_ROOM, "%.2f", value);
	char *point = strpbrk(out, ".,");
	size_t end = strlen(out);

	if (!point)
		return out;
	*point = '.';
	while (out[end - 1] == '0')
		out[--end] = '\0';
	if (out[end - 1] == '.')
		out[end - 1] = '\0';
	return out;
}

const char *why_lines(const struct pass_why *why)
{
	if (why->lengthwise && why->crosswise)
		return "lengthwise and crosswise";
	return why->crosswise ? "crosswise" : why->lengthwise ? "lengthwise" : "";
}

/* Joins words as a list: "a", "a and b", "a, b and c". */
static void add_list(char *out, const char *const *word, size_t count)
{
	for (size_t i = 0; i < count; i++)
		add(out, WHY_ROOM, "%s%s", i == 0 ? "" : (i + 1 < count ? ", " : " and "), word[i]);
}

static void add_ways(char *out, const struct pass_why *why)
{
	static const char *const names[] = { "both ways", "climb", "conventional" };
	const char *word[3];
	size_t count = 0;

	for (int way = CUT_BOTH_WAYS; way <= CUT_CONVENTIONAL; way++)
		if (why->ways & 1U << way)
			word[count++] = names[way];
	if (count == 0)
		return;
	add(out, WHY_ROOM, " ");
	add_list(out, word, count);
}

/* Where lines run down a slope, and why. */
static void add_downhill(char *out, const struct pass_why *why, enum pass_kind kind)
{
	static const char *const names[STRETCH_COUNT] = { "peghead", "shaft", "nose", "heel" };
	const char *word[STRETCH_COUNT];
	size_t count = 0;

	for (int i = 0; i < STRETCH_COUNT; i++)
		if (why->downhill & 1U << i)
			word[count++] = names[i];
	if (count == 0)
		return;
	add(out, WHY_ROOM, kind == PASS_CONTOUR ? ", from wide to narrow at " : ", downhill at ");
	add_list(out, word, count);
	add(out, WHY_ROOM, " where fibres run out");
}

static void add_order(char *out, const struct pass_why *why)
{
	if (why->lengthwise)
		add(out, WHY_ROOM, ", outside in");
	if (why->crosswise)
		add(out, WHY_ROOM, "%s from the %s on", why->lengthwise ? " and" : ",",
		    why->from_peghead ? "peghead" : "body");
	add(out, WHY_ROOM, " so that the waste stays held");
}

static void add_step(char *out, const struct pass_why *why)
{
	static const char *const caps[] = {
		[STEP_UNKNOWN] = "",
		[STEP_BY_CUTTER] = ", the cutter's stepover limit",
		[STEP_BY_BALL] = ", as far as this ball leaves no tall ridges",
		[STEP_BY_DEPTH] = ", so that ridges and a bite keep the depth limit",
		[STEP_BY_SCALLOP] = " keep ridges under",
	};
	char text[NUMBER_ROOM];

	add(out, WHY_ROOM, "; %s mm apart%s", number(text, why->stepover_mm), caps[why->step_cap]);
	if (why->step_cap == STEP_BY_SCALLOP)
		add(out, WHY_ROOM, " %s mm", number(text, why->scallop_limit_mm));
}

static void add_depth(char *out, const struct pass_why *why)
{
	char text[NUMBER_ROOM];

	switch (why->level_cap) {
	case LEVEL_BY_DEPTH:
		add(out, WHY_ROOM,
		    "; %s mm deep, what the cutter's depth limit leaves beside ridges",
		    number(text, why->drop_mm));
		break;
	case LEVEL_BY_SKIN:
		add(out, WHY_ROOM, "; no deeper, so that no thin skin is left to the next");
		break;
	case LEVEL_BY_FLOOR:
		add(out, WHY_ROOM, "; down to the lowest the ball may or need go");
		break;
	case LEVEL_BY_SURFACE:
		break;
	}
}

void why_words(char *out, const struct pass_figures *pass)
{
	const struct pass_why *why = &pass->why;

	out[0] = '\0';
	if (why->step_cap == STEP_UNKNOWN)
		return;
	add(out, WHY_ROOM, "%s", pass_kind_name(pass->kind));
	out[0] = (char)toupper((unsigned char)out[0]);
	if (pass->kind == PASS_CONTOUR)
		add(out, WHY_ROOM, " on sides steeper than 45 degrees,");
	else
		add(out, WHY_ROOM, ", %s", why_lines(why));
	add_ways(out, why);
	add_downhill(out, why, pass->kind);
	if (pass->kind == PASS_LEVEL)
		add_order(out, why);
	add_step(out, why);
	if (pass->kind == PASS_LEVEL)
		add_depth(out, why);
	if (why->leftovers)
		add(out, WHY_ROOM, "; only where the cutter before left more than ridges");
	add(out, WHY_ROOM, ".");
}

static bool same_words(const struct program_figures *program, size_t a, size_t b)
{
	char one[WHY_ROOM], other[WHY_ROOM];

	why_words(one, &program->pass[a]);
	why_words(other, &program->pass[b]);
	return strcmp(one, other) == 0;
}

bool why_is_new(const struct program_figures *program, size_t i)
{
	for (size_t k = 0; k < i; k++)
		if (same_words(program, k, i))
			return false;
	return true;
}

void why_passes(char *out, const struct program_figures *program, size_t i, size_t first)
{
	out[0] = '\0';
	for (size_t k = i, last; k < program->pass_count; k = last + 1) {
		last = k;
		if (!same_words(program, k, i))
			continue;
		while (last + 1 < program->pass_count && same_words(program, last + 1, i))
			last++;
		if (strlen(out) + NUMBER_ROOM + LIST_END_ROOM > WHY_PASSES_ROOM) {
			add(out, WHY_PASSES_ROOM, " and more");
			return;
		}
		add(out, WHY_PASSES_ROOM, "%s%zu", k > i ? ", " : "", first + k);
		if (last > k)
			add(out, WHY_PASSES_ROOM, "%s%zu", last > k + 1 ? " to " : ", ",
			    first + last);
	}
}
