/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings in a builder's words, lengths in the unit of the file at hand. All
 * functions write a NUL-terminated text, cut to `size` bytes. */
#ifndef NECKHEW_CONFIG_DESCRIBE_H
#define NECKHEW_CONFIG_DESCRIBE_H

#include <stddef.h>

#include "base/units.h"
#include "config/settings.h"

/* What a setting may be: "a length from 5 to 80 mm". Limits are rounded to the
 * safe side, so that what is shown is allowed. */
void describe_allowed(char *to, size_t size, const struct setting *row, enum length_unit unit);

/* What holds when it is not given: "22.5 mm", "must be given", "none". */
void describe_usual(char *to, size_t size, const struct setting *row, enum length_unit unit);

/* The choices of row 0 of its set that a setting belongs to: "\"block\" or
 * \"set\"". */
#define DESCRIBE_VARIANTS_ROOM 64
void describe_variants(char *to, size_t size, const struct setting *row,
		       const struct setting_set *set);

/* A figure with its unit: "22.5 mm", "8 degrees". Lengths, feeds and
 * accelerations are given in mm and shown in `unit`. */
void describe_figure(char *to, size_t size, const struct setting *row, enum length_unit unit,
		     double value);

/* Words after a number of that kind: "mm per minute"; "" for bare numbers. */
void describe_unit(char *to, size_t size, const struct setting *row, enum length_unit unit);

/* 25.4 for kinds that are stated in the file's unit when that is the inch;
 * otherwise 1. */
double describe_scale(const struct setting *row, enum length_unit unit);

#endif
