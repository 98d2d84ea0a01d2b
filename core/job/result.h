/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Everything that pictures, papers and job.json show: measured on the program
 * text as read back, never on the plan. */
#ifndef NECKHEW_JOB_RESULT_H
#define NECKHEW_JOB_RESULT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/vec3.h"
#include "machine/feed.h"
#include "machine/waste.h"
#include "model/zone.h"
#include "motion/pass_kind.h"
#include "motion/pass_why.h"
#include "proof/verdict.h"

struct pass_figures {
	enum pass_kind kind;
	/* z of the level, of the lowest point for surface lines; program coordinates */
	double level_mm;
	double deepest_bite_mm;
	double volume_mm3;
	double length_mm; /* cutting moves */
	double idle_mm; /* of these, length that removes nothing */
	double minutes;
	double feed_mm_per_min; /* fastest used */
	enum feed_cap feed_cap; /* what held the planner's feed back */
	struct pass_why why; /* as planned; all zero for a program that comes from no plan */
};

struct program_figures {
	char file[64];
	size_t cutter; /* index in the job of the one that runs it */
	double ball_diameter_mm;
	int blocks;
	double cutting_length_mm, rapid_length_mm;
	double air_share; /* of the cutting length that removes nothing, 0..1 */
	double minutes;
	/* wood that stands on the neck over its hand-finish stock after it: its
	 * volume, and where it is thickest, along the normal */
	double left_mm3, left_most_mm;
	struct vec3 least, most; /* bounds of all moves once known */
	size_t pass_count;
	struct pass_figures *pass;
};

/* The wood at one column of the maps, z in neck coordinates. */
struct column_reading {
	double x_mm, y_mm; /* where the column stands */
	double blank_mm, finished_mm; /* NAN where there is none */
	size_t pass_count; /* of all programs together */
	double *standing_mm; /* top of the wood after each pass */
};

/* A cove that the ball left at one edge, where its widest part cannot come down
 * to the gluing face. 0 where there is none. */
struct cove_figures {
	double height_mm; /* from the under side up to where the ball leaves the neck's side */
	double width_mm; /* out from the roughed edge to where it ends or turns into a skin */
};

/* A tab as planned and as it stands. */
struct tab_figures {
	struct tab tab;
	double least_height_mm; /* of the wood all over it */
	double least_width_mm; /* where it is narrowest */
};

/* What stands beside the roughed neck. Sides by enum neck_side. */
struct beside_figures {
	double channel_mm; /* between neck and rails; 0: the waste is cleared */
	double rail_from_mm[2], rail_to_mm[2]; /* along the neck; NAN without a rail */
	double rail_top_mm; /* the tallest */
	size_t tab_count;
	struct tab_figures tab[TABS_MAX];
	struct cove_figures cove; /* the tallest of all */
	double cove_x_mm;
	int cove_side;
	double cove_mm3; /* of both sides, beyond the hand-finish stock */
	double skin_mm; /* thickness of what is left under the ball beside the neck */
};

struct station_figures {
	double fret, x_mm;
	/* measured as the neck file states its thickness (with fretboard or not) */
	double blank_mm, roughed_mm, finished_mm;
	double width_mm; /* of the wood at the gluing face */
	double wood_over_channel_mm; /* finished; NAN where no channel runs */
	struct cove_figures cove[2]; /* by enum neck_side */
	struct column_reading centre; /* nearest the station on the centre line */
};

struct zone_figures {
	double allowance_mm;
	double least_mm, most_mm, mean_mm; /* of the stock left, on reachable surface */
	double area_mm2; /* reachable plan area measured */
};

/* A rectangular map of columns; value[iy * nx + ix] belongs to the column at
 * (x0 + ix cell, y0 + iy cell). NAN where there is nothing to say. */
struct column_map {
	size_t nx, ny;
	double x0_mm, y0_mm, cell_mm;
	float *value;
};

struct profile_line { /* something over x on the centre line */
	size_t count;
	double *x_mm, *z_mm;
};

/* A piece of the area that the job leaves for the chisel: joined columns that
 * belong to one zone and, on sides and cheeks, to one side. */
struct chisel_place {
	enum stock_zone zone;
	int side; /* -1 at -y, +1 at +y, 0 across both */
	double x_from_mm, x_to_mm, y_from_mm, y_to_mm; /* edges of its columns */
	double area_mm2;
	double over_allowance_mm3, over_finished_mm3; /* wood on it */
	/* Most wood between its top and the finished surface, the shortest way,
	 * and over which column. */
	double thickest_mm, thickest_x_mm, thickest_y_mm;
};

/* What shank and holder keep every cutter of the job from. */
struct chisel {
	/* Wood over the finished surface straight down, or all wood where the
	 * neck is not; NAN where nothing is left for the chisel. */
	struct column_map map;
	double area_mm2; /* of the map's columns */
	double over_allowance_mm3; /* wood on them beyond the hand-finish stock */
	double over_finished_mm3; /* all that is not finished neck */
	size_t place_count;
	struct chisel_place *place; /* largest first; specks are left out */
};

/* How far one cutter would have to stick out, and may. */
struct stickout_figures {
	double has_mm;
	/* Least with which shank and holder keep it from nothing; NAN when no
	 * stickout would do. */
	double finishes_mm;
	double longest_mm; /* of any cutter that passes under the spindle; NAN: gap not known */
};

struct job_result {
	size_t program_count;
	struct program_figures *program;
	size_t station_count;
	struct station_figures *station;
	struct zone_figures zone[ZONE_COUNT];
	double unreachable_mm3; /* left for the chisel because shank or holder forbids more */
	struct beside_figures beside;
	struct chisel chisel; /* what unreachable_mm3 counts, as a map and in figures */
	size_t stickout_count; /* one per cutter of the job */
	struct stickout_figures *stickout;
	struct verdict verdict;
	/* maps */
	size_t cut_count; /* one per pass, in program order */
	struct column_map *cut; /* depth the pass took off that very column, mm; 0 where none */
	struct column_map stock; /* hand-finish stock left along the normal, mm */
	struct column_map roughed; /* z of the wood after the last program */
	struct column_map finished; /* z of the finished surface */
	struct column_map blank_top; /* z of the blank */
	struct column_map blank_bottom; /* z of its underside */
	struct profile_line finished_side, roughed_side, blank_side;
};

/* Releases everything; NULL is accepted. */
void job_result_free(struct job_result *result);

#endif
