/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the blank is held. Neck coordinates, mm. */
#ifndef NECKHEW_MACHINE_FIXTURE_H
#define NECKHEW_MACHINE_FIXTURE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/vec3.h"

#define FIXTURE_PLACES_MAX 16
#define FIXTURE_NAME_MAX 48

enum place_shape {
	PLACE_BOX, /* the rectangle itself */
	PLACE_CYLINDER /* upright and round, within its rectangle, which is a square */
};

/* A rectangle in plan with a name. */
struct place {
	char name[FIXTURE_NAME_MAX];
	double x_from_mm, x_to_mm, y_from_mm, y_to_mm;
	double top_mm; /* for a keep-out: it fills the space from the bed up to here */
	enum place_shape shape;
};

/* A fretboard that is glued on before the neck is carved: the work then lies on
 * its face. */
struct glued_fretboard {
	bool glued;
	double clearance_mm; /* no part of the tool comes nearer to it */
	double overhang_mm; /* how far it goes on past the last fret */
	double shim_mm; /* between its face and what carries it */
};

enum zero_along { ZERO_NUT, ZERO_HEEL, ZERO_BLANK_END };
enum zero_height { ZERO_GLUING_FACE, ZERO_BED, ZERO_BLANK_TOP, ZERO_FRETBOARD_FACE };

/* Program zero as the builder finds it; job/zero.h turns it into figures. */
struct zero_spec {
	bool by_words; /* false: only work_zero_mm was stated */
	enum zero_along along;
	enum zero_height height;
	double top_at_mm; /* ZERO_BLANK_TOP: where along the neck the top is touched */
};

struct fixture {
	double riser_height_mm; /* 0: the blank lies on the bed itself */
	double riser_width_mm; /* narrower than the neck */
	double riser_from_mm, riser_to_mm; /* along x */
	double bed_clearance_mm; /* the tip stays this far above the bed */
	double keep_out_clearance_mm; /* from riser, clamps and screws */
	struct glued_fretboard fretboard;
	size_t keep_out_count;
	struct place keep_out[FIXTURE_PLACES_MAX]; /* clamps, screws */
	size_t hold_count;
	struct place hold[FIXTURE_PLACES_MAX]; /* where wood is held down */
	struct vec3 work_zero_mm; /* program zero, in neck coordinates */
	struct zero_spec zero; /* how that was stated */
};

#endif
