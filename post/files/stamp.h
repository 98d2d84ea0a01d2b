/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The mark that a finished output folder bears: a list of all that was written
 * into it. By it a later run tells what it may throw away. */
#ifndef NECKHEW_FILES_STAMP_H
#define NECKHEW_FILES_STAMP_H

#include <stdbool.h>

/* The list's name: one entry a line, "job.json", "pictures/" for a folder,
 * "pictures/side-view.png" for a file in it; the list itself is left out. */
#define STAMP_NAME ".neckhew-files"

/* Room for "folder/file" with a slash behind it, as messages need it. */
#define STAMP_ENTRY_ROOM 520

/* Writes the list and forces all to disk: the files of a folder before the
 * folder, the list after what it names, the folder `fd` last. Returns 0 or an
 * errno; EINVAL when something other than a plain file or a folder of plain
 * files is in it. */
int stamp_write(int fd);

/* Looks for an entry that the list does not name, or names as another kind: a
 * folder for a file. Returns 0 when there is none; EEXIST and the name of the
 * first one met, fit for printing, in stranger[STAMP_ENTRY_ROOM]; ENOENT when
 * there is no list; or the errno of what could not be looked into. `stranger`
 * is "" unless EEXIST is returned. */
int stamp_check(int fd, char *stranger);

/* True when the folder's job.json was written by this program. */
bool stamp_is_ours(int fd);

#endif
