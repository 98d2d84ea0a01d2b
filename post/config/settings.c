/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config/settings.h"

#include <string.h>

#include "config/draft.h"
#include "config/nearest.h"
#include "config/rows.h"

static const char *const unit_names[] = { "mm", "in", NULL };

#define AT(field) offsetof(struct config_draft, field)
#define CATALOG(name_, set_, field, help_)                                                     \
	ROW_LIST(name_, NEED_NOTHING, 0, DRAFT_CATALOG_MAX, set_, AT(shop.field##s),           \
		 sizeof(((struct config_draft *)0)->shop.field##s[0]), AT(shop.field##_count), \
		 help_)
static const struct setting root_rows[] = {
	/* stays row 0: it belongs to its file and not to the draft */
	ROW_CHOICE("units", NEED_USUAL, unit_names, UNIT_MM, 0,
		   "unit of every length in this file; an included file states its own"),
	ROW_GROUP("neck", NEED_GIVEN, &settings_neck, AT(job.neck), "the neck as a whole"),
	ROW_LIST("stations", NEED_GIVEN, 2, NECK_STATIONS_MAX, &settings_station, AT(station),
		 sizeof(struct station_draft), AT(station_count),
		 "thickness and section along the neck, from the nut on"),
	ROW_GROUP("heel", NEED_GIVEN, &settings_heel, AT(job.neck.heel), "the heel"),
	ROW_GROUP("peghead", NEED_GIVEN, &settings_peghead, AT(job.neck.peghead), "the peghead"),
	ROW_GROUP("channel", NEED_NOTHING, &settings_channel, AT(job.neck.channel),
		  "the truss-rod channel; leave the group out where there is none"),
	ROW_GROUP("allowance", NEED_USUAL, &settings_allowance, AT(job.neck.allowance),
		  "stock left for the hand, square to the surface"),
	ROW_GROUP("blank", NEED_GIVEN, &settings_blank, AT(job.blank), "the wood on the machine"),
	ROW_GROUP("fixture", NEED_GIVEN, &settings_fixture, AT(fixture),
		  "how the blank is held, in neck coordinates"),
	ROW_GROUP("carve", NEED_GIVEN, &settings_carve, AT(job.carve), "what is to be carved"),
	ROW_GROUP("cutting", NEED_USUAL, &settings_cutting, AT(cutting),
		  "which way lines run and are cut"),
	ROW_GROUP("use", NEED_USUAL, &settings_use, AT(use),
		  "which machine, cutter and wood of the lists this job uses"),
	CATALOG("machines", &settings_machine, machine, "the machines of the shop"),
	CATALOG("cutters", &settings_cutter, cutter, "the cutters of the shop"),
	CATALOG("woods", &settings_wood, wood, "the woods of the shop"),
	ROW_GROUP("machine", NEED_NOTHING, &settings_machine, AT(job.machine),
		  "the machine, when not named from a list"),
	ROW_GROUP("cutter", NEED_NOTHING, &settings_cutter, AT(cutter),
		  "the cutter, when not named from a list"),
	ROW_GROUP("wood", NEED_NOTHING, &settings_wood, AT(job.wood),
		  "the wood, when not named from a list"),
};
#undef AT

const struct setting_set *settings_root(void)
{
	static const struct setting_set root = SET("a neck file", root_rows);

	return &root;
}

const struct setting *settings_find(const struct setting_set *set, const char *name)
{
	for (size_t i = 0; i < set->count; i++) {
		if (strcmp(set->row[i].name, name) == 0)
			return &set->row[i];
	}
	return NULL;
}

static const char *row_name(const void *context, size_t i)
{
	const struct setting_set *set = context;

	return set->row[i].name;
}

const char *settings_nearest(const struct setting_set *set, const char *name)
{
	size_t i = nearest_word(name, set->count, row_name, set);

	return i < set->count ? set->row[i].name : "";
}

const char *settings_home_of(const char *name)
{
	const struct setting_set *root = settings_root();

	for (size_t i = 0; i < root->count; i++) {
		if (root->row[i].set && settings_find(root->row[i].set, name))
			return root->row[i].name;
	}
	return NULL;
}
