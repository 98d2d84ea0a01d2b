/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The set-up sheet's figures in tables. */
#ifndef NECKHEW_PAPERS_SETUP_TABLES_H
#define NECKHEW_PAPERS_SETUP_TABLES_H

#include "papers/flow.h"

/* Blank, riser, keep-outs and holding places, from program zero, and how high
 * they stand above the bed. */
void setup_tables_places(struct flow *flow, const struct paper_content *content);

/* Travel that the moves need on each axis against what the machine has. */
void setup_tables_travel(struct flow *flow, const struct paper_content *content);

/* The programs in the order in which they run, the dry run first. */
void setup_tables_programs(struct flow *flow, const struct paper_content *content);

#endif
