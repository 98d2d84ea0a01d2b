/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maps of `neckhew show`. All maps of a result show the same part of the
 * neck, whatever is cut or left there, so that they can be laid side by side. */
#ifndef NECKHEW_REPORT_SHOW_MAP_H
#define NECKHEW_REPORT_SHOW_MAP_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/fault.h"
#include "report/show_page.h"

/* What `count` passes from `first` (from 0, over all programs) cut together,
 * with nothing where no blank was. The shades go up in equal steps; `doubling`
 * is for depths that reach from a shaving to a whole blank. Where nothing is
 * cut, that is said instead. FAULT_MEMORY, or
 * FAULT_INTERNAL when the result's maps differ in size. */
enum fault show_map_cuts(FILE *out, const struct show_page *page, size_t first, size_t count,
			 bool doubling, struct fault_list *faults);

/* Hand-finish stock left. The shades go by half the largest allowance, as the
 * picture of it ends its scale at twice that. FAULT_MEMORY. */
enum fault show_map_stock(FILE *out, const struct show_page *page, struct fault_list *faults);

#endif
