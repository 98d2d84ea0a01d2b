/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/page.h"

#include <stdlib.h>

#include "files/text_file.h"
#include "page/assets.h"
#include "page/beside_tables.h"
#include "page/drawing.h"
#include "page/headline.h"
#include "page/markup.h"
#include "page/planes.h"
#include "page/tables.h"
#include "page/template.h"
#include "report/job_json.h"
#include "version.h"

enum gap {
	GAP_TITLE,
	GAP_NECK,
	GAP_VERDICT,
	GAP_MINUTES,
	GAP_CUTTER,
	GAP_LEAST_STOCK,
	GAP_MOST_STOCK,
	GAP_HAND_WORDS,
	GAP_BLANK_WORDS,
	GAP_PASS_TABLE,
	GAP_WHY_TABLE,
	GAP_STATION_TABLE,
	GAP_ZONE_TABLE,
	GAP_BESIDE,
	GAP_PROMISE_TABLE,
	GAP_CHECKLIST,
	GAP_DIGEST,
	GAP_VERSION,
	GAP_LICENCES,
	GAP_FIGURES,
	GAP_DRAWING,
	GAP_PLANES,
	GAP_STYLE,
	GAP_LIBRARY,
	GAP_SCRIPT,
	GAP_COUNT
};

static const char *const gap_names[GAP_COUNT] = {
	"title",       "neck",		"verdict",    "minutes",     "cutter",
	"least_stock", "most_stock",	"hand_words", "blank_words", "pass_table",
	"why_table",   "station_table", "zone_table", "beside",	     "promise_table",
	"checklist",   "digest",	"version",    "licences",    "figures",
	"drawing",     "planes",	"style",      "library",     "script",
};

static void put_words(struct markup part[GAP_COUNT], const struct job *job,
		      const struct job_result *result)
{
	markup_escaped(&part[GAP_TITLE], job->neck.name);
	markup_text(&part[GAP_TITLE], " \xe2\x80\x93 " NECKHEW_NAME);
	markup_escaped(&part[GAP_NECK], job->neck.name);
	headline_verdict(&part[GAP_VERDICT], result);
	headline_minutes(&part[GAP_MINUTES], result);
	headline_cutters(&part[GAP_CUTTER], job);
	headline_least_stock(&part[GAP_LEAST_STOCK], result);
	headline_most_stock(&part[GAP_MOST_STOCK], result);
	headline_hand(&part[GAP_HAND_WORDS], &job->neck);
	headline_blank(&part[GAP_BLANK_WORDS], job);
	markup_escaped(&part[GAP_DIGEST], job->digest[0] ? job->digest : "unknown");
	markup_text(&part[GAP_VERSION], NECKHEW_VERSION);
}

static void put_tables(struct markup part[GAP_COUNT], const struct job *job,
		       const struct job_result *result)
{
	tables_passes(&part[GAP_PASS_TABLE], result);
	tables_whys(&part[GAP_WHY_TABLE], result);
	tables_stations(&part[GAP_STATION_TABLE], job, result);
	tables_zones(&part[GAP_ZONE_TABLE], result);
	tables_chisel(&part[GAP_ZONE_TABLE], job, result);
	beside_tables(&part[GAP_BESIDE], job, result);
	tables_promises(&part[GAP_PROMISE_TABLE], result);
	tables_checklist(&part[GAP_CHECKLIST]);
}

/* What is the same for every neck, and whose it is. */
static void put_assets(struct markup part[GAP_COUNT])
{
	static const struct {
		enum gap gap;
		enum page_asset_name name;
	} assets[] = { { GAP_STYLE, ASSET_STYLE },
		       { GAP_LIBRARY, ASSET_LIBRARY },
		       { GAP_SCRIPT, ASSET_SCRIPT } };

	for (size_t i = 0; i < sizeof assets / sizeof assets[0]; i++) {
		struct asset asset = page_asset(assets[i].name);
		markup_bytes(&part[assets[i].gap], asset.text, asset.size);
	}
	markup_text(&part[GAP_LICENCES],
		    "This page and its own scripts are part of " NECKHEW_NAME
		    ": GNU General Public License, version 3 or later.\n\n"
		    "The turning view is drawn by the library THREE, which is put in whole:\n\n");
	markup_escaped(&part[GAP_LICENCES], page_asset(ASSET_LICENCE).text);
}

/* Takes the text over, also after a fault. */
static void put_json(struct markup *out, char *text)
{
	if (text)
		markup_json(out, text);
	free(text);
}

static enum fault put_data(struct markup part[GAP_COUNT], const struct job *job,
			   const struct neck *neck, const struct job_result *result,
			   struct fault_list *faults)
{
	char *text = NULL;
	double unit_mm;
	enum fault fault = planes_pack(&part[GAP_PLANES], &unit_mm, result, faults);

	if (!fault)
		fault = drawing_text(&text, job, neck, result, unit_mm, faults);
	if (!fault) {
		put_json(&part[GAP_DRAWING], text);
		fault = job_json_text(&text, job, neck, result, faults);
	}
	if (!fault)
		put_json(&part[GAP_FIGURES], text);
	return fault;
}

static enum fault put_together(struct markup *out, const struct markup part[GAP_COUNT],
			       struct fault_list *faults)
{
	struct template_slot slot[GAP_COUNT];
	struct asset page = page_asset(ASSET_PAGE);

	for (int i = 0; i < GAP_COUNT; i++) {
		enum fault fault = markup_fault(&part[i], faults);
		if (fault)
			return fault;
		slot[i] = (struct template_slot){ gap_names[i], part[i].text, part[i].size };
	}
	return template_fill(out, page.text, page.size, GAP_COUNT, slot, faults);
}

enum fault page_write(const char *path, const struct job *job, const struct neck *neck,
		      const struct job_result *result, struct fault_list *faults)
{
	struct markup part[GAP_COUNT] = { 0 }, page = { 0 };
	enum fault fault = put_data(part, job, neck, result, faults);

	if (!fault) {
		put_words(part, job, result);
		put_tables(part, job, result);
		put_assets(part);
		fault = put_together(&page, part, faults);
	}
	if (!fault)
		fault = text_file_write(path, page.text, page.size, faults);
	for (int i = 0; i < GAP_COUNT; i++)
		markup_free(&part[i]);
	markup_free(&page);
	return fault;
}
