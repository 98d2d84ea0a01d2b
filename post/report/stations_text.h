/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Traced stations in the neck file's own words. */
#ifndef NECKHEW_REPORT_STATIONS_TEXT_H
#define NECKHEW_REPORT_STATIONS_TEXT_H

#include <stdio.h>

#include "report/traced.h"

/* Writes a file that a neck file can include, or whose list can be pasted into
 * it; the table stands in its notes. */
void stations_text_write(FILE *out, const struct traced *traced);

#endif
