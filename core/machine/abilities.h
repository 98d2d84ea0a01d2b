/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a machine's control can read, named by what it is. All zero is the
 * plain control that every machine is taken for unless its settings say more. */
#ifndef NECKHEW_MACHINE_ABILITIES_H
#define NECKHEW_MACHINE_ABILITIES_H

#include <stdbool.h>

/* Circles by their centre: in the plane of x and y, or of x and z too. */
enum arc_ability { ARCS_NONE, ARCS_XY, ARCS_XY_XZ };

enum spindle_switch {
	SPINDLE_BY_PROGRAM, /* S and M3, M5 */
	SPINDLE_BY_HAND /* the program stops for it, M0 */
};

enum comment_style {
	COMMENTS_PARENTHESES,
	COMMENTS_SEMICOLON, /* from ; to the line's end */
	COMMENTS_NONE
};

struct abilities {
	enum arc_ability arcs;
	int number_step; /* from one block number to the next; 0: blocks have none */
	bool percent_lines; /* a % line first and last */
	enum spindle_switch spindle;
	int longest_line; /* characters; 0: as long as the form permits */
	enum comment_style comments;
	bool feed_decimals_stated; /* else as many as the unit asks for */
	int feed_decimals; /* of an F word */
	double largest_feed_mm_per_min; /* of an F word; 0: whatever the axes can do */
};

#endif
