/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/beside_json.h"

#include <math.h>

#include "report/json_value.h"
#include "report/words.h"

static json_t *rails_json(const struct beside_figures *beside)
{
	if (!(beside->channel_mm > 0.0))
		return json_null();
	return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o}", "channel_mm",
			 json_mm(beside->channel_mm), "minus_from_mm",
			 json_mm(beside->rail_from_mm[SIDE_MINUS]), "minus_to_mm",
			 json_mm(beside->rail_to_mm[SIDE_MINUS]), "plus_from_mm",
			 json_mm(beside->rail_from_mm[SIDE_PLUS]), "plus_to_mm",
			 json_mm(beside->rail_to_mm[SIDE_PLUS]), "top_mm",
			 json_mm(beside->rail_top_mm));
}

static json_t *tab_json(const struct job *job, const struct tab_figures *figures)
{
	const struct tab *tab = &figures->tab;
	enum neck_side side = tab->side > 0.0 ? SIDE_PLUS : SIDE_MINUS;
	double near = tab->side * tab->inner_mm, far = tab->side * tab->outer_mm;

	return json_pack("{s:o, s:s, s:o, s:o, s:o, s:o, s:o, s:o}", "x_mm", json_mm(tab->x_mm),
			 "side", words_side(&job->neck, side), "width_mm", json_mm(tab->width_mm),
			 "height_mm", json_mm(tab->height_mm), "y_from_mm",
			 json_mm(fmin(near, far)), "y_to_mm", json_mm(fmax(near, far)),
			 "least_width_mm", json_mm(figures->least_width_mm), "least_height_mm",
			 json_mm(figures->least_height_mm));
}

static json_t *tabs_json(const struct job *job, const struct beside_figures *beside)
{
	json_t *tabs = json_array();

	for (size_t i = 0; tabs && i < beside->tab_count; i++) {
		if (json_array_append_new(tabs, tab_json(job, &beside->tab[i])) == 0)
			continue;
		json_decref(tabs);
		tabs = NULL;
	}
	return tabs;
}

static json_t *cove_json(const struct job *job, const struct beside_figures *beside)
{
	if (!(beside->cove.height_mm > 0.0))
		return json_null();
	return json_pack("{s:o, s:o, s:o, s:s, s:o, s:o}", "height_mm",
			 json_mm(beside->cove.height_mm), "width_mm",
			 json_mm(beside->cove.width_mm), "x_mm", json_mm(beside->cove_x_mm), "side",
			 words_side(&job->neck, (enum neck_side)beside->cove_side), "volume_mm3",
			 json_value(beside->cove_mm3, JSON_DECIMALS_MM3), "skin_mm",
			 json_mm(beside->skin_mm));
}

json_t *beside_json(const struct job *job, const struct job_result *result)
{
	const struct beside_figures *beside = &result->beside;

	return json_pack("{s:s, s:o, s:o, s:o}", "waste",
			 beside->channel_mm > 0.0 ? "rails" : "cleared", "rails",
			 rails_json(beside), "tabs", tabs_json(job, beside), "cove",
			 cove_json(job, beside));
}
