/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The known word nearest to a misspelt one. */
#ifndef NECKHEW_CONFIG_NEAREST_H
#define NECKHEW_CONFIG_NEAREST_H

#include <stddef.h>

/* Number of single-letter edits (insert, delete, replace, swap of neighbours)
 * that turn one word into the other; capital and small letters count as alike,
 * and so do '-' and '_'. Words are compared over their first 63 bytes. Source:
 * the optimal string alignment form of Damerau, Comm. ACM 7 (1964) 171 (from
 * memory). */
size_t nearest_distance(const char *a, const char *b);

/* Index of the nearest of `count` words (the first of equals); `count` when
 * there is none. `word(context, i)` gives the i-th. */
size_t nearest_word(const char *wanted, size_t count,
		    const char *(*word)(const void *context, size_t i), const void *context);

#endif
