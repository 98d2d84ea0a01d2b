/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The files of a job, parsed one by one. Private to the reader: with value.h
 * and walk.h the only place that sees libconfig. */
#ifndef NECKHEW_CONFIG_SOURCE_H
#define NECKHEW_CONFIG_SOURCE_H

#include <libconfig.h>
#include <nettle/sha2.h>
#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

#include "base/fault.h"
#include "base/units.h"

#define SOURCE_FILES_MAX 32
#define SOURCE_DEPTH_MAX 8
/* No neck file needs more. */
#define SOURCE_BYTES_MAX ((size_t)1024 * 1024)

struct source {
	char path[FAULT_FILE_MAX];
	enum length_unit unit; /* of the lengths in this file */
	config_t parsed;
	dev_t device;
	ino_t inode;
	bool open; /* its includes are being read: including it again is a circle */
};

/* Start with `= { 0 }`. */
struct source_list {
	size_t count;
	struct source *source[SOURCE_FILES_MAX];
	size_t named_count; /* files read because a value names them */
	struct sha256_ctx hash;
	char digest[65]; /* SHA-256 over all contents in the order of reading, hex */
};

/* Reads `path` and all it includes, in the order file, its first include, that
 * one's includes, ... A path in an include counts from the folder of the file
 * it stands in; a file included a second time is read once. Every file that
 * gives trouble adds one fault; returns the first code. The caller releases
 * the list in either case. */
enum fault source_list_read(struct source_list *list, const char *path, struct fault_list *faults);

/* A file that a value names, such as a table of points. */
struct named_file {
	const struct source *source; /* where the value stands ... */
	int line; /* ... for messages */
	const char *setting;
	const char *path; /* as written: counts from the folder of `source` */
	size_t most_bytes;
	char found[FAULT_FILE_MAX]; /* where that is */
	char *text; /* `size` bytes and a NUL; the caller frees it */
	size_t size;
};

/* Reads it: its contents join the digest, and it counts among the files that a
 * job may have. FAULT_FILE when it cannot be used, told where the value
 * stands; `text` is then NULL. */
enum fault source_list_named(struct source_list *list, struct named_file *file,
			     struct fault_list *faults);

/* Releases the files; NULL is accepted. */
void source_list_free(struct source_list *list);

#endif
