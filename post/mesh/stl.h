/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Binary STL: 80 bytes of text, the number of triangles, then 50 bytes for
 * each (normal, three corners, two bytes of nothing), little-endian on every
 * machine. The format is common practice; it has no standard behind it. */
#ifndef NECKHEW_MESH_STL_H
#define NECKHEW_MESH_STL_H

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>

#include "base/fault.h"
#include "mesh/triangle.h"

#define STL_HEADER_BYTES 80
#define STL_TRIANGLE_BYTES 50

struct stl_file {
	FILE *stream;
	const char *path; /* the caller keeps it alive */
	uint32_t count; /* triangles taken */
	int error; /* errno of the first trouble, 0 while all is well */
};

/* Starts a file. The header reads "binary STL: " and `about`, cut to fit, in
 * printable ASCII: it never begins with the word that marks STL texts. */
enum fault stl_begin(struct stl_file *out, const char *path, const char *about,
		     struct fault_list *faults);

/* Adds a triangle. Trouble is remembered and told by stl_end. */
void stl_add(struct stl_file *file, const struct mesh_point corner[3]);

/* A sink that adds to the file. */
struct triangle_sink stl_sink(struct stl_file *file);

/* Writes the number of triangles, closes the file and reports any trouble since
 * stl_begin as FAULT_FILE. */
enum fault stl_end(struct stl_file *file, struct fault_list *faults);

#endif
