/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heights over the bed that lifting, cutting and changing each cutter ask for,
 * against what lies under the spindle. */
#ifndef NECKHEW_PAPERS_SETUP_HEIGHTS_H
#define NECKHEW_PAPERS_SETUP_HEIGHTS_H

#include "papers/flow.h"

void setup_heights(struct flow *flow, const struct paper_content *content);

#endif
