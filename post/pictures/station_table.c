/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/station_table.h"

#include <math.h>
#include <stdio.h>

#include "model/neck_spec.h"
#include "pictures/pen.h"
#include "pictures/scale.h"

#define GAP_MM 12.5 /* "00.00" in 8 pt and air */
#define LINE_MM 4.1
#define LEADER_MM 3.0

void station_table_spread(size_t count, double *place, double gap, double from, double to)
{
	if (count == 0)
		return;
	if ((double)(count - 1) * gap > to - from) {
		for (size_t i = 0; i < count; i++)
			place[i] = from + (to - from) * (double)i / (double)(count - 1);
		return;
	}
	place[0] = fmax(place[0], from);
	for (size_t i = 1; i < count; i++)
		place[i] = fmax(place[i], place[i - 1] + gap);
	place[count - 1] = fmin(place[count - 1], to);
	for (size_t i = count - 1; i-- > 0;)
		place[i] = fmin(place[i], place[i + 1] - gap);
}

static void draw_column(struct canvas *canvas, const struct station_figures *s, double x, double y)
{
	const double figures[] = { s->blank_mm, s->roughed_mm, s->finished_mm,
				   s->wood_over_channel_mm };
	char text[NUMBER_MAX];

	pen_text(canvas, x, y, TEXT_STRONG, ANCHOR_MIDDLE, scale_fret(text, s->fret));
	for (size_t row = 0; row < 4; row++)
		pen_text(canvas, x, y + (double)(row + 1) * LINE_MM, TEXT_BODY, ANCHOR_MIDDLE,
			 scale_number(text, figures[row], 2));
}

static void draw_heads(struct canvas *canvas, const struct station_table *table, double y)
{
	static const char *const heads[] = { "station", "blank", "roughed", "finished",
					     "over channel" };

	for (size_t row = 0; row < 5; row++)
		pen_text(canvas, CANVAS_MARGIN_MM, y + (double)row * LINE_MM, TEXT_SMALL,
			 ANCHOR_LEFT, heads[row]);
	pen_line(canvas, CANVAS_MARGIN_MM, y + 1.2, table->right_mm, y + 1.2, LINE_RULE);
	pen_text(canvas, CANVAS_MARGIN_MM, y + 5.0 * LINE_MM, TEXT_SMALL, ANCHOR_LEFT,
		 table->over_fretboard
			 ? "Thickness in mm over wood and fretboard; over channel: finished wood "
			   "between the channel's floor and the back."
			 : "Thickness in mm of the wood alone; over channel: finished wood "
			   "between the channel's floor and the back.");
}

void station_table_draw(struct canvas *canvas, const struct station_table *table, double y_mm)
{
	double place[NECK_STATIONS_MAX], x[NECK_STATIONS_MAX];
	double from = table->left_mm + 4.0, to = table->right_mm - 4.0;
	size_t fit = (size_t)((to - from) / GAP_MM) + 1, chosen[NECK_STATIONS_MAX], count = 0;
	size_t stride = (table->station_count + fit - 1) / fit;
	double top = y_mm + LEADER_MM + 3.0;

	for (size_t i = 0; i < table->station_count && count < NECK_STATIONS_MAX; i += stride) {
		double share = (table->station[i].x_mm - table->x_from_mm) /
			       (table->x_to_mm - table->x_from_mm);
		x[count] = table->left_mm + share * (table->right_mm - table->left_mm);
		place[count] = x[count];
		chosen[count++] = i;
	}
	station_table_spread(count, place, GAP_MM, from, to);
	draw_heads(canvas, table, top);
	for (size_t k = 0; k < count; k++) {
		pen_line(canvas, x[k], y_mm, place[k], y_mm + LEADER_MM - 0.4, LINE_STATION);
		draw_column(canvas, &table->station[chosen[k]], place[k], top);
	}
}
