/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/palette.h"

#include <math.h>

struct colour palette_colour(enum palette_name name)
{
	static const struct colour table[PALETTE_COUNT] = {
		[PALETTE_PAPER] = { 0xf7, 0xf0, 0xe2 },
		[PALETTE_INK] = { 0x2a, 0x20, 0x1a },
		[PALETTE_SOFT_INK] = { 0x55, 0x46, 0x3a },
		[PALETTE_GRID] = { 0xea, 0xdf, 0xcb },
		[PALETTE_RULE] = { 0xc9, 0xb8, 0x9c },
		[PALETTE_PALE_WOOD] = { 0xec, 0xdf, 0xc8 },
		[PALETTE_LIGHT_WOOD] = { 0xdd, 0xbe, 0x90 },
		[PALETTE_WOOD] = { 0xb8, 0x8d, 0x5f },
		[PALETTE_BROWN] = { 0x7c, 0x50, 0x32 },
	};

	if ((int)name < 0 || name >= PALETTE_COUNT)
		return table[PALETTE_INK];
	return table[name];
}

/* Linear light to the 8-bit sRGB code. Source: IEC 61966-2-1. */
static unsigned char code_of(double linear)
{
	double v = linear <= 0.0031308 ? 12.92 * linear : 1.055 * pow(linear, 1.0 / 2.4) - 0.055;

	return (unsigned char)lround(fmin(fmax(v, 0.0), 1.0) * 255.0);
}

/* Inverse of the CIELAB function f. Source: ISO/CIE 11664-4. */
static double lab_inverse(double f)
{
	return f > 6.0 / 29.0 ? f * f * f : 3.0 * (6.0 / 29.0) * (6.0 / 29.0) * (f - 4.0 / 29.0);
}

/* CIELAB under D65 to sRGB (IEC 61966-2-1 matrix). */
static struct colour from_lab(double l, double a, double b)
{
	double fy = (l + 16.0) / 116.0;
	double x = 0.95047 * lab_inverse(fy + a / 500.0);
	double y = lab_inverse(fy);
	double z = 1.08883 * lab_inverse(fy - b / 200.0);

	return (struct colour){
		code_of(3.2404542 * x - 1.5371385 * y - 0.4985314 * z),
		code_of(-0.9692660 * x + 1.8760108 * y + 0.0415560 * z),
		code_of(0.0556434 * x - 0.2040259 * y + 1.0572252 * z),
	};
}

int palette_step(double share)
{
	if (!(share > 0.0))
		return 0;
	return share >= 1.0 ? PALETTE_STEPS - 1 : (int)(share * PALETTE_STEPS);
}

/* Lightness is a straight line; redness and yellowness bulge gently, so that
 * the middle is brown and not grey, without making the steps uneven. */
struct colour palette_step_colour(int step)
{
	double t = ((double)step + 0.5) / PALETTE_STEPS;
	double bulge = 4.0 * t * (1.0 - t);

	return from_lab(80.0 - 62.0 * t, 5.0 + 2.0 * t + 6.0 * bulge,
			28.0 - 16.0 * t + 6.0 * bulge);
}

struct colour palette_ramp(double share)
{
	if (isnan(share))
		return palette_colour(PALETTE_PAPER);
	return palette_step_colour(palette_step(share));
}
