/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All papers of a job, each a PDF to be printed in its true size. */
#ifndef NECKHEW_PAPERS_PAPERS_H
#define NECKHEW_PAPERS_PAPERS_H

#include <stddef.h>

#include "base/fault.h"
#include "job/job.h"
#include "job/result.h"
#include "model/facets.h"
#include "model/neck.h"
#include "papers/paper.h"

/* Name without ending of the paper at a place in the list, from 0; NULL behind
 * the last one. */
const char *papers_name(size_t index);

/* Writes every paper as .pdf into a folder that exists. The same job and result
 * give the same bytes. Each file is written whole or not at all; the first that
 * cannot be written ends the work with FAULT_FILE and its name. FAULT_MEMORY
 * when memory runs out. */
enum fault papers_write(const char *folder, enum paper_size paper, const struct job *job,
			const struct neck *neck, const struct facets *facets,
			const struct job_result *result, struct fault_list *faults);

#endif
