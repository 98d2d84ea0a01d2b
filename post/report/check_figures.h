/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What follows from a neck file before anything is planned. */
#ifndef NECKHEW_REPORT_CHECK_FIGURES_H
#define NECKHEW_REPORT_CHECK_FIGURES_H

#include "model/neck.h"

struct check_figures {
	/* the stretch a straight edge is laid on: from the first station to the
	 * 11th fret, or to where the heel begins if that comes first */
	double straight_from_mm, straight_to_mm;
	double crest_off_mm, edge_off_mm[SIDE_COUNT]; /* largest departure there */
	double asymmetry_mm; /* largest difference of half-breadth */
	double channel_least_mm, channel_least_at_mm; /* NAN without a channel */
};

struct check_figures check_figures_of(const struct neck *neck);

#endif
