/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "proof/proof.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "base/tol.h"
#include "motion/travel_time.h"
#include "proof/clearance.h"
#include "proof/directions.h"
#include "proof/left.h"
#include "proof/limits.h"
#include "proof/rails.h"
#include "proof/replay.h"
#include "proof/tool_room.h"

/* The certificate's figure is pursued to this grain, mm. */
#define GRAIN_MM 0.001
/* Moves are certified in parallel in batches of this many; the least sample so
 * far is passed on from batch to batch in a fixed order, so that any number of
 * threads gives the same figures. */
#define BATCH 512

/* The certificate's share of a program's proof, for whoever waits: measured,
 * one thread, on the examples. */
#define CERTIFICATE_SHARE 0.55

/* How far certificate and replay are, for whoever waits. */
struct headway {
	const struct watch *watch;
	double from, to; /* shares of the whole at the program's begin and end */
	_Atomic double certified, replayed; /* shares of the program */
};

/* What every move is held against. */
struct judge {
	struct headway headway;
	struct verdict *verdict;
	const struct job *job;
	const struct neck *neck;
	const struct cutter *cutter; /* of the program being judged */
	struct facet_tree tree;
	double least_mm; /* least clearance sample so far */
};

/* Both sides come here from their own threads; only the one that asked for the
 * proof tells. */
static void tell_headway(struct headway *headway)
{
#pragma omp master
	{
		double share = CERTIFICATE_SHARE * headway->certified +
			       (1.0 - CERTIFICATE_SHARE) * headway->replayed;
		watch_tell(headway->watch, headway->from + (headway->to - headway->from) * share);
	}
}

static void note_certified(struct headway *headway, double share)
{
	headway->certified = share;
	tell_headway(headway);
}

static void note_replayed(void *context, double share)
{
	struct headway *headway = context;

	headway->replayed = share;
	tell_headway(headway);
}

static bool is_judged_move(const struct motion_list *list, size_t i)
{
	return i > 0 && motion_moves(&list->item[i]);
}

/* Where the tip stood before motion i: the last move's end; false while any
 * axis is unknown. */
static bool place_before(const struct motion_list *list, size_t i, struct vec3 *from)
{
	while (i > 0) {
		const struct motion *before = &list->item[--i];
		if (!motion_moves(before))
			continue;
		*from = before->to;
		return before->known == KNOWN_ALL;
	}
	return false;
}

static void certify_batch(struct judge *judge, const struct motion_list *list, size_t first,
			  size_t end, struct clearance *out)
{
	struct vec3 zero = judge->job->fixture.work_zero_mm;
	double radius = cutter_radius_mm(judge->cutter), least = judge->least_mm;

#pragma omp parallel for schedule(dynamic, 16)
	for (long k = (long)first; k < (long)end; k++) {
		size_t i = (size_t)k;
		struct vec3 from;
		out[i - first] = (struct clearance){ INFINITY, INFINITY, false };
		if (!is_judged_move(list, i) || !place_before(list, i, &from))
			continue;
		/* a ball as much larger, about the same centre, as the true path
		 * may stray: it holds the true one everywhere */
		double stray = list->item[i].stray_mm;
		struct vec3 tip = vec3_make(zero.x, zero.y, zero.z - stray);
		out[i - first] = clearance_of_move(&judge->tree, judge->neck, vec3_add(from, tip),
						   vec3_add(list->item[i].to, tip), radius + stray,
						   -TOL_PROOF_MM, least, GRAIN_MM);
	}
}

static void note_clearance(struct judge *judge, const struct clearance *c,
			   const struct motion *motion, int program)
{
	judge->least_mm = smaller(judge->least_mm, c->sample_mm);
	verdict_figure(judge->verdict, PROMISE_ALLOWANCE, smaller(c->bound_mm, c->sample_mm));
	if (c->inside)
		verdict_break(judge->verdict, PROMISE_ALLOWANCE, program, motion->block,
			      "The ball's centre would be inside the finished neck.");
	else if (c->sample_mm < -TOL_PROOF_MM)
		verdict_break(judge->verdict, PROMISE_ALLOWANCE, program, motion->block,
			      "The ball would come %.3f mm nearer to the finished surface than "
			      "its radius and the allowance.",
			      -c->sample_mm);
}

static enum fault certify(struct judge *judge, const struct motion_list *list, int program,
			  struct fault_list *faults)
{
	struct clearance *batch = mem_array(BATCH, sizeof *batch);

	if (!batch)
		return fault_no_memory(faults, "the allowance certificate");
	for (size_t first = 0; first < list->count; first += BATCH) {
		size_t end = first + BATCH < list->count ? first + BATCH : list->count;
		certify_batch(judge, list, first, end, batch);
		for (size_t i = first; i < end; i++)
			note_clearance(judge, &batch[i - first], &list->item[i], program);
		note_certified(&judge->headway, (double)end / (double)list->count);
	}
	free(batch);
	return FAULT_NONE;
}

/* Bed, riser, keep-outs, fretboard and joint, move by move. */
static void judge_room(struct judge *judge, const struct motion_list *list, int program)
{
	struct vec3 zero = judge->job->fixture.work_zero_mm, from;

	verdict_judged(judge->verdict, PROMISE_KEEP_OUT, 0.0);
	for (size_t i = 0; i < list->count; i++) {
		const struct motion *motion = &list->item[i];
		if (!is_judged_move(list, i) || !place_before(list, i, &from))
			continue;
		struct tool_room room = tool_room_of_move(judge->job, judge->cutter,
							  vec3_add(from, zero),
							  vec3_add(motion->to, zero));
		room.room_mm -= motion->stray_mm;
		judge->verdict->fretboard_mm =
			smaller(judge->verdict->fretboard_mm, room.fretboard_mm - motion->stray_mm);
		verdict_figure(judge->verdict, PROMISE_KEEP_OUT, room.room_mm);
		if (room.room_mm < -TOL_PROOF_MM)
			verdict_break(judge->verdict, PROMISE_KEEP_OUT, program, motion->block,
				      "The tool would come %.3f mm too near to the %s.",
				      -room.room_mm, room.from);
	}
}

static void mark_judged(struct judge *judge)
{
	const struct cutter *cutter = &judge->job->cutter[0];

	verdict_judged(judge->verdict, PROMISE_FORM, 0.0);
	verdict_judged(judge->verdict, PROMISE_ALLOWANCE, -TOL_PROOF_MM);
	verdict_judged(judge->verdict, PROMISE_RAPID, TOL_RAPID_MM);
	verdict_judged(judge->verdict, PROMISE_BITE, cutter->depth_limit_mm);
	verdict_judged(judge->verdict, PROMISE_SHANK, 0.0);
	verdict_judged(judge->verdict, PROMISE_HOLDER, 0.0);
	verdict_judged(judge->verdict, PROMISE_PLUNGE, cutter->plunge_feed_mm_per_min);
	verdict_judged(judge->verdict, PROMISE_DIRECTION, DIRECTION_RISE_MM);
}

/* Certificate and replay ask different promises of the same moves and share
 * nothing else, so each may have a thread of its own. The longer one falls to
 * the thread that asked, which can then tell to the end. */
static enum fault certify_and_replay(struct judge *judge, struct replay *replay,
				     const struct proof_program *program, int index,
				     const double *seconds, struct fault_list *faults)
{
	enum fault certified = FAULT_NONE, replayed = FAULT_NONE;
	const struct watch watch = { note_replayed, &judge->headway };

#pragma omp parallel
	{
#pragma omp master
		certified = certify(judge, program->motions, index, NULL);
#pragma omp single nowait
		replayed = replay_program(replay, judge->verdict, program, index, seconds, &watch,
					  faults);
	}
	if (certified != FAULT_NONE)
		return fault_no_memory(faults, "the allowance certificate");
	return replayed;
}

static enum fault judge_program(struct judge *judge, struct replay *replay,
				const struct proof_program *program, int index,
				struct fault_list *faults)
{
	const struct motion_list *list = program->motions;
	double *seconds = mem_array(list->count, sizeof *seconds);

	if (!seconds)
		return fault_no_memory(faults, "the moves' times");
	limits_judge(judge->verdict, judge->job, judge->cutter, list, index,
		     job_highest_mm(judge->job));
	judge_room(judge, list, index);
	enum fault fault = travel_times(seconds, list, &judge->job->machine, faults);
	if (fault == FAULT_NONE)
		fault = certify_and_replay(judge, replay, program, index, seconds, faults);
	free(seconds);
	return fault;
}

static bool judge_form(struct judge *judge, const struct proof_program *programs, size_t count)
{
	bool good = true;

	for (size_t i = 0; i < count; i++) {
		if (programs[i].form_block == 0 && programs[i].motions)
			continue;
		good = false;
		verdict_break(judge->verdict, PROMISE_FORM, (int)i, programs[i].form_block, "%s",
			      programs[i].form_why ? programs[i].form_why : "It cannot be read.");
	}
	return good;
}

static enum fault judge_all(struct judge *judge, struct proof_record *record,
			    const struct proof_program *programs, size_t count,
			    struct fault_list *faults)
{
	struct replay *replay = NULL;
	const struct stretches stretches = stretches_of(judge->neck);
	enum fault fault = replay_start(&replay, record, judge->job, &stretches, count, faults);

	mark_judged(judge);
	for (size_t i = 0; i < count && fault == FAULT_NONE; i++) {
		judge->headway.from = (double)i / (double)count;
		judge->headway.to = (double)(i + 1) / (double)count;
		judge->headway.certified = judge->headway.replayed = 0.0;
		judge->cutter = &judge->job->cutter[programs[i].cutter];
		fault = judge_program(judge, replay, &programs[i], (int)i, faults);
	}
	if (fault == FAULT_NONE)
		fault = left_judge(judge->verdict, &record->stock, replay_stray_mm(replay),
				   judge->job, judge->neck, &judge->tree, faults);
	if (fault == FAULT_NONE)
		fault = rails_judge(judge->verdict, &record->stock, judge->job, judge->neck,
				    faults);
	if (fault == FAULT_NONE)
		stock_confine(record->stock.top, &record->stock, &judge->job->blank, STOCK_DRAWN);
	replay_free(replay);
	return fault;
}

enum fault proof_judge(struct verdict *out, struct proof_record *record, const struct job *job,
		       const struct neck *neck, const struct facets *facets,
		       const struct proof_program *programs, size_t count,
		       const struct watch *watch, struct fault_list *faults)
{
	struct judge judge = { .headway = { .watch = watch },
			       .verdict = out,
			       .job = job,
			       .neck = neck,
			       .least_mm = INFINITY };
	enum fault fault = facet_tree_build(&judge.tree, facets, faults);

	*record = (struct proof_record){ 0 };
	verdict_start(out);
	if (fault == FAULT_NONE && judge_form(&judge, programs, count))
		fault = judge_all(&judge, record, programs, count, faults);
	facet_tree_free(&judge.tree);
	watch_tell(watch, 1.0);
	verdict_close(out);
	return fault;
}
