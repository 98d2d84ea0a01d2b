/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sorts out points that cannot belong to an outline, before anything is fitted. */
#ifndef NECKHEW_TRACE_SIFT_H
#define NECKHEW_TRACE_SIFT_H

#include <stddef.h>

#include "base/fault.h"
#include "trace/trace_point.h"

/* Gives each point FATE_OUTLINE, FATE_DOUBLE when one before it lies within a
 * thousandth of a millimetre, or FATE_FAR when it lies more than three times as
 * far from the middle (the median) as half of the points do: an outline's
 * farthest points lie less than twice as far. FAULT_MEMORY. */
enum fault sift_points(struct trace_point *point, size_t count, struct fault_list *faults);

#endif
