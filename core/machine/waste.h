/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What becomes of the wood beside the neck: cleared, or left standing as rails
 * with a channel between them and the neck; and the tabs that join pieces to
 * the neck which would come loose. Neck coordinates, mm. */
#ifndef NECKHEW_MACHINE_WASTE_H
#define NECKHEW_MACHINE_WASTE_H

#include <stddef.h>

enum waste_kind { WASTE_CLEARED, WASTE_RAILS };

/* A rail narrower than this would whip under the cutter, mm; the wood is
 * cleared there (common practice, no source). */
#define RAIL_LEAST_WIDTH_MM 6.0
/* And so it is where a rail would be shorter than this, mm. */
#define RAIL_LEAST_LENGTH_MM 20.0

/* A narrower tab is no joint to count on, mm: where all cutters have been, 1.5 mm
 * on either side of it may be thinner than asked for. */
#define TAB_LEAST_WIDTH_MM 4.0

struct waste_spec {
	enum waste_kind kind;
	double channel_mm; /* between the neck's stock and a rail; 0: as the cutters need */
	double tab_width_mm; /* along the neck, at least the above; 0: no tabs, refuse instead */
	double tab_height_mm; /* above the blank's under side */
};

#define TABS_MAX 24

/* A bridge of wood from the neck to a piece beside it. */
struct tab {
	double x_mm, width_mm; /* its middle along the neck, and how wide it is there */
	double side; /* of the centre line: -1 or 1 */
	double inner_mm, outer_mm; /* distance from the centre line: at the neck, at the piece */
	double base_mm, height_mm; /* z of the blank's under side there, and thickness over it */
};

struct tabs {
	size_t count;
	struct tab tab[TABS_MAX];
};

#endif
