/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The figures of a neck file for the terminal, at most 80 columns wide. */
#ifndef NECKHEW_REPORT_CHECK_TABLE_H
#define NECKHEW_REPORT_CHECK_TABLE_H

#include <stdio.h>

#include "job/job.h"
#include "model/neck.h"

/* Prints frets, stations, heel, channel, straightness and symmetry. */
void check_table_print(FILE *out, const struct job *job, const struct neck *neck);

#endif
