/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The proof's answer as JSON, for job.json and for `prove --json`. */
#ifndef NECKHEW_REPORT_VERDICT_JSON_H
#define NECKHEW_REPORT_VERDICT_JSON_H

#include <jansson.h>
#include <stddef.h>

#include "base/fault.h"
#include "proof/verdict.h"

/* A new object; NULL when memory is out. `file` names the programs by their
 * index in the verdict. */
json_t *verdict_json(const struct verdict *verdict, size_t file_count, const char *const *file);

/* What `prove --json` prints, to be freed with free(): schema, generator,
 * version, the digest of the inputs, the files in order, and the verdict under
 * "proof". FAULT_MEMORY leaves *text NULL. */
enum fault verdict_json_text(char **text, const struct verdict *verdict, const char *digest,
			     size_t file_count, const char *const *file, struct fault_list *faults);

#endif
