/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether wood is cut the way the job asks: climb, conventional, down the slope
 * of the grain. */
#ifndef NECKHEW_PROOF_DIRECTIONS_H
#define NECKHEW_PROOF_DIRECTIONS_H

#include "job/job.h"
#include "proof/verdict.h"

struct directions {
	const struct job *job;
	struct stretches stretches;
	double rise_mm, against_mm; /* of the moves since the last that went well */
};

/* A move that has just been made, neck coordinates. */
struct directed_move {
	struct vec3 from, to;
	double taken_mm; /* deepest it took from any column */
	double left_mm3, right_mm3; /* taken on either side of the way */
	double ramp_rad; /* the cutter's */
	int program, block;
};

void directions_start(struct directions *directions, const struct job *job,
		      const struct stretches *stretches);

/* A rapid or another kind of move came in between. */
void directions_leave(struct directions *directions);

/* Judges PROMISE_DIRECTION. Only moves that take wood count, and only those
 * along the lines of their stretch of the neck: lengthwise ones that go at least
 * as far along as across, crosswise ones of constant x. Sinking to and fro into
 * the wood is a ramp, whichever way it goes.
 *
 * Downhill: no such move rises more steeply than a fifth over CUT_STEEP_SLOPE,
 * or widens so when it keeps its height (contour lines), for more than
 * DIRECTION_RISE_MM on end. One way: none goes against it for more than
 * DIRECTION_AGAINST_MM on end, DIRECTION_ACROSS_MM across; where the stretch is
 * also cut downhill, level parts of a slope go with the slope, up to
 * DIRECTION_LEVEL_MM. For lengthwise lines the wood is taken to stand toward the
 * centre line; a crosswise move goes against the way when it takes
 * DIRECTION_WRONG_SHARE of its wood and more from the wrong side, and more there
 * than scraps of DIRECTION_SCRAP_MM2 in section. */
void directions_judge(struct directions *directions, struct verdict *verdict,
		      const struct directed_move *move);

#define DIRECTION_RISE_MM 0.5
#define DIRECTION_AGAINST_MM 5.0
#define DIRECTION_LEVEL_MM 20.0
#define DIRECTION_ACROSS_MM 12.0
#define DIRECTION_WRONG_SHARE 0.75
#define DIRECTION_SCRAP_MM2 0.4

#endif
