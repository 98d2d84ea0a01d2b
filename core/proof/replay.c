/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "proof/replay.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "base/tol.h"
#include "proof/directions.h"
#include "proof/loose.h"
#include "stock/visits.h"

/* A move that takes less than this off every column cuts nothing, mm. */
#define IDLE_MM 1e-3
/* Steep descents are held to the plunge feed once they take this much, mm:
 * below it the ball brushes along wood it has cut before. */
#define PLUNGE_BITE_MM 0.1
/* The wood is looked through for loose pieces after each such length of
 * cutting, mm, and at each program's end. */
#define LOOSE_EVERY_MM 2000.0
/* Whoever waits hears of every so manyth move. */
#define TELL_EVERY 64

struct replay {
	const struct job *job;
	struct proof_record *record;
	struct swath swath;
	double next_loose_mm;
	/* The wood is cut along straight pieces of arcs; it may stand, or lack,
	 * so much more than is known. Charged wherever it is asked for. */
	double stray_mm;
	struct visits visits;
	float *drawn; /* tops of the blank as drawn: figures are told of that blank */
	struct directions directions;
};

enum fault replay_start(struct replay **out, struct proof_record *record, const struct job *job,
			const struct stretches *stretches, size_t program_count,
			struct fault_list *faults)
{
	struct replay *replay = mem_array(1, sizeof *replay);

	*out = NULL;
	*record = (struct proof_record){ 0 };
	if (!replay)
		return fault_no_memory(faults, "the replay");
	enum fault fault = stock_build(&record->stock, &job->blank, job->carve.cell_mm, faults);
	if (fault != FAULT_NONE) {
		free(replay);
		return fault;
	}
	record->program = mem_array(program_count, sizeof *record->program);
	record->program_count = program_count;
	record->cut_nx = (record->stock.nx + RECORD_STRIDE - 1) / RECORD_STRIDE;
	record->cut_ny = (record->stock.ny + RECORD_STRIDE - 1) / RECORD_STRIDE;
	replay->job = job;
	replay->record = record;
	directions_start(&replay->directions, job, stretches);
	replay->next_loose_mm = LOOSE_EVERY_MM;
	*out = replay;
	replay->drawn = mem_array(record->stock.nx * record->stock.ny, sizeof(float));
	if (!record->program || !replay->drawn ||
	    visits_build(&replay->visits, &record->stock, cutter_radius_mm(&job->cutter[0]),
			 NULL) != FAULT_NONE) {
		replay_free(replay);
		*out = NULL;
		return fault_no_memory(faults, "the replay");
	}
	stock_confine(replay->drawn, &record->stock, &job->blank, STOCK_DRAWN);
	replay->visits.drawn = replay->drawn;
	return FAULT_NONE;
}

double replay_stray_mm(const struct replay *replay)
{
	return replay->stray_mm;
}

void replay_free(struct replay *replay)
{
	if (!replay)
		return;
	swath_free(&replay->swath);
	visits_free(&replay->visits);
	free(replay->drawn);
	free(replay);
}

/* One program on its way. */
struct run {
	struct replay *replay;
	const struct cutter *cutter;
	struct verdict *verdict;
	struct program_record *figures;
	struct pass_record *pass;
	int program, block;
	struct vec3 at; /* neck coordinates */
	unsigned known;
};

static enum fault make_passes(struct program_record *figures, const struct proof_record *record,
			      size_t count, struct fault_list *faults)
{
	*figures = (struct program_record){ .least = { INFINITY, INFINITY, INFINITY },
					    .most = { -INFINITY, -INFINITY, -INFINITY },
					    .pass_count = count };
	figures->pass = mem_array(count + 1, sizeof *figures->pass);
	if (!figures->pass)
		return fault_no_memory(faults, "the passes' figures");
	for (size_t i = 0; i < count; i++) {
		figures->pass[i].cut = mem_array(record->cut_nx * record->cut_ny, sizeof(float));
		if (!figures->pass[i].cut)
			return fault_no_memory(faults, "the passes' figures");
	}
	return FAULT_NONE;
}

/* A way of the tool and what it may be off by. */
struct way {
	struct vec3 to;
	double low_mm; /* of the tip */
	double off_mm; /* charged against the room */
};

/* Room between wood and the cylinder of a tool, which begins `face_mm` over the
 * tip; 2 mm and more are one. */
static double room_under(struct run *run, const struct way *way, double face_mm, double diameter_mm)
{
	double bottom = way->low_mm + face_mm;
	double wood = stock_highest_mm(&run->replay->record->stock, run->at, way->to,
				       diameter_mm / 2.0, bottom - 2.0);

	return smaller(bottom - wood - way->off_mm, 2.0);
}

/* The least room of all cylinders from the holder up; each counts as if it went
 * on without end. */
static double room_above(struct run *run, const struct way *way)
{
	const struct cutter *cutter = run->cutter;
	double face = cutter->stickout_mm;
	double room = room_under(run, way, face, cutter->holder_diameter_mm);

	face += cutter->holder_length_mm;
	for (size_t i = 0; i < cutter->part_count; i++) {
		room = smaller(room, room_under(run, way, face, cutter->part[i].diameter_mm));
		face += cutter->part[i].length_mm;
	}
	return room;
}

/* A rapid must pass above all wood within the tool's width. Straight up is
 * always free: what stands around the tool was cut by it on the way in. */
static void judge_rapid(struct run *run, struct vec3 to)
{
	const struct cutter *cutter = run->cutter;
	double widest = larger(cutter->ball_diameter_mm, cutter->shank_diameter_mm);
	const struct way way = { to, smaller(run->at.z, to.z), run->replay->stray_mm };

	if (to.z >= run->at.z && hypot(to.x - run->at.x, to.y - run->at.y) < 1e-9)
		return;
	double under = room_under(run, &way, 0.0, widest), above = room_above(run, &way);
	double room = smaller(under, above);
	double z = way.low_mm - run->replay->job->fixture.work_zero_mm.z;
	verdict_figure(run->verdict, PROMISE_RAPID, room);
	if (under < TOL_RAPID_MM)
		verdict_break(run->verdict, PROMISE_RAPID, run->program, run->block,
			      "A rapid at Z %.3f passes wood %.3f mm high.", z,
			      z - under - way.off_mm);
	else if (above < TOL_RAPID_MM)
		verdict_break(run->verdict, PROMISE_RAPID, run->program, run->block,
			      "A rapid at Z %.3f brings the holder within %.3f mm of wood.", z,
			      above);
}

/* Holder, and a shank wider than the ball, before the cut is made. */
static void judge_tool_above(struct run *run, struct vec3 to)
{
	const struct cutter *cutter = run->cutter;
	const struct way way = { to, smaller(run->at.z, to.z), 2.0 * run->replay->stray_mm };
	double room = room_above(run, &way);

	verdict_figure(run->verdict, PROMISE_HOLDER, room);
	if (room < 0.0)
		verdict_break(run->verdict, PROMISE_HOLDER, run->program, run->block,
			      "The holder would be %.3f mm inside wood.", -room);
	if (cutter->shank_diameter_mm <= cutter->ball_diameter_mm)
		return;
	room = room_under(run, &way, cutter->flute_length_mm, cutter->shank_diameter_mm);
	verdict_figure(run->verdict, PROMISE_SHANK, room);
	if (room < 0.0)
		verdict_break(run->verdict, PROMISE_SHANK, run->program, run->block,
			      "The shank would be %.3f mm inside wood.", -room);
}

/* The first multiple of RECORD_STRIDE not under `i`. */
static size_t mapped_from(size_t i)
{
	return (i + RECORD_STRIDE - 1) / RECORD_STRIDE * RECORD_STRIDE;
}

static float lower(float a, float b)
{
	return a < b ? a : b;
}

/* Enters the move into the current pass's map. */
static void map_swath(struct run *run)
{
	const struct proof_record *record = run->replay->record;
	const struct stock *stock = &record->stock;
	const struct swath *swath = &run->replay->swath;
	size_t width = swath->ix1 - swath->ix0;

	if (!run->pass->cut)
		return;
	for (size_t iy = mapped_from(swath->iy0); iy < swath->iy1; iy += RECORD_STRIDE) {
		const float *before = &swath->before[(iy - swath->iy0) * width];
		const float *after = &stock->top[iy * stock->nx];
		const float *drawn = &run->replay->drawn[iy * stock->nx];
		float *cut = &run->pass->cut[iy / RECORD_STRIDE * record->cut_nx];
		for (size_t ix = mapped_from(swath->ix0); ix < swath->ix1; ix += RECORD_STRIDE)
			cut[ix / RECORD_STRIDE] += lower(before[ix - swath->ix0], drawn[ix]) -
						   lower(after[ix], drawn[ix]);
	}
}

static void judge_bite(struct run *run, const struct taken *taken)
{
	double limit = run->cutter->depth_limit_mm;
	double bite = taken->bite_mm + (taken->bite_mm > 0.0 ? 2.0 * run->replay->stray_mm : 0.0);

	verdict_figure_against(run->verdict, PROMISE_BITE, bite, limit);
	if (bite > limit + TOL_BITE_MM)
		verdict_break(run->verdict, PROMISE_BITE, run->program, run->block,
			      "A bite of %.3f mm; the cutter's limit is %.3f.", bite, limit);
}

/* Wood that is cut must lie below the flutes' upper end. */
static void judge_flutes(struct run *run, struct vec3 to, const struct taken *taken)
{
	double low = smaller(run->at.z, to.z);
	double room = low + run->cutter->flute_length_mm - taken->highest_mm -
		      2.0 * run->replay->stray_mm;

	if (!(taken->deepest_mm > IDLE_MM))
		return;
	verdict_figure(run->verdict, PROMISE_SHANK, smaller(room, 2.0));
	if (room < 0.0)
		verdict_break(run->verdict, PROMISE_SHANK, run->program, run->block,
			      "Wood %.3f mm above the flutes would be cut by the shank.", -room);
}

static void judge_plunge(struct run *run, const struct motion *motion, struct vec3 to,
			 const struct taken *taken)
{
	const struct cutter *cutter = run->cutter;
	double length = vec3_distance(run->at, to), down = run->at.z - to.z;

	if (down <= 0.0 && motion->lean.z <= 0.0)
		return;
	if (length <= 0.0 || taken->deepest_mm < PLUNGE_BITE_MM)
		return;
	double share = smaller(down / length + motion->lean.z, 1.0);
	double speed = motion->feed_mm_per_min * share;
	if (share <= 0.0 || asin(share) <= cutter->ramp_angle_rad + TOL_RAMP_RAD)
		return;
	verdict_figure_against(run->verdict, PROMISE_PLUNGE, speed, cutter->plunge_feed_mm_per_min);
	if (speed > cutter->plunge_feed_mm_per_min * 1.001)
		verdict_break(run->verdict, PROMISE_PLUNGE, run->program, run->block,
			      "The tool goes down into wood at %.0f mm/min; the plunge feed is "
			      "%.0f.",
			      speed, cutter->plunge_feed_mm_per_min);
}

static void judge_direction(struct run *run, struct vec3 to, const struct taken *taken)
{
	const struct directed_move move = { .from = run->at,
					    .to = to,
					    .taken_mm = taken->deepest_mm,
					    .left_mm3 = taken->left_mm3,
					    .right_mm3 = taken->right_mm3,
					    .ramp_rad = run->cutter->ramp_angle_rad,
					    .program = run->program,
					    .block = run->block };

	directions_judge(&run->replay->directions, run->verdict, &move);
}

static enum fault cut(struct run *run, const struct motion *motion, struct vec3 to,
		      struct fault_list *faults)
{
	struct replay *replay = run->replay;
	double length = vec3_distance(run->at, to);

	replay->stray_mm = larger(replay->stray_mm, motion->stray_mm);
	judge_tool_above(run, to);
	enum fault fault = stock_sweep(&replay->record->stock, run->at, to,
				       cutter_radius_mm(run->cutter), &replay->swath, faults);
	if (fault != FAULT_NONE)
		return fault;
	struct taken taken =
		visits_note(&replay->visits, &replay->record->stock, &replay->swath, run->at, to);
	map_swath(run);
	judge_bite(run, &taken);
	judge_flutes(run, to, &taken);
	judge_plunge(run, motion, to, &taken);
	judge_direction(run, to, &taken);
	struct pass_record *pass = run->pass;
	pass->deepest_bite_mm = larger(pass->deepest_bite_mm, taken.bite_mm);
	pass->volume_mm3 += taken.volume_mm3;
	pass->length_mm += length;
	pass->fastest_mm_per_min = larger(pass->fastest_mm_per_min, motion->feed_mm_per_min);
	run->figures->cutting_mm += length;
	if (taken.deepest_mm <= IDLE_MM) {
		pass->idle_mm += length;
		run->figures->idle_mm += length;
	}
	return FAULT_NONE;
}

static void note_bounds(struct program_record *figures, struct vec3 p)
{
	figures->least = vec3_make(smaller(figures->least.x, p.x), smaller(figures->least.y, p.y),
				   smaller(figures->least.z, p.z));
	figures->most = vec3_make(larger(figures->most.x, p.x), larger(figures->most.y, p.y),
				  larger(figures->most.z, p.z));
}

static enum fault move(struct run *run, const struct motion *motion, struct fault_list *faults)
{
	struct vec3 to = vec3_add(motion->to, run->replay->job->fixture.work_zero_mm);
	enum fault fault = FAULT_NONE;

	if (run->known == KNOWN_ALL && motion->kind == MOTION_RAPID) {
		judge_rapid(run, to);
		directions_leave(&run->replay->directions);
		if (stock_highest_mm(&run->replay->record->stock, to, to,
				     cutter_radius_mm(run->cutter), to.z) <= to.z)
			visits_leave(&run->replay->visits);
		run->figures->rapid_mm += vec3_distance(run->at, to);
	} else if (run->known == KNOWN_ALL) {
		fault = cut(run, motion, to, faults);
	}
	if (motion->known == KNOWN_ALL)
		note_bounds(run->figures, motion->to);
	run->at = to;
	run->known = motion->known;
	return fault;
}

static enum fault look_for_loose(struct run *run, struct fault_list *faults)
{
	run->replay->next_loose_mm = run->replay->visits.way_mm + LOOSE_EVERY_MM;
	return loose_judge(run->verdict, &run->replay->record->stock, run->replay->job,
			   run->program, run->block, faults);
}

enum fault replay_program(struct replay *replay, struct verdict *verdict,
			  const struct proof_program *program, int index, const double *seconds,
			  const struct watch *watch, struct fault_list *faults)
{
	struct run run = { .replay = replay,
			   .cutter = &replay->job->cutter[program->cutter],
			   .verdict = verdict,
			   .figures = &replay->record->program[index],
			   .program = index };
	size_t next_pass = 0;
	visits_change(&replay->visits, cutter_radius_mm(run.cutter));
	enum fault fault = make_passes(run.figures, replay->record, program->pass_count, faults);

	if (fault == FAULT_NONE)
		run.pass = &run.figures->pass[program->pass_count];
	for (size_t i = 0; i < program->motions->count && fault == FAULT_NONE; i++) {
		const struct motion *motion = &program->motions->item[i];
		run.block = motion->block;
		while (next_pass < program->pass_count &&
		       motion->block >= program->pass_first_block[next_pass])
			run.pass = &run.figures->pass[next_pass++];
		if (motion_moves(motion))
			fault = move(&run, motion, faults);
		run.pass->seconds += seconds ? seconds[i] : 0.0;
		run.figures->seconds += seconds ? seconds[i] : 0.0;
		if (fault == FAULT_NONE && replay->visits.way_mm > replay->next_loose_mm)
			fault = look_for_loose(&run, faults);
		if (i % TELL_EVERY == 0)
			watch_tell(watch, (double)i / (double)program->motions->count);
	}
	return fault != FAULT_NONE ? fault : look_for_loose(&run, faults);
}

void proof_record_free(struct proof_record *record)
{
	if (!record)
		return;
	for (size_t i = 0; record->program && i < record->program_count; i++) {
		struct program_record *program = &record->program[i];
		for (size_t k = 0; program->pass && k < program->pass_count; k++)
			free(program->pass[k].cut);
		free(program->pass);
	}
	free(record->program);
	stock_free(&record->stock);
	*record = (struct proof_record){ 0 };
}
