/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "trace/sift.h"

#include <stdlib.h>

#include "base/mem.h"

#define SAME_MM 0.001
#define FAR_TIMES 3.0

struct order {
	double y_mm, z_mm;
	size_t index;
};

static int by_number(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

static int by_place(const void *a, const void *b)
{
	const struct order *p = a, *q = b;

	if (p->y_mm != q->y_mm)
		return p->y_mm > q->y_mm ? 1 : -1;
	return (p->index > q->index) - (p->index < q->index);
}

static double median(double *value, size_t count)
{
	qsort(value, count, sizeof *value, by_number);
	return count % 2 ? value[count / 2] : (value[count / 2 - 1] + value[count / 2]) / 2.0;
}

/* The later of two points at one place is the double. */
static void mark_doubles(struct trace_point *point, size_t count, struct order *order)
{
	for (size_t i = 0; i < count; i++)
		order[i] = (struct order){ point[i].y_mm, point[i].z_mm, i };
	qsort(order, count, sizeof *order, by_place);
	for (size_t i = 0; i < count; i++) {
		for (size_t k = i + 1; k < count && order[k].y_mm - order[i].y_mm <= SAME_MM; k++) {
			size_t a = order[i].index, b = order[k].index;
			if (fabs(order[k].z_mm - order[i].z_mm) <= SAME_MM)
				point[a > b ? a : b].fate = FATE_DOUBLE;
		}
	}
}

static void mark_far(struct trace_point *point, size_t count, double *value)
{
	for (size_t i = 0; i < count; i++)
		value[i] = point[i].y_mm;
	double y = median(value, count);
	for (size_t i = 0; i < count; i++)
		value[i] = point[i].z_mm;
	double z = median(value, count);
	for (size_t i = 0; i < count; i++)
		value[i] = hypot(point[i].y_mm - y, point[i].z_mm - z);
	double limit = FAR_TIMES * median(value, count);
	for (size_t i = 0; i < count; i++)
		if (point[i].fate == FATE_OUTLINE &&
		    hypot(point[i].y_mm - y, point[i].z_mm - z) > limit)
			point[i].fate = FATE_FAR;
}

enum fault sift_points(struct trace_point *point, size_t count, struct fault_list *faults)
{
	struct order *order = mem_array(count, sizeof *order);
	double *value = mem_array(count, sizeof *value);
	enum fault fault = FAULT_NONE;

	if (!order || !value) {
		fault = fault_no_memory(faults, "the points of a section");
		goto cleanup;
	}
	for (size_t i = 0; i < count; i++)
		point[i].fate = FATE_OUTLINE;
	mark_doubles(point, count, order);
	if (count > 0)
		mark_far(point, count, value);
cleanup:
	free(order);
	free(value);
	return fault;
}
