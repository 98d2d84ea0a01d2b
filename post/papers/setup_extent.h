/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much room a job takes on the machine. */
#ifndef NECKHEW_PAPERS_SETUP_EXTENT_H
#define NECKHEW_PAPERS_SETUP_EXTENT_H

#include "papers/sheet.h"

/* A box. */
struct setup_box {
	struct vec3 least, most;
};

/* Bounds of all moves of all programs, of the tip, in program coordinates; 0
 * without a program. */
struct setup_box setup_moves(const struct job_result *result);

/* The same in neck coordinates. */
struct setup_box setup_moves_on_neck(const struct paper_content *content);

/* Everything that the set-up drawing shows, in neck coordinates: moves, blank,
 * riser, neck, clamps and holding places, down to the bed. */
struct setup_box setup_extent(const struct paper_content *content);

/* z of the bed in neck coordinates, mm. */
double setup_bed_mm(const struct job *job);

#endif
