/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The numeric check of all tests: a figure, what it should be, how far off it
 * may be, and a sentence that says what it is. */
#ifndef NECKHEW_TESTS_SUPPORT_NEAR_H
#define NECKHEW_TESTS_SUPPORT_NEAR_H

/* Fails the running test unless |value - expected| <= tolerance, all in one
 * unit. Equal infinities are near; a NAN is near nothing. The sentence should
 * name the unit: "width at the nut, mm". */
#define assert_near(value, expected, tolerance, sentence) \
	near_or_fail((value), (expected), (tolerance), (sentence), #value, __FILE__, __LINE__)

/* Fails the running test unless least <= value <= most. */
#define assert_between(value, least, most, sentence) \
	between_or_fail((value), (least), (most), (sentence), #value, __FILE__, __LINE__)

/* What the macros call. `text` is the value as it is written in the test. */
void near_or_fail(double value, double expected, double tolerance, const char *sentence,
		  const char *text, const char *file, int line);
void between_or_fail(double value, double least, double most, const char *sentence,
		     const char *text, const char *file, int line);

#endif
