/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a builder should know about the points of a section before trusting the
 * outline. Private to core/trace. */
#ifndef NECKHEW_TRACE_FINDINGS_H
#define NECKHEW_TRACE_FINDINGS_H

#include <stddef.h>

#include "base/fault.h"
#include "trace/outline_fit.h"
#include "trace/tabled.h"
#include "trace/trace.h"

/* Highest place of a fit, with the height above the centre line's in z. */
struct trace_place findings_crest(const struct outline_fit *fit);

/* Adds the notes to a section whose other figures stand. FAULT_MEMORY. */
enum fault findings_note(struct trace_section *section, const struct tabled *tabled,
			 double scatter_mm, const struct trace_place *free_crest,
			 const struct trace_point *point, size_t count, const struct trace_ask *ask,
			 struct fault_list *faults);

#endif
