/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of the table of widths: peghead, stations, heel, body joint. */
#ifndef NECKHEW_PICTURES_PLAN_ROWS_H
#define NECKHEW_PICTURES_PLAN_ROWS_H

#include "job/job.h"
#include "job/result.h"
#include "model/neck.h"
#include "pictures/plan_table.h"

/* Besides the stations: peghead, heel start, heel proper, joint, end. */
#define PLAN_ROWS_MORE 6

/* Fills row[] with x rising and returns how many there are, at most
 * station_count + PLAN_ROWS_MORE. Places that coincide share a row. */
size_t plan_rows_fill(struct plan_row *row, const struct job_result *result,
		      const struct neck *neck, const struct job *job);

#endif
