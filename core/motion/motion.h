/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A program as a neutral list of moves: the only thing that the planner, the
 * stock, the proof and the program writer and reader share. Positions are the
 * ball's lowest point (the tip), in program coordinates, mm. */
#ifndef NECKHEW_MOTION_MOTION_H
#define NECKHEW_MOTION_MOTION_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "base/vec3.h"

enum motion_kind {
	MOTION_RAPID, /* machine's own speed, must touch nothing */
	MOTION_CUT, /* straight, at feed_mm_per_min */
	MOTION_SPINDLE_ON, /* spindle_rpm, clockwise */
	MOTION_SPINDLE_OFF,
	MOTION_DWELL, /* dwell_s */
	MOTION_PASS, /* no motion: pass number `pass` begins here */
	MOTION_END, /* program end; nothing follows */
	MOTION_STOP /* the program waits; by hand the spindle is switched over */
};

/* Which of x, y, z were ever given before this move ended. */
enum motion_known { KNOWN_X = 1, KNOWN_Y = 2, KNOWN_Z = 4, KNOWN_ALL = 7 };

enum arc_plane { PLANE_XY, PLANE_XZ };

/* On the first of several cuts in a row: all of them lie on one circle, near
 * enough to be written as one arc. What is written is the writer's choice. */
struct motion_arc {
	size_t moves; /* this one and those after it; 0: none */
	enum arc_plane plane;
	bool clockwise; /* seen from +z; in the xz plane from +y */
	struct vec3 centre; /* with the start's own value across the plane */
};

struct motion {
	enum motion_kind kind;
	struct vec3 to; /* for RAPID and CUT: where the tip arrives */
	unsigned known; /* enum motion_known bits valid in `to` */
	double feed_mm_per_min; /* for CUT */
	double spindle_rpm; /* for SPINDLE_ON */
	double dwell_s; /* for DWELL */
	int pass; /* planner's pass number, or -1: never used by the proof */
	int block; /* 1-based line in the program text, or 0 when planned */
	/* Of a CUT that stands for a piece of an arc: how far the machine's own
	 * path may lie from the straight way, and by how much each axis's part of
	 * its unit direction may differ. */
	double stray_mm;
	struct vec3 lean;
	struct motion_arc arc; /* planned only */
};

/* Start with `struct motion_list list = { 0 };`; release with
 * motion_list_free. */
struct motion_list {
	struct motion *item;
	size_t count;
	size_t capacity;
};

/* Appends a copy. FAULT_MEMORY leaves the list as it was. */
enum fault motion_list_add(struct motion_list *list, const struct motion *motion,
			   struct fault_list *faults);

/* Releases the items; NULL is accepted. */
void motion_list_free(struct motion_list *list);

/* True for RAPID and CUT. */
static inline bool motion_moves(const struct motion *motion)
{
	return motion->kind == MOTION_RAPID || motion->kind == MOTION_CUT;
}

#endif
