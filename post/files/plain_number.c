/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "files/plain_number.h"

#include <math.h>

/* More digits than a double tells apart; those behind are counted, not read. */
#define DIGITS_READ 17
#define POWER_MOST 400 /* beyond it all is zero or too large */

struct scan {
	const char *at, *end;
};

static bool take(struct scan *scan, char a, char b)
{
	if (scan->at == scan->end || (*scan->at != a && *scan->at != b))
		return false;
	scan->at++;
	return true;
}

static bool next_digit(struct scan *scan, int *digit)
{
	if (scan->at == scan->end || *scan->at < '0' || *scan->at > '9')
		return false;
	*digit = *scan->at++ - '0';
	return true;
}

/* Digits before or behind the point. Returns how many there are. */
static size_t take_digits(struct scan *scan, double *value, int *power, int *read, bool behind)
{
	size_t count = 0;
	int digit;

	for (; next_digit(scan, &digit); count++) {
		if (*read < DIGITS_READ) {
			*value = *value * 10.0 + digit;
			*read += *value > 0.0;
			*power -= behind;
		} else {
			*power += !behind;
		}
	}
	return count;
}

static bool take_power(struct scan *scan, int *power)
{
	int digit, count = 0, value = 0;

	if (!take(scan, 'e', 'E'))
		return true;
	bool minus = take(scan, '-', '-');
	if (!minus)
		(void)take(scan, '+', '+');
	for (; next_digit(scan, &digit); count++)
		value = value < POWER_MOST ? value * 10 + digit : value;
	*power += minus ? -value : value;
	return count > 0;
}

bool plain_number(double *out, const char *text, size_t length)
{
	struct scan scan = { text, text + length };
	double value = 0.0;
	int power = 0, read = 0;
	bool minus = take(&scan, '-', '-');

	if (!minus)
		(void)take(&scan, '+', '+');
	size_t digits = take_digits(&scan, &value, &power, &read, false);
	if (take(&scan, '.', '.'))
		digits += take_digits(&scan, &value, &power, &read, true);
	if (digits == 0 || !take_power(&scan, &power) || scan.at != scan.end)
		return false;
	/* dividing by a power of ten that is exact keeps what was written */
	value = power < 0 ? value / pow(10.0, -power) : value * pow(10.0, power);
	if (!isfinite(value))
		return false;
	*out = minus ? -value : value;
	return true;
}
