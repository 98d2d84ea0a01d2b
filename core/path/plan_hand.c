/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which hand a neck is planned for. */
#include "path/mirror.h"
#include "path/plan.h"
#include "path/plan_private.h"

/* Plans the mirrored job and mirrors the plan. */
static enum fault plan_in_mirror(struct plan *out, const struct job *job, size_t turn,
				 const struct stock *before, const struct watch *watch,
				 struct fault_list *faults)
{
	struct mirror_model model;
	struct stock stock = { 0 };
	enum fault fault = mirror_model_make(&model, job, faults);

	*out = (struct plan){ 0 };
	if (!fault && before)
		fault = mirror_stock(&stock, before, faults);
	if (!fault)
		fault = plan_as_it_is(out, &model.facets, model.neck, &model.job, turn,
				      before ? &stock : NULL, watch, faults);
	mirror_plan(out);
	stock_free(&stock);
	mirror_model_free(&model);
	return fault;
}

enum fault plan_make(struct plan *out, const struct facets *facets, const struct neck *neck,
		     const struct job *job, size_t turn, const struct plan *before,
		     const struct watch *watch, struct fault_list *faults)
{
	const struct stock *left = before ? &before->left : NULL;

	if (job->neck.hand == HAND_LEFT) {
		enum fault fault = plan_in_mirror(out, job, turn, left, watch, NULL);
		if (fault == FAULT_NONE)
			return fault;
		/* what is wrong is told of the job's own places */
		plan_free(out);
	}
	return plan_as_it_is(out, facets, neck, job, turn, left, watch, faults);
}
