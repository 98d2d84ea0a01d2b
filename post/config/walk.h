/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Walks the table over the parsed files. Private to the reader. */
#ifndef NECKHEW_CONFIG_WALK_H
#define NECKHEW_CONFIG_WALK_H

#include "base/fault.h"
#include "config/draft.h"
#include "config/places.h"
#include "config/source.h"

/* Fills the draft from the files: first the unit of each, then every row of
 * the table. Adds a fault for each setting that is unknown, twice there,
 * missing, or not what its row allows; enters every setting found in
 * `places`. Returns the first code. */
enum fault walk_sources(struct config_draft *draft, struct config_places *places,
			struct source_list *sources, struct fault_list *faults);

#endif
