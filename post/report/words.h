/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Places on the neck in words, the same in every table, paper and file. */
#ifndef NECKHEW_REPORT_WORDS_H
#define NECKHEW_REPORT_WORDS_H

#include "job/job.h"
#include "job/result.h"
#include "model/neck.h"

#define WORDS_ZERO_ROOM 320
#define WORDS_FRET_ROOM 24
#define WORDS_MARGIN_ROOM 48
#define WORDS_PLACE_ROOM 40
#define WORDS_STICKOUT_ROOM 400

/* Where the program's zero lies, as a sentence in out[WORDS_ZERO_ROOM]. */
void words_zero(char *out, const struct job *job);

/* "bass side" or "treble side" for the side at -y or +y as the instrument lies
 * face down. */
const char *words_side(const struct neck_spec *neck, enum neck_side side);

/* What begins where the heel proper does: "cap front", "slab begins", "tenon,
 * body joint". */
const char *words_heel_place(const struct neck *neck);

/* How near to their outlines the blank's sawn faces must lie: "within 0.50 mm
 * (0.020 in) of", or "exactly on", in out[WORDS_MARGIN_ROOM]. */
void words_margin(char *out, const struct job *job);

/* "nut", or the fret's number, in out[WORDS_FRET_ROOM]. */
void words_fret(char *out, double fret);

/* "heel cheek, bass side" and the like in out[WORDS_PLACE_ROOM]. */
void words_chisel_place(char *out, const struct neck_spec *neck, const struct chisel_place *place);

/* What stickout would spare the chisel, and what the machine can take, in
 * sentences in out[WORDS_STICKOUT_ROOM]; "" when nothing is left for it. Of
 * several cutters the one that lacks least is named. */
void words_stickout(char *out, const struct job *job, const struct job_result *result);

#endif
