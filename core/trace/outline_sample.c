/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "trace/outline_sample.h"

#include <math.h>

#include "base/units.h"
#include "model/neck_spec.h"

/* Bins of a side for finding its formula, and the step for its slope. */
#define BINS 32
#define SLOPE_STEP_RAD 1e-4

size_t outline_samples(struct outline_sample *out, const struct outline_ask *ask,
		       struct trace_point *point, size_t count)
{
	size_t used = 0;

	for (size_t i = 0; i < count; i++) {
		if (point[i].fate != FATE_OUTLINE && point[i].fate != FATE_ASIDE)
			continue;
		struct trace_place p = trace_upright(&ask->frame, point[i].y_mm, point[i].z_mm);
		double y = p.y_mm / ask->half_width_mm, z = p.z_mm / ask->height_mm;
		/* a little below the face: it belongs to the edge */
		out[used++] = (struct outline_sample){
			.point = &point[i],
			.place = p,
			.angle_rad = z > 0.0   ? atan2(z, y)
				     : y > 0.0 ? 0.0
					       : PI,
			.share = z > 0.0 ? hypot(y, z) : fabs(y),
		};
	}
	return used;
}

static int side_of(double angle_rad)
{
	return angle_rad <= PI / 2.0 ? SIDE_PLUS : SIDE_MINUS;
}

/* The angle counted from its own side's edge. */
static double from_edge(double angle_rad)
{
	return angle_rad <= PI / 2.0 ? angle_rad : PI - angle_rad;
}

double outline_base(const struct outline_ask *ask, double angle_rad)
{
	return base_shape_share(&ask->base[side_of(angle_rad)], from_edge(angle_rad));
}

/* Means of the samples of one side, or of both, in even bins of the angle. */
static size_t bins_of(struct base_sample bin[BINS], const struct outline_sample *sample,
		      size_t count, int side, bool both)
{
	size_t used = 0;

	for (size_t k = 0; k < BINS; k++)
		bin[k] = (struct base_sample){ 0 };
	for (size_t i = 0; i < count; i++) {
		double angle = from_edge(sample[i].angle_rad);
		if (sample[i].point->fate != FATE_OUTLINE ||
		    (!both && side_of(sample[i].angle_rad) != side))
			continue;
		size_t k = (size_t)fmin(angle / (PI / 2.0) * BINS, BINS - 1);
		bin[k].weight += 1.0;
		bin[k].angle_rad += angle;
		bin[k].share += sample[i].share;
	}
	for (size_t k = 0; k < BINS; k++) {
		if (bin[k].weight == 0.0)
			continue;
		bin[used++] = (struct base_sample){ bin[k].angle_rad / bin[k].weight,
						    bin[k].share / bin[k].weight, bin[k].weight };
	}
	return used;
}

void outline_samples_find_base(struct outline_ask *ask, const struct outline_sample *sample,
			       size_t count)
{
	struct base_sample bin[BINS];

	if (!ask->find_base)
		return;
	for (int side = 0; side < SIDE_COUNT; side++) {
		size_t used = bins_of(bin, sample, count, side, ask->alike);
		ask->base[side] = base_shape_find(bin, used, ask->half_width_mm, ask->height_mm);
	}
}

void outline_samples_set_base(struct outline_sample *sample, size_t count,
			      const struct outline_ask *ask)
{
	for (size_t i = 0; i < count; i++) {
		struct outline_sample *s = &sample[i];
		double low = fmax(s->angle_rad - SLOPE_STEP_RAD, 0.0);
		double high = fmin(s->angle_rad + SLOPE_STEP_RAD, PI);
		s->base = outline_base(ask, s->angle_rad);
		s->base_slope = (outline_base(ask, high) - outline_base(ask, low)) / (high - low);
		s->figure = base_shape_effect(&ask->base[side_of(s->angle_rad)],
					      from_edge(s->angle_rad));
	}
}

/* The curve is (w r cos, h r sin), its tangent (w (r' cos - r sin), h (r' sin + r
 * cos)); the cross product of the tangent with one unit of share is w h r. A frame
 * turned by a sees a point at (y + a z, z - a y). */
double outline_sample_effects(const struct outline_sample *sample, const struct outline_ask *ask,
			      double share, double slope, double effect[EFFECT_COUNT])
{
	double c = cos(sample->angle_rad), s = sin(sample->angle_rad);
	double w = ask->half_width_mm, h = ask->height_mm;
	double ty = w * (slope * c - share * s), tz = h * (slope * s + share * c);
	double length = hypot(ty, tz), out_y = tz / length, out_z = -ty / length;
	double reach_mm = w * h * share / length, y = sample->place.y_mm, z = sample->place.z_mm;
	int side = side_of(sample->angle_rad);

	effect[EFFECT_TILT] = (y * out_z - z * out_y) / reach_mm;
	effect[EFFECT_SHIFT] = out_y / reach_mm;
	effect[EFFECT_LIFT] = out_z / reach_mm;
	effect[EFFECT_WIDTH] = y * out_y / reach_mm;
	effect[EFFECT_HEIGHT] = z * out_z / reach_mm;
	effect[EFFECT_FIGURE_MINUS] = side == SIDE_MINUS ? sample->figure : 0.0;
	effect[EFFECT_FIGURE_PLUS] = side == SIDE_PLUS ? sample->figure : 0.0;
	return reach_mm;
}
