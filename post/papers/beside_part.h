/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the papers say of rails, tabs and coves beside the neck. */
#ifndef NECKHEW_PAPERS_BESIDE_PART_H
#define NECKHEW_PAPERS_BESIDE_PART_H

#include "papers/flow.h"

/* For who sets the blank up: what will stand beside the neck, under a heading.
 * Nothing when the waste is cleared and no tab is left. */
void beside_part_setup(struct flow *flow, const struct paper_content *content);

/* For who finishes by hand: the tabs to saw and the coves to plane, under a
 * heading each. Nothing when there are none. */
void beside_part_finishing(struct flow *flow, const struct paper_content *content);

#endif
