/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config/read.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "config/draft.h"
#include "config/source.h"
#include "config/walk.h"

/* Walks and finishes, so that faults of both kinds come at once. */
static enum fault fill_draft(struct config_draft *draft, struct config_places *places,
			     struct source_list *sources, struct fault_list *faults)
{
	enum fault walked = walk_sources(draft, places, sources, faults);
	enum fault finished = draft_finish(draft, places, faults);

	return walked ? walked : finished;
}

enum fault config_load(struct job *out, struct config_places *places, const char *path,
		       struct fault_list *faults)
{
	struct source_list sources = { 0 };
	struct config_draft *draft = mem_array(1, sizeof *draft);
	enum fault code;

	*out = (struct job){ 0 };
	(void)snprintf(places->main_file, sizeof places->main_file, "%s", path);
	if (!draft)
		return fault_no_memory(faults, "the settings");
	code = source_list_read(&sources, path, faults);
	if (!code)
		code = fill_draft(draft, places, &sources, faults);
	if (!code) {
		*out = draft->job;
		memcpy(out->digest, sources.digest, sizeof out->digest);
	}
	source_list_free(&sources);
	free(draft);
	return code;
}
