/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers with fixed decimals as text: the same bytes in every locale, no
 * exponent, no minus before a zero. A number is first turned into a whole
 * count of its last decimal, so that equality is exact. */
#ifndef NECKHEW_PROGRAM_NUMBER_H
#define NECKHEW_PROGRAM_NUMBER_H

#include <stdbool.h>
#include <stddef.h>

#define NUMBER_TEXT_SIZE 32 /* longest text with its NUL, with room to spare */
#define NUMBER_DECIMALS_MOST 9

/* value x 10^decimals as the nearest whole number, exact halves away from
 * zero; decided on the exact product, not on its rounding. False, with *scaled
 * untouched, when the value is not finite, the result lies beyond +-10^15, or
 * decimals outside 0..NUMBER_DECIMALS_MOST. */
bool number_scale(long long *scaled, double value, int decimals);

/* The same for a value that must not grow by rounding: the whole number below.
 * A value within a millionth of the next one counts as that one, so that a
 * round figure spoiled in its last bits stays round. False also for negative
 * values. */
bool number_scale_down(long long *scaled, double value, int decimals);

/* Writes scaled / 10^decimals with exactly that many decimals and no point
 * when there are none; `decimals` in 0..NUMBER_DECIMALS_MOST. Returns the
 * length of the text, which is NUL-terminated. */
size_t number_text(char text[NUMBER_TEXT_SIZE], long long scaled, int decimals);

/* The same without zeros at the end of the fraction, nor a bare point. */
size_t number_text_short(char text[NUMBER_TEXT_SIZE], long long scaled, int decimals);

#endif
