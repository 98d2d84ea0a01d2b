/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "program/write.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "program/comment.h"
#include "program/number.h"
#include "program/write_private.h"

#define DECIMALS_MOST 6

/* Comment lines before the first command, whatever `head` holds. */
#define HEAD_LINES_MOST 120

#define DWELL_DECIMALS 3

/* A feed may pass the largest by this share: its conversion from inches. */
#define FEED_GRAIN 1e-9

#define SPEED_LINE_SIZE 64

/* Comment lines before a stop: all of the sentence on the shortest line. */
#define STOP_LINES 2

enum fault write_unstatable(const struct writer *writer, const char *why)
{
	return fault_add(writer->faults, FAULT_INTERNAL, NULL, 0, NULL,
			 "The move after line %d of the program cannot be written: %s.",
			 writer->lines.count, why);
}

enum fault write_word(struct writer *writer, const char *word)
{
	const char number[] = { word[1], word[2], '\0' };
	struct write_line line = { .length = 0 };

	write_line_word(&line, word[0], number);
	return write_lines_block(&writer->lines, &line);
}

/* Text with at most lines_most comment lines of it. */
static enum fault put_comment(struct writer *writer, const char *text, size_t lines_most)
{
	const struct abilities *reads = &writer->machine->reads;
	char line[COMMENT_LINES_MOST][COMMENT_LINE_SIZE];
	const size_t count =
		comment_wrap(line, lines_most, text, reads->comments, reads->longest_line);
	enum fault fault = FAULT_NONE;

	for (size_t i = 0; i < count && !fault; i++)
		fault = write_lines_bare(&writer->lines, line[i]);
	return fault;
}

static enum fault put_head(struct writer *writer)
{
	const struct program_head *head = writer->head;
	enum fault fault = FAULT_NONE;

	for (size_t i = 0; head && i < head->line_count && !fault; i++) {
		if (writer->lines.count + COMMENT_LINES_MOST >= HEAD_LINES_MOST)
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
		write_word(writer, writer->machine->program_unit == UNIT_INCH ? "G20" : "G21");

	for (size_t i = 0; i < sizeof state / sizeof *state && !fault; i++)
		fault = write_word(writer, state[i]);
	return fault;
}

bool write_scale_length(const struct writer *writer, long long *scaled, double length_mm)
{
	const double length = length_mm / units_mm_per(writer->machine->program_unit);

	return fabs(length) <= VALUE_MOST &&
	       number_scale(scaled, length, writer->machine->decimals);
}

void write_add_place(const struct writer *writer, struct write_line *line, char letter,
		     long long place)
{
	char number[NUMBER_TEXT_SIZE];

	number_text(number, place, writer->machine->decimals);
	write_line_word(line, letter, number);
}

/* Adds words for those known axes that the move changes. */
static enum fault add_axes(struct writer *writer, struct write_line *line,
			   const struct motion *motion)
{
	const double to_mm[AXIS_COUNT] = { motion->to.x, motion->to.y, motion->to.z };

	for (unsigned axis = AXIS_X; axis < AXIS_COUNT; axis++) {
		const unsigned bit = 1U << axis; /* as in enum motion_known */
		long long place;
		if (!(motion->known & bit))
			continue;
		if (!write_scale_length(writer, &place, to_mm[axis]))
			return write_unstatable(writer, "its place is not a number within bounds");
		if ((writer->known & bit) && writer->at[axis] == place)
			continue;
		write_add_place(writer, line, "XYZ"[axis], place);
		writer->known |= bit;
		writer->at[axis] = place;
	}
	return FAULT_NONE;
}

long long write_scale_feed(const struct writer *writer, double feed_mm_per_min)
{
	const double feed = feed_mm_per_min / units_mm_per(writer->machine->program_unit);
	const double most_mm = writer->machine->reads.largest_feed_mm_per_min;
	long long scaled = 0;

	if (!(feed > 0.0 && feed <= VALUE_MOST) ||
	    (most_mm > 0.0 && feed_mm_per_min > most_mm * (1.0 + FEED_GRAIN)) ||
	    !number_scale_down(&scaled, feed, machine_feed_decimals(writer->machine)))
		return 0;
	return scaled;
}

enum fault write_feed_is_bad(const struct writer *writer)
{
	return write_unstatable(writer, "its feed is not above zero and within bounds");
}

enum fault write_with_feed(struct writer *writer, struct write_line *line, long long feed)
{
	char number[NUMBER_TEXT_SIZE];
	struct write_line alone = { .length = 0 };
	enum fault fault = FAULT_NONE;

	if (feed == writer->feed)
		return write_lines_block(&writer->lines, line);
	const size_t size = number_text(number, feed, machine_feed_decimals(writer->machine));
	writer->feed = feed;
	if (write_line_fits(&writer->lines, line, size + 2)) {
		write_line_word(line, 'F', number);
	} else {
		write_line_word(&alone, 'F', number);
		fault = write_lines_block(&writer->lines, &alone);
	}
	return fault ? fault : write_lines_block(&writer->lines, line);
}

/* G0 or G1 is restated in every block, so that a line can be read alone. A
 * move that rounds to no move is left out; its feed is then due later. */
static enum fault put_move(struct writer *writer, const struct motion *motion)
{
	const bool cut = motion->kind == MOTION_CUT;
	const long long feed = cut ? write_scale_feed(writer, motion->feed_mm_per_min) : 0;
	struct write_line line = { .length = 0 };

	if (!(motion->known & KNOWN_ALL))
		return write_unstatable(writer, "no axis of it is known");
	if (cut && feed <= 0)
		return write_feed_is_bad(writer);
	write_line_word(&line, 'G', cut ? "1" : "0");
	const size_t bare = line.length;
	const enum fault fault = add_axes(writer, &line, motion);
	if (fault || line.length == bare)
		return fault;
	return cut ? write_with_feed(writer, &line, feed)
		   : write_lines_block(&writer->lines, &line);
}

/* The operator is told what to do and the program waits. */
static enum fault put_stop(struct writer *writer, const char *what)
{
	const enum fault fault = put_comment(writer, what, STOP_LINES);

	return fault ? fault : write_word(writer, "M0");
}

static enum fault put_spindle_on(struct writer *writer, const struct motion *motion)
{
	char number[NUMBER_TEXT_SIZE], what[SPEED_LINE_SIZE];
	struct write_line line = { .length = 0 };
	long long rpm;

	if (!(motion->spindle_rpm <= VALUE_MOST) || !number_scale(&rpm, motion->spindle_rpm, 0) ||
	    rpm < 1)
		return write_unstatable(writer,
					"its spindle speed is not above zero and within bounds");
	number_text(number, rpm, 0);
	if (writer->machine->reads.spindle == SPINDLE_BY_HAND) {
		(void)snprintf(what, sizeof what, "switch the spindle on, %s rpm", number);
		return put_stop(writer, what);
	}
	write_line_word(&line, 'S', number);
	write_line_word(&line, 'M', "3");
	return write_lines_block(&writer->lines, &line);
}

static enum fault put_spindle_off(struct writer *writer)
{
	if (writer->machine->reads.spindle == SPINDLE_BY_HAND)
		return put_stop(writer, "switch the spindle off");
	return write_word(writer, "M5");
}

static enum fault put_dwell(struct writer *writer, const struct motion *motion)
{
	char number[NUMBER_TEXT_SIZE];
	struct write_line line = { .length = 0 };
	long long time;

	if (!(motion->dwell_s >= 0.0 && motion->dwell_s <= VALUE_MOST) ||
	    !number_scale(&time, motion->dwell_s, DWELL_DECIMALS))
		return write_unstatable(writer, "its time is not a number within bounds");
	number_text_short(number, time, DWELL_DECIMALS);
	write_line_word(&line, 'G', "4");
	write_line_word(&line, 'P', number);
	return write_lines_block(&writer->lines, &line);
}

static enum fault put_pass(struct writer *writer, const struct motion *motion)
{
	const struct program_head *head = writer->head;

	if (!head || motion->pass < 0 || (size_t)motion->pass >= head->pass_count)
		return FAULT_NONE; /* a pass without a label is no line of the program */
	if (head->pass_block)
		head->pass_block[motion->pass] = writer->lines.count + 1;
	return head->pass_label ? put_comment(writer, head->pass_label[motion->pass], 1)
				: FAULT_NONE;
}

static enum fault put_motion(struct writer *writer, const struct motion *motion)
{
	if (writer->ended)
		return write_unstatable(writer, "the program has already ended");
	switch (motion->kind) {
	case MOTION_RAPID:
	case MOTION_CUT:
		return put_move(writer, motion);
	case MOTION_SPINDLE_ON:
		return put_spindle_on(writer, motion);
	case MOTION_SPINDLE_OFF:
		return put_spindle_off(writer);
	case MOTION_DWELL:
		return put_dwell(writer, motion);
	case MOTION_PASS:
		return put_pass(writer, motion);
	case MOTION_END:
		writer->ended = true;
		return write_word(writer, "M2");
	case MOTION_STOP: /* the writer makes stops of what the spindle does */
		break;
	}
	return write_unstatable(writer, "its kind is none that is written");
}

/* Everything from the first item on; an arc stands for several of them. */
static enum fault put_motions(struct writer *writer, const struct motion_list *motions)
{
	enum fault fault = FAULT_NONE;

	for (size_t i = 0; i < motions->count && !fault;) {
		const struct motion *motion = &motions->item[i];
		bool arc = false;
		if (motion->kind == MOTION_CUT && motion->arc.moves > 0 &&
		    motion->arc.moves <= motions->count - i)
			fault = write_arc(writer, motion, &arc);
		if (!fault && !arc)
			fault = put_motion(writer, motion);
		i += arc ? motion->arc.moves : 1;
	}
	return fault;
}

static enum fault put_program(struct writer *writer, const struct motion_list *motions)
{
	if (writer->machine->decimals < 0 || writer->machine->decimals > DECIMALS_MOST)
		return write_unstatable(writer, "the machine's decimals are out of range");
	const bool marks = writer->machine->reads.percent_lines;
	enum fault fault = marks ? write_lines_bare(&writer->lines, "%") : FAULT_NONE;
	if (!fault)
		fault = put_head(writer);
	if (!fault)
		fault = put_preamble(writer);
	if (!fault)
		fault = put_motions(writer, motions);
	if (!fault && !writer->ended)
		return write_unstatable(writer, "the program has no end");
	return fault || !marks ? fault : write_lines_bare(&writer->lines, "%");
}

enum fault program_write(struct program_text *out, const struct motion_list *motions,
			 const struct program_head *head, const struct machine *machine,
			 struct fault_list *faults)
{
	struct writer writer = { .lines = { .out = out, .reads = &machine->reads, .faults = faults },
				 .head = head,
				 .machine = machine,
				 .faults = faults };

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
