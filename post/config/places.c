/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config/places.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"

enum fault config_places_add(struct config_places *places, const char *setting, const char *file,
			     int line, struct fault_list *faults)
{
	struct config_place *grown =
		mem_grow(places->place, &places->capacity, places->count + 1, sizeof *grown);
	if (!grown)
		return fault_no_memory(faults, "the places of the settings");
	places->place = grown;
	struct config_place *place = &places->place[places->count++];
	(void)snprintf(place->setting, sizeof place->setting, "%s", setting);
	(void)snprintf(place->file, sizeof place->file, "%s", file);
	place->line = line;
	return FAULT_NONE;
}

const struct config_place *config_places_find(const struct config_places *places,
					      const char *setting)
{
	for (size_t i = 0; i < places->count; i++) {
		if (strcmp(places->place[i].setting, setting) == 0)
			return &places->place[i];
	}
	return NULL;
}

/* Cuts the last part off a path: "stations[1].bass" to "stations[1]" to
 * "stations" to "". */
static void cut_last_part(char *path)
{
	size_t length = strlen(path);

	while (length > 0 && path[length - 1] != '.' && path[length - 1] != '[')
		length--;
	path[length > 0 ? length - 1 : 0] = '\0';
}

const struct config_place *config_places_around(const struct config_places *places,
						const char *setting)
{
	char path[FAULT_SETTING_MAX];

	(void)snprintf(path, sizeof path, "%s", setting);
	for (; path[0] != '\0'; cut_last_part(path)) {
		const struct config_place *place = config_places_find(places, path);
		if (place)
			return place;
	}
	return NULL;
}

enum fault config_places_alias(struct config_places *places, const char *from, const char *to,
			       struct fault_list *faults)
{
	size_t length = strlen(from), count = places->count;

	for (size_t i = 0; i < count; i++) {
		/* a copy, because adding may move the list */
		struct config_place old = places->place[i];
		char setting[FAULT_SETTING_MAX];
		if (strncmp(old.setting, from, length) != 0)
			continue;
		if (old.setting[length] != '\0' && !strchr(".[", old.setting[length]))
			continue;
		int size = snprintf(setting, sizeof setting, "%s%s", to, old.setting + length);
		if (size < 0 || (size_t)size >= sizeof setting)
			continue;
		enum fault code = config_places_add(places, setting, old.file, old.line, faults);
		if (code)
			return code;
	}
	return FAULT_NONE;
}

void config_place_faults(const struct config_places *places, struct fault_list *faults)
{
	for (size_t i = 0; i < faults->count; i++) {
		struct fault_record *record = &faults->record[i];
		if (record->setting[0] == '\0' || record->file[0] != '\0')
			continue;
		const struct config_place *place = config_places_around(places, record->setting);
		(void)snprintf(record->file, sizeof record->file, "%s",
			       place ? place->file : places->main_file);
		record->line = place ? place->line : 0;
	}
}

void config_places_free(struct config_places *places)
{
	if (!places)
		return;
	free(places->place);
	*places = (struct config_places){ 0 };
}
