/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/places.h"

#include <math.h>
#include <stdio.h>

#include "pictures/scale.h"

/* Two places nearer than this are one, mm. */
#define NEAR_MM 2.0

/* Height of the roughed wood on the centre line, straight between columns. */
static double roughed_top_mm(const struct column_map *map, double x_mm)
{
	double row = floor(-map->y0_mm / map->cell_mm + 0.5);
	double f = (x_mm - map->x0_mm) / map->cell_mm;

	if (map->nx < 2 || !(row >= 0.0 && row < (double)map->ny) || f < -0.5 ||
	    f > (double)map->nx - 0.5)
		return NAN;
	f = fmin(fmax(f, 0.0), (double)(map->nx - 1) - 1e-9);
	size_t ix = (size_t)f;
	const float *value = &map->value[(size_t)row * map->nx + ix];
	double share = f - (double)ix;
	return (1.0 - share) * (double)value[0] + share * (double)value[1];
}

static struct place_figures added_place(const struct paper_content *content, double x, double fret)
{
	const struct neck *neck = content->neck;
	const struct neck_spec *spec = neck_spec_of(neck);
	double board_mm = spec->over_fretboard ? spec->fretboard_thickness_mm : 0.0;

	return (struct place_figures){
		.at = { .fret = fret,
			.x_mm = x,
			.blank_mm = outline_value_mm(&content->job->blank.top, x) + board_mm,
			.roughed_mm = roughed_top_mm(&content->result->roughed, x) + board_mm,
			.finished_mm = neck_stated_thickness_mm(neck, x),
			.width_mm = neck_half_breadth_mm(neck, SIDE_MINUS, x, 0.0) +
				    neck_half_breadth_mm(neck, SIDE_PLUS, x, 0.0),
			.wood_over_channel_mm = neck_wood_over_channel_mm(neck, x) },
		.added = true
	};
}

/* Keeps the order of x. */
static void insert(struct place_figures out[PLACES_MAX], size_t *count,
		   const struct place_figures *place)
{
	size_t at = (*count)++;

	for (; at > 0 && out[at - 1].at.x_mm > place->at.x_mm; at--)
		out[at] = out[at - 1];
	out[at] = *place;
}

static void add_unless_near(struct place_figures out[PLACES_MAX], size_t *count,
			    const struct paper_content *content, double x_mm, double fret)
{
	for (size_t i = 0; i < *count; i++)
		if (fabs(out[i].at.x_mm - x_mm) < NEAR_MM)
			return;
	struct place_figures place = added_place(content, x_mm, fret);
	insert(out, count, &place);
}

size_t places_of(struct place_figures out[PLACES_MAX], const struct paper_content *content)
{
	static const double frets[] = { 0.0, 1.0, 5.0, 9.0 };
	const struct job_result *result = content->result;
	double heel_mm = neck_heel_start_mm(content->neck);
	size_t count = 0;

	for (size_t i = 0; i < result->station_count && i < NECK_STATIONS_MAX; i++) {
		struct place_figures place = { .at = result->station[i] };
		insert(out, &count, &place);
	}
	add_unless_near(out, &count, content, heel_mm, NAN);
	for (size_t i = 0; i < sizeof frets / sizeof frets[0]; i++) {
		double x = neck_fret_x_mm(content->neck, frets[i]);
		if (x < heel_mm)
			add_unless_near(out, &count, content, x, frets[i]);
	}
	return count;
}

void places_name(char out[PLACES_NAME_ROOM], double fret)
{
	char number[NUMBER_MAX];

	if (isnan(fret))
		(void)snprintf(out, PLACES_NAME_ROOM, "heel begins");
	else
		(void)snprintf(out, PLACES_NAME_ROOM, "%s%s", fret == 0.0 ? "" : "fret ",
			       scale_fret(number, fret));
}
