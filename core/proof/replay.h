/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Replays programs on the simulated wood: rapids, bites, shank, holder,
 * plunges, directions; and keeps the figures of each pass. */
#ifndef NECKHEW_PROOF_REPLAY_H
#define NECKHEW_PROOF_REPLAY_H

#include "base/watch.h"
#include "job/job.h"
#include "model/stretch.h"
#include "proof/proof.h"
#include "proof/record.h"
#include "proof/verdict.h"

/* Between programs the wood stays, the memory of bites does not matter. */
struct replay;

/* Starts with the whole blank in record->stock. `stretches` are the neck's. */
enum fault replay_start(struct replay **out, struct proof_record *record, const struct job *job,
			const struct stretches *stretches, size_t program_count,
			struct fault_list *faults);

/* Replays one program and judges it. `seconds` (per move, may be NULL) feeds
 * the figures. `watch` (may be NULL) is told which share of the moves is done. */
enum fault replay_program(struct replay *replay, struct verdict *verdict,
			  const struct proof_program *program, int index, const double *seconds,
			  const struct watch *watch, struct fault_list *faults);

/* The most that any cut so far may lie beside its straight way, mm. */
double replay_stray_mm(const struct replay *replay);
void replay_free(struct replay *replay);

#endif
