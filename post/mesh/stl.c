/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "mesh/stl.h"

#include <errno.h>
#include <string.h>

static void put_u32(unsigned char *to, uint32_t value)
{
	for (int i = 0; i < 4; i++)
		to[i] = (unsigned char)(value >> (8 * i) & 0xffu);
}

static void put_float(unsigned char *to, float value)
{
	uint32_t bits;

	_Static_assert(sizeof bits == sizeof value, "float must have 32 bits");
	memcpy(&bits, &value, sizeof bits);
	put_u32(to, bits);
}

static void put_point(unsigned char *to, struct mesh_point point)
{
	put_float(to, point.x);
	put_float(to + 4, point.y);
	put_float(to + 8, point.z);
}

static void remember(struct stl_file *file, int error)
{
	if (file->error == 0)
		file->error = error != 0 ? error : EIO;
}

static void put(struct stl_file *file, const unsigned char *bytes, size_t size)
{
	errno = 0;
	if (file->error == 0 && fwrite(bytes, 1, size, file->stream) != size)
		remember(file, errno);
}

static enum fault trouble(const struct stl_file *file, struct fault_list *faults)
{
	return fault_add(faults, FAULT_FILE, file->path, 0, NULL,
			 "This mesh cannot be written: %s.", strerror(file->error));
}

enum fault stl_begin(struct stl_file *out, const char *path, const char *about,
		     struct fault_list *faults)
{
	unsigned char head[STL_HEADER_BYTES + 4] = { 0 };
	char text[STL_HEADER_BYTES + 1];

	*out = (struct stl_file){ .stream = fopen(path, "wb"), .path = path };
	if (!out->stream) {
		remember(out, errno);
		return trouble(out, faults);
	}
	(void)snprintf(text, sizeof text, "binary STL: %s", about);
	for (size_t i = 0; i < STL_HEADER_BYTES; i++)
		head[i] = ' ';
	for (size_t i = 0; text[i] != '\0'; i++)
		head[i] = (unsigned char)(text[i] >= ' ' && text[i] <= '~' ? text[i] : '?');
	put(out, head, sizeof head);
	return FAULT_NONE;
}

/* Unit normal of the triangle, computed from the corners as stored; 0 0 0 for
 * a triangle without area, for which readers compute their own. */
static struct mesh_point normal_of(const struct mesh_point corner[3])
{
	struct vec3 a = { corner[0].x, corner[0].y, corner[0].z };
	struct vec3 b = { corner[1].x, corner[1].y, corner[1].z };
	struct vec3 c = { corner[2].x, corner[2].y, corner[2].z };
	struct vec3 normal = vec3_cross(vec3_sub(b, a), vec3_sub(c, a));
	double length = vec3_length(normal);

	if (length <= 0.0)
		return (struct mesh_point){ 0.0f, 0.0f, 0.0f };
	return mesh_point(vec3_scale(normal, 1.0 / length), vec3_make(0.0, 0.0, 0.0));
}

void stl_add(struct stl_file *file, const struct mesh_point corner[3])
{
	unsigned char bytes[STL_TRIANGLE_BYTES] = { 0 };

	if (file->count == UINT32_MAX) {
		remember(file, EFBIG);
		return;
	}
	put_point(bytes, normal_of(corner));
	for (int i = 0; i < 3; i++)
		put_point(bytes + 12 + (size_t)12 * (size_t)i, corner[i]);
	put(file, bytes, sizeof bytes);
	file->count++;
}

static void take(void *context, const struct mesh_point corner[3])
{
	stl_add(context, corner);
}

struct triangle_sink stl_sink(struct stl_file *file)
{
	return (struct triangle_sink){ take, file };
}

enum fault stl_end(struct stl_file *file, struct fault_list *faults)
{
	unsigned char count[4];

	put_u32(count, file->count);
	if (file->error == 0 && fseek(file->stream, STL_HEADER_BYTES, SEEK_SET) != 0)
		remember(file, errno);
	put(file, count, sizeof count);
	if (fclose(file->stream) != 0)
		remember(file, errno);
	file->stream = NULL;
	return file->error != 0 ? trouble(file, faults) : FAULT_NONE;
}
