/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An output folder that appears whole or not at all. Everything is written
 * into a hidden folder beside the target; when all is done it is forced to
 * disk and renamed into place. A run that is killed leaves at most a hidden
 * folder ".neckhew-PID-N", which a later run clears away. */
#ifndef NECKHEW_FILES_OUT_DIR_H
#define NECKHEW_FILES_OUT_DIR_H

#include <stdbool.h>

#include "base/fault.h"

/* One that was not begun, which out_dir_close leaves alone. */
#define OUT_DIR_NONE                             \
	{                                        \
		.parent_fd = -1, .hidden_fd = -1 \
	}

/* Start with out_dir_begin, end with out_dir_close. */
struct out_dir {
	char *target; /* where the folder will appear */
	char *hidden; /* the folder to write into until then */
	bool replace; /* an output already at the target is renewed */
	bool committed; /* the folder stands at the target */
	/* private */
	char *base; /* last part of the target */
	char *hidden_base; /* last part of the hidden folder */
	int parent_fd, hidden_fd; /* -1 when not open */
};

/* Makes the hidden folder. The target's parent must exist. Refused with
 * FAULT_FILE: a target that exists, unless `replace` is asked and it is an
 * empty folder or an output of this program in which everything, also in the
 * folders inside, was written by it; a target that is a file, a link, "." or
 * "..". `out` may then still be passed to out_dir_close. */
enum fault out_dir_begin(struct out_dir *out, const char *target, bool replace,
			 struct fault_list *faults);

/* Makes a folder in the hidden folder, unless it was made before, and gives its
 * path (free with free(); NULL at a fault). `name` must be a bare name: folders
 * go one level deep. FAULT_INTERNAL for other names; FAULT_FILE when the folder
 * cannot be made; FAULT_MEMORY. */
enum fault out_dir_folder(const struct out_dir *out, const char *name, char **path,
			  struct fault_list *faults);

/* Path of a file in the hidden folder; free with free(). `name` is a bare name,
 * or "folder/name" with a folder made by out_dir_folder. NULL when memory is
 * out or the name is another (reported). */
char *out_dir_file(const struct out_dir *out, const char *name, struct fault_list *faults);

/* Forces every file and folder to disk and puts the whole into place: by one
 * rename, or by one exchange when an output is replaced (the old one is removed
 * after that). Where the file system knows no exchange, the old output is first
 * moved to "TARGET.replaced-PID": between these two renames, and only there, a
 * kill leaves no folder at the target; nothing is lost even then. FAULT_FILE:
 * the target is as it was, or (out->committed) the new output stands and only
 * the old one's removal failed. */
enum fault out_dir_commit(struct out_dir *out, struct fault_list *faults);

/* Removes the hidden folder unless it was committed, and releases all. */
void out_dir_close(struct out_dir *out);

#endif
