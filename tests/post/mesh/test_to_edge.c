/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A block of columns, drawn out to its blank. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "mesh/height_solid.h"
#include "mesh/to_edge.h"
#include "support/near.h"
#include "support/solid.h"

#define NX 21
#define NY 9

static void take(void *context, const struct mesh_point corner[3])
{
	float copy[3][3];

	for (int i = 0; i < 3; i++) {
		copy[i][0] = corner[i].x;
		copy[i][1] = corner[i].y;
		copy[i][2] = corner[i].z;
	}
	solid_add(context, (const float(*)[3])copy);
}

/* Columns 1 mm apart from x = 0.4 on and around the centre line, in a blank from
 * 0 to 20.7 whose sides open from 4.1 to 4.9: the outermost columns stand at 4. */
static void solid_of(struct solid *solid, const struct blank *blank, float height)
{
	static const struct vec3 zero = { 3.0, -2.0, 1.0 };
	float top_value[NX * NY], bottom_value[NX * NY];
	const struct column_map top = { NX, NY, 0.4, -4.0, 1.0, top_value };
	const struct column_map bottom = { NX, NY, 0.4, -4.0, 1.0, bottom_value };
	const struct triangle_sink sink = { take, solid };
	struct to_edge edge = { &sink, blank, zero, 1.0 };
	const struct triangle_sink out = to_edge_sink(&edge);

	for (size_t i = 0; i < NX * NY; i++) {
		top_value[i] = height;
		bottom_value[i] = 0.0f;
	}
	assert_int_equal(height_solid(&out, &top, &bottom, 1, zero, NULL), FAULT_NONE);
}

static void border_comes_to_the_outline(void **state)
{
	(void)state;
	const struct blank blank = { .top = { 2, { 0, 20.7 }, { 10, 10 } },
				     .bottom = { 2, { 0, 20.7 }, { 0, 0 } },
				     .half_width = { 2, { 0, 20.7 }, { 4.1, 4.9 } } };
	struct solid solid = { 0 };
	struct vec3 least, most;

	solid_of(&solid, &blank, 10.0f);
	solid_assert_closed(&solid);
	/* a prism over a trapezium: 20.7 by 8.2 to 9.8, 10 high */
	assert_near(solid_volume_mm3(&solid), 20.7 * 9.0 * 10.0, 0.01, "volume, mm3");
	solid_bounds(&solid, &least, &most);
	assert_near(least.x, -3.0, 1e-5, "begin, mm");
	assert_near(most.x, 17.7, 1e-5, "end, mm");
	assert_near(most.y, 4.9 + 2.0, 1e-5, "side, mm");
	solid_free(&solid);
}

/* Wood that ends a whole step inside the blank stays where it is. */
static void inner_wood_stays(void **state)
{
	(void)state;
	const struct blank blank = { .top = { 2, { -5, 40 }, { 10, 10 } },
				     .bottom = { 2, { -5, 40 }, { 0, 0 } },
				     .half_width = { 2, { -5, 40 }, { 6, 6 } } };
	struct solid solid = { 0 };

	solid_of(&solid, &blank, 3.0f);
	solid_assert_closed(&solid);
	assert_near(solid_volume_mm3(&solid), 20.0 * 8.0 * 3.0, 1e-3, "volume, mm3");
	solid_free(&solid);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(border_comes_to_the_outline),
		cmocka_unit_test(inner_wood_stays),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
