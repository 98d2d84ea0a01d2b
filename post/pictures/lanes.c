/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/lanes.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>

#include "pictures/marks.h"

#define LANE_MM 4.6
#define TEXT_ROOM 192

/* One lane on its way to paper. */
struct lane {
	const char *group; /* in the margin */
	double from_mm, to_mm;
	enum line_kind line;
	bool slanted; /* a keep-out's strip instead of a line */
	char text[TEXT_ROOM];
};

struct pen_at {
	struct canvas *canvas;
	const struct map_axis *along;
	double y;
};

static double clamp(double value, double from, double to)
{
	return fmin(fmax(value, from), to);
}

/* Where words go and how much room they have there. */
struct room {
	double x, width;
};

/* On the stretch when it is long enough, else on the side with more room. */
static struct room room_for(const struct pen_at *at, double from, double to, double width)
{
	double before = from - 2.0 - at->along->at_from_mm, after = at->along->at_to_mm - to - 2.0;

	if (to - from > width + 6.0)
		return (struct room){ (from + to - width) / 2.0, width };
	if (after >= width || after > before)
		return (struct room){ to + 2.0, after };
	return (struct room){ from - 2.0 - fmin(width, before), before };
}

static void draw_lane(struct pen_at *at, const struct lane *lane)
{
	const struct map_axis *along = at->along;
	double from = scale_place_mm(along, clamp(lane->from_mm, along->from, along->to));
	double to = scale_place_mm(along, clamp(lane->to_mm, along->from, along->to));
	double middle = at->y + LANE_MM / 2.0, em = pen_text_size_mm(TEXT_SMALL);
	double width = pen_text_width_mm(at->canvas, TEXT_SMALL, lane->text);
	char shown[PEN_TEXT_MAX];

	pen_text(at->canvas, CANVAS_MARGIN_MM, middle + 0.36 * em, TEXT_SMALL, ANCHOR_LEFT,
		 lane->group);
	if (lane->slanted)
		marks_keep_out(at->canvas, from, middle - 0.9, to - from, 1.8);
	else
		marks_span(at->canvas, from, middle, to, middle, lane->line);
	struct room room = room_for(at, from, to, width);
	pen_text_on_map(at->canvas, room.x, middle + 0.36 * em, TEXT_SMALL, ANCHOR_LEFT,
			pen_text_shorten(at->canvas, shown, TEXT_SMALL, room.width, lane->text));
	at->y += LANE_MM;
}

static void draw_carve(struct pen_at *at, const struct carve_spec *carve)
{
	struct lane lane = { "carved", carve->from_mm, carve->to_mm, LINE_FRAME, false, "" };
	char a[NUMBER_MAX], b[NUMBER_MAX];

	(void)snprintf(lane.text, TEXT_ROOM, "the ball's axis goes from %s to %s mm",
		       scale_number(a, carve->from_mm, 1), scale_number(b, carve->to_mm, 1));
	draw_lane(at, &lane);
}

static void draw_straight(struct pen_at *at, const struct lanes *lanes)
{
	const struct straight_edge *s = lanes->straight;
	struct lane lane = { "straight edge", s->from_mm, s->to_mm, LINE_STRAIGHT, false, "" };
	char a[NUMBER_MAX], b[NUMBER_MAX], c[NUMBER_MAX];

	(void)snprintf(lane.text, TEXT_ROOM, "off by: centre %s, %s edge %s, %s edge %s mm",
		       scale_number(a, s->crest_off_mm, 3), lanes->plus_side,
		       scale_number(b, s->edge_off_mm[SIDE_PLUS], 3), lanes->minus_side,
		       scale_number(c, s->edge_off_mm[SIDE_MINUS], 3));
	draw_lane(at, &lane);
}

static void draw_heel(struct pen_at *at, const struct lanes *lanes)
{
	const struct neck_marks *m = lanes->marks;
	struct lane lane = { "heel", m->heel_start_mm, lanes->neck_to_mm, LINE_FRAME, false, "" };
	char a[NUMBER_MAX], b[NUMBER_MAX], c[NUMBER_MAX];

	(void)snprintf(lane.text, TEXT_ROOM, "begins at %s, %s at %s, body joint at %s mm",
		       scale_number(a, m->heel_start_mm, 1), m->heel_proper_name,
		       scale_number(b, m->heel_proper_mm, 1), scale_number(c, m->joint_mm, 1));
	draw_lane(at, &lane);
}

static void draw_channel(struct pen_at *at, const struct channel_spec *channel)
{
	struct lane lane = { "channel", channel->from_mm, channel->to_mm, LINE_HIDDEN, false, "" };
	char a[NUMBER_MAX], b[NUMBER_MAX], c[NUMBER_MAX], d[NUMBER_MAX];

	(void)snprintf(lane.text, TEXT_ROOM, "truss rod, %s wide and %s deep, from %s to %s mm",
		       scale_number(a, channel->width_mm, 2), scale_number(b, channel->depth_mm, 2),
		       scale_number(c, channel->from_mm, 1), scale_number(d, channel->to_mm, 1));
	draw_lane(at, &lane);
}

static void draw_place(struct pen_at *at, const struct place *place, bool keep_out)
{
	struct lane lane = { keep_out ? "keep out" : "held",
			     place->x_from_mm,
			     place->x_to_mm,
			     LINE_HOLD,
			     keep_out,
			     "" };
	char a[NUMBER_MAX], b[NUMBER_MAX], c[NUMBER_MAX];
	int used = snprintf(lane.text, TEXT_ROOM, "%s, %sfrom %s to %s mm", place->name,
			    place->shape == PLACE_CYLINDER ? "round, " : "",
			    scale_number(a, place->x_from_mm, 1),
			    scale_number(b, place->x_to_mm, 1));

	if (keep_out && used > 0 && used < TEXT_ROOM)
		(void)snprintf(lane.text + used, TEXT_ROOM - (size_t)used, ", up to z %s mm",
			       scale_number(c, place->top_mm, 1));
	draw_lane(at, &lane);
}

static bool has_rail(const struct beside_figures *beside, int side)
{
	return beside && beside->channel_mm > 0.0 && isfinite(beside->rail_from_mm[side]);
}

static size_t tabs_on(const struct beside_figures *beside, int side)
{
	size_t count = 0;

	for (size_t i = 0; beside && i < beside->tab_count; i++)
		count += (beside->tab[i].tab.side > 0.0) == (side == SIDE_PLUS) ? 1 : 0;
	return count;
}

static bool has_cove(const struct beside_figures *beside)
{
	return beside && beside->cove.height_mm > 0.0;
}

static void draw_rail(struct pen_at *at, const struct lanes *lanes, int side)
{
	const struct beside_figures *beside = lanes->beside;
	struct lane lane = {
		"rail", beside->rail_from_mm[side], beside->rail_to_mm[side], LINE_ROUGHED, false,
		""
	};
	char a[NUMBER_MAX], b[NUMBER_MAX], c[NUMBER_MAX];

	(void)snprintf(lane.text, TEXT_ROOM,
		       "%s side, from %s to %s mm, behind a channel %s mm wide",
		       side == SIDE_PLUS ? lanes->plus_side : lanes->minus_side,
		       scale_number(a, lane.from_mm, 1), scale_number(b, lane.to_mm, 1),
		       scale_number(c, beside->channel_mm, 2));
	draw_lane(at, &lane);
}

/* All tabs of one side on one lane, from the first to the last. */
static void draw_tabs(struct pen_at *at, const struct lanes *lanes, int side)
{
	struct lane lane = { "tabs", INFINITY, -INFINITY, LINE_TICK, false, "" };
	char number[NUMBER_MAX], places[TEXT_ROOM] = "", a[NUMBER_MAX], b[NUMBER_MAX];
	const struct tab *shape = NULL;
	size_t used = 0;

	for (size_t i = 0; i < lanes->beside->tab_count; i++) {
		const struct tab *tab = &lanes->beside->tab[i].tab;
		if ((tab->side > 0.0) != (side == SIDE_PLUS))
			continue;
		shape = tab;
		lane.from_mm = fmin(lane.from_mm, tab->x_mm - tab->width_mm / 2.0);
		lane.to_mm = fmax(lane.to_mm, tab->x_mm + tab->width_mm / 2.0);
		int wrote = snprintf(places + used, sizeof places - used, "%s%s",
				     used > 0 ? ", " : "", scale_number(number, tab->x_mm, 1));
		used += wrote > 0 ? (size_t)wrote : 0;
		used = used < sizeof places ? used : sizeof places - 1;
	}
	if (!shape)
		return;
	(void)snprintf(lane.text, TEXT_ROOM, "%s side, %s wide and %s thick, at %.120s mm",
		       side == SIDE_PLUS ? lanes->plus_side : lanes->minus_side,
		       scale_number(a, shape->width_mm, 2), scale_number(b, shape->height_mm, 2),
		       places);
	draw_lane(at, &lane);
}

static void draw_cove(struct pen_at *at, const struct lanes *lanes)
{
	const struct beside_figures *beside = lanes->beside;
	struct lane lane = { "cove", lanes->carve->from_mm, lanes->neck_to_mm, LINE_ROUGHED, false,
			     "" };
	char a[NUMBER_MAX], b[NUMBER_MAX], c[NUMBER_MAX];

	(void)snprintf(lane.text, TEXT_ROOM,
		       "at the edges, tallest %s high and %s wide at x %s mm, %s side",
		       scale_number(a, beside->cove.height_mm, 2),
		       scale_number(b, beside->cove.width_mm, 2),
		       scale_number(c, beside->cove_x_mm, 1),
		       beside->cove_side == SIDE_PLUS ? lanes->plus_side : lanes->minus_side);
	draw_lane(at, &lane);
}

static size_t beside_count(const struct beside_figures *beside)
{
	size_t count = has_cove(beside) ? 1 : 0;

	for (int side = 0; side < 2; side++)
		count += (has_rail(beside, side) ? 1u : 0u) + (tabs_on(beside, side) > 0 ? 1u : 0u);
	return count;
}

static void draw_beside(struct pen_at *at, const struct lanes *lanes)
{
	for (int side = 0; side < 2; side++) {
		if (has_rail(lanes->beside, side))
			draw_rail(at, lanes, side);
		if (tabs_on(lanes->beside, side) > 0)
			draw_tabs(at, lanes, side);
	}
	if (has_cove(lanes->beside))
		draw_cove(at, lanes);
}

double lanes_height_mm(const struct lanes *lanes)
{
	size_t count = 3 + (lanes->channel->width_mm > 0.0 ? 1u : 0u) + lanes->fixture->hold_count +
		       lanes->fixture->keep_out_count + beside_count(lanes->beside);

	return (double)count * LANE_MM;
}

void lanes_draw(struct canvas *canvas, const struct lanes *lanes, const struct map_axis *along,
		double y_mm)
{
	struct pen_at at = { canvas, along, y_mm };

	draw_straight(&at, lanes);
	if (lanes->channel->width_mm > 0.0)
		draw_channel(&at, lanes->channel);
	draw_heel(&at, lanes);
	draw_carve(&at, lanes->carve);
	for (size_t i = 0; i < lanes->fixture->hold_count; i++)
		draw_place(&at, &lanes->fixture->hold[i], false);
	for (size_t i = 0; i < lanes->fixture->keep_out_count; i++)
		draw_place(&at, &lanes->fixture->keep_out[i], true);
	draw_beside(&at, lanes);
}
