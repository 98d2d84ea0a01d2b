/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/solid.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#define STL_HEAD 84
#define STL_EACH 50

static float float_at(const unsigned char *bytes)
{
	uint32_t bits = (uint32_t)bytes[0] | (uint32_t)bytes[1] << 8 | (uint32_t)bytes[2] << 16 |
			(uint32_t)bytes[3] << 24;
	float value;

	memcpy(&value, &bits, sizeof value);
	return value;
}

static void unpack(struct solid_triangle *out, const unsigned char *bytes)
{
	for (size_t axis = 0; axis < 3; axis++)
		out->normal[axis] = float_at(bytes + 4 * axis);
	for (size_t i = 0; i < 9; i++)
		out->corner[i / 3][i % 3] = float_at(bytes + 12 + 4 * i);
}

void solid_read(struct solid *out, const char *path)
{
	unsigned char bytes[STL_HEAD];
	FILE *file = fopen(path, "rb");

	assert_non_null(file);
	assert_int_equal(fread(bytes, 1, STL_HEAD, file), STL_HEAD);
	assert_true(memcmp(bytes, "solid", 5) != 0);
	out->count = out->capacity = (size_t)bytes[80] | (size_t)bytes[81] << 8 |
				     (size_t)bytes[82] << 16 | (size_t)bytes[83] << 24;
	out->item = calloc(out->count + 1, sizeof *out->item);
	assert_non_null(out->item);
	for (size_t i = 0; i < out->count; i++) {
		assert_int_equal(fread(bytes, 1, STL_EACH, file), STL_EACH);
		unpack(&out->item[i], bytes);
	}
	assert_int_equal(fgetc(file), EOF);
	assert_int_equal(fclose(file), 0);
}

void solid_add(struct solid *solid, const float corner[3][3])
{
	if (solid->count == solid->capacity) {
		solid->capacity = solid->capacity ? 2 * solid->capacity : 64;
		solid->item = realloc(solid->item, solid->capacity * sizeof *solid->item);
		assert_non_null(solid->item);
	}
	memset(&solid->item[solid->count], 0, sizeof *solid->item);
	memcpy(solid->item[solid->count++].corner, corner, sizeof solid->item->corner);
}

void solid_free(struct solid *solid)
{
	free(solid->item);
	memset(solid, 0, sizeof *solid);
}

/* Numbers for corners: an open hash of the corner's bits. */
struct corner_numbers {
	size_t room; /* a power of two */
	uint32_t *slot; /* number + 1; 0 is free */
	uint32_t (*corner)[3];
	uint32_t count;
};

static uint32_t number_of(struct corner_numbers *numbers, const float corner[3])
{
	uint32_t bits[3];

	memcpy(bits, corner, sizeof bits);
	uint64_t hash = 1469598103934665603u;
	for (int i = 0; i < 3; i++)
		hash = (hash ^ bits[i]) * 1099511628211u;
	hash ^= hash >> 29;
	for (size_t at = hash & (numbers->room - 1);; at = (at + 1) & (numbers->room - 1)) {
		if (numbers->slot[at] == 0) {
			memcpy(numbers->corner[numbers->count], bits, sizeof bits);
			numbers->slot[at] = ++numbers->count;
			return numbers->count;
		}
		if (memcmp(numbers->corner[numbers->slot[at] - 1], bits, sizeof bits) == 0)
			return numbers->slot[at];
	}
}

static int compare_edges(const void *a, const void *b)
{
	uint64_t left = *(const uint64_t *)a, right = *(const uint64_t *)b;

	return (left > right) - (left < right);
}

/* Every directed edge as from << 32 | to, sorted. */
static uint64_t *sorted_edges(const struct solid *solid)
{
	struct corner_numbers numbers = { .room = 16 };
	uint64_t *edge = calloc(3 * solid->count + 1, sizeof *edge);

	while (numbers.room < 6 * solid->count)
		numbers.room *= 2;
	numbers.slot = calloc(numbers.room, sizeof *numbers.slot);
	numbers.corner = calloc(3 * solid->count + 1, sizeof *numbers.corner);
	assert_true(edge && numbers.slot && numbers.corner);
	for (size_t i = 0; i < solid->count; i++) {
		uint32_t id[3];
		for (int k = 0; k < 3; k++)
			id[k] = number_of(&numbers, solid->item[i].corner[k]);
		for (size_t k = 0; k < 3; k++)
			edge[3 * i + k] = (uint64_t)id[k] << 32 | id[(k + 1) % 3];
	}
	free(numbers.slot);
	free(numbers.corner);
	qsort(edge, 3 * solid->count, sizeof *edge, compare_edges);
	return edge;
}

void solid_assert_closed(const struct solid *solid)
{
	size_t count = 3 * solid->count, twice = 0, alone = 0, points = 0;
	uint64_t *edge = sorted_edges(solid);

	for (size_t i = 0; i < count; i++) {
		uint64_t back = edge[i] << 32 | edge[i] >> 32;
		twice += i > 0 && edge[i] == edge[i - 1];
		alone += !bsearch(&back, edge, count, sizeof *edge, compare_edges);
		points += back == edge[i];
	}
	free(edge);
	if (twice || alone || points)
		fail_msg("of %zu edges %zu run twice the same way, %zu have no counterpart, %zu "
			 "have no length",
			 count, twice, alone, points);
}

static struct vec3 corner_of(const struct solid_triangle *triangle, int i)
{
	return vec3_make((double)triangle->corner[i][0], (double)triangle->corner[i][1],
			 (double)triangle->corner[i][2]);
}

double solid_volume_mm3(const struct solid *solid)
{
	double sum = 0.0;

	for (size_t i = 0; i < solid->count; i++) {
		const struct solid_triangle *t = &solid->item[i];
		sum += vec3_dot(corner_of(t, 0), vec3_cross(corner_of(t, 1), corner_of(t, 2)));
	}
	return sum / 6.0;
}

void solid_bounds(const struct solid *solid, struct vec3 *least, struct vec3 *most)
{
	*least = vec3_make(INFINITY, INFINITY, INFINITY);
	*most = vec3_make(-INFINITY, -INFINITY, -INFINITY);
	for (size_t i = 0; i < 3 * solid->count; i++) {
		struct vec3 p = corner_of(&solid->item[i / 3], (int)(i % 3));
		*least = vec3_make(fmin(least->x, p.x), fmin(least->y, p.y), fmin(least->z, p.z));
		*most = vec3_make(fmax(most->x, p.x), fmax(most->y, p.y), fmax(most->z, p.z));
	}
}
