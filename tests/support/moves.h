/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Short ways to write down moves and a plain machine to make them. */
#ifndef NECKHEW_TESTS_SUPPORT_MOVES_H
#define NECKHEW_TESTS_SUPPORT_MOVES_H

#include "machine/machine.h"
#include "motion/motion.h"

/* Each appends one item and fails the test when it cannot; moves have all axes
 * known. */
void moves_add(struct motion_list *list, struct motion motion);
void moves_rapid(struct motion_list *list, double x, double y, double z);
void moves_cut(struct motion_list *list, double x, double y, double z, double feed_mm_per_min);
void moves_still(struct motion_list *list, enum motion_kind kind);
void moves_dwell(struct motion_list *list, double dwell_s);

/* Numbers the blocks as if each item stood in one of its own, from 1. */
void moves_number(struct motion_list *list);

/* A machine with all three axes alike: cutting and rapids up to these. */
struct machine moves_machine(double feed_mm_per_min, double rapid_mm_per_min,
			     double acceleration_mm_per_s2, double corner_deviation_mm);

/* Sum of travel_times over the list, s; fails the test on a fault. */
double moves_seconds(const struct motion_list *list, const struct machine *machine);

#endif
