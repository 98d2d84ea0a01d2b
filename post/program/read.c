/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "program/read.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "base/units.h"
#include "program/block.h"
#include "program/lex.h"
#include "program/read_arc.h"

/* A program of this size would run for weeks; line numbers still fit an int. */
#define SIZE_MOST ((size_t)256 << 20)

/* Pieces of all arcs together: more than any neck has, and some memory. */
#define PIECES_MOST 1000000

/* Radii to both ends of an arc may differ by this much, in mm or inches (NIST IR
 * 6556, from memory; tried with its interpreter). */
#define RADII_MM 0.002
#define RADII_INCH 0.0002

/* A feed may pass the largest by this share: its conversion from inches. */
#define FEED_GRAIN 1e-9

#define CODES_ARC (CODE_G2 | CODE_G3)
#define LETTERS_AXES (BLOCK_LETTER('X') | BLOCK_LETTER('Y') | BLOCK_LETTER('Z'))

enum percent { PERCENT_NONE, PERCENT_OPEN, PERCENT_CLOSED };

struct reader {
	struct motion_list *out;
	const struct machine *machine;
	struct fault_list *faults;
	char why[sizeof(((struct read_fault *)NULL)->why)]; /* after FAULT_PROGRAM */
	int block; /* 1-based line at hand */
	bool started; /* a line that is not blank was met */
	enum percent percent;
	unsigned stated; /* enum block_code bits ever given */
	unsigned mode; /* CODE_G0 or CODE_G1; 0 before either, and after an arc */
	enum arc_plane plane;
	size_t pieces; /* of arcs */
	double mm_per_unit; /* 0 before G20 or G21 */
	double feed_mm_per_min; /* 0 before the first F */
	double rpm; /* 0 before the first S */
	bool running; /* the spindle */
	bool moved;
	bool ended;
	struct vec3 at;
	unsigned known; /* enum motion_known bits of `at` */
};

static enum fault refuse(struct reader *reader, const char *format, ...)
	__attribute__((format(printf, 2, 3)));

static enum fault refuse(struct reader *reader, const char *format, ...)
{
	va_list args;

	va_start(args, format);
	(void)vsnprintf(reader->why, sizeof reader->why, format, args);
	va_end(args);
	return FAULT_PROGRAM;
}

static enum fault emit(struct reader *reader, struct motion motion)
{
	motion.pass = -1;
	motion.block = reader->block;
	return motion_list_add(reader->out, &motion, reader->faults);
}

static double value_of(const struct block *block, char letter)
{
	return block->value[letter - 'A'];
}

/* What the machine reads of an F word. */
static enum fault check_feed_format(struct reader *reader, const struct block *block)
{
	const struct abilities *reads = &reader->machine->reads;
	const double most_mm = reads->largest_feed_mm_per_min;
	const int decimals = block->decimals['F' - 'A'];

	if (reads->feed_decimals_stated && decimals > reads->feed_decimals)
		return refuse(reader, "F is refused: it has %d decimals; the machine reads %d.",
			      decimals, reads->feed_decimals);
	if (most_mm > 0.0 && reader->feed_mm_per_min > most_mm * (1.0 + FEED_GRAIN))
		return refuse(reader, "F is refused: the largest feed the machine reads is %.4g.",
			      most_mm / reader->mm_per_unit);
	return FAULT_NONE;
}

/* A feed means nothing before its unit and its mode are stated. G94 on the
 * same line is in time, G20 and G21 on the same line are not. */
static enum fault take_feed(struct reader *reader, const struct block *block)
{
	if (!(block->letters & BLOCK_LETTER('F')))
		return FAULT_NONE;
	if (reader->mm_per_unit <= 0.0)
		return refuse(reader, "F is refused: the units, G20 or G21, take effect after it; "
				      "state them on a line above.");
	if (!((reader->stated | block->codes) & CODE_G94))
		return refuse(reader, "F is refused: the feed mode, G94, is not stated before it.");
	if (value_of(block, 'F') < 0.0)
		return refuse(reader, "F is refused: a feed is not negative.");
	reader->feed_mm_per_min = value_of(block, 'F') * reader->mm_per_unit;
	return check_feed_format(reader, block);
}

static enum fault spindle_on(struct reader *reader)
{
	if (reader->rpm <= 0.0)
		return refuse(reader, "The spindle has no speed: an S word above zero is needed.");
	reader->running = true;
	return emit(reader,
		    (struct motion){ .kind = MOTION_SPINDLE_ON, .spindle_rpm = reader->rpm });
}

static enum fault take_spindle(struct reader *reader, const struct block *block)
{
	const double before = reader->rpm;

	if (block->letters & BLOCK_LETTER('S')) {
		if (value_of(block, 'S') < 0.0)
			return refuse(reader, "S is refused: a spindle speed is not negative.");
		reader->rpm = value_of(block, 'S');
	}
	if (block->codes & CODE_M5) {
		reader->running = false;
		return emit(reader, (struct motion){ .kind = MOTION_SPINDLE_OFF });
	}
	const bool changed = reader->rpm < before || reader->rpm > before;
	if ((block->codes & CODE_M3) || (reader->running && changed))
		return spindle_on(reader);
	return FAULT_NONE;
}

static enum fault take_dwell(struct reader *reader, const struct block *block)
{
	if (!(block->codes & CODE_G4))
		return FAULT_NONE;
	return emit(reader,
		    (struct motion){ .kind = MOTION_DWELL, .dwell_s = value_of(block, 'P') });
}

/* One unit per program, stated before any motion. */
static enum fault take_units(struct reader *reader, const struct block *block)
{
	if (!(block->codes & (CODE_G20 | CODE_G21)))
		return FAULT_NONE;
	const char *name = block->codes & CODE_G20 ? "G20" : "G21";
	const double mm = units_mm_per(block->codes & CODE_G20 ? UNIT_INCH : UNIT_MM);
	if (reader->moved)
		return refuse(reader, "%s is refused: the units are stated before any motion.",
			      name);
	if (reader->mm_per_unit > 0.0 && (mm < reader->mm_per_unit || mm > reader->mm_per_unit))
		return refuse(reader, "%s is refused: a program has one unit.", name);
	reader->mm_per_unit = mm;
	return FAULT_NONE;
}

/* G40, G49 and G54 may be left out, but the first of its kind after motion
 * could shift the ground under the moves that follow. */
static enum fault take_modes(struct reader *reader, const struct block *block)
{
	static const struct {
		unsigned bit;
		const char *name;
	} mode[] = { { CODE_G40, "G40" }, { CODE_G49, "G49" }, { CODE_G54, "G54" } };

	for (size_t i = 0; i < sizeof mode / sizeof *mode; i++)
		if (reader->moved && (block->codes & ~reader->stated & mode[i].bit))
			return refuse(reader, "%s is refused: it is stated before any motion.",
				      mode[i].name);
	reader->stated |= block->codes;
	if (block->codes & CODE_G17)
		reader->plane = PLANE_XY;
	if (block->codes & CODE_G18)
		reader->plane = PLANE_XZ;
	return FAULT_NONE;
}

/* The start state is the machine's own affair, so the text must say it all. */
static enum fault check_ready(struct reader *reader)
{
	if (reader->mm_per_unit <= 0.0)
		return refuse(reader, "Motion is refused: the units, G20 or G21, are not stated.");
	if (!(reader->stated & (CODE_G17 | CODE_G18)))
		return refuse(reader, "Motion is refused: the plane, G17, is not stated.");
	if (!(reader->stated & CODE_G90))
		return refuse(reader,
			      "Motion is refused: absolute distances, G90, are not stated.");
	if (!(reader->stated & CODE_G94))
		return refuse(reader, "Motion is refused: the feed mode, G94, is not stated.");
	if (!reader->mode)
		return refuse(reader, "The axis words are refused: neither G0 nor G1 is active.");
	if (reader->mode != CODE_G0 && reader->feed_mm_per_min <= 0.0)
		return refuse(reader, "%s is refused: no feed above zero is set.",
			      reader->mode == CODE_G1 ? "G1" : "The arc");
	return FAULT_NONE;
}

static void take_axis(struct reader *reader, const struct block *block, char letter, double *place,
		      unsigned bit)
{
	if (!(block->letters & BLOCK_LETTER(letter)))
		return;
	*place = value_of(block, letter) * reader->mm_per_unit;
	reader->known |= bit;
}

/* A control that reads fewer decimals cuts off or rounds the rest. What it makes
 * of those of another unit than its own is not known, and not asked. */
static enum fault check_decimals(struct reader *reader, const struct block *block)
{
	const struct machine *machine = reader->machine;
	const double own = units_mm_per(machine->program_unit);

	if (reader->mm_per_unit < own || reader->mm_per_unit > own)
		return FAULT_NONE;
	for (const char *letter = "XYZIJK"; *letter; letter++)
		if ((block->letters & BLOCK_LETTER(*letter)) &&
		    block->decimals[*letter - 'A'] > machine->decimals)
			return refuse(reader,
				      "%c is refused: it has %d decimals; the machine reads %d.",
				      *letter, block->decimals[*letter - 'A'], machine->decimals);
	return FAULT_NONE;
}

static double offset_of(const struct reader *reader, const struct block *block, char letter)
{
	const bool given = block->letters & BLOCK_LETTER(letter);

	return given ? value_of(block, letter) * reader->mm_per_unit : 0.0;
}

static enum fault emit_pieces(struct reader *reader, const struct arc_pieces *pieces)
{
	enum fault fault = FAULT_NONE;

	for (size_t k = 0; k < pieces->count && !fault; k++)
		fault = emit(reader, (struct motion){ .kind = MOTION_CUT,
						      .to = arc_piece_end(pieces, k),
						      .known = reader->known,
						      .feed_mm_per_min = reader->feed_mm_per_min,
						      .stray_mm = pieces->stray_mm,
						      .lean = pieces->lean });
	return fault;
}

/* After an arc the next move must say what it is: axis words alone would mean
 * another arc, of which the centre is missing. */
static enum fault take_arc(struct reader *reader, const struct block *block, struct vec3 from,
			   unsigned known)
{
	const char wrong = reader->plane == PLANE_XY ? 'K' : 'J';
	const struct read_arc arc = {
		.from = from,
		.to = reader->at,
		.offset = { offset_of(reader, block, 'I'), offset_of(reader, block, 'J'),
			    offset_of(reader, block, 'K') },
		.plane = reader->plane,
		.clockwise = block->codes & CODE_G2,
		.radii_apart_mm = reader->mm_per_unit > 1.0 ? RADII_INCH * MM_PER_INCH : RADII_MM
	};
	struct arc_pieces pieces;

	reader->mode = 0;
	if (block->letters & BLOCK_LETTER(wrong))
		return refuse(reader, "%c is refused: the plane is %s.", wrong,
			      reader->plane == PLANE_XY ? "XY, G17" : "XZ, G18");
	if (known != KNOWN_ALL)
		return refuse(reader, "The arc is refused: where it begins is not known.");
	if (!arc_pieces_make(&pieces, &arc, reader->why, sizeof reader->why))
		return FAULT_PROGRAM;
	reader->pieces += pieces.count;
	if (reader->pieces > PIECES_MOST)
		return refuse(reader, "The arcs of the program are too long to be judged.");
	return emit_pieces(reader, &pieces);
}

static enum fault take_motion(struct reader *reader, const struct block *block)
{
	const struct vec3 from = reader->at;
	const unsigned known = reader->known;

	if (block->codes & (CODE_G0 | CODE_G1 | CODES_ARC))
		reader->mode = block->codes & (CODE_G0 | CODE_G1 | CODES_ARC);
	if (!(block->letters & LETTERS_AXES))
		return FAULT_NONE;
	enum fault fault = check_ready(reader);
	if (!fault)
		fault = check_decimals(reader, block);
	if (fault)
		return fault;
	take_axis(reader, block, 'X', &reader->at.x, KNOWN_X);
	take_axis(reader, block, 'Y', &reader->at.y, KNOWN_Y);
	take_axis(reader, block, 'Z', &reader->at.z, KNOWN_Z);
	reader->moved = true;
	if (reader->mode & CODES_ARC)
		return take_arc(reader, block, from, known);
	const bool cut = reader->mode == CODE_G1;
	return emit(reader,
		    (struct motion){ .kind = cut ? MOTION_CUT : MOTION_RAPID,
				     .to = reader->at,
				     .known = reader->known,
				     .feed_mm_per_min = cut ? reader->feed_mm_per_min : 0.0 });
}

static enum fault take_end(struct reader *reader, const struct block *block)
{
	if (block->codes & CODE_M0)
		return emit(reader, (struct motion){ .kind = MOTION_STOP });
	if (!(block->codes & (CODE_M2 | CODE_M30)))
		return FAULT_NONE;
	reader->ended = true;
	return emit(reader, (struct motion){ .kind = MOTION_END });
}

/* Order of execution within a block: NIST IR 6556, table 8. G94 (row 2) has
 * no step of its own: nothing but F depends on it. */
static enum fault execute(struct reader *reader, const struct block *block)
{
	static enum fault (*const step[])(struct reader *, const struct block *) = {
		take_feed, /* row 3 */
		take_spindle, /* rows 4 and 7 */
		take_dwell, /* row 10 */
		take_units, /* row 12 */
		take_modes, /* rows 11, 13 to 15, 17 */
		take_motion, /* row 20 */
		take_end, /* row 21 */
	};

	for (size_t i = 0; i < sizeof step / sizeof *step; i++) {
		const enum fault fault = step[i](reader, block);
		if (fault)
			return fault;
	}
	return FAULT_NONE;
}

/* True when nothing but spaces and tabs stands on the line. */
static bool all_blank(const char *text, size_t size)
{
	while (size > 0 && (*text == ' ' || *text == '\t')) {
		text++;
		size--;
	}
	return size == 0;
}

static bool is_percent_line(const char *text, size_t size)
{
	while (size > 0 && (*text == ' ' || *text == '\t')) {
		text++;
		size--;
	}
	return size > 0 && *text == '%' && all_blank(text + 1, size - 1);
}

/* What a line means besides its words: the percent marks around a program and
 * the silence after its end. True when the line is thereby dealt with. */
static bool take_frame(struct reader *reader, const char *text, size_t size, enum fault *fault)
{
	const bool first = !reader->started;

	*fault = FAULT_NONE;
	if (all_blank(text, size))
		return true;
	reader->started = true;
	if (first && is_percent_line(text, size)) {
		reader->percent = PERCENT_OPEN;
		if (!reader->machine->reads.percent_lines)
			*fault = refuse(reader, "The %% line is refused: the machine reads none.");
		return true;
	}
	if (first && reader->machine->reads.percent_lines) {
		*fault = refuse(reader, "The program does not begin with a %% line, which the "
					"machine needs.");
		return true;
	}
	if (!reader->ended)
		return false;
	if (reader->percent == PERCENT_OPEN && is_percent_line(text, size))
		reader->percent = PERCENT_CLOSED;
	else
		*fault = refuse(reader, "Something stands after the end of the program.");
	return true;
}

static enum fault read_line(struct reader *reader, const char *text, size_t size)
{
	struct lex_line line;
	struct block block;
	enum fault fault;

	if (take_frame(reader, text, size, &fault))
		return fault;
	if (!lex_line(&line, text, size, &reader->machine->reads, reader->why,
		      sizeof reader->why) ||
	    !block_gather(&block, &line, &reader->machine->reads, reader->why, sizeof reader->why))
		return FAULT_PROGRAM;
	return execute(reader, &block);
}

static enum fault check_end(struct reader *reader)
{
	if (!reader->ended)
		return refuse(reader, "The program has no end: M2 or M30 is missing.");
	if (reader->percent == PERCENT_OPEN)
		return refuse(reader, "The %% line that opens the program has no second one.");
	return FAULT_NONE;
}

static enum fault read_text(struct reader *reader, const char *text, size_t size)
{
	const char *const end = text + size;

	reader->block = 1;
	if (size == 0)
		return refuse(reader, "The file is empty.");
	if (size > SIZE_MOST)
		return refuse(reader, "The file is too large: more than 256 MiB.");
	for (reader->block = 0; text < end;) {
		const char *feed = memchr(text, '\n', (size_t)(end - text));
		const char *stop = feed ? feed : end;
		size_t length = (size_t)(stop - text);
		if (feed && length > 0 && text[length - 1] == '\r')
			length--;
		reader->block++;
		const enum fault fault = read_line(reader, text, length);
		if (fault)
			return fault;
		text = feed ? feed + 1 : end;
	}
	return check_end(reader);
}

enum fault program_read(struct motion_list *out, const char *text, size_t size, const char *name,
			const struct machine *machine, struct read_fault *first,
			struct fault_list *faults)
{
	struct reader reader = { .out = out, .machine = machine, .faults = faults };

	out->count = 0;
	const enum fault fault = read_text(&reader, text, size);
	if (first)
		*first = (struct read_fault){ 0 };
	if (!fault)
		return FAULT_NONE;
	motion_list_free(out);
	if (fault != FAULT_PROGRAM)
		return fault;
	if (first) {
		first->block = reader.block;
		memcpy(first->why, reader.why, sizeof first->why);
	}
	return fault_add(faults, FAULT_PROGRAM, name, reader.block, NULL, "%s", reader.why);
}
