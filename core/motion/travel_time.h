/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long a machine of limited acceleration takes for a list of moves. */
#ifndef NECKHEW_MOTION_TRAVEL_TIME_H
#define NECKHEW_MOTION_TRAVEL_TIME_H

#include "base/fault.h"
#include "machine/machine.h"
#include "motion/motion.h"

/* Seconds to go `length_mm` in a straight line from speed v0 to v1 (mm/s),
 * at most `speed`, with constant acceleration a (mm/s2): trapezoid or
 * triangle. NAN when v1 cannot be reached within the length. Source: constant
 * acceleration, any mechanics text. */
double travel_time_s(double length_mm, double v0, double v1, double speed, double a);

/* Speed (mm/s) at which a corner may be taken so that the path rounded by a
 * tangent circle stays within `deviation_mm` of it. `turn_rad` is 0 for
 * straight on (INFINITY) and PI for straight back (0). Geometry: the circle
 * touching both legs, radius d sin(h)/(1 - sin(h)), h half the inside angle. */
double corner_speed_mm_per_s(double turn_rad, double deviation_mm, double a);

/* Seconds spent by each move of the list, in seconds[list->count], caller-owned:
 * axis feed, rapid and acceleration limits, corner speeds, look-ahead over the
 * whole list, full stops at spindle, dwell and before the first known position.
 * An axis whose place is not known before a move adds nothing to it. On
 * FAULT_MEMORY, or FAULT_INTERNAL for a place or feed that is no number or
 * limits that are not positive, the seconds mean nothing. */
enum fault travel_times(double *seconds, const struct motion_list *list,
			const struct machine *machine, struct fault_list *faults);

#endif
