/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "mesh/finished_solid.h"

#include "mesh/neck_rows.h"

struct mesher {
	const struct triangle_sink *sink;
	const struct neck_rows *rows;
	struct vec3 zero;
};

static struct mesh_point corner(const struct mesher *mesher, size_t row_index, int side,
				size_t level)
{
	const struct neck_row *row = &mesher->rows->row[row_index];
	double half_mm = row->half_mm[side][level];
	double v = mesher->rows->level[level];
	struct vec3 point = { row->x_mm, side == SIDE_MINUS ? -half_mm : half_mm,
			      row->base_mm + v * (row->crest_mm - row->base_mm) };

	return mesh_point(point, mesher->zero);
}

/* Both sides between two rows, one the mirror image of the other. */
static void sides(const struct mesher *mesher, size_t row)
{
	for (size_t i = 0; i + 1 < mesher->rows->level_count; i++)
		for (int side = 0; side < SIDE_COUNT; side++) {
			struct mesh_point low = corner(mesher, row, side, i);
			struct mesh_point high = corner(mesher, row, side, i + 1);
			struct mesh_point next_low = corner(mesher, row + 1, side, i);
			struct mesh_point next_high = corner(mesher, row + 1, side, i + 1);
			if (side == SIDE_PLUS)
				mesh_quad(mesher->sink, next_low, low, high, next_high);
			else
				mesh_quad(mesher->sink, next_low, next_high, high, low);
		}
}

/* The flat between the two upper edges, which has no width where the crest is
 * a line, and the under side. */
static void top_and_bottom(const struct mesher *mesher, size_t row)
{
	size_t last = mesher->rows->level_count - 1;

	mesh_quad(mesher->sink, corner(mesher, row, SIDE_MINUS, last),
		  corner(mesher, row + 1, SIDE_MINUS, last),
		  corner(mesher, row + 1, SIDE_PLUS, last), corner(mesher, row, SIDE_PLUS, last));
	mesh_quad(mesher->sink, corner(mesher, row, SIDE_MINUS, 0),
		  corner(mesher, row, SIDE_PLUS, 0), corner(mesher, row + 1, SIDE_PLUS, 0),
		  corner(mesher, row + 1, SIDE_MINUS, 0));
}

/* An end face; its right is the plus side where it looks toward the body. */
static void end_face(const struct mesher *mesher, size_t row, int right)
{
	int left = right == SIDE_PLUS ? SIDE_MINUS : SIDE_PLUS;

	for (size_t i = 0; i + 1 < mesher->rows->level_count; i++)
		mesh_quad(mesher->sink, corner(mesher, row, left, i), corner(mesher, row, right, i),
			  corner(mesher, row, right, i + 1), corner(mesher, row, left, i + 1));
}

enum fault finished_solid(const struct triangle_sink *sink, const struct neck *neck,
			  struct vec3 work_zero_mm, struct fault_list *faults)
{
	struct neck_rows rows;
	enum fault fault = neck_rows_build(&rows, neck, faults);
	struct mesher mesher = { sink, &rows, work_zero_mm };

	if (fault == FAULT_NONE) {
		end_face(&mesher, 0, SIDE_MINUS);
		for (size_t row = 0; row + 1 < rows.count; row++) {
			sides(&mesher, row);
			top_and_bottom(&mesher, row);
		}
		end_face(&mesher, rows.count - 1, SIDE_PLUS);
	}
	neck_rows_free(&rows);
	return fault;
}
