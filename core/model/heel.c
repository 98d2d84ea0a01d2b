/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/heel.h"

#include <math.h>

#include "model/nose.h"
#include "model/section.h"
#include "model/taper.h"
#include "num/blend.h"

/* The nose is domed across with this superellipse, which meets the cheeks
 * without an edge. */
#define NOSE_FULLNESS 3.0
/* Over this share of its length, up to the cap's front, the dome turns into the
 * cap's plan. */
#define OPEN_SHARE 0.5
/* A blend is followed in pieces no wider than this part of it. */
#define BLEND_PIECES 24.0
#define EASE_PIECES 16.0

/* A kind of heel. `own` is its half-breadth without the shaft's section. */
struct kind {
	const char *name, *proper_name;
	double (*own)(const struct heel *heel, double x_mm, double v);
	size_t (*stretches)(const struct heel *heel, struct heel_stretch *out);
};

double heel_cap_side_mm(const struct heel *heel, double x_mm)
{
	const struct heel_spec *spec = &heel->spec->heel;
	double front = spec->cap_width_front_mm / 2.0, back = spec->cap_width_back_mm / 2.0;
	double slope = (back - front) / (heel->crest->to_mm - heel->open_to_mm);
	double past = x_mm - heel->open_to_mm;
	/* a straight front's sides level out on the nose, a curve's under it */
	double fade = heel->plan.length_mm > 0.0 ? heel->plan.length_mm
						 : heel->crest->heel_proper_mm - heel->open_from_mm;

	if (past >= 0.0)
		return front + slope * past;
	double t = fmax(0.0, 1.0 + past / fade);
	return front - slope * fade * (1.0 - t * t) / 2.0;
}

double heel_hollow_mm(const struct heel_spec *heel, double v)
{
	double rim = heel->hollow_rim_mm / heel->height_mm, u = (v - rim) / (1.0 - 2.0 * rim);

	return u > 0.0 && u < 1.0 ? 4.0 * heel->hollow_mm * u * (1.0 - u) : 0.0;
}

/* Where the upper rim begins the parabola turns outward by 4 e over the height
 * between the rims; the cheek closes in by (foot - cap) over the whole. */
double heel_most_hollow_mm(const struct heel_spec *heel, double foot_mm, double cap_mm)
{
	double between = 1.0 - 2.0 * heel->hollow_rim_mm / heel->height_mm;

	return fmax(0.0, (foot_mm - cap_mm) * between / 4.0);
}

static double cheek_mm(const struct heel *heel, double x_mm, double v)
{
	double foot = taper_wood_half_width_mm(heel->spec, x_mm);
	double cap = heel_cap_side_mm(heel, x_mm);

	return foot + (cap - foot) * v - heel_hollow_mm(&heel->spec->heel, v);
}

/* Two rules of how far behind the heel's front a point lies, as shares of the
 * plan's curve: by the dome across the nose, which is all there is at the foot,
 * and by the distance from the nose at the point's own height, which is all
 * there is on the cap. */
static double block_own_mm(const struct heel *heel, double x_mm, double v)
{
	const struct crest *crest = heel->crest;
	double cheek = cheek_mm(heel, x_mm, v);

	if (x_mm >= heel->open_to_mm)
		return cheek;
	double open = blend_step(x_mm, heel->open_from_mm, crest->heel_proper_mm);
	double dome = section_superellipse(v, NOSE_FULLNESS);
	if (heel->plan.plan == CAP_SQUARE)
		return cheek * (open + (1.0 - open) * dome);
	double beside = cap_plan_inverse(&heel->plan, dome), behind = 0.0;
	if (open > 0.0) {
		/* the crest itself is the nose, wherever it is too level to ask */
		double z = v * crest_value_mm(crest, x_mm),
		       front = fmin(x_mm, crest->heel_proper_mm);
		if (v < 1.0)
			front = nose_reach_mm(&crest->nose, heel->open_from_mm, z);
		behind = open * fmin(1.0, (x_mm - front) / heel->plan.length_mm);
	}
	return cheek * cap_plan_share(&heel->plan, 1.0 - (1.0 - beside) * (1.0 - behind));
}

static size_t block_stretches(const struct heel *heel, struct heel_stretch *out)
{
	const struct crest *crest = heel->crest;
	double nose_mm = (crest->heel_proper_mm - crest->heel_start_mm) / BLEND_PIECES;
	double open_mm = (crest->heel_proper_mm - heel->open_from_mm) / BLEND_PIECES;

	out[0] = (struct heel_stretch){ heel->open_from_mm, nose_mm };
	out[1] = (struct heel_stretch){ crest->heel_proper_mm, open_mm };
	out[2] = (struct heel_stretch){ heel->open_to_mm, heel->plan.length_mm };
	out[3] = (struct heel_stretch){ crest->to_mm, crest->to_mm };
	return 4;
}

static double flat_own_mm(const struct heel *heel, double x_mm, double v)
{
	(void)v;
	return taper_wood_half_width_mm(heel->spec, x_mm);
}

static double set_own_mm(const struct heel *heel, double x_mm, double v)
{
	const struct heel_spec *spec = &heel->spec->heel;
	double joint_mm = heel->crest->heel_proper_mm;
	double closed = blend_step(x_mm, joint_mm, joint_mm + spec->shoulder_length_mm);

	(void)v;
	return (1.0 - closed) * taper_wood_half_width_mm(heel->spec, x_mm) +
	       closed * spec->tenon_width_mm / 2.0;
}

static size_t flat_stretches(const struct heel *heel, struct heel_stretch *out)
{
	const struct crest *crest = heel->crest;

	out[0] = (struct heel_stretch){
		crest->heel_proper_mm, (crest->heel_proper_mm - crest->heel_start_mm) / EASE_PIECES
	};
	out[1] = (struct heel_stretch){ crest->to_mm, crest->to_mm };
	return 2;
}

static size_t set_stretches(const struct heel *heel, struct heel_stretch *out)
{
	double shoulder_mm = heel->spec->heel.shoulder_length_mm;
	size_t count = flat_stretches(heel, out);

	out[count] = out[count - 1];
	out[count - 1] = (struct heel_stretch){ heel->crest->heel_proper_mm + shoulder_mm,
						shoulder_mm / EASE_PIECES };
	return count + 1;
}

static const struct kind kinds[HEEL_KIND_COUNT] = {
	[HEEL_BLOCK] = { "block", "cap front", block_own_mm, block_stretches },
	[HEEL_FLAT] = { "flat", "slab", flat_own_mm, flat_stretches },
	[HEEL_SET] = { "set", "tenon", set_own_mm, set_stretches },
};

struct heel heel_make(const struct neck_spec *spec, const struct crest *crest)
{
	struct heel heel = { .spec = spec, .crest = crest };
	double nose_mm = crest->heel_proper_mm - crest->heel_start_mm;

	if (spec->heel.kind != HEEL_BLOCK)
		return heel;
	heel.plan = cap_plan_curve(&spec->heel);
	heel.open_from_mm = crest->heel_proper_mm - OPEN_SHARE * nose_mm;
	heel.open_to_mm = crest->heel_proper_mm + heel.plan.length_mm;
	return heel;
}

double heel_own_breadth_mm(const struct heel *heel, double x_mm, double v)
{
	return kinds[heel->spec->heel.kind].own(heel, x_mm, v);
}

double heel_breadth_mm(const struct heel *heel, double x_mm, double share, double v)
{
	const struct crest *crest = heel->crest;
	double turned = blend_step(x_mm, crest->heel_start_mm, crest->heel_proper_mm);
	double half_mm = taper_wood_half_width_mm(heel->spec, x_mm);

	return (1.0 - turned) * half_mm * share + turned * heel_own_breadth_mm(heel, x_mm, v);
}

/* On the nose and along the cap's curve, where every height has its own. */
size_t heel_places_mm(const struct heel *heel, double x_mm[HEEL_PLACES_MAX])
{
	static const double on_nose[] = { 0.0, 0.5, 0.85, 1.0 }, on_cap[] = { 0.05, 0.2, 0.5, 1.0 };
	double nose_mm = heel->crest->heel_proper_mm - heel->open_from_mm;
	size_t count = 0;

	if (heel->spec->heel.kind != HEEL_BLOCK)
		return 0;
	for (size_t i = 0; i < sizeof on_nose / sizeof on_nose[0]; i++)
		x_mm[count++] = heel->open_from_mm + on_nose[i] * nose_mm;
	for (size_t i = 0; i < sizeof on_cap / sizeof on_cap[0]; i++)
		x_mm[count++] = heel->crest->heel_proper_mm + on_cap[i] * heel->plan.length_mm;
	return count;
}

size_t heel_stretches(const struct heel *heel, struct heel_stretch out[HEEL_STRETCHES_MAX])
{
	return kinds[heel->spec->heel.kind].stretches(heel, out);
}

const char *heel_kind_name(enum heel_kind kind)
{
	return (int)kind >= 0 && kind < HEEL_KIND_COUNT ? kinds[kind].name : "?";
}

const char *heel_proper_name(enum heel_kind kind)
{
	return (int)kind >= 0 && kind < HEEL_KIND_COUNT ? kinds[kind].proper_name : "?";
}
