/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config/draft.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "config/nearest.h"
#include "config/utf8.h"
#include "job/zero.h"

/* One of the three lists of the shop, as far as choosing from it goes. */
struct catalog {
	const char *one, *list, *use; /* paths: "cutter", "cutters", "use.cutter" */
	const char *wanted; /* the name in `use`; "" when none is given */
	size_t count;
	const char *(*name)(const void *shop, size_t i);
};

static const char *machine_name(const void *shop, size_t i)
{
	return ((const struct shop_draft *)shop)->machines[i].name;
}

static const char *cutter_name(const void *shop, size_t i)
{
	return ((const struct shop_draft *)shop)->cutters[i].cutter.name;
}

static const char *wood_name(const void *shop, size_t i)
{
	return ((const struct shop_draft *)shop)->woods[i].name;
}

/* Adds a fault at a setting's own place. */
static enum fault refuse(const struct config_places *places, struct fault_list *faults,
			 const char *setting, const char *message)
{
	const struct config_place *place = config_places_around(places, setting);

	return fault_add(faults, FAULT_SETTING, place ? place->file : places->main_file,
			 place ? place->line : 0, setting, "%s", message);
}

/* Two of one name in a list: the name would not say which is meant. */
static enum fault check_names(const struct catalog *catalog, const struct shop_draft *shop,
			      const struct config_places *places, struct fault_list *faults)
{
	enum fault first = FAULT_NONE;

	for (size_t i = 1; i < catalog->count; i++) {
		for (size_t k = 0; k < i; k++) {
			const char *name = catalog->name(shop, i);
			char path[FAULT_SETTING_MAX];
			if (name[0] == '\0' || strcmp(name, catalog->name(shop, k)) != 0)
				continue;
			(void)snprintf(path, sizeof path, "%s[%zu].name", catalog->list, i);
			first = refuse(places, faults, path,
				       "Another one of this list has the same name.");
			break;
		}
	}
	return first;
}

static enum fault refuse_name(const struct catalog *catalog, const struct shop_draft *shop,
			      const struct config_places *places, struct fault_list *faults)
{
	char wanted[64], nearest[64], message[256];
	size_t i = nearest_word(catalog->wanted, catalog->count, catalog->name, shop);

	utf8_make_plain(wanted, sizeof wanted, catalog->wanted);
	utf8_make_plain(nearest, sizeof nearest, catalog->name(shop, i));
	(void)snprintf(message, sizeof message,
		       "None of the %s is called \"%s\"; the nearest known name is \"%s\".",
		       catalog->list, wanted, nearest);
	return refuse(places, faults, catalog->use, message);
}

/* Index of the one meant in *chosen; SIZE_MAX when it is the one written into
 * the job file itself. */
static enum fault choose(size_t *chosen, const struct catalog *catalog,
			 const struct shop_draft *shop, const struct config_places *places,
			 struct fault_list *faults)
{
	char message[256];

	*chosen = SIZE_MAX;
	if (config_places_find(places, catalog->one)) {
		if (catalog->wanted[0] == '\0')
			return FAULT_NONE;
		(void)snprintf(message, sizeof message,
			       "There is also a group \"%s\"; take out one of the two.",
			       catalog->one);
		return refuse(places, faults, catalog->use, message);
	}
	if (catalog->count == 0) {
		(void)snprintf(message, sizeof message,
			       "No %s is given: write a group %s = { ... }, or include a file "
			       "with a list %s and name one of them in use.",
			       catalog->one, catalog->one, catalog->list);
		return refuse(places, faults, catalog->one, message);
	}
	if (catalog->wanted[0] == '\0' && catalog->count > 1) {
		(void)snprintf(message, sizeof message,
			       "Several %s are known; say which: use = { %s = \"...\"; };",
			       catalog->list, catalog->one);
		return refuse(places, faults, catalog->use, message);
	}
	for (size_t i = 0; i < catalog->count; i++) {
		if (catalog->wanted[0] && strcmp(catalog->wanted, catalog->name(shop, i)) != 0)
			continue;
		*chosen = i;
		return FAULT_NONE;
	}
	return refuse_name(catalog, shop, places, faults);
}

/* Chooses from one list and enters the places under the single name too. */
static enum fault take(size_t *chosen, const struct catalog *catalog, const struct shop_draft *shop,
		       struct config_places *places, struct fault_list *faults)
{
	char from[FAULT_SETTING_MAX];
	enum fault names = check_names(catalog, shop, places, faults);
	enum fault code = choose(chosen, catalog, shop, places, faults);

	if (!code && *chosen != SIZE_MAX) {
		(void)snprintf(from, sizeof from, "%s[%zu]", catalog->list, *chosen);
		code = config_places_alias(places, from, catalog->one, faults);
	}
	return names ? names : code;
}

/* Enters a cutter into the job, with the chip load of its wood. */
static void put_cutter(struct job *job, const struct cutter_draft *from)
{
	struct cutter *cutter = &job->cutter[job->cutter_count++];

	*cutter = from->cutter;
	cutter->chip_load_mm = from->chip_load_mm[job->wood.class];
}

/* The later cutters: always from the list. */
static enum fault take_then(struct config_draft *draft, struct config_places *places,
			    struct fault_list *faults)
{
	const struct shop_draft *shop = &draft->shop;
	enum fault first = FAULT_NONE;

	for (size_t i = 0; i < draft->use.then_count; i++) {
		char use[FAULT_SETTING_MAX], one[FAULT_SETTING_MAX], from[FAULT_SETTING_MAX];
		(void)snprintf(use, sizeof use, "use.then[%zu].cutter", i);
		(void)snprintf(one, sizeof one, "use.then[%zu]", i);
		const struct catalog cutters = {
			"later cutter",	    "cutters",	use, draft->use.then[i].cutter,
			shop->cutter_count, cutter_name
		};
		size_t chosen = SIZE_MAX;
		enum fault code = choose(&chosen, &cutters, shop, places, faults);
		if (!code && chosen != SIZE_MAX) {
			(void)snprintf(from, sizeof from, "cutters[%zu]", chosen);
			code = config_places_alias(places, from, one, faults);
			put_cutter(&draft->job, &shop->cutters[chosen]);
		}
		first = first ? first : code;
	}
	return first;
}

static enum fault take_from_shop(struct config_draft *draft, struct config_places *places,
				 struct fault_list *faults)
{
	const struct shop_draft *shop = &draft->shop;
	struct job *job = &draft->job;
	const struct catalog machines = { "machine",	      "machines",	   "use.machine",
					  draft->use.machine, shop->machine_count, machine_name };
	const struct catalog cutters = { "cutter",	    "cutters",		"use.cutter",
					 draft->use.cutter, shop->cutter_count, cutter_name };
	const struct catalog woods = { "wood",		"woods",	  "use.wood",
				       draft->use.wood, shop->wood_count, wood_name };
	size_t machine, cutter, wood;

	enum fault code = take(&machine, &machines, shop, places, faults);
	if (machine != SIZE_MAX)
		job->machine = shop->machines[machine];
	enum fault cutter_code = take(&cutter, &cutters, shop, places, faults);
	if (cutter != SIZE_MAX)
		draft->cutter = shop->cutters[cutter];
	enum fault wood_code = take(&wood, &woods, shop, places, faults);
	if (wood != SIZE_MAX)
		job->wood = shop->woods[wood];
	put_cutter(job, &draft->cutter);
	enum fault then_code = take_then(draft, places, faults);
	return code ? code : cutter_code ? cutter_code : wood_code ? wood_code : then_code;
}

/* What a side does not say, its station says. */
static struct section_spec inherit(const struct side_draft *side, const struct side_draft *station)
{
	struct section_spec spec;

	spec.family = (enum section_family)(side->family >= 0 ? side->family : station->family);
	spec.fullness = isnan(side->fullness) ? station->fullness : side->fullness;
	spec.flat_share = isnan(side->flat_share) ? station->flat_share : side->flat_share;
	spec.apex_radius_mm = isnan(side->apex_radius_mm) ? station->apex_radius_mm
							  : side->apex_radius_mm;
	spec.outline = side->outline.count > 0 ? side->outline : station->outline;
	return spec;
}

/* A blank whose under side is not described lies flat from end to end. */
static void lay_flat(struct blank *blank)
{
	size_t last = blank->top.count - 1;

	if (blank->bottom.count > 0 || blank->top.count < 2)
		return;
	blank->bottom.count = 2;
	blank->bottom.x_mm[0] = blank->top.x_mm[0];
	blank->bottom.x_mm[1] = blank->top.x_mm[last];
}

/* Feeds have the decimals of their unit unless some are stated. A machine parks
 * when it is said where; one of the two places alone is kept as it is: job_check
 * names the other. */
static void settle_machine(struct machine *machine)
{
	machine->reads.feed_decimals_stated = machine->reads.feed_decimals >= 0;
	if (!machine->reads.feed_decimals_stated)
		machine->reads.feed_decimals = 0;
	machine->parks = !isnan(machine->park_x_mm) || !isnan(machine->park_y_mm);
	if (!machine->parks)
		machine->park_x_mm = machine->park_y_mm = 0.0;
}

/* What a stretch of the neck does not say, the whole neck says. */
static void spread_cutting(struct cutting out[STRETCH_COUNT], const struct cutting_draft *from)
{
	for (int i = 0; i < STRETCH_COUNT; i++) {
		const struct stretch_draft *own = &from->stretch[i];
		out[i] = from->whole;
		if (own->lines >= 0)
			out[i].lines = (enum cut_lines)own->lines;
		if (own->way >= 0)
			out[i].way = (enum cut_way)own->way;
		if (own->grain >= 0)
			out[i].grain = (enum cut_grain)own->grain;
	}
}

/* Keep-outs as the job has them: a cylinder by the square around it. */
static void place_keep_outs(struct fixture *fixture, const struct fixture_draft *draft)
{
	fixture->keep_out_count = draft->keep_out_count;
	for (size_t i = 0; i < draft->keep_out_count; i++) {
		const struct keep_out_draft *from = &draft->keep_out[i];
		struct place *place = &fixture->keep_out[i];
		*place = from->place;
		if (place->shape != PLACE_CYLINDER)
			continue;
		place->x_from_mm = from->x_mm - from->diameter_mm / 2.0;
		place->x_to_mm = from->x_mm + from->diameter_mm / 2.0;
		place->y_from_mm = from->y_mm - from->diameter_mm / 2.0;
		place->y_to_mm = from->y_mm + from->diameter_mm / 2.0;
	}
}

/* Program zero in words becomes a place; both ways at once would contradict. */
static enum fault place_zero(struct job *job, const struct config_places *places,
			     struct fault_list *faults)
{
	job->fixture.zero.by_words = config_places_find(places, "fixture.zero") != NULL;
	if (!job->fixture.zero.by_words)
		return FAULT_NONE;
	if (config_places_find(places, "fixture.work_zero"))
		return refuse(places, faults, "fixture.zero",
			      "There is also fixture.work_zero; take out one of the two.");
	job->fixture.work_zero_mm = zero_place(job);
	return FAULT_NONE;
}

enum fault draft_finish(struct config_draft *draft, struct config_places *places,
			struct fault_list *faults)
{
	struct neck_spec *neck = &draft->job.neck;

	neck->station_count = draft->station_count;
	for (size_t i = 0; i < draft->station_count; i++) {
		const struct station_draft *from = &draft->station[i];
		neck->station[i] = (struct station_spec){
			.fret = from->fret,
			.thickness_mm = from->thickness_mm,
			.bass = inherit(&from->bass, &from->both),
			.treble = inherit(&from->treble, &from->both),
		};
	}
	lay_flat(&draft->job.blank);
	draft->job.fixture = draft->fixture.fixture;
	place_keep_outs(&draft->job.fixture, &draft->fixture);
	spread_cutting(draft->job.cutting, &draft->cutting);
	enum fault zero = place_zero(&draft->job, places, faults);
	enum fault taken = take_from_shop(draft, places, faults);
	settle_machine(&draft->job.machine);
	return zero ? zero : taken;
}
