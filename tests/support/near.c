/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/near.h"

#include <math.h>
/* cmocka.h relies on these being included before it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

void near_or_fail(double value, double expected, double tolerance, const char *sentence,
		  const char *text, const char *file, int line)
{
	/* Equality first: the difference of two infinities is no number. */
	if (value == expected || fabs(value - expected) <= tolerance)
		return;
	print_error("%s: %s is %.17g, expected %.17g within %.3g; it is off by %.6g\n", sentence,
		    text, value, expected, tolerance, value - expected);
	_fail(file, line);
}

void between_or_fail(double value, double least, double most, const char *sentence,
		     const char *text, const char *file, int line)
{
	if (value >= least && value <= most)
		return;
	print_error("%s: %s is %.17g, expected %.17g to %.17g\n", sentence, text, value, least,
		    most);
	_fail(file, line);
}
