/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Makes memory run out at a chosen moment. Test programs whose name ends in
 * _memory are linked so that the calls of malloc, calloc and realloc in core,
 * post and the test itself come here first; libraries keep their own. */
#ifndef NECKHEW_TESTS_SUPPORT_MEMORY_H
#define NECKHEW_TESTS_SUPPORT_MEMORY_H

#include <stddef.h>

#include "base/fault.h"

/* From now on `grants` requests are served and the next one is refused; those
 * after it are served again. Counts from anew at each call. */
void memory_refuse_after(size_t grants);

/* Serves everything again. Returns how many requests came since the last
 * memory_refuse_after, the refused one included: when it is no more than the
 * grants, the work was done before the refusal could strike. */
size_t memory_serve_all(void);

/* Some work that asks for memory and gives it back, done or not. */
typedef enum fault memory_work(void *context, struct fault_list *faults);

/* Does the work over and over, with its first request refused, then its second,
 * until none is left to refuse. Fails the test unless each refusal, and nothing
 * else, ends in one FAULT_MEMORY. Returns how many were refused. */
size_t memory_refuse_in_turn(memory_work *work, void *context);

#endif
