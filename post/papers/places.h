/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where a builder measures the shaft: the stations of the neck file and the
 * usual places besides them, where there are card gauges too. */
#ifndef NECKHEW_PAPERS_PLACES_H
#define NECKHEW_PAPERS_PLACES_H

#include <stdbool.h>

#include "papers/sheet.h"

#define PLACES_MAX (NECK_STATIONS_MAX + 5)

struct place_figures {
	struct station_figures at; /* fret NAN: where the heel begins */
	bool added; /* no station of the neck file */
};

/* The stations, the nut, frets 1, 5 and 9 as far as the shaft reaches, and where
 * the heel begins; an added place must not be near another. Fills `out` in the
 * order of x and returns how many. A station's figures are the result's; those
 * of an added place are measured in the same way on the result's map of the
 * roughed wood, NAN where it has none. */
size_t places_of(struct place_figures out[PLACES_MAX], const struct paper_content *content);

/* "nut", "fret 5" or, for NAN, "heel begins" in out[PLACES_NAME_ROOM]. */
#define PLACES_NAME_ROOM 40
void places_name(char out[PLACES_NAME_ROOM], double fret);

#endif
