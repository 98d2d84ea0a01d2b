/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where each setting stands: file and line for a setting's path, so that a
 * fault found long after reading still points at the line to change. */
#ifndef NECKHEW_CONFIG_PLACES_H
#define NECKHEW_CONFIG_PLACES_H

#include <stddef.h>

#include "base/fault.h"

struct config_place {
	char setting[FAULT_SETTING_MAX]; /* such as "stations[1].thickness" */
	char file[FAULT_FILE_MAX];
	int line;
};

/* Start with `= { 0 }`; release with config_places_free. */
struct config_places {
	size_t count, capacity;
	struct config_place *place;
	char main_file[FAULT_FILE_MAX]; /* for settings that stand nowhere */
};

/* Enters a setting. FAULT_MEMORY when there is no room. */
enum fault config_places_add(struct config_places *places, const char *setting, const char *file,
			     int line, struct fault_list *faults);

/* The place of exactly that setting, or NULL when it is not in any file. */
const struct config_place *config_places_find(const struct config_places *places,
					      const char *setting);

/* The place of the setting or of the nearest group around it, or NULL. */
const struct config_place *config_places_around(const struct config_places *places,
						const char *setting);

/* Enters every setting under `from` once more under `to`: what
 * "cutters[2].flutes" says is then also found as "cutter.flutes". */
enum fault config_places_alias(struct config_places *places, const char *from, const char *to,
			       struct fault_list *faults);

/* Gives file and line to every fault that names a setting but no file. A
 * setting that stands nowhere gets the line of the group around it, or else
 * the main file without a line. */
void config_place_faults(const struct config_places *places, struct fault_list *faults);

/* Releases the entries; NULL is accepted. */
void config_places_free(struct config_places *places);

#endif
