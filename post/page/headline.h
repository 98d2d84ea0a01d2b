/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The short words at the top of the page. Each adds one text, safe as HTML;
 * markup_fault of *out tells whether memory ran out. */
#ifndef NECKHEW_PAGE_HEADLINE_H
#define NECKHEW_PAGE_HEADLINE_H

#include "job/job.h"
#include "job/result.h"
#include "page/markup.h"

/* "proven: 16 of 16 promises kept", or the first promise that is not. */
void headline_verdict(struct markup *out, const struct job_result *result);

/* Each cutter's name and ball, in their order. */
void headline_cutters(struct markup *out, const struct job *job);

/* Minutes of all programs, a bare figure. */
void headline_minutes(struct markup *out, const struct job_result *result);

/* Least and most stock that any zone has left for the hand, bare figures in mm
 * with two decimals; the least is rounded down and the most up, so that neither
 * promises too much. */
void headline_least_stock(struct markup *out, const struct job_result *result);
void headline_most_stock(struct markup *out, const struct job_result *result);

/* For which hand the neck is, and which side lies where. */
void headline_hand(struct markup *out, const struct neck_spec *neck);

/* Which blank the figures are of, and how far another may differ. */
void headline_blank(struct markup *out, const struct job *job);

#endif
