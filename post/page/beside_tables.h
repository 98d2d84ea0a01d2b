/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the page says of rails, tabs and coves beside the neck. */
#ifndef NECKHEW_PAGE_BESIDE_TABLES_H
#define NECKHEW_PAGE_BESIDE_TABLES_H

#include "job/job.h"
#include "job/result.h"
#include "page/markup.h"

/* A section with its heading; nothing when nothing stands there. */
void beside_tables(struct markup *out, const struct job *job, const struct job_result *result);

#endif
