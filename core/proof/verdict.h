/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the proof answers: one entry for each promise, with the worst figure
 * met, the limit it was held against and the first block that broke it. */
#ifndef NECKHEW_PROOF_VERDICT_H
#define NECKHEW_PROOF_VERDICT_H

#include <stdbool.h>

enum promise {
	PROMISE_FORM, /* the text obeys the permitted RS-274 form */
	PROMISE_START, /* spindle on before cutting, position known before motion, safe end */
	PROMISE_ALLOWANCE, /* ball clear of finished surface plus allowance */
	PROMISE_RAPID, /* no rapid touches wood */
	PROMISE_BITE, /* no bite deeper than the cutter's limit */
	PROMISE_SHANK, /* shank clear of wood */
	PROMISE_HOLDER, /* holder clear of wood and neck */
	/* bed, riser, clamps, screws, rails, glued fretboard, joint untouched */
	PROMISE_KEEP_OUT,
	PROMISE_TRAVEL, /* the program's extent fits the machine */
	PROMISE_FEED, /* every axis within its feed limit */
	PROMISE_PLUNGE, /* steep descents into wood no faster than the plunge feed */
	PROMISE_SPINDLE, /* spindle speed within range */
	PROMISE_CHANNEL, /* wood over the truss-rod channel */
	PROMISE_STOCK, /* hand-finish stock left on every column */
	PROMISE_LOOSE, /* no piece cut loose */
	PROMISE_DIRECTION, /* lines cut one way and down the slope where the job asks */
	PROMISE_COUNT
};

struct promise_result {
	bool judged; /* false: an earlier failure made judging pointless */
	bool kept;
	double worst; /* the figure nearest to breaking the promise, or worst beyond */
	double limit; /* what it was held against */
	int program; /* index of the program of the first failing block */
	int block; /* 1-based line of the first failing block; 0 when no block is to blame */
	char why[160]; /* one sentence when broken, "" when kept */
};

struct verdict {
	bool proven; /* every promise judged and kept */
	struct promise_result promise[PROMISE_COUNT];
	/* Least distance of any part of the tool from a glued fretboard, mm;
	 * INFINITY without one, or when the tool passes it only far above. */
	double fretboard_mm;
};

struct promise_text {
	const char *key; /* stable, for job.json */
	const char *sentence; /* for people */
	const char *unit; /* of worst and limit, "" when none */
	bool worst_is_least; /* the smaller the figure the nearer to breaking */
};

/* Never NULL for a valid promise. */
const struct promise_text *promise_text(enum promise promise);

/* Building a verdict. Start empties it; judged says that a promise was looked
 * at and against which limit; figure offers a figure and keeps the worst; break
 * records the first failure with its block and a sentence; close sums up. Where
 * the limit is the cutter's own, figure_against keeps the figure nearest to its
 * limit together with that limit. */
void verdict_start(struct verdict *verdict);
void verdict_judged(struct verdict *verdict, enum promise promise, double limit);
void verdict_figure(struct verdict *verdict, enum promise promise, double figure);
void verdict_figure_against(struct verdict *verdict, enum promise promise, double figure,
			    double limit);
void verdict_break(struct verdict *verdict, enum promise promise, int program, int block,
		   const char *format, ...) __attribute__((format(printf, 5, 6)));
void verdict_close(struct verdict *verdict);

/* The broken promise with the earliest failing block (those without a block
 * last), or -1 when none is broken. */
int verdict_first_broken(const struct verdict *verdict);

#endif
