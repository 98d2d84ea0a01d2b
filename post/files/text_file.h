/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole files in, whole files out. */
#ifndef NECKHEW_FILES_TEXT_FILE_H
#define NECKHEW_FILES_TEXT_FILE_H

#include <stddef.h>

#include "base/fault.h"

/* Reads the plain file at `path` into *bytes (*size of them and a NUL behind
 * them; free with free()). A folder, a pipe, a device and a file of more than
 * `most_bytes` are refused with FAULT_FILE, as is whatever the system cannot
 * read; *bytes is then NULL and *size 0. Never waits for a pipe's other end. */
enum fault text_file_read(char **bytes, size_t *size, const char *path, size_t most_bytes,
			  struct fault_list *faults);

/* Writes the file whole or not at all: into a new file beside `path`, forced
 * to disk, then renamed over it. A plain file standing at `path` is replaced;
 * a link, folder, pipe or device there is refused. FAULT_FILE leaves whatever
 * stood at `path` as it was. */
enum fault text_file_write(const char *path, const char *bytes, size_t size,
			   struct fault_list *faults);

#endif
