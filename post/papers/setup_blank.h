/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the caliper must say of the blank before it is clamped: least and most of
 * each dimension, as the margin allows and the proof covers. */
#ifndef NECKHEW_PAPERS_SETUP_BLANK_H
#define NECKHEW_PAPERS_SETUP_BLANK_H

#include "papers/flow.h"

/* Length, and thickness and width at the blank's ends and at the measuring
 * places of the neck. */
void setup_blank_put(struct flow *flow, const struct paper_content *content);

#endif
