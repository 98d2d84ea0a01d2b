/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The wood being cut. */
#ifndef NECKHEW_MACHINE_WOOD_H
#define NECKHEW_MACHINE_WOOD_H

#define WOOD_NAME_MAX 64

enum wood_class { WOOD_SOFT, WOOD_MEDIUM, WOOD_HARD, WOOD_CLASS_COUNT };

struct wood {
	char name[WOOD_NAME_MAX];
	enum wood_class class;
	double density_kg_per_m3; /* at 12 % moisture */
	double cutting_energy_j_per_cm3; /* specific, equals N/mm2 */
	double shrinkage_tangential_percent; /* green to dry; per cent */
	double shrinkage_radial_percent;
};

#endif
