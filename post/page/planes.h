/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The maps of columns that the page draws from, packed small.
 *
 * In this order, each nx * ny values on the grid of the cuts, row by row:
 *   blank_top, finished, cut[0], cut[1] ... cut[cut_count - 1], stock
 * A value is a whole number of units in 16 bits, PLANES_NOTHING where there is
 * nothing. In each row it is replaced by its difference to the value before it
 * (0 before the first), modulo 65536, zigzag-coded; then stand all low bytes of
 * the plane, then all high bytes. The planes one behind the other are one zlib
 * stream (RFC 1950), written in base64 (RFC 4648).
 *
 * Rounding is carried from pass to pass: blank_top less the cuts so far is
 * within half a unit of the wood that stands, after every pass, however many
 * there are. A single cut is within one unit. */
#ifndef NECKHEW_PAGE_PLANES_H
#define NECKHEW_PAGE_PLANES_H

#include "job/result.h"
#include "page/markup.h"

#define PLANES_NOTHING (-32768)

/* The usual unit, mm: finer than wood is measured. */
#define PLANES_UNIT_MM 0.01

/* Adds the base64 text to *out and tells the unit in *unit_mm: PLANES_UNIT_MM,
 * or 2, 5, 10 ... times as much when a value would not fit. What is not finite
 * counts as nothing; a cut of nothing takes nothing away. FAULT_INTERNAL when
 * the maps do not share one grid or there is none; FAULT_MEMORY. */
enum fault planes_pack(struct markup *out, double *unit_mm, const struct job_result *result,
		       struct fault_list *faults);

#endif
