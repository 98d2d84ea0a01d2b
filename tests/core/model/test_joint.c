/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The box of the joint at the neck's end, and figures that cannot be. */
#include "model/joint.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "model/neck.h"
#include "support/near.h"
#include "support/sample_job.h"

/* 645.16 (1 - 2^(-14/12)), computed to 40 digits. */
#define JOINT_MM 357.773891502

static struct neck_spec dovetailed(void)
{
	struct neck_spec spec = sample_steel_job().neck;

	spec.heel.joint = (struct joint_spec){ JOINT_DOVETAIL, 18, 20, 2, 76 };
	return spec;
}

static void no_joint_no_box(void **state)
{
	struct neck_spec spec = sample_steel_job().neck;
	struct joint_box box = { 1, 2, 3, 4, 5, 6 };

	(void)state;
	assert_false(joint_keep_out(&box, &spec));
	assert_near(box.x_to_mm, 0.0, 0.0, "no box, mm");
	assert_string_equal(joint_name(JOINT_NONE), "none");
	assert_int_equal(joint_check(&spec, NULL), FAULT_NONE);
}

static void the_box_stands_out_of_the_end(void **state)
{
	struct neck_spec spec = dovetailed();
	struct joint_box box;

	(void)state;
	assert_true(joint_keep_out(&box, &spec));
	assert_near(box.x_from_mm, JOINT_MM, 1e-8, "from the body joint, mm");
	assert_near(box.x_to_mm, JOINT_MM + 18.0, 1e-8, "to, mm");
	assert_near(box.y_from_mm, -10.0, 0.0, "half of 20 to the right, mm");
	assert_near(box.y_to_mm, 10.0, 0.0, "half of 20 to the left, mm");
	assert_near(box.z_from_mm, 2.0, 0.0, "bottom, mm");
	assert_near(box.z_to_mm, 76.0, 0.0, "top, mm");
}

/* A slab that goes on past the body joint carries it at its own end. */
static void a_slab_carries_it_at_its_end(void **state)
{
	struct neck_spec spec = dovetailed();
	struct joint_box box;

	(void)state;
	spec.heel = (struct heel_spec){ .kind = HEEL_FLAT,
					.height_mm = 19,
					.slab_length_mm = 60,
					.beyond_joint_mm = 70,
					.ease_length_mm = 40,
					.joint = { JOINT_TENON, 12, 30, 0, 10 } };
	assert_true(joint_keep_out(&box, &spec));
	assert_near(box.x_from_mm, JOINT_MM + 70.0, 1e-8, "the slab's end, mm");
	assert_near(box.z_to_mm, 10.0, 0.0, "top, mm");
}

/* The joint changes nothing of the neck itself. */
static void the_neck_stays_as_it_is(void **state)
{
	struct neck_spec plain = sample_steel_job().neck, spec = dovetailed();
	struct neck *one, *other;

	(void)state;
	assert_int_equal(neck_build(&one, &plain, NULL), FAULT_NONE);
	assert_int_equal(neck_build(&other, &spec, NULL), FAULT_NONE);
	for (double x = -80.0; x <= 357.0; x += 7.0)
		for (double y = -30.0; y <= 30.0; y += 3.0)
			assert_true(neck_height_mm(one, x, y) == neck_height_mm(other, x, y));
	neck_free(one);
	neck_free(other);
}

static void impossible_joints(void **state)
{
	static const struct {
		size_t place;
		double value;
		const char *setting;
		enum fault code;
	} cases[] = {
#define FIGURE(member) offsetof(struct neck_spec, heel.joint.member)
		{ FIGURE(length_mm), 0, "heel.joint.length", FAULT_SETTING },
		{ FIGURE(length_mm), NAN, "heel.joint.length", FAULT_SETTING },
		{ FIGURE(width_mm), -1, "heel.joint.width", FAULT_SETTING },
		{ FIGURE(width_mm), 54.9, "heel.joint.width", FAULT_GEOMETRY },
		{ FIGURE(bottom_mm), -0.1, "heel.joint.bottom", FAULT_GEOMETRY },
		{ FIGURE(bottom_mm), 76, "heel.joint.bottom", FAULT_GEOMETRY },
		{ FIGURE(bottom_mm), NAN, "heel.joint.bottom", FAULT_GEOMETRY },
		{ FIGURE(top_mm), INFINITY, "heel.joint.top", FAULT_SETTING },
		{ FIGURE(top_mm), 82.1, "heel.joint.top", FAULT_GEOMETRY },
#undef FIGURE
	};

	(void)state;
	for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
		struct neck_spec spec = dovetailed();
		struct fault_list faults = { 0 };
		struct neck *neck;
		memcpy((char *)&spec + cases[i].place, &cases[i].value, sizeof(double));
		assert_int_equal(neck_build(&neck, &spec, &faults), cases[i].code);
		assert_int_equal(faults.count, 1);
		assert_string_equal(faults.record[0].setting, cases[i].setting);
		assert_null(neck);
	}
	struct neck_spec spec = dovetailed();
	spec.heel.joint.kind = JOINT_KIND_COUNT;
	assert_int_equal(joint_check(&spec, NULL), FAULT_SETTING);
	assert_string_equal(joint_name(JOINT_KIND_COUNT), "?");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(no_joint_no_box),
		cmocka_unit_test(the_box_stands_out_of_the_end),
		cmocka_unit_test(a_slab_carries_it_at_its_end),
		cmocka_unit_test(the_neck_stays_as_it_is),
		cmocka_unit_test(impossible_joints),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
