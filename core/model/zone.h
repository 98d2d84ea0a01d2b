/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The zones of a neck's back, each with its own hand-finish stock. */
#ifndef NECKHEW_MODEL_ZONE_H
#define NECKHEW_MODEL_ZONE_H

enum stock_zone { ZONE_BACK, ZONE_SIDES, ZONE_HEEL_CHEEKS, ZONE_TRANSITIONS, ZONE_COUNT };

/* Stable key such as "heel_cheeks"; "" for what is no zone. */
const char *stock_zone_key(enum stock_zone zone);

#endif
