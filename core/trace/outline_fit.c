/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "trace/outline_fit.h"

#include <stdlib.h>

#include "base/mem.h"
#include "base/units.h"
#include "num/smooth.h"
#include "trace/outline_sample.h"

#define ROUNDS 5
/* Points beyond so many times the scatter are aside. */
#define ASIDE_TIMES 6.0
/* A scatter below this is the file's decimals, mm. */
#define SCATTER_LEAST_MM 0.01
/* Median of the absolute values to standard deviation, normal distribution. */
#define SIGMA_PER_MEDIAN 1.4826
/* Points that each piece of the spline should see. */
#define POINTS_PER_PIECE 4
#define SIDE_PIECES_LEAST 3
#define SIDE_PIECES_MOST 10
/* Columns of figures, one for each sample: angle, departure, weight, residual,
 * sorted residuals; then the effects. */
#define COLUMNS (5 + EFFECT_COUNT)

struct work {
	const struct outline_ask *ask;
	size_t count;
	struct outline_sample *sample;
	double *x, *y, *weight;
	double *off_mm; /* residuals square to the curve */
	double *sorted;
	double *effect[EFFECT_COUNT];
	size_t extra_count;
	enum outline_effect extra[EFFECT_COUNT]; /* the effects that are free */
};

static double folded(const struct outline_ask *ask, double angle_rad)
{
	return ask->alike && angle_rad > PI / 2.0 ? PI - angle_rad : angle_rad;
}

static enum fault check_samples(const struct work *work, struct fault_list *faults)
{
	size_t plus = 0;

	for (size_t i = 0; i < work->count; i++)
		plus += work->sample[i].place.y_mm > 0.0;
	if (work->count >= OUTLINE_POINTS_LEAST && plus >= OUTLINE_SIDE_LEAST &&
	    work->count - plus >= OUTLINE_SIDE_LEAST)
		return FAULT_NONE;
	return fault_add(faults, FAULT_GEOMETRY, NULL, 0, NULL,
			 "There are %zu points of the outline, %zu on the +y side and %zu on the "
			 "other; at least %d are needed, and %d on each side.",
			 work->count, plus, work->count - plus, OUTLINE_POINTS_LEAST,
			 OUTLINE_SIDE_LEAST);
}

static int by_number(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

static double scatter_mm(struct work *work, double freedom)
{
	for (size_t i = 0; i < work->count; i++)
		work->sorted[i] = fabs(work->off_mm[i]);
	qsort(work->sorted, work->count, sizeof *work->sorted, by_number);
	/* a curve that spends freedom lies nearer to its points than the truth */
	double left = fmax(1.0 - freedom / (double)work->count, 0.25);
	double scatter = SIGMA_PER_MEDIAN * work->sorted[work->count / 2] / sqrt(left);
	return fmax(scatter, SCATTER_LEAST_MM);
}

/* What the last round's fit makes of a sample: residual, weight and effects; without
 * one, what the formulas alone make of it. */
static void look_at(struct work *work, size_t i, const struct smooth *last)
{
	const struct outline_sample *s = &work->sample[i];
	double angle = folded(work->ask, s->angle_rad), effect[EFFECT_COUNT];
	double mirror = angle < s->angle_rad ? -1.0 : 1.0;
	double share = s->base + (last ? curve_value(&last->curve, angle) : 0.0);
	double slope = s->base_slope + (last ? mirror * curve_slope(&last->curve, angle) : 0.0);
	double reach = outline_sample_effects(s, work->ask, share, slope, effect);

	work->x[i] = angle;
	work->y[i] = s->share - s->base;
	work->weight[i] = reach * reach;
	work->off_mm[i] = s->share - share;
	if (work->ask->alike) {
		effect[EFFECT_FIGURE_PLUS] += effect[EFFECT_FIGURE_MINUS];
		effect[EFFECT_FIGURE_MINUS] = 0.0;
	}
	for (size_t k = 0; k < EFFECT_COUNT; k++)
		work->effect[k][i] = effect[k];
	for (size_t k = 0; last && k < work->extra_count; k++)
		work->off_mm[i] -= last->amount[k] * effect[work->extra[k]];
	work->off_mm[i] *= reach;
}

static void weigh(struct work *work, const struct smooth *last)
{
	double limit = INFINITY;

	for (size_t i = 0; i < work->count; i++)
		look_at(work, i, last);
	if (last)
		limit = ASIDE_TIMES * scatter_mm(work, last->freedom);
	for (size_t i = 0; i < work->count; i++) {
		double part = fabs(work->off_mm[i]) / limit;
		double w = part < 1.0 ? (1.0 - part * part) * (1.0 - part * part) : 0.0;
		work->weight[i] *= w;
		work->sample[i].point->fate = w > 0.0 ? FATE_OUTLINE : FATE_ASIDE;
	}
}

static size_t pieces_of(const struct work *work)
{
	size_t side = work->count / 2 / POINTS_PER_PIECE;

	side = side < SIDE_PIECES_LEAST ? SIDE_PIECES_LEAST : side;
	side = side > SIDE_PIECES_MOST ? SIDE_PIECES_MOST : side;
	return work->ask->alike ? side : 2 * side;
}

static void choose_extras(struct work *work)
{
	const struct outline_ask *ask = work->ask;
	const bool free[EFFECT_COUNT] = {
		[EFFECT_TILT] = true,
		[EFFECT_SHIFT] = true,
		[EFFECT_LIFT] = ask->hold_height || ask->lift_weight > 0.0,
		[EFFECT_HEIGHT] = !ask->hold_height,
		[EFFECT_WIDTH] = !ask->hold_width,
		[EFFECT_FIGURE_MINUS] = ask->formulas_only && !ask->alike,
		[EFFECT_FIGURE_PLUS] = ask->formulas_only,
	};

	work->extra_count = 0;
	for (int k = 0; k < EFFECT_COUNT; k++)
		if (free[k])
			work->extra[work->extra_count++] = (enum outline_effect)k;
}

static struct smooth_ask smooth_ask_of(const struct work *work)
{
	const struct outline_ask *ask = work->ask;
	struct smooth_ask out = { .from = 0.0,
				  .to = ask->alike ? PI / 2.0 : PI,
				  .pieces = pieces_of(work),
				  .price = ask->formulas_only ? PRICE_HIGHEST : PRICE_FOUND,
				  .count = work->count,
				  .x = work->x,
				  .y = work->y,
				  .weight = work->weight,
				  .pin_count = 2,
				  .pin = { { 0.0, 0.0, false }, { PI / 2.0, 0.0, false } },
				  .extra_count = work->extra_count };

	if (ask->level_crest || ask->alike)
		out.pin[out.pin_count++] = (struct smooth_pin){ PI / 2.0, 0.0, true };
	if (!ask->alike)
		out.pin[out.pin_count++] = (struct smooth_pin){ PI, 0.0, false };
	for (size_t k = 0; k < work->extra_count; k++) {
		out.extra[k].effect = work->effect[work->extra[k]];
		if (work->extra[k] == EFFECT_TILT) {
			out.extra[k].value = ask->tilt_off_rad;
			out.extra[k].weight = ask->tilt_weight_mm2;
		}
		if (work->extra[k] == EFFECT_LIFT) {
			out.extra[k].value = ask->lift_off_mm;
			out.extra[k].weight = ask->lift_weight;
		}
	}
	return out;
}

static struct outline_steps steps_of(const struct work *work, const struct smooth *smooth)
{
	double amount[EFFECT_COUNT] = { 0 };

	for (size_t k = 0; k < work->extra_count; k++)
		amount[work->extra[k]] = smooth->amount[k];
	if (work->ask->alike)
		amount[EFFECT_FIGURE_MINUS] = amount[EFFECT_FIGURE_PLUS];
	return (struct outline_steps){ .tilt_rad = amount[EFFECT_TILT],
				       .y_mm = amount[EFFECT_SHIFT],
				       .z_mm = amount[EFFECT_LIFT],
				       .width_share = amount[EFFECT_WIDTH],
				       .height_share = amount[EFFECT_HEIGHT],
				       .figure = { [SIDE_MINUS] = amount[EFFECT_FIGURE_MINUS],
						   [SIDE_PLUS] = amount[EFFECT_FIGURE_PLUS] } };
}

static enum fault fit(struct outline_fit *out, struct work *work, struct fault_list *faults)
{
	struct smooth smooth = { 0 };

	choose_extras(work);
	for (int round = 0; round < ROUNDS; round++) {
		weigh(work, round > 0 ? &smooth : NULL);
		smooth_free(&smooth);
		struct smooth_ask ask = smooth_ask_of(work);
		enum fault fault = smooth_fit(&smooth, &ask, faults);
		if (fault) {
			smooth_free(&smooth);
			return fault;
		}
	}
	out->departure = smooth.curve;
	out->freedom = smooth.freedom;
	weigh(work, &smooth);
	out->scatter_mm = scatter_mm(work, smooth.freedom);
	out->steps = steps_of(work, &smooth);
	return FAULT_NONE;
}

static void lay_out(struct work *work, double *room, size_t count)
{
	work->x = room;
	work->y = room + count;
	work->weight = room + 2 * count;
	work->off_mm = room + 3 * count;
	work->sorted = room + 4 * count;
	for (size_t k = 0; k < EFFECT_COUNT; k++)
		work->effect[k] = room + (5 + k) * count;
}

enum fault outline_fit_make(struct outline_fit *out, const struct outline_ask *ask,
			    struct trace_point *point, size_t count, struct fault_list *faults)
{
	double *room = mem_array(COLUMNS * count, sizeof *room);
	struct work work = { .ask = &out->ask, .sample = mem_array(count, sizeof *work.sample) };
	enum fault fault = FAULT_NONE;

	*out = (struct outline_fit){ .ask = *ask };
	if (!room || !work.sample) {
		fault = fault_no_memory(faults, "the fit of a section");
		goto cleanup;
	}
	lay_out(&work, room, count);
	work.count = outline_samples(work.sample, ask, point, count);
	fault = check_samples(&work, faults);
	if (fault)
		goto cleanup;
	outline_samples_find_base(&out->ask, work.sample, work.count);
	outline_samples_set_base(work.sample, work.count, &out->ask);
	fault = fit(out, &work, faults);
cleanup:
	free(room);
	free(work.sample);
	return fault;
}

void outline_fit_free(struct outline_fit *fit)
{
	if (!fit)
		return;
	curve_free(&fit->departure);
}

struct trace_place outline_fit_at(const struct outline_fit *fit, double angle_rad)
{
	double share = outline_base(&fit->ask, angle_rad) +
		       curve_value(&fit->departure, folded(&fit->ask, angle_rad));

	return (struct trace_place){ fit->ask.half_width_mm * share * cos(angle_rad),
				     fit->ask.height_mm * share * sin(angle_rad) };
}
