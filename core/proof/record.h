/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the proof saw while it replayed the programs. */
#ifndef NECKHEW_PROOF_RECORD_H
#define NECKHEW_PROOF_RECORD_H

#include <stddef.h>

#include "base/vec3.h"
#include "stock/stock.h"

/* One pass, or the stretch before the first pass of a program. */
struct pass_record {
	double deepest_bite_mm;
	double volume_mm3; /* of the blank as drawn */
	double length_mm; /* cutting moves */
	double idle_mm; /* of these, what removed nothing */
	double seconds;
	double fastest_mm_per_min;
	/* Depth removed from every RECORD_STRIDE-th column either way of the
	 * blank as drawn, so that its top less the cuts so far is the wood that
	 * would stand there;
	 * NULL for the stretch before the first pass. */
	float *cut;
};

#define RECORD_STRIDE 2

struct program_record {
	double cutting_mm, rapid_mm, idle_mm, seconds;
	struct vec3 least, most; /* bounds of all known positions, program coordinates */
	size_t pass_count;
	struct pass_record *pass; /* pass_count + 1 of them; the last is the stretch before */
};

struct proof_record {
	/* After the last program. While programs are judged it holds all the wood
	 * that the blank's margin allows; then that of the blank as drawn. */
	struct stock stock;
	size_t cut_nx, cut_ny; /* size of each cut map */
	size_t program_count;
	struct program_record *program;
};

/* Releases everything; NULL is accepted. */
void proof_record_free(struct proof_record *record);

#endif
