/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/beside_tables.h"

#include <math.h>

#include "base/units.h"
#include "page/names.h"
#include "report/words.h"

#define CM3_PER_MM3 1e-3

static void put_length(struct markup *out, double length_mm)
{
	markup_number(out, length_mm, 2);
	markup_text(out, " mm (");
	markup_number(out, units_inch_from_mm(length_mm), 3);
	markup_text(out, " in)");
}

static void put_cell(struct markup *out, double value, int decimals)
{
	markup_text(out, "<td class=\"number\">");
	markup_number(out, value, decimals);
	markup_text(out, "</td>");
}

static void put_rails(struct markup *out, const struct job *job,
		      const struct beside_figures *beside)
{
	if (!(beside->channel_mm > 0.0))
		return;
	markup_text(out, "<p class=\"note\">Rails stand behind a channel of ");
	put_length(out, beside->channel_mm);
	markup_text(out, ", up to ");
	put_length(out, beside->rail_top_mm);
	markup_text(out, " over the gluing face:");
	for (int side = 0; side < 2; side++) {
		markup_text(out, side == 0 ? " " : "; ");
		markup_text(out, words_side(&job->neck, (enum neck_side)side));
		markup_text(out, " from ");
		markup_number(out, beside->rail_from_mm[side], 1);
		markup_text(out, " to ");
		markup_number(out, beside->rail_to_mm[side], 1);
		markup_text(out, " mm");
	}
	markup_text(out, ".</p>\n");
}

static void put_tabs(struct markup *out, const struct job *job, const struct beside_figures *beside)
{
	if (beside->tab_count == 0)
		return;
	markup_text(out, "<table>\n<caption>Tabs, which hold what would come loose: to be sawn off."
			 "</caption>\n<thead>\n<tr><th scope=\"col\">tab on the</th>");
	markup_text(out, "<th scope=\"col\">from the nut <span class=\"unit\">mm</span></th>"
			 "<th scope=\"col\">wide <span class=\"unit\">mm</span></th>"
			 "<th scope=\"col\">thick <span class=\"unit\">mm</span></th>"
			 "<th scope=\"col\">stands wide <span class=\"unit\">mm</span></th>"
			 "<th scope=\"col\">stands thick <span class=\"unit\">mm</span></th>"
			 "</tr>\n</thead>\n<tbody>\n");
	for (size_t i = 0; i < beside->tab_count; i++) {
		const struct tab_figures *tab = &beside->tab[i];
		bool plus = tab->tab.side > 0.0;
		markup_text(out, "<tr><th scope=\"row\">");
		markup_text(out, words_side(&job->neck, plus ? SIDE_PLUS : SIDE_MINUS));
		markup_text(out, "</th>");
		put_cell(out, tab->tab.x_mm, 1);
		put_cell(out, tab->tab.width_mm, 2);
		put_cell(out, tab->tab.height_mm, 2);
		put_cell(out, tab->least_width_mm, 2);
		put_cell(out, tab->least_height_mm, 2);
		markup_text(out, "</tr>\n");
	}
	markup_text(out, "</tbody>\n</table>\n");
}

static void put_cove_words(struct markup *out, const struct job *job,
			   const struct beside_figures *beside)
{
	markup_text(out, "<p class=\"note\">The bed lies too near for the ball to pass the gluing "
			 "face: a cove stays along the edges, tallest ");
	put_length(out, beside->cove.height_mm);
	markup_text(out, " and there ");
	put_length(out, beside->cove.width_mm);
	markup_text(out, " wide, at ");
	markup_number(out, beside->cove_x_mm, 1);
	markup_text(out, " mm from the nut on the ");
	markup_text(out, words_side(&job->neck, (enum neck_side)beside->cove_side));
	markup_text(out, "; ");
	markup_number(out, beside->cove_mm3 * CM3_PER_MM3, 2);
	markup_text(out, " cm\xc2\xb3 in all.");
	if (beside->skin_mm > 0.0) {
		markup_text(out, " A skin of ");
		put_length(out, beside->skin_mm);
		markup_text(out, " stays beside the neck.");
	}
	markup_text(out, "</p>\n");
}

static void put_coves(struct markup *out, const struct job *job, const struct job_result *result)
{
	put_cove_words(out, job, &result->beside);
	markup_text(out, "<table>\n<caption>Coves at the stations, mm.</caption>\n<thead>\n"
			 "<tr><th scope=\"col\">station</th>");
	for (int side = 0; side < 2; side++) {
		markup_text(out, "<th scope=\"col\">");
		markup_text(out, words_side(&job->neck, (enum neck_side)side));
		markup_text(out, ", high</th><th scope=\"col\">wide</th>");
	}
	markup_text(out, "</tr>\n</thead>\n<tbody>\n");
	for (size_t i = 0; i < result->station_count; i++) {
		char name[NAMES_ROOM];
		names_station(name, result->station[i].fret);
		markup_text(out, "<tr><th scope=\"row\">");
		markup_escaped(out, name);
		markup_text(out, "</th>");
		for (int side = 0; side < 2; side++) {
			put_cell(out, result->station[i].cove[side].height_mm, 2);
			put_cell(out, result->station[i].cove[side].width_mm, 2);
		}
		markup_text(out, "</tr>\n");
	}
	markup_text(out, "</tbody>\n</table>\n");
}

void beside_tables(struct markup *out, const struct job *job, const struct job_result *result)
{
	const struct beside_figures *beside = &result->beside;
	bool cove = beside->cove.height_mm > 0.0;

	if (!(beside->channel_mm > 0.0) && beside->tab_count == 0 && !cove)
		return;
	markup_text(out, "<section aria-labelledby=\"beside-title\">\n"
			 "<h2 id=\"beside-title\">Beside the neck</h2>\n"
			 "<div class=\"scroll\" tabindex=\"0\" role=\"region\" "
			 "aria-label=\"What stands beside the neck\">\n");
	put_rails(out, job, beside);
	put_tabs(out, job, beside);
	if (cove)
		put_coves(out, job, result);
	markup_text(out, "</div>\n</section>\n");
}
