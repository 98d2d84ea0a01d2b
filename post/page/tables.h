/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the page says without any script: tables and lists in HTML. Each adds
 * whole elements to *out, with captions and heads for those who listen to the
 * page; markup_fault of *out tells whether memory ran out. */
#ifndef NECKHEW_PAGE_TABLES_H
#define NECKHEW_PAGE_TABLES_H

#include "job/job.h"
#include "job/result.h"
#include "page/markup.h"

/* One row for each pass, in the order in which they run; data-pass counts them
 * from 1 through all programs, and the last row of each program sums up. */
void tables_passes(struct markup *out, const struct job_result *result);

/* Why the passes are as they are: each sentence once, behind the numbers of its
 * passes, counted through all programs. */
void tables_whys(struct markup *out, const struct job_result *result);

/* Thickness at the stations in mm and inches. */
void tables_stations(struct markup *out, const struct job *job, const struct job_result *result);

/* The places left for the chisel; nothing when there are none. */
void tables_chisel(struct markup *out, const struct job *job, const struct job_result *result);

/* Hand-finish stock by zone, and what is left for the chisel. */
void tables_zones(struct markup *out, const struct job_result *result);

/* Every promise of the proof with the worst figure met, and why it is broken
 * where it is. */
void tables_promises(struct markup *out, const struct job_result *result);

/* The machine safety checklist: one <li> with a box to tick for each line. */
void tables_checklist(struct markup *out);

#endif
