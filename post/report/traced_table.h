/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Traced stations for a terminal. */
#ifndef NECKHEW_REPORT_TRACED_TABLE_H
#define NECKHEW_REPORT_TRACED_TABLE_H

#include <stdio.h>

#include "report/traced.h"

/* Prints the table and the notes, each line beginning with `lead`, at most 80
 * columns wide. */
void traced_table_print(FILE *out, const struct traced *traced, const char *lead);

#endif
