/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names for people, the same in the page's tables and in its drawings. */
#ifndef NECKHEW_PAGE_NAMES_H
#define NECKHEW_PAGE_NAMES_H

#include "model/zone.h"

#define NAMES_ROOM 40

/* "nut", or "fret 5", in out[NAMES_ROOM]. */
void names_station(char *out, double fret);

/* "heel cheeks" for the key "heel_cheeks", in out[NAMES_ROOM]. */
void names_zone(char *out, enum stock_zone zone);

#endif
