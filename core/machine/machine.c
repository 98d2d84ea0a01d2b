/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "machine/machine.h"

double machine_resolution_mm(const struct machine *machine)
{
	double step = units_mm_per(machine->program_unit);

	for (int digit = 0; digit < machine->decimals; digit++)
		step /= 10.0;
	return step;
}
