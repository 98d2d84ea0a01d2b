/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "trace/findings.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/units.h"

/* An outline leans out when it stands out by this much, mm, and by more than the
 * scatter can feign. */
#define HOOK_LEAST_MM 0.25
#define HOOK_SCATTERS 2.5
/* Stretches without points: longer than this, mm, and this share of the width. */
#define GAP_LEAST_MM 4.0
#define GAP_SHARE 0.12
/* Fewer points than this hardly average their scatter. */
#define FEW 30
/* More than this share aside looks like a second outline. */
#define LAYERS_SHARE 0.08
#define LAYERS_LEAST 4
/* Widths and crests off by less are not worth a word, mm. */
#define WIDTH_LEAST_MM 0.5
#define CREST_BESIDE_MM 1.5
#define CREST_HIGHER_MM 0.05

static void note(struct trace_section *section, struct trace_note item)
{
	if (section->note_count < TRACE_NOTES_MAX)
		section->note[section->note_count++] = item;
}

struct trace_place findings_crest(const struct outline_fit *fit)
{
	struct trace_place best = outline_fit_at(fit, PI / 2.0);
	double middle_mm = best.z_mm;

	for (int i = 1; i < 200; i++) {
		struct trace_place p = outline_fit_at(fit, PI * i / 200.0);
		if (p.z_mm > best.z_mm)
			best = p;
	}
	best.z_mm -= middle_mm;
	return best;
}

/* Points of one fate: how many, and the one with the largest figure. */
static void note_fate(struct trace_section *section, const struct tabled *tabled,
		      enum trace_fate fate, enum trace_note_kind kind,
		      const struct trace_point *point, size_t count)
{
	struct trace_note item = { .kind = kind };

	for (size_t i = 0; i < count; i++) {
		if (point[i].fate != fate)
			continue;
		struct trace_place p = trace_upright(&section->frame, point[i].y_mm, point[i].z_mm);
		double off = fate == FATE_DOUBLE ? 0.0 : tabled_off_mm(tabled, p);
		if (item.count++ > 0 && fabs(off) <= fabs(item.size_mm))
			continue;
		item.size_mm = off;
		item.line = point[i].line;
		item.place = p;
	}
	if (item.count > 0)
		note(section, item);
}

static void note_layers(struct trace_section *section, const struct trace_point *point,
			size_t count)
{
	size_t aside = 0;

	for (size_t i = 0; i < count; i++)
		aside += point[i].fate == FATE_ASIDE;
	if (aside >= LAYERS_LEAST && (double)aside > LAYERS_SHARE * (double)(section->used + aside))
		note(section, (struct trace_note){ .kind = NOTE_LAYERS, .count = aside });
}

static int by_angle(const void *a, const void *b)
{
	const struct trace_place *p = a, *q = b;
	double x = atan2(p->z_mm, p->y_mm), y = atan2(q->z_mm, q->y_mm);

	return (x > y) - (x < y);
}

/* Stretches between neighbours, seen in the order of their angles; the edges count
 * as neighbours, and a mirrored twin as a point where the sides are alike. */
static void note_gaps_between(struct trace_section *section, struct trace_place *place,
			      size_t count, bool alike)
{
	double limit = fmax(GAP_LEAST_MM, GAP_SHARE * section->width_mm);

	qsort(place, count, sizeof *place, by_angle);
	for (size_t i = 0; i + 1 < count; i++) {
		struct trace_place a = place[i], b = place[i + 1];
		double apart = hypot(b.y_mm - a.y_mm, b.z_mm - a.z_mm);
		/* of two mirrored gaps one is enough */
		if (apart > limit && !(alike && a.y_mm + b.y_mm < 0.0))
			note(section,
			     (struct trace_note){
				     .kind = NOTE_GAP, .size_mm = apart, .place = a, .to = b });
	}
}

static enum fault note_gaps(struct trace_section *section, const struct trace_point *point,
			    size_t count, bool alike, struct fault_list *faults)
{
	struct trace_place *place = mem_array(2 * count + 2, sizeof *place);
	size_t used = 2;

	if (!place)
		return fault_no_memory(faults, "the gaps of a section");
	place[0] = (struct trace_place){ section->width_mm / 2.0, 0.0 };
	place[1] = (struct trace_place){ -section->width_mm / 2.0, 0.0 };
	for (size_t i = 0; i < count; i++) {
		if (point[i].fate != FATE_OUTLINE)
			continue;
		struct trace_place p = trace_upright(&section->frame, point[i].y_mm, point[i].z_mm);
		p.z_mm = fmax(p.z_mm, 0.0);
		place[used++] = p;
		if (alike)
			place[used++] = (struct trace_place){ -p.y_mm, p.z_mm };
	}
	note_gaps_between(section, place, used, alike);
	free(place);
	return FAULT_NONE;
}

/* Half-width where the outline's own points would have had the edges. */
static void note_width(struct trace_section *section, const struct trace_ask *ask,
		       const struct trace_point *point, size_t count)
{
	double least = INFINITY, most = -INFINITY;

	for (size_t i = 0; i < count; i++) {
		if (point[i].fate != FATE_OUTLINE)
			continue;
		double y = trace_upright(&section->frame, point[i].y_mm, point[i].z_mm).y_mm;
		least = fmin(least, y);
		most = fmax(most, y);
	}
	double more = most - least - ask->width_mm;
	if (ask->width_mm > 0.0 && fabs(more) > WIDTH_LEAST_MM)
		note(section, (struct trace_note){ .kind = NOTE_WIDTH, .size_mm = more });
}

enum fault findings_note(struct trace_section *section, const struct tabled *tabled,
			 double scatter_mm, const struct trace_place *free_crest,
			 const struct trace_point *point, size_t count, const struct trace_ask *ask,
			 struct fault_list *faults)
{
	note_fate(section, tabled, FATE_DOUBLE, NOTE_DOUBLE, point, count);
	note_fate(section, tabled, FATE_FAR, NOTE_FAR, point, count);
	note_fate(section, tabled, FATE_ASIDE, NOTE_ASIDE, point, count);
	note_layers(section, point, count);
	if (tabled->lean_mm > fmax(HOOK_LEAST_MM, HOOK_SCATTERS * scatter_mm))
		note(section, (struct trace_note){ .kind = NOTE_HOOK,
						   .size_mm = tabled->lean_mm,
						   .place = tabled->lean_at });
	if (section->used < FEW)
		note(section, (struct trace_note){ .kind = NOTE_FEW, .count = section->used });
	note_width(section, ask, point, count);
	if (fabs(free_crest->y_mm) > CREST_BESIDE_MM && free_crest->z_mm > CREST_HIGHER_MM)
		note(section, (struct trace_note){ .kind = NOTE_CREST,
						   .size_mm = free_crest->z_mm,
						   .place = *free_crest });
	return note_gaps(section, point, count, ask->alike, faults);
}
