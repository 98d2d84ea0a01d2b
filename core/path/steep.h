/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Steep moves beside tall wood: a proof may judge a move from its lower end, so
 * what it would meet there must be cut in shorter ones. */
#ifndef NECKHEW_PATH_STEEP_H
#define NECKHEW_PATH_STEEP_H

#include <stdbool.h>

#include "base/vec3.h"
#include "path/bench.h"

/* True when the straight cut rises or falls so much that shank, holder or the
 * flutes' end, as they stand at its lower end, may meet wood that lies beside its
 * upper one: it is to be divided. */
bool steep_meets_wood(struct bench *bench, struct vec3 from, struct vec3 to);

#endif
