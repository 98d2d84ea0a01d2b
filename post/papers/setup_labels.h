/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Short labels of places on a drawing that keep off each other. */
#ifndef NECKHEW_PAPERS_SETUP_LABELS_H
#define NECKHEW_PAPERS_SETUP_LABELS_H

#include "machine/fixture.h"
#include "papers/sheet.h"

#define SETUP_LABEL_ROOM 16

/* "K1", "K2" for keep-outs, "H1", "H2" for holding places, in
 * out[SETUP_LABEL_ROOM]. */
void setup_label(char out[SETUP_LABEL_ROOM], bool keep_out, size_t index);

/* Labels put down so far. Start with { 0 }. */
struct setup_labels {
	size_t count;
	struct sheet_area taken[2 * FIXTURE_PLACES_MAX];
};

/* Writes a label into the rectangle, or beside it when it is too small for it or
 * another label stands there already. */
void setup_label_put(struct setup_labels *labels, struct canvas *canvas,
		     const struct sheet_area *place, const char *text);

#endif
