/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the page's scripts draw beyond job.json and the maps, as JSON:
 *
 *   planes    the maps' grid and unit: nx, ny, x0_mm, y0_mm, cell_mm, unit_mm,
 *             pass_count
 *   neck      ends, frets, fretboard, sides, heel, straight edge; lengths in mm
 *   along     lines over x, see page/along.h; null where a line is not
 *   channel   width_mm, from_mm, to_mm, depth_mm; null without one
 *   stations  name, fret, x_mm
 *   zones     key, name, allowance_mm
 *   allowance side_height_mm. A zone follows from a place so: x < 0 transitions;
 *             from heel_proper_mm on heel cheeks; lower than side_height_mm
 *             sides; behind heel_start_mm transitions; else back
 *   fixture   keep_out, hold (in plan; a cylinder by its square), riser (null without one)
 *   ramp      64 colours from little to much, "#e1c091"
 *   colours   paper, ink ... by name */
#ifndef NECKHEW_PAGE_DRAWING_H
#define NECKHEW_PAGE_DRAWING_H

#include "base/fault.h"
#include "job/job.h"
#include "job/result.h"
#include "model/neck.h"

/* The document as text, to be freed with free(); `unit_mm` is planes_pack's.
 * The same job gives the same bytes. FAULT_MEMORY leaves *text NULL. */
enum fault drawing_text(char **text, const struct job *job, const struct neck *neck,
			const struct job_result *result, double unit_mm, struct fault_list *faults);

#endif
