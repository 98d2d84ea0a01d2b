/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "program/write.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "program/comment.h"
#include "program/number.h"

/* The longest line is a G1 with three axes and a feed: 66 characters with
 * values of at most 10^6 and 6 decimals. */
#define LINE_SIZE 81
#define DECIMALS_MOST 6
#define VALUE_MOST 1e6

/* Comment lines before the first command, whatever `head` holds. */
#define HEAD_LINES_MOST 120

/* 0.1 mm/min and 0.001 in/min (0.025 mm/min). */
#define FEED_DECIMALS_MM 1
#define FEED_DECIMALS_INCH 3
#define DWELL_DECIMALS 3

struct writer {
	struct program_text *out;
	const struct program_head *head; /* or NULL */
	const struct machine *machine;
	struct fault_list *faults;
	int lines; /* written so far */
	unsigned known; /* axes whose place has been written */
	long long at[AXIS_COUNT]; /* in last decimals of the program unit */
	long long feed; /* in last decimals; 0 before the first F */
	bool ended;
};

struct line {
	char text[LINE_SIZE];
	size_t length;
};

static enum fault put_line(struct writer *writer, const char *text)
{
	struct program_text *out = writer->out;
	const size_t length = strlen(text);
	char *grown = mem_grow(out->bytes, &out->capacity, out->size + length + 2, 1);

	if (!grown)
		return fault_no_memory(writer->faults, "the program text");
	out->bytes = grown;
	memcpy(grown + out->size, text, length);
	out->size += length;
	grown[out->size++] = '\n';
	grown[out->size] = '\0';
	writer->lines++;
	return FAULT_NONE;
}

/* Appends a letter and its number, after a space unless the line is empty. */
static void add_word(struct line *line, char letter, const char *number)
{
	if (line->length > 0)
		line->text[line->length++] = ' ';
	line->text[line->length++] = letter;
	const size_t size = strlen(number);
	memcpy(line->text + line->length, number, size + 1);
	line->length += size;
}

static enum fault unstatable(const struct writer *writer, const char *why)
{
	return fault_add(writer->faults, FAULT_INTERNAL, NULL, 0, NULL,
			 "The move after line %d of the program cannot be written: %s.",
			 writer->lines, why);
}

/* Text with at most lines_most comment lines of it. */
static enum fault put_comment(struct writer *writer, const char *text, size_t lines_most)
{
	char line[COMMENT_LINES_MOST][COMMENT_LINE_SIZE];
	const size_t count = comment_wrap(line, lines_most, text);
	enum fault fault = FAULT_NONE;

	for (size_t i = 0; i < count && !fault; i++)
		fault = put_line(writer, line[i]);
	return fault;
}

static enum fault put_head(struct writer *writer)
{
	const struct program_head *head = writer->head;
	enum fault fault = FAULT_NONE;

	for (size_t i = 0; head && i < head->line_count && !fault; i++) {
		if (writer->lines + COMMENT_LINES_MOST >= HEAD_LINES_MOST)
			return put_comment(writer, "further remarks are left out", 1);
		fault = put_comment(writer, head->line[i], COMMENT_LINES_MOST);
	}
	return fault;
}

/* Every state that a control may have kept from an earlier program, one word
 * a line. Units come first, because within a block F is taken before them
 * (NIST IR 6556, table 8), and G94 before any F for the same reason. */
static enum fault put_preamble(struct writer *writer)
{
	static const char *const state[] = { "G17", "G90", "G94", "G40", "G49", "G54" };
	enum fault fault =
		put_line(writer, writer->machine->program_unit == UNIT_INCH ? "G20" : "G21");

	for (size_t i = 0; i < sizeof state / sizeof *state && !fault; i++)
		fault = put_line(writer, state[i]);
	return fault;
}

static bool scale_length(const struct writer *writer, long long *scaled, double length_mm)
{
	const double length = length_mm / units_mm_per(writer->machine->program_unit);

	return fabs(length) <= VALUE_MOST &&
	       number_scale(scaled, length, writer->machine->decimals);
}

/* Adds words for those known axes that the move changes. */
static enum fault add_axes(struct writer *writer, struct line *line, const struct motion *motion)
{
	const double to_mm[AXIS_COUNT] = { motion->to.x, motion->to.y, motion->to.z };
	char number[NUMBER_TEXT_SIZE];

	for (unsigned axis = AXIS_X; axis < AXIS_COUNT; axis++) {
		const unsigned bit = 1U << axis; /* as in enum motion_known */
		long long place;
		if (!(motion->known & bit))
			continue;
		if (!scale_length(writer, &place, to_mm[axis]))
			return unstatable(writer, "its place is not a number within bounds");
		if ((writer->known & bit) && writer->at[axis] == place)
			continue;
		number_text(number, place, writer->machine->decimals);
		add_word(line, "XYZ"[axis], number);
		writer->known |= bit;
		writer->at[axis] = place;
	}
	return FAULT_NONE;
}

/* In last decimals of the program's feed unit, rounded down; 0 when the feed
 * cannot be stated. */
static long long scale_feed(const struct writer *writer, double feed_mm_per_min)
{
	const enum length_unit unit = writer->machine->program_unit;
	const double feed = feed_mm_per_min / units_mm_per(unit);
	long long scaled = 0;

	if (!(feed > 0.0 && feed <= VALUE_MOST) ||
	    !number_scale_down(&scaled, feed,
			       unit == UNIT_INCH ? FEED_DECIMALS_INCH : FEED_DECIMALS_MM))
		return 0;
	return scaled;
}

static void add_feed(struct writer *writer, struct line *line, long long feed)
{
	char number[NUMBER_TEXT_SIZE];

	if (feed == writer->feed)
		return;
	number_text(number, feed,
		    writer->machine->program_unit == UNIT_INCH ? FEED_DECIMALS_INCH
							       : FEED_DECIMALS_MM);
	add_word(line, 'F', number);
	writer->feed = feed;
}

/* G0 or G1 is restated in every block, so that a line can be read alone. A
 * move that rounds to no move is left out; its feed is then due later. */
static enum fault put_move(struct writer *writer, const struct motion *motion)
{
	const bool cut = motion->kind == MOTION_CUT;
	const long long feed = cut ? scale_feed(writer, motion->feed_mm_per_min) : 0;
	struct line line = { .length = 0 };

	if (!(motion->known & KNOWN_ALL))
		return unstatable(writer, "no axis of it is known");
	if (cut && feed <= 0)
		return unstatable(writer, "its feed is not above zero and within bounds");
	add_word(&line, 'G', cut ? "1" : "0");
	const size_t bare = line.length;
	const enum fault fault = add_axes(writer, &line, motion);
	if (fault || line.length == bare)
		return fault;
	if (cut)
		add_feed(writer, &line, feed);
	return put_line(writer, line.text);
}

static enum fault put_spindle_on(struct writer *writer, const struct motion *motion)
{
	char number[NUMBER_TEXT_SIZE];
	struct line line = { .length = 0 };
	long long rpm;

	if (!(motion->spindle_rpm <= VALUE_MOST) || !number_scale(&rpm, motion->spindle_rpm, 0) ||
	    rpm < 1)
		return unstatable(writer, "its spindle speed is not above zero and within bounds");
	number_text(number, rpm, 0);
	add_word(&line, 'S', number);
	add_word(&line, 'M', "3");
	return put_line(writer, line.text);
}

static enum fault put_dwell(struct writer *writer, const struct motion *motion)
{
	char number[NUMBER_TEXT_SIZE];
	struct line line = { .length = 0 };
	long long time;

	if (!(motion->dwell_s >= 0.0 && motion->dwell_s <= VALUE_MOST) ||
	    !number_scale(&time, motion->dwell_s, DWELL_DECIMALS))
		return unstatable(writer, "its time is not a number within bounds");
	number_text_short(number, time, DWELL_DECIMALS);
	add_word(&line, 'G', "4");
	add_word(&line, 'P', number);
	return put_line(writer, line.text);
}

static enum fault put_pass(struct writer *writer, const struct motion *motion)
{
	const struct program_head *head = writer->head;

	if (!head || motion->pass < 0 || (size_t)motion->pass >= head->pass_count)
		return FAULT_NONE; /* a pass without a label is no line of the program */
	if (head->pass_block)
		head->pass_block[motion->pass] = writer->lines + 1;
	return head->pass_label ? put_comment(writer, head->pass_label[motion->pass], 1)
				: FAULT_NONE;
}

static enum fault put_motion(struct writer *writer, const struct motion *motion)
{
	if (writer->ended)
		return unstatable(writer, "the program has already ended");
	switch (motion->kind) {
	case MOTION_RAPID:
	case MOTION_CUT:
		return put_move(writer, motion);
	case MOTION_SPINDLE_ON:
		return put_spindle_on(writer, motion);
	case MOTION_SPINDLE_OFF:
		return put_line(writer, "M5");
	case MOTION_DWELL:
		return put_dwell(writer, motion);
	case MOTION_PASS:
		return put_pass(writer, motion);
	case MOTION_END:
		writer->ended = true;
		return put_line(writer, "M2");
	}
	return unstatable(writer, "its kind is unknown");
}

static enum fault put_program(struct writer *writer, const struct motion_list *motions)
{
	if (writer->machine->decimals < 0 || writer->machine->decimals > DECIMALS_MOST)
		return unstatable(writer, "the machine's decimals are out of range");
	enum fault fault = put_head(writer);
	if (!fault)
		fault = put_preamble(writer);
	for (size_t i = 0; i < motions->count && !fault; i++)
		fault = put_motion(writer, &motions->item[i]);
	if (!fault && !writer->ended)
		return unstatable(writer, "the program has no end");
	return fault;
}

enum fault program_write(struct program_text *out, const struct motion_list *motions,
			 const struct program_head *head, const struct machine *machine,
			 struct fault_list *faults)
{
	struct writer writer = { .out = out, .head = head, .machine = machine, .faults = faults };

	out->size = 0;
	const enum fault fault = put_program(&writer, motions);
	if (fault)
		program_text_free(out);
	return fault;
}

void program_text_free(struct program_text *text)
{
	if (!text)
		return;
	free(text->bytes);
	*text = (struct program_text){ 0 };
}
