/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Units. Lengths inside the program are millimetres, feeds mm per minute,
 * angles radians. These constants are used only where text meets numbers. */
#ifndef NECKHEW_BASE_UNITS_H
#define NECKHEW_BASE_UNITS_H

/* Exact: international yard and pound agreement of 1959 (1 in = 25.4 mm). */
#define MM_PER_INCH 25.4
#define PI 3.14159265358979323846

enum length_unit { UNIT_MM, UNIT_INCH };

/* Millimetres in one `unit`. */
static inline double units_mm_per(enum length_unit unit)
{
	return unit == UNIT_INCH ? MM_PER_INCH : 1.0;
}

static inline double units_inch_from_mm(double length_mm)
{
	return length_mm / MM_PER_INCH;
}

static inline double units_rad_from_deg(double angle_deg)
{
	return angle_deg * (PI / 180.0);
}

static inline double units_deg_from_rad(double angle_rad)
{
	return angle_rad * (180.0 / PI);
}

#endif
