/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "motion/travel_time.h"
#include "support/moves.h"

void moves_add(struct motion_list *list, struct motion motion)
{
	assert_int_equal(motion_list_add(list, &motion, NULL), FAULT_NONE);
}

void moves_rapid(struct motion_list *list, double x, double y, double z)
{
	moves_add(list,
		  (struct motion){ .kind = MOTION_RAPID, .to = { x, y, z }, .known = KNOWN_ALL });
}

void moves_cut(struct motion_list *list, double x, double y, double z, double feed_mm_per_min)
{
	moves_add(list, (struct motion){ .kind = MOTION_CUT,
					 .to = { x, y, z },
					 .known = KNOWN_ALL,
					 .feed_mm_per_min = feed_mm_per_min });
}

void moves_still(struct motion_list *list, enum motion_kind kind)
{
	moves_add(list, (struct motion){ .kind = kind });
}

void moves_dwell(struct motion_list *list, double dwell_s)
{
	moves_add(list, (struct motion){ .kind = MOTION_DWELL, .dwell_s = dwell_s });
}

void moves_number(struct motion_list *list)
{
	for (size_t i = 0; i < list->count; i++)
		list->item[i].block = (int)i + 1;
}

struct machine moves_machine(double feed_mm_per_min, double rapid_mm_per_min,
			     double acceleration_mm_per_s2, double corner_deviation_mm)
{
	struct machine machine = { .corner_deviation_mm = corner_deviation_mm, .decimals = 3 };

	for (int axis = 0; axis < AXIS_COUNT; axis++) {
		machine.feed_limit_mm_per_min[axis] = feed_mm_per_min;
		machine.rapid_mm_per_min[axis] = rapid_mm_per_min;
		machine.acceleration_mm_per_s2[axis] = acceleration_mm_per_s2;
	}
	return machine;
}

double moves_seconds(const struct motion_list *list, const struct machine *machine)
{
	double *seconds = calloc(list->count + 1, sizeof *seconds);
	double sum = 0.0;

	assert_non_null(seconds);
	assert_int_equal(travel_times(seconds, list, machine, NULL), FAULT_NONE);
	for (size_t i = 0; i < list->count; i++)
		sum += seconds[i];
	free(seconds);
	return sum;
}
