/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbered places on a drawing, and the table that says where each of them is:
 * figures stay legible and off the lines that are cut. */
#ifndef NECKHEW_PAPERS_CORNERS_H
#define NECKHEW_PAPERS_CORNERS_H

#include <stddef.h>

#include "pictures/canvas.h"

struct corner {
	const char *name; /* "" for none */
	double along_mm; /* from the nut's front edge, toward the body */
	double across_mm; /* what the table's second head says; NAN: nothing */
};

struct corner_table {
	size_t count;
	const struct corner *corner;
	size_t first_number;
	const char *across_head; /* such as "height" */
	size_t blocks; /* side by side */
};

/* Two places nearer than this along the neck are one line on paper, mm. */
#define CORNERS_NEAR_MM 0.2

/* Adds a place to `count` places in the order of x, unless one is near it
 * already, and returns how many there are then. The list must have room. */
size_t corners_add(struct corner *list, size_t count, const char *name, double along_mm,
		   double across_mm);

/* A number beside the point (x, y) of the drawing, off it in the direction
 * (dx, dy), which need not be of length 1. */
void corners_number(struct canvas *canvas, double x_mm, double y_mm, double dx, double dy,
		    size_t number);

/* How far a number reaches from its point, mm. */
#define CORNERS_REACH_MM 7.0

/* Makes the table two blocks wide if they fit in `width_mm`, else one. */
void corners_table_fit(struct corner_table *table, double width_mm);

/* Room of a table, mm. */
double corners_table_height_mm(const struct corner_table *table);
double corners_table_width_mm(const struct corner_table *table);

/* Draws it with its upper left corner at (x, y): mm and inches. */
void corners_table(struct canvas *canvas, double x_mm, double y_mm,
		   const struct corner_table *table);

#endif
