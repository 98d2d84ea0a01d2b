/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "machine/machine.h"

double machine_resolution_mm(const struct machine *machine)
{
	double step = units_mm_per(machine->program_unit);

	for (int digit = 0; digit < machine->decimals; digit++)
		step /= 10.0;
	return step;
}

int machine_feed_decimals(const struct machine *machine)
{
	if (machine->reads.feed_decimals_stated)
		return machine->reads.feed_decimals;
	return machine->program_unit == UNIT_INCH ? 3 : 1;
}
