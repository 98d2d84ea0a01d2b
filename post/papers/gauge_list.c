/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/gauge_list.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/mem.h"
#include "pictures/scale.h"

/* Two places nearer than this are one for a card gauge, mm. */
#define NEAR_MM 2.0
/* Between two cards, mm: room for the knife. */
#define GAP_MM 4.0

#define EXTRA_COUNT 4
#define GAUGE_PLACES_MAX (NECK_STATIONS_MAX + EXTRA_COUNT)

struct gauge_site {
	double x_mm, fret; /* fret NAN: where the heel begins */
};

struct sites {
	size_t count;
	struct gauge_site item[GAUGE_PLACES_MAX];
};

/* Keeps the places in the order of x. */
static void add_site(struct sites *sites, double x_mm, double fret)
{
	size_t at = sites->count++;

	for (; at > 0 && sites->item[at - 1].x_mm > x_mm; at--)
		sites->item[at] = sites->item[at - 1];
	sites->item[at] = (struct gauge_site){ x_mm, fret };
}

static void add_unless_near(struct sites *sites, double x_mm, double fret)
{
	for (size_t i = 0; i < sites->count; i++)
		if (fabs(sites->item[i].x_mm - x_mm) < NEAR_MM)
			return;
	add_site(sites, x_mm, fret);
}

static void find_sites(struct sites *sites, const struct paper_content *content)
{
	static const double extra_fret[] = { 1.0, 5.0, 9.0 };
	const struct neck *neck = content->neck;
	double heel = neck_heel_start_mm(neck);

	sites->count = 0;
	for (size_t i = 0; i < content->result->station_count && i < NECK_STATIONS_MAX; i++)
		add_site(sites, content->result->station[i].x_mm, content->result->station[i].fret);
	add_unless_near(sites, heel, NAN);
	for (size_t i = 0; i < sizeof extra_fret / sizeof extra_fret[0]; i++) {
		double x = neck_fret_x_mm(neck, extra_fret[i]);
		if (x < heel)
			add_unless_near(sites, x, extra_fret[i]);
	}
}

static void name_site(char out[GAUGE_NAME_MAX], const struct gauge_site *site)
{
	char number[NUMBER_MAX];

	if (isnan(site->fret))
		(void)snprintf(out, GAUGE_NAME_MAX, "heel begins");
	else
		(void)snprintf(out, GAUGE_NAME_MAX, "%s%s", site->fret == 0.0 ? "" : "fret ",
			       scale_fret(number, site->fret));
}

/* Highest point of an outline on the centre line: its pieces are short. */
static double crest_of(const struct section_line *line)
{
	double crest = 0.0;

	for (size_t i = 0; i + 1 < line->count; i++) {
		const struct section_point *a = &line->point[i], *b = a + 1;
		if ((a->y_mm < 0.0) == (b->y_mm < 0.0))
			continue;
		double t = a->y_mm / (a->y_mm - b->y_mm);
		crest = fmax(crest, a->z_mm + t * (b->z_mm - a->z_mm));
	}
	return crest;
}

static enum fault make_gauge(struct gauge *gauge, const struct gauge_site *site, bool roughed,
			     const struct paper_content *content, struct fault_list *faults)
{
	const struct neck_spec *spec = neck_spec_of(content->neck);
	enum fault fault;

	*gauge = (struct gauge){ .x_mm = site->x_mm, .roughed = roughed };
	name_site(gauge->name, site);
	if (roughed)
		fault = section_line_grown(&gauge->line, content->facets, content->neck, site->x_mm,
					   faults);
	else
		fault = section_line_finished(&gauge->line, content->neck, site->x_mm, faults);
	if (fault)
		return fault;
	for (size_t i = 0; i < gauge->line.count; i++)
		gauge->half_mm = fmax(gauge->half_mm, fabs(gauge->line.point[i].y_mm));
	if (spec->over_fretboard) {
		gauge->board_mm = spec->fretboard_thickness_mm;
		gauge->board_half_mm =
			fmax(neck_fretboard_width_mm(content->neck, site->x_mm) / 2.0,
			     roughed ? gauge->half_mm : 0.0);
	}
	gauge->half_mm = fmax(gauge->half_mm, gauge->board_half_mm);
	gauge->crest_mm = crest_of(&gauge->line);
	gauge->thickness_mm = gauge->crest_mm + gauge->board_mm;
	return FAULT_NONE;
}

enum fault gauge_list_build(struct gauge_list *out, const struct paper_content *content,
			    struct fault_list *faults)
{
	struct sites sites;

	*out = (struct gauge_list){ 0 };
	find_sites(&sites, content);
	out->item = mem_array(2 * sites.count, sizeof *out->item);
	if (!out->item)
		return fault_no_memory(faults, "the gauges");
	while (out->count < 2 * sites.count) {
		size_t i = out->count++;
		enum fault fault =
			make_gauge(&out->item[i], &sites.item[i / 2], i % 2 == 1, content, faults);
		if (fault)
			return fault;
	}
	return FAULT_NONE;
}

static double card_width_mm(const struct gauge *gauge)
{
	return 2.0 * (gauge->half_mm + GAUGE_CHEEK_MM);
}

static double card_height_mm(const struct gauge *gauge)
{
	return gauge->board_mm + gauge->crest_mm + GAUGE_ROOF_MM;
}

/* How many cards may stand side by side: two when every pair can. */
static size_t columns_of(const struct gauge_list *list, double width_mm)
{
	for (size_t i = 0; i + 1 < list->count; i += 2)
		if (card_width_mm(&list->item[i]) + card_width_mm(&list->item[i + 1]) + GAP_MM >
		    width_mm)
			return 1;
	return 2;
}

/* Puts a row of cards at `top` or, when it does not fit there, on a further
 * page. Returns its height; 0 when the cards are larger than a page. */
static double lay_row(struct gauge_list *list, struct gauge *row, size_t columns,
		      struct sheet_area area, double *top_mm)
{
	double width = area.right - area.left, height = 0.0;

	for (size_t i = 0; i < columns; i++) {
		row[i].page = 0;
		height = fmax(height,
			      card_width_mm(&row[i]) > width ? INFINITY : card_height_mm(&row[i]));
	}
	if (height > area.bottom - area.top) {
		list->left_out += columns;
		return 0.0;
	}
	if (*top_mm + height > area.bottom) {
		list->page_count++;
		*top_mm = area.top;
	}
	for (size_t i = 0; i < columns; i++) {
		row[i].page = list->page_count;
		row[i].centre_mm = area.left + width * (double)(2 * i + 1) / (double)(2 * columns);
		row[i].face_mm = *top_mm + height - row[i].board_mm;
	}
	return height;
}

void gauge_list_lay(struct gauge_list *list, struct sheet_area area)
{
	size_t columns = columns_of(list, area.right - area.left);
	double top = area.top;

	list->page_count = 1;
	list->left_out = 0;
	for (size_t i = 0; i < list->count; i += columns) {
		double height = lay_row(list, &list->item[i], columns, area, &top);
		top += height > 0.0 ? height + GAP_MM : 0.0;
	}
}

void gauge_list_free(struct gauge_list *list)
{
	if (!list)
		return;
	for (size_t i = 0; i < list->count; i++)
		section_line_free(&list->item[i].line);
	free(list->item);
	*list = (struct gauge_list){ 0 };
}
