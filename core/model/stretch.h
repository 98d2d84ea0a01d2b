/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The neck's stretches from peghead to heel: where a builder may want lines cut
 * in different ways. */
#ifndef NECKHEW_MODEL_STRETCH_H
#define NECKHEW_MODEL_STRETCH_H

struct neck;

enum neck_stretch {
	STRETCH_PEGHEAD, /* in front of the nut, transition and volute included */
	STRETCH_SHAFT,
	STRETCH_NOSE, /* of a block heel, ease of a flat one */
	STRETCH_HEEL, /* the heel proper: cap and cheeks, or slab */
	STRETCH_COUNT
};

/* Where each stretch but the last ends, mm. */
struct stretches {
	double end_mm[STRETCH_COUNT - 1];
};

struct stretches stretches_of(const struct neck *neck);

/* The stretch at x. An end belongs to the next one. */
static inline enum neck_stretch stretch_at(const struct stretches *stretches, double x_mm)
{
	int i = STRETCH_PEGHEAD;

	while (i < STRETCH_COUNT - 1 && x_mm >= stretches->end_mm[i])
		i++;
	return (enum neck_stretch)i;
}

#endif
