/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Somebody who waits while long work is done. What is told changes no result. */
#ifndef NECKHEW_BASE_WATCH_H
#define NECKHEW_BASE_WATCH_H

#include <stddef.h>

struct watch {
	/* `share` of the work is done, 0..1; it never falls. Comes from the
	 * thread that asked for the work and no other, and should return soon. */
	void (*tell)(void *context, double share);
	void *context;
};

/* Tells the share; without a watch (NULL) nothing happens. */
static inline void watch_tell(const struct watch *watch, double share)
{
	if (watch)
		watch->tell(watch->context, share);
}

#endif
