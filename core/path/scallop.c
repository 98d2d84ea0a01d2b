/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "path/scallop.h"

#include <math.h>

double scallop_height_mm(double radius, double spacing)
{
	double rest = radius * radius - spacing * spacing / 4.0;

	return rest > 0.0 ? radius - sqrt(rest) : radius;
}

double scallop_spacing_mm(double radius, double height)
{
	if (height >= radius)
		return 2.0 * radius;
	return 2.0 * sqrt(2.0 * radius * height - height * height);
}
