/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/cut_layout.h"

#include <math.h>

#include "pictures/pen.h"
#include "pictures/scale.h"

#define GUTTER_MM 6.0
#define KEY_MM (SCALE_BAR_HEIGHT_MM + 5.0)
#define HEADING_MM 8.0 /* a program's line above its passes */
#define CAPTION_MM 8.0
#define LEAST_MM 30.0 /* "47  contour lines" needs so much */
#define AXIS_MM 9.0 /* ticks, figures and label under a map */
#define TICKS_MM 4.0 /* ticks alone, or words under a part */
#define ROW_GAP_MM 2.6
#define COLUMNS_MOST 4

/* Around what a pass touches, on the neck. */
#define AIR_MM 6.0
/* A pass that touches a smaller share of the length than this is shown in
 * part: three parts stand in the room of a whole map. */
#define PART_SHARE 0.4
#define PART_STEP_MM 10.0 /* parts begin and end on such figures */

static double usable_mm(void)
{
	return CANVAS_WIDTH_MM - 2.0 * CANVAS_MARGIN_MM;
}

/* What all passes touch, with air, on the blank; the blank across. */
static struct map_extent common_of(const struct cut_passes *passes)
{
	struct map_extent all = map_extent_none(), blank = passes->blank;

	if (map_extent_is_none(&blank))
		blank = (struct map_extent){ 0.0, 100.0, -10.0, 10.0 };
	for (size_t i = 0; i < passes->cut_count; i++) {
		all.x_from_mm = fmin(all.x_from_mm, passes->touched[i].x_from_mm);
		all.x_to_mm = fmax(all.x_to_mm, passes->touched[i].x_to_mm);
	}
	if (!(all.x_to_mm > all.x_from_mm))
		return blank;
	all.x_from_mm = fmax(all.x_from_mm - AIR_MM, blank.x_from_mm);
	all.x_to_mm = fmin(all.x_to_mm + AIR_MM, blank.x_to_mm);
	all.y_from_mm = blank.y_from_mm;
	all.y_to_mm = blank.y_to_mm;
	return all;
}

static bool is_short(const struct map_extent *part, const struct map_extent *common)
{
	return part->x_to_mm - part->x_from_mm <=
	       PART_SHARE * (common->x_to_mm - common->x_from_mm);
}

/* A pass that touches little lies in the half toward the nut (0) or toward the
 * body (1); -1 for every other pass. */
static int half_of(const struct map_extent *touched, const struct map_extent *common)
{
	double middle = common->x_from_mm + common->x_to_mm;

	if (map_extent_is_none(touched) || !is_short(touched, common))
		return -1;
	return touched->x_from_mm + touched->x_to_mm > middle;
}

/* One part for all short passes of a half, so that their maps can be compared;
 * all of it when that is not short. */
static struct map_extent part_of(const struct cut_passes *passes, const struct map_extent *common,
				 int half)
{
	struct map_extent part = *common;
	double from = INFINITY, to = -INFINITY;

	for (size_t i = 0; i < passes->cut_count; i++) {
		if (half_of(&passes->touched[i], common) != half)
			continue;
		from = fmin(from, passes->touched[i].x_from_mm - AIR_MM);
		to = fmax(to, passes->touched[i].x_to_mm + AIR_MM);
	}
	if (!(to > from))
		return part;
	part.x_from_mm = fmax(floor(from / PART_STEP_MM) * PART_STEP_MM, common->x_from_mm);
	part.x_to_mm = fmin(ceil(to / PART_STEP_MM) * PART_STEP_MM, common->x_to_mm);
	return is_short(&part, common) ? part : *common;
}

static void choose_part(struct cut_place *place, const struct cut_layout *l,
			const struct map_extent *touched)
{
	int half = half_of(touched, &l->common);

	place->part = half < 0 ? l->common : l->part[half];
	place->whole = !is_short(&place->part, &l->common);
}

bool cut_layout_has_axes(const struct cut_layout *layout)
{
	return layout->columns <= 2;
}

double cut_layout_caption_mm(void)
{
	return CAPTION_MM;
}

static double row_mm(const struct cut_layout *l)
{
	return CAPTION_MM + (l->common.y_to_mm - l->common.y_from_mm) * l->scale +
	       (cut_layout_has_axes(l) ? AXIS_MM : TICKS_MM) + ROW_GAP_MM;
}

struct cut_cursor cut_layout_start(void)
{
	return (struct cut_cursor){ .x_mm = CANVAS_MARGIN_MM,
				    .y_mm = PEN_TITLE_HEIGHT_MM + KEY_MM };
}

static bool start_program(const struct cut_layout *l, const struct cut_passes *passes,
			  struct cut_cursor *at, double *heading_mm)
{
	*heading_mm = NAN;
	while (at->program < passes->program_count &&
	       at->in_program == passes->program[at->program].pass_count) {
		at->program++;
		at->in_program = 0;
	}
	if (at->program == passes->program_count || at->pass == passes->cut_count)
		return false;
	if (at->in_program > 0)
		return true;
	if (at->pass > 0)
		at->y_mm += row_mm(l);
	*heading_mm = at->y_mm;
	at->y_mm += HEADING_MM;
	at->x_mm = CANVAS_MARGIN_MM;
	return true;
}

bool cut_layout_next(const struct cut_layout *l, const struct cut_passes *passes,
		     struct cut_cursor *at, struct cut_place *place, double *heading_mm)
{
	const double rounding = 0.01;

	if (!start_program(l, passes, at, heading_mm))
		return false;
	choose_part(place, l, &passes->touched[at->pass]);
	double width = fmax(LEAST_MM, (place->part.x_to_mm - place->part.x_from_mm) * l->scale);
	if (at->x_mm + width > CANVAS_WIDTH_MM - CANVAS_MARGIN_MM + rounding) {
		at->x_mm = CANVAS_MARGIN_MM;
		at->y_mm += row_mm(l);
	}
	place->left_mm = at->x_mm;
	place->top_mm = at->y_mm;
	at->x_mm += width + GUTTER_MM;
	at->pass++;
	at->in_program++;
	return true;
}

static double height_of(const struct cut_layout *l, const struct cut_passes *passes)
{
	struct cut_cursor at = cut_layout_start();
	struct cut_place place;
	double heading;

	while (cut_layout_next(l, passes, &at, &place, &heading))
		;
	return at.y_mm + (at.pass > 0 ? row_mm(l) : 0.0) + PEN_FOOT_HEIGHT_MM;
}

struct cut_layout cut_layout_of(const struct cut_passes *passes)
{
	struct cut_layout l = { .common = common_of(passes) };

	for (int half = 0; half < 2; half++)
		l.part[half] = part_of(passes, &l.common, half);
	do {
		l.columns++;
		double panel = (usable_mm() - (l.columns - 1) * GUTTER_MM) / l.columns;
		l.scale = panel / (l.common.x_to_mm - l.common.x_from_mm);
		l.height_mm = height_of(&l, passes);
	} while (l.height_mm > CUT_LAYOUT_HEIGHT_MM && l.columns < COLUMNS_MOST);
	return l;
}
