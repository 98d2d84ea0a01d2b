/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "proof/replay.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"
#include "base/tol.h"
#include "proof/loose.h"

/* A move that takes less than this off every column cuts nothing, mm. */
#define IDLE_MM 1e-3
/* Steep descents are held to the plunge feed once they take this much, mm:
 * below it the ball brushes along wood it has cut before. */
#define PLUNGE_BITE_MM 0.1
/* The wood is looked through for loose pieces after each such length of
 * cutting, mm, and at each program's end. */
#define LOOSE_EVERY_MM 2000.0

struct replay {
	const struct job *job;
	struct proof_record *record;
	struct swath swath;
	double way_mm; /* gone so far, over all programs */
	double next_loose_mm;
	/* A visit to a column ends when the ball has gone its own diameter
	 * without cutting there, or has left the wood by a rapid; a bite is all
	 * that one visit takes. */
	float *visit_top, *visit_way;
	/* Wood at the start of the pass that last cut the column, and its
	 * number + 1 over all programs. */
	float *pass_top;
	unsigned *pass_seen;
	unsigned pass_number;
};

enum fault replay_start(struct replay **out, struct proof_record *record, const struct job *job,
			size_t program_count, struct fault_list *faults)
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
	size_t columns = record->stock.nx * record->stock.ny;
	record->program = mem_array(program_count, sizeof *record->program);
	record->program_count = program_count;
	record->cut_nx = (record->stock.nx + RECORD_STRIDE - 1) / RECORD_STRIDE;
	record->cut_ny = (record->stock.ny + RECORD_STRIDE - 1) / RECORD_STRIDE;
	replay->job = job;
	replay->record = record;
	replay->next_loose_mm = LOOSE_EVERY_MM;
	replay->visit_top = mem_array(columns, sizeof(float));
	replay->visit_way = mem_array(columns, sizeof(float));
	replay->pass_top = mem_array(columns, sizeof(float));
	replay->pass_seen = mem_array(columns, sizeof(unsigned));
	*out = replay;
	if (!record->program || !replay->visit_top || !replay->visit_way || !replay->pass_top ||
	    !replay->pass_seen) {
		replay_free(replay);
		*out = NULL;
		return fault_no_memory(faults, "the replay");
	}
	for (size_t i = 0; i < columns; i++)
		replay->visit_way[i] = -INFINITY;
	return FAULT_NONE;
}

void replay_free(struct replay *replay)
{
	if (!replay)
		return;
	swath_free(&replay->swath);
	free(replay->visit_top);
	free(replay->visit_way);
	free(replay->pass_top);
	free(replay->pass_seen);
	free(replay);
}

/* One program on its way. */
struct run {
	struct replay *replay;
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

/* A rapid must pass above all wood within the tool's width. Straight up is
 * always free: what stands around the tool was cut by it on the way in. */
static void judge_rapid(struct run *run, struct vec3 to)
{
	struct replay *replay = run->replay;
	const struct cutter *cutter = &replay->job->cutter;
	struct stock *stock = &replay->record->stock;
	double radius = larger(cutter->ball_diameter_mm, cutter->shank_diameter_mm) / 2.0;
	double low = smaller(run->at.z, to.z);

	if (to.z >= run->at.z && hypot(to.x - run->at.x, to.y - run->at.y) < 1e-9)
		return;
	double wood = stock_highest_mm(stock, run->at, to, radius, low - 2.0);
	double under = stock_highest_mm(stock, run->at, to, cutter->holder_diameter_mm / 2.0,
					low + cutter->stickout_mm - 2.0);
	double room = smaller(smaller(low - wood, low + cutter->stickout_mm - under), 2.0);
	verdict_figure(run->verdict, PROMISE_RAPID, room);
	if (room < TOL_RAPID_MM)
		verdict_break(run->verdict, PROMISE_RAPID, run->program, run->block,
			      "A rapid at Z %.3f passes wood %.3f mm high.",
			      low - replay->job->fixture.work_zero_mm.z,
			      wood - replay->job->fixture.work_zero_mm.z);
}

/* Holder, and a shank wider than the ball, before the cut is made. */
static void judge_tool_above(struct run *run, struct vec3 to)
{
	struct replay *replay = run->replay;
	const struct cutter *cutter = &replay->job->cutter;
	struct stock *stock = &replay->record->stock;
	double low = smaller(run->at.z, to.z), holder = low + cutter->stickout_mm;
	double wood = stock_highest_mm(stock, run->at, to, cutter->holder_diameter_mm / 2.0,
				       holder - 2.0);
	double room = smaller(holder - wood, 2.0);

	verdict_figure(run->verdict, PROMISE_HOLDER, room);
	if (room < 0.0)
		verdict_break(run->verdict, PROMISE_HOLDER, run->program, run->block,
			      "The holder would be %.3f mm inside wood.", -room);
	if (cutter->shank_diameter_mm <= cutter->ball_diameter_mm)
		return;
	double shank = low + cutter->flute_length_mm;
	wood = stock_highest_mm(stock, run->at, to, cutter->shank_diameter_mm / 2.0, shank - 2.0);
	room = smaller(shank - wood, 2.0);
	verdict_figure(run->verdict, PROMISE_SHANK, room);
	if (room < 0.0)
		verdict_break(run->verdict, PROMISE_SHANK, run->program, run->block,
			      "The shank would be %.3f mm inside wood.", -room);
}

/* What one move took. */
struct taken {
	double volume_mm3, deepest_mm, bite_mm, highest_mm; /* highest: top of wood cut */
};

/* True for a column that the ball's side merely brushes on the way to `to`. */
static bool is_brushed(const struct run *run, struct vec3 to, size_t i)
{
	const struct stock *stock = &run->replay->record->stock;
	double dx = to.x - run->at.x, dy = to.y - run->at.y, length2 = dx * dx + dy * dy;
	double px = stock_x(stock, i % stock->nx) - run->at.x;
	double py = stock_y(stock, i / stock->nx) - run->at.y;
	double t = length2 > 0.0 ? clamped((px * dx + py * dy) / length2, 0.0, 1.0) : 0.0;
	double inner = cutter_radius_mm(&run->replay->job->cutter) - TOL_BRUSH_MM;

	px -= t * dx;
	py -= t * dy;
	return px * px + py * py > inner * inner;
}

static void note_column(struct run *run, struct vec3 to, struct taken *taken, size_t i,
			float before, float after)
{
	struct replay *replay = run->replay;
	const struct cutter *cutter = &replay->job->cutter;

	taken->volume_mm3 += (double)before - after;
	if (is_brushed(run, to, i))
		return;
	if (replay->way_mm - replay->visit_way[i] > cutter->ball_diameter_mm)
		replay->visit_top[i] = before;
	replay->visit_way[i] = (float)replay->way_mm;
	taken->deepest_mm = larger(taken->deepest_mm, (double)before - after);
	taken->bite_mm = larger(taken->bite_mm, (double)replay->visit_top[i] - after);
	taken->highest_mm = larger(taken->highest_mm, before);
}

/* Depth taken from a column by the current pass so far. */
static float depth_of_pass(struct replay *replay, size_t i, float before, float after)
{
	if (replay->pass_seen[i] != replay->pass_number) {
		replay->pass_seen[i] = replay->pass_number;
		replay->pass_top[i] = before;
	}
	return replay->pass_top[i] - after;
}

static struct taken note_swath(struct run *run, struct vec3 to)
{
	const struct stock *stock = &run->replay->record->stock;
	const struct swath *swath = &run->replay->swath;
	struct taken taken = { .highest_mm = -INFINITY };
	const float *before = swath->before;
	size_t map_nx = run->replay->record->cut_nx;

	for (size_t iy = swath->iy0; iy < swath->iy1; iy++)
		for (size_t ix = swath->ix0; ix < swath->ix1; ix++, before++) {
			size_t i = iy * stock->nx + ix;
			if (!(*before > stock->top[i]))
				continue;
			note_column(run, to, &taken, i, *before, stock->top[i]);
			if (!run->pass->cut)
				continue;
			float *cut =
				&run->pass->cut[iy / RECORD_STRIDE * map_nx + ix / RECORD_STRIDE];
			float depth = depth_of_pass(run->replay, i, *before, stock->top[i]);
			*cut = depth > *cut ? depth : *cut;
		}
	taken.volume_mm3 *= stock->cell_mm * stock->cell_mm;
	return taken;
}

static void judge_bite(struct run *run, const struct taken *taken)
{
	double limit = run->replay->job->cutter.depth_limit_mm;

	verdict_figure(run->verdict, PROMISE_BITE, taken->bite_mm);
	if (taken->bite_mm > limit + TOL_BITE_MM)
		verdict_break(run->verdict, PROMISE_BITE, run->program, run->block,
			      "A bite of %.3f mm; the cutter's limit is %.3f.", taken->bite_mm,
			      limit);
}

/* Wood that is cut must lie below the flutes' upper end. */
static void judge_flutes(struct run *run, struct vec3 to, const struct taken *taken)
{
	double low = smaller(run->at.z, to.z);
	double room = low + run->replay->job->cutter.flute_length_mm - taken->highest_mm;

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
	const struct cutter *cutter = &run->replay->job->cutter;
	double length = vec3_distance(run->at, to), down = run->at.z - to.z;

	if (down <= 0.0 || taken->deepest_mm < PLUNGE_BITE_MM)
		return;
	double speed = motion->feed_mm_per_min * down / length;
	if (asin(smaller(down / length, 1.0)) <= cutter->ramp_angle_rad + TOL_RAMP_RAD)
		return;
	verdict_figure(run->verdict, PROMISE_PLUNGE, speed);
	if (speed > cutter->plunge_feed_mm_per_min * 1.001)
		verdict_break(run->verdict, PROMISE_PLUNGE, run->program, run->block,
			      "The tool goes down into wood at %.0f mm/min; the plunge feed is "
			      "%.0f.",
			      speed, cutter->plunge_feed_mm_per_min);
}

static enum fault cut(struct run *run, const struct motion *motion, struct vec3 to,
		      struct fault_list *faults)
{
	struct replay *replay = run->replay;
	double length = vec3_distance(run->at, to);

	judge_tool_above(run, to);
	enum fault fault = stock_sweep(&replay->record->stock, run->at, to,
				       cutter_radius_mm(&replay->job->cutter), &replay->swath,
				       faults);
	if (fault != FAULT_NONE)
		return fault;
	replay->way_mm += length;
	struct taken taken = note_swath(run, to);
	judge_bite(run, &taken);
	judge_flutes(run, to, &taken);
	judge_plunge(run, motion, to, &taken);
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
		run->replay->way_mm += 1.001 * run->replay->job->cutter.ball_diameter_mm;
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
	run->replay->next_loose_mm = run->replay->way_mm + LOOSE_EVERY_MM;
	return loose_judge(run->verdict, &run->replay->record->stock, run->replay->job,
			   run->program, run->block, faults);
}

enum fault replay_program(struct replay *replay, struct verdict *verdict,
			  const struct proof_program *program, int index, const double *seconds,
			  struct fault_list *faults)
{
	struct run run = { .replay = replay,
			   .verdict = verdict,
			   .figures = &replay->record->program[index],
			   .program = index };
	size_t next_pass = 0;
	enum fault fault = make_passes(run.figures, replay->record, program->pass_count, faults);

	if (fault == FAULT_NONE)
		run.pass = &run.figures->pass[program->pass_count];
	for (size_t i = 0; i < program->motions->count && fault == FAULT_NONE; i++) {
		const struct motion *motion = &program->motions->item[i];
		run.block = motion->block;
		while (next_pass < program->pass_count &&
		       motion->block >= program->pass_first_block[next_pass]) {
			run.pass = &run.figures->pass[next_pass++];
			replay->pass_number++;
		}
		if (motion_moves(motion))
			fault = move(&run, motion, faults);
		run.pass->seconds += seconds ? seconds[i] : 0.0;
		run.figures->seconds += seconds ? seconds[i] : 0.0;
		if (fault == FAULT_NONE && replay->way_mm > replay->next_loose_mm)
			fault = look_for_loose(&run, faults);
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
