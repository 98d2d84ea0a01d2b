/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "proof/verdict.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

static const struct promise_text texts[PROMISE_COUNT] = {
	[PROMISE_FORM] = { "form", "The text obeys the permitted RS-274 form", "", false },
	[PROMISE_START] = { "start",
			    "Position known before motion, spindle on before cutting, safe end",
			    "mm", true },
	[PROMISE_ALLOWANCE] = { "allowance",
				"The ball keeps the hand-finish stock everywhere on its way", "mm",
				true },
	[PROMISE_RAPID] = { "rapid", "No rapid touches wood", "mm", true },
	[PROMISE_BITE] = { "bite", "No bite is deeper than the cutter's limit", "mm", false },
	[PROMISE_SHANK] = { "shank", "The shank stays clear of wood", "mm", true },
	[PROMISE_HOLDER] = { "holder", "The holder stays clear of wood", "mm", true },
	[PROMISE_KEEP_OUT] = { "keep_out",
			       "Bed, riser, clamps, screws, rails, glued fretboard and joint stay "
			       "untouched",
			       "mm", true },
	[PROMISE_TRAVEL] = { "travel", "The program fits the machine's travel", "mm", true },
	[PROMISE_FEED] = { "feed", "Every axis stays within its feed limit", "share", false },
	[PROMISE_PLUNGE] = { "plunge", "Steep descents into wood keep to the plunge feed", "mm/min",
			     false },
	[PROMISE_SPINDLE] = { "spindle", "The spindle speed is within the machine's range", "rpm",
			      false },
	[PROMISE_CHANNEL] = { "channel", "Enough wood stays over the truss-rod channel", "mm",
			      true },
	[PROMISE_STOCK] = { "stock", "Hand-finish stock is left on every column", "mm", true },
	[PROMISE_LOOSE] = { "loose", "No piece is cut loose", "mm2", false },
	[PROMISE_DIRECTION] = { "direction",
				"Wood is cut the way round and down the slope that the job asks "
				"for",
				"mm", false },
};

const struct promise_text *promise_text(enum promise promise)
{
	return &texts[promise];
}

void verdict_start(struct verdict *verdict)
{
	*verdict = (struct verdict){ .fretboard_mm = INFINITY };
	for (int i = 0; i < PROMISE_COUNT; i++)
		verdict->promise[i].worst = texts[i].worst_is_least ? INFINITY : 0.0;
}

void verdict_judged(struct verdict *verdict, enum promise promise, double limit)
{
	struct promise_result *result = &verdict->promise[promise];

	if (!result->judged)
		result->kept = true;
	result->judged = true;
	result->limit = limit;
}

void verdict_figure(struct verdict *verdict, enum promise promise, double figure)
{
	struct promise_result *result = &verdict->promise[promise];

	if (texts[promise].worst_is_least ? figure < result->worst : figure > result->worst)
		result->worst = figure;
}

void verdict_figure_against(struct verdict *verdict, enum promise promise, double figure,
			    double limit)
{
	struct promise_result *result = &verdict->promise[promise];

	if (result->limit > 0.0 && figure * result->limit <= result->worst * limit)
		return;
	result->worst = figure;
	result->limit = limit;
}

void verdict_break(struct verdict *verdict, enum promise promise, int program, int block,
		   const char *format, ...)
{
	struct promise_result *result = &verdict->promise[promise];

	if (result->judged && !result->kept)
		return; /* the first failing block is the one to name */
	result->judged = true;
	result->kept = false;
	result->program = program;
	result->block = block;
	va_list args;
	va_start(args, format);
	(void)vsnprintf(result->why, sizeof result->why, format, args);
	va_end(args);
}

void verdict_close(struct verdict *verdict)
{
	verdict->proven = true;
	for (int i = 0; i < PROMISE_COUNT; i++)
		if (!verdict->promise[i].judged || !verdict->promise[i].kept)
			verdict->proven = false;
}

int verdict_first_broken(const struct verdict *verdict)
{
	int first = -1;

	for (int i = 0; i < PROMISE_COUNT; i++) {
		const struct promise_result *r = &verdict->promise[i];
		if (!r->judged || r->kept || r->block == 0)
			continue;
		const struct promise_result *best = first < 0 ? r : &verdict->promise[first];
		if (first < 0 || r->program < best->program ||
		    (r->program == best->program && r->block < best->block))
			first = i;
	}
	for (int i = 0; first < 0 && i < PROMISE_COUNT; i++)
		if (verdict->promise[i].judged && !verdict->promise[i].kept)
			first = i;
	return first;
}
