/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is left for the chisel, as a part of sheets. Nothing is put down when
 * nothing is left. */
#ifndef NECKHEW_PAPERS_CHISEL_PART_H
#define NECKHEW_PAPERS_CHISEL_PART_H

#include "papers/flow.h"

/* Heading, a table of the places, and what stickout would spare them. */
void chisel_part(struct flow *flow, const struct paper_content *content);

/* In a sentence or two: how much, and what stickout would spare it. */
void chisel_part_words(struct flow *flow, const struct paper_content *content);

#endif
