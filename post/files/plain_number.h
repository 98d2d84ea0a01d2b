/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Decimal numbers as people and spreadsheets write them: 12, -0.5, +.5, 3.,
 * 1.2e-3. No words, no hexadecimals, no locale. */
#ifndef NECKHEW_FILES_PLAIN_NUMBER_H
#define NECKHEW_FILES_PLAIN_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

/* Reads the number that text[0..length) is, to 15 significant digits. False,
 * with *out as it was, when it is none, or too large for a double. */
bool plain_number(double *out, const char *text, size_t length);

#endif
