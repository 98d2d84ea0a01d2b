/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The machine safety checklist in short, for the head of every program and the
 * paper to sign. The long form with reasons and sources is docs/safety.md. */
#ifndef NECKHEW_PROGRAM_CHECKLIST_H
#define NECKHEW_PROGRAM_CHECKLIST_H

#include <stddef.h>

/* Longest line, characters. */
#define SAFETY_LINE_MAX 70

/* The lines in the order in which they are gone through, *count of them:
 * printable ASCII without parentheses, at most SAFETY_LINE_MAX characters, fit
 * for program comments as they stand. Never NULL; nothing to release. */
const char *const *safety_checklist(size_t *count);

#endif
