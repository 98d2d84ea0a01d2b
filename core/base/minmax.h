/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Smaller and larger of two numbers for inner loops. Unlike fmin and fmax they
 * do not look for NAN, which costs a call on most machines. */
#ifndef NECKHEW_BASE_MINMAX_H
#define NECKHEW_BASE_MINMAX_H

static inline double smaller(double a, double b)
{
	return a < b ? a : b;
}

static inline double larger(double a, double b)
{
	return a > b ? a : b;
}

static inline double clamped(double value, double low, double high)
{
	return value < low ? low : (value > high ? high : value);
}

#endif
