/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The colours of every picture. They differ in lightness first, so that
 * nothing is lost in grey or to a colour-blind eye; docs/look.md lists the
 * measured figures. */
#ifndef NECKHEW_PICTURES_PALETTE_H
#define NECKHEW_PICTURES_PALETTE_H

#include <stdint.h>

/* sRGB, 8 bits each: what a PNG holds, so a colour can be found again. */
struct colour {
	unsigned char r, g, b;
};

enum palette_name {
	PALETTE_PAPER, /* bench paper: the ground of everything */
	PALETTE_INK, /* main lines and text */
	PALETTE_SOFT_INK, /* secondary text and lines */
	PALETTE_GRID, /* fine ruling on the paper */
	PALETTE_RULE, /* every tenth line of it, frames */
	PALETTE_PALE_WOOD, /* wood that stands untouched */
	PALETTE_LIGHT_WOOD, /* wood left for the hand */
	PALETTE_WOOD, /* the finished neck's body */
	PALETTE_BROWN, /* the roughed line */
	PALETTE_COUNT
};

/* Steps of the ramp: about one unit of L* each, so that no step shows as an
 * edge, and few enough that a map of them packs well. */
#define PALETTE_STEPS 64

struct colour palette_colour(enum palette_name name);

/* Colour of `share` 0..1 of the ramp from light wood to ink: L* falls evenly
 * from 80 to 18. Values outside are clamped; NAN gives the paper. */
struct colour palette_ramp(double share);

/* The ramp's step a share falls into, 0..PALETTE_STEPS - 1. */
int palette_step(double share);

/* The colour in the middle of a step. */
struct colour palette_step_colour(int step);

/* Opaque pixel for a 32-bit image surface. */
static inline uint32_t palette_pixel(struct colour c)
{
	return 0xff000000u | (uint32_t)c.r << 16 | (uint32_t)c.g << 8 | (uint32_t)c.b;
}

#endif
