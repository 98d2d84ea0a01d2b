/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "program/number.h"

#include <math.h>

/* Below 2^52, where every whole number and every half is a double. */
#define SCALED_MOST 1e15

/* Share of the last decimal that may be missing from a round figure. */
#define DOWN_SLACK 1e-6

static bool scale_factor(double *factor, int decimals)
{
	if (decimals < 0 || decimals > NUMBER_DECIMALS_MOST)
		return false;
	*factor = 1.0;
	while (decimals-- > 0)
		*factor *= 10.0; /* exact up to 10^22 */
	return true;
}

bool number_scale(long long *scaled, double value, int decimals)
{
	double factor;

	if (!scale_factor(&factor, decimals))
		return false;
	const double product = value * factor;
	if (!(fabs(product) <= SCALED_MOST)) /* NaN comes here too */
		return false;
	double nearest = round(product);
	/* The product may have been rounded onto a half that the exact one misses. */
	const double lost = fma(value, factor, -product);
	if (nearest - product == 0.5 && lost < 0.0)
		nearest -= 1.0;
	else if (product - nearest == 0.5 && lost > 0.0)
		nearest += 1.0;
	*scaled = (long long)nearest;
	return true;
}

bool number_scale_down(long long *scaled, double value, int decimals)
{
	double factor;

	if (!scale_factor(&factor, decimals))
		return false;
	const double product = value * factor;
	if (!(product >= 0.0 && product <= SCALED_MOST))
		return false;
	*scaled = (long long)floor(product + DOWN_SLACK);
	return true;
}

size_t number_text(char text[NUMBER_TEXT_SIZE], long long scaled, int decimals)
{
	char reversed[NUMBER_TEXT_SIZE];
	size_t length = 0, count = 0;
	unsigned long long rest = (unsigned long long)scaled;

	if (scaled < 0) {
		text[length++] = '-';
		rest = 0ULL - rest;
	}
	int digit = 0;
	do {
		if (digit == decimals && decimals > 0)
			reversed[count++] = '.';
		reversed[count++] = (char)('0' + rest % 10);
		rest /= 10;
		digit++;
	} while (rest > 0 || digit <= decimals);
	while (count > 0)
		text[length++] = reversed[--count];
	text[length] = '\0';
	return length;
}

size_t number_text_short(char text[NUMBER_TEXT_SIZE], long long scaled, int decimals)
{
	while (decimals > 0 && scaled % 10 == 0) {
		scaled /= 10;
		decimals--;
	}
	return number_text(text, scaled, decimals);
}
