/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config/walk.h"

#include <stdio.h>
#include <string.h>

#include "config/describe.h"
#include "config/settings.h"
#include "config/value.h"

/* Row of the top level that belongs to its file. */
#define ROOT_UNITS 0

struct walk {
	struct config_places *places;
	struct fault_list *faults;
	enum fault first;
	const struct source *source; /* the file being walked */
	struct source_list *sources; /* all of them, for values that name one more */
};

/* A group of a file under its path. */
struct level {
	const config_setting_t *node;
	const struct setting_set *set;
	const char *path; /* "" at the top */
	void *draft;
};

static void note(struct walk *walk, enum fault code)
{
	if (!walk->first)
		walk->first = code;
}

static int line_of(const config_setting_t *node)
{
	return (int)config_setting_source_line(node);
}

static void join(char path[FAULT_SETTING_MAX], const char *group, const char *name)
{
	(void)snprintf(path, FAULT_SETTING_MAX, "%s%s%s", group, group[0] ? "." : "", name);
}

/* Recursive as the table is nested, three groups deep. */
static void walk_group(struct walk *walk, const struct level *level);

static void enter_place(struct walk *walk, const char *path, const config_setting_t *node)
{
	note(walk, config_places_add(walk->places, path, walk->source->path, line_of(node),
				     walk->faults));
}

/* A setting the table does not know: says where it belongs or what it may
 * have been meant to be. */
static void refuse_unknown(struct walk *walk, const struct level *level,
			   const config_setting_t *node)
{
	const char *name = config_setting_name(node), *home = settings_home_of(name);
	char path[FAULT_SETTING_MAX];

	join(path, level->path, name);
	if (home)
		note(walk,
		     fault_add(walk->faults, FAULT_SETTING, walk->source->path, line_of(node), path,
			       "There is no such setting in %s; one of that name belongs in "
			       "\"%s\".",
			       level->set->what, home));
	else
		note(walk,
		     fault_add(walk->faults, FAULT_SETTING, walk->source->path, line_of(node), path,
			       "There is no such setting in %s; the nearest known name is "
			       "\"%s\".",
			       level->set->what, settings_nearest(level->set, name)));
}

static void refuse_missing(struct walk *walk, const struct setting *row, const char *path,
			   const char *file, int line, enum length_unit unit)
{
	char allowed[160];

	describe_allowed(allowed, sizeof allowed, row, unit);
	note(walk, fault_add(walk->faults, FAULT_SETTING, file, line, path,
			     "This must be given: %s (%s).", allowed, row->help));
}

static struct value_spot spot_of(const struct walk *walk, const config_setting_t *node,
				 const char *path)
{
	return (struct value_spot){ walk->source->path, line_of(node), path,
				    walk->source->unit, walk->faults,  NULL };
}

/* Reads the groups of a list behind those read already. */
static void walk_list(struct walk *walk, const struct setting *row, const config_setting_t *node,
		      const char *path, void *draft)
{
	size_t *count = (size_t *)(void *)((char *)draft + row->count_offset);
	char *items = (char *)draft + row->offset;
	struct value_spot spot = spot_of(walk, node, path);
	int found = config_setting_is_list(node) ? config_setting_length(node) : -1;

	if (found < (int)row->least || *count + (size_t)found > (size_t)row->most) {
		note(walk, value_refuse(row, node, &spot));
		return;
	}
	for (unsigned int i = 0; i < (unsigned int)found; i++) {
		const config_setting_t *item = config_setting_get_elem(node, i);
		char item_path[FAULT_SETTING_MAX];
		(void)snprintf(item_path, sizeof item_path, "%.80s[%zu]", path, *count);
		enter_place(walk, item_path, item);
		struct level inner = { item, row->set, item_path, items + *count * row->size };
		++*count;
		if (config_setting_is_group(item)) {
			walk_group(walk, &inner);
			continue;
		}
		note(walk,
		     fault_add(walk->faults, FAULT_SETTING, walk->source->path, line_of(item),
			       item_path, "This must be %s: a group { ... }.", row->set->what));
	}
}

/* Points may stand in a file of their own; faults found later are then told
 * there. */
static void walk_points(struct walk *walk, const struct setting *row, const config_setting_t *node,
			const char *path, void *draft)
{
	struct value_files files = { .list = walk->sources, .source = walk->source };
	struct value_spot spot = spot_of(walk, node, path);

	spot.files = &files;
	note(walk, value_read(draft, row, node, &spot));
	if (files.named[0] == '\0')
		enter_place(walk, path, node);
	else
		note(walk, config_places_add(walk->places, path, files.named, files.named_line,
					     walk->faults));
}

/* A row whose setting stands in the file. */
static void walk_given(struct walk *walk, const struct setting *row, const config_setting_t *node,
		       const char *path, void *draft)
{
	struct value_spot spot = spot_of(walk, node, path);

	if (row->kind == KIND_POINTS) {
		walk_points(walk, row, node, path, draft);
		return;
	}
	enter_place(walk, path, node);
	if (row->kind == KIND_LIST) {
		walk_list(walk, row, node, path, draft);
	} else if (row->kind != KIND_GROUP) {
		note(walk, value_read(draft, row, node, &spot));
	} else if (config_setting_is_group(node)) {
		struct level inner = { node, row->set, path, (char *)draft + row->offset };
		walk_group(walk, &inner);
	} else {
		note(walk, value_refuse(row, node, &spot));
	}
}

/* A row whose setting does not: usual values, or a fault at the group around
 * it. */
static void walk_absent(struct walk *walk, const struct setting *row, const char *path, int line,
			void *draft)
{
	if (row->need == NEED_GIVEN) {
		refuse_missing(walk, row, path, walk->source->path, line, walk->source->unit);
	} else if (row->need == NEED_USUAL && row->kind == KIND_GROUP) {
		for (size_t i = 0; i < row->set->count; i++)
			walk_absent(walk, &row->set->row[i], path, line,
				    (char *)draft + row->offset);
	} else if (row->need == NEED_USUAL) {
		value_usual(draft, row);
	}
}

/* Choice made in row 0 of the set, or its usual one, as SETTING_VARIANT; 0 while it
 * is not known. */
static unsigned variant_made(const struct level *level)
{
	const struct setting *row = &level->set->row[0];
	const config_setting_t *node = config_setting_get_member(level->node, row->name);
	struct value_spot nowhere = { "", 0, "", UNIT_MM, NULL, NULL };
	int made = 0;

	if (!node && row->kind == KIND_CHOICE && row->need == NEED_USUAL && row->usual >= 0.0)
		return SETTING_VARIANT((unsigned)row->usual);
	if (!node || row->kind != KIND_CHOICE || value_read(level->draft, row, node, &nowhere))
		return 0;
	memcpy(&made, (char *)level->draft + row->offset, sizeof made);
	return SETTING_VARIANT(made);
}

/* A setting that belongs to another variant of its group. */
static void refuse_variant(struct walk *walk, const struct level *level, const struct setting *row,
			   const config_setting_t *node, const char *path)
{
	const struct setting *kind = &level->set->row[0];
	char only[DESCRIBE_VARIANTS_ROOM];

	describe_variants(only, sizeof only, row, level->set);
	note(walk, fault_add(walk->faults, FAULT_SETTING, walk->source->path, line_of(node), path,
			     "This belongs to %s = %s only; take it out, or change the %s.",
			     kind->name, only, kind->name));
}

/* True when an unknown setting of the group was most likely meant to be this
 * row's: that has been told, and is not told again as something missing. */
static bool is_misspelt(const struct level *level, const struct setting *row)
{
	for (int i = 0; i < config_setting_length(level->node); i++) {
		const char *name =
			config_setting_name(config_setting_get_elem(level->node, (unsigned int)i));
		if (!settings_find(level->set, name) && !settings_home_of(name) &&
		    strcmp(settings_nearest(level->set, name), row->name) == 0)
			return true;
	}
	return false;
}

static void walk_group(struct walk *walk, const struct level *level)
{
	unsigned made = variant_made(level);

	for (int i = 0; i < config_setting_length(level->node); i++) {
		const config_setting_t *node =
			config_setting_get_elem(level->node, (unsigned int)i);
		if (!settings_find(level->set, config_setting_name(node)))
			refuse_unknown(walk, level, node);
	}
	for (size_t i = 0; i < level->set->count; i++) {
		const struct setting *row = &level->set->row[i];
		const config_setting_t *node = config_setting_get_member(level->node, row->name);
		char path[FAULT_SETTING_MAX];
		join(path, level->path, row->name);
		if (row->variants != 0 && !(row->variants & made)) {
			if (node && made != 0)
				refuse_variant(walk, level, row, node, path);
		} else if (node) {
			walk_given(walk, row, node, path, level->draft);
		} else if (!is_misspelt(level, row)) {
			walk_absent(walk, row, path, line_of(level->node), level->draft);
		}
	}
}

/* The unit of each file, which its lengths are read in. */
static void walk_units(struct walk *walk, struct source_list *sources)
{
	const struct setting *row = &settings_root()->row[ROOT_UNITS];

	for (size_t i = 0; i < sources->count; i++) {
		struct source *source = sources->source[i];
		const config_setting_t *node =
			config_setting_get_member(config_root_setting(&source->parsed), row->name);
		walk->source = source;
		int made = UNIT_MM;
		if (node) {
			struct value_spot spot = spot_of(walk, node, row->name);
			note(walk, value_read(&made, row, node, &spot));
		}
		source->unit = made == UNIT_INCH ? UNIT_INCH : UNIT_MM;
	}
}

/* A row of the top level, which may stand in any of the files; lists that need
 * not be there grow from file to file. */
static void walk_root_row(struct walk *walk, const struct source_list *sources,
			  const struct setting *row, struct config_draft *draft)
{
	const struct source *given_in = NULL;
	int given_line = 0;

	for (size_t i = 0; i < sources->count; i++) {
		const config_setting_t *node = config_setting_get_member(
			config_root_setting(&sources->source[i]->parsed), row->name);
		if (!node)
			continue;
		walk->source = sources->source[i];
		if (given_in && row->kind == KIND_LIST && row->need == NEED_NOTHING) {
			walk_list(walk, row, node, row->name, draft);
		} else if (given_in) {
			note(walk, fault_add(walk->faults, FAULT_SETTING, walk->source->path,
					     line_of(node), row->name,
					     "This stands in %s, line %d, already.", given_in->path,
					     given_line));
		} else {
			walk_given(walk, row, node, row->name, draft);
			given_in = walk->source;
			given_line = line_of(node);
		}
	}
	walk->source = sources->source[0];
	if (!given_in)
		walk_absent(walk, row, row->name, 0, draft);
}

enum fault walk_sources(struct config_draft *draft, struct config_places *places,
			struct source_list *sources, struct fault_list *faults)
{
	struct walk walk = { .places = places, .faults = faults, .sources = sources };
	const struct setting_set *root = settings_root();

	walk_units(&walk, sources);
	for (size_t i = 0; i < sources->count; i++) {
		const config_setting_t *top = config_root_setting(&sources->source[i]->parsed);
		struct level level = { top, root, "", draft };
		walk.source = sources->source[i];
		for (int k = 0; k < config_setting_length(top); k++) {
			const config_setting_t *node =
				config_setting_get_elem(top, (unsigned int)k);
			if (!settings_find(root, config_setting_name(node)))
				refuse_unknown(&walk, &level, node);
		}
	}
	for (size_t i = 0; i < root->count; i++) {
		if (i != ROOT_UNITS)
			walk_root_row(&walk, sources, &root->row[i], draft);
	}
	return walk.first;
}
