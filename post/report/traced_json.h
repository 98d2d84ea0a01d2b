/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Traced stations for scripts. */
#ifndef NECKHEW_REPORT_TRACED_JSON_H
#define NECKHEW_REPORT_TRACED_JSON_H

#include "base/fault.h"
#include "report/traced.h"

/* The document as text, to be freed with free(): lengths in mm, keys ending in
 * _mm; outlines as pairs of shares. The same points give the same bytes.
 * FAULT_MEMORY leaves *text NULL. */
enum fault traced_json_text(char **text, const struct traced *traced, struct fault_list *faults);

#endif
