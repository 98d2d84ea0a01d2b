/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The wood that will stand when all is cut, roughly, before anything is
 * planned: enough to see what hangs together. */
#ifndef NECKHEW_PATH_FORESEE_H
#define NECKHEW_PATH_FORESEE_H

#include "base/fault.h"
#include "job/job.h"
#include "model/facets.h"
#include "model/neck.h"
#include "stock/stock.h"

/* Columns half a millimetre apart, lowered wherever one of the job's cutters
 * comes down to where wood no longer holds. Elsewhere they are left as tall as
 * the blank. Release with stock_free. */
enum fault foresee(struct stock *out, const struct job *job, const struct facets *facets,
		   const struct neck *neck, struct fault_list *faults);

/* Puts the job's tabs back into that wood. */
void foresee_tabs(struct stock *stock, const struct job *job);

/* The same wood without the outermost 1.5 mm of what has `holding_mm` and more
 * left: what hangs together by a strip narrower than 3 mm falls apart. The grid's
 * border is no edge. Release with stock_free, also after a failure. */
enum fault foresee_firm(struct stock *out, const struct stock *stock, double holding_mm,
			struct fault_list *faults);

#endif
