/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hidden folders of runs that were killed. */
#ifndef NECKHEW_FILES_LEFTOVER_H
#define NECKHEW_FILES_LEFTOVER_H

/* Seconds a hidden folder must have rested before it counts as left over. */
#define LEFTOVER_AGE_S 60

/* Hidden folder's name for this process, ".neckhew-PID-N"; NULL when memory is
 * out. Free with free(). */
char *leftover_name(int n);

/* Removes the hidden folders in `parent_fd` whose process is gone, whose lock
 * nobody holds and in which nothing changed for LEFTOVER_AGE_S: together these
 * also spare runs of another machine that shares the disk. A finished output
 * to which a file was added is spared as well. Whatever cannot be removed
 * stays; it does no harm. */
void leftover_clear(int parent_fd);

#endif
