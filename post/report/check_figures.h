/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What follows from a neck file before anything is planned. */
#ifndef NECKHEW_REPORT_CHECK_FIGURES_H
#define NECKHEW_REPORT_CHECK_FIGURES_H

#include "model/neck.h"
#include "model/straight_edge.h"

struct check_figures {
	struct straight_edge straight;
	double asymmetry_mm; /* largest difference of half-breadth */
	double channel_least_mm, channel_least_at_mm; /* NAN without a channel */
};

struct check_figures check_figures_of(const struct neck *neck);

#endif
