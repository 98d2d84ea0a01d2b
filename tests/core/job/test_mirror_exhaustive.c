/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A left-handed neck is a right-handed one in the mirror: an uneven neck with a
 * hollow heel, clamps at one side and an uneven blank, and the same with hand and
 * every y turned round, are both planned and proven, and the simulated wood of one
 * is the other's mirrored, column by column. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "job/job.h"
#include "support/any_outline.h"
#include "support/near.h"
#include "support/planned.h"
#include "support/refusal.h"
#include "support/sample_job.h"

#define ALLOWED_MM 0.02

/* Fuller on the bass side, leaner on the treble, as thumb and palm differ. */
static void make_uneven(struct job *job)
{
	struct neck_spec *neck = &job->neck;

	for (size_t i = 0; i < neck->station_count; i++) {
		neck->station[i].bass =
			(struct section_spec){ .family = SECTION_MEASURED,
					       .outline = swollen_outline(2.3, 0.02, 15) };
		neck->station[i].treble = (struct section_spec){ .family = SECTION_C };
	}
	neck->station[1].treble = (struct section_spec){ .family = SECTION_D, .flat_share = 0.2 };
	neck->heel.hollow_mm = 1.0;
	neck->peghead.volute_height_mm = 1.5;
	neck->peghead.volute_length_mm = 22.0;
	neck->allowance.back_mm = 0.9;
}

static struct job uneven_job(void)
{
	struct job job = sample_steel_job();
	struct fixture *fixture = &job.fixture;

	make_uneven(&job);
	job.carve.cell_mm = 0.4;
	fixture->keep_out[fixture->keep_out_count++] = (struct place){
		"clamp on the bass side", 120.0, 150.0, 42.0, 75.0, 30.0, PLACE_BOX
	};
	fixture->keep_out[fixture->keep_out_count++] =
		(struct place){ "screw", 210.0, 216.0, -52.0, -46.0, 12.0, PLACE_BOX };
	fixture->hold[0].y_from_mm = -15.0;
	fixture->work_zero_mm = vec3_make(-20.0, 7.25, -14.0);
	return job;
}

static void mirror_places(struct place *place, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		double from = place[i].y_from_mm;
		place[i].y_from_mm = -place[i].y_to_mm;
		place[i].y_to_mm = -from;
	}
}

static struct job mirrored(const struct job *job)
{
	struct job out = *job;
	struct outline side = out.blank.side[BLANK_MINUS];

	out.neck.hand = job->neck.hand == HAND_RIGHT ? HAND_LEFT : HAND_RIGHT;
	out.blank.side[BLANK_MINUS] = out.blank.side[BLANK_PLUS];
	out.blank.side[BLANK_PLUS] = side;
	mirror_places(out.fixture.keep_out, out.fixture.keep_out_count);
	mirror_places(out.fixture.hold, out.fixture.hold_count);
	out.fixture.work_zero_mm.y = -out.fixture.work_zero_mm.y;
	return out;
}

/* The wood that the job's proven program leaves. */
static void carve(struct proof_record *record, const struct job *job)
{
	struct planned planned;

	assert_job_good(job);
	planned_make(&planned, job);
	struct verdict verdict = planned_judged(&planned, job, record);
	assert_proven(&verdict);
	planned_free(&planned);
}

/* Columns of one stock against those at the mirrored places of the other. */
static void assert_mirrored(const struct stock *a, const struct stock *b)
{
	double worst_mm = 0.0;
	size_t at_x = 0, at_y = 0, cut = 0;

	assert_int_equal(a->nx, b->nx);
	assert_int_equal(a->ny, b->ny);
	assert_near(a->y0_mm, -((double)(a->ny - 1) * a->cell_mm + b->y0_mm), 1e-9,
		    "rows lie mirrored, mm");
	for (size_t iy = 0; iy < a->ny; iy++) {
		for (size_t ix = 0; ix < a->nx; ix++) {
			float one = a->top[iy * a->nx + ix];
			float other = b->top[(a->ny - 1 - iy) * a->nx + ix];
			cut += a->top[iy * a->nx + ix] != a->top[ix];
			double off = one == other ? 0.0 : fabs((double)one - (double)other);
			if (off > worst_mm) {
				worst_mm = off;
				at_x = ix;
				at_y = iy;
			}
		}
	}
	assert_true(cut > 10000);
	print_message("mirrored columns differ by up to %.5f mm, at x %.1f, y %.1f\n", worst_mm,
		      stock_x(a, at_x), stock_y(a, at_y));
	assert_between(worst_mm, 0.0, ALLOWED_MM, "difference of mirrored columns, mm");
}

static void mirrored_jobs_leave_mirrored_wood(struct job job)
{
	struct job left = mirrored(&job);
	struct proof_record one, other;

	carve(&one, &job);
	carve(&other, &left);
	assert_mirrored(&one.stock, &other.stock);
	proof_record_free(&one);
	proof_record_free(&other);
}

static void an_uneven_neck(void **state)
{
	(void)state;
	mirrored_jobs_leave_mirrored_wood(uneven_job());
}

static void an_uneven_neck_of_an_uneven_blank(void **state)
{
	(void)state;
	struct job job = uneven_job();

	job.blank.side[BLANK_MINUS] = job.blank.side[BLANK_PLUS] = job.blank.half_width;
	job.blank.half_width.count = 0;
	for (size_t i = 0; i < job.blank.side[BLANK_PLUS].count; i++)
		job.blank.side[BLANK_PLUS].value_mm[i] += 3.3;
	mirrored_jobs_leave_mirrored_wood(job);
}

/* The spindle does not turn the other way for it: climb stays climb. */
static void a_left_handed_neck_cut_by_climb(void **state)
{
	(void)state;
	struct job job = uneven_job(), left = mirrored(&job);
	struct proof_record record;

	for (int i = 0; i < STRETCH_COUNT; i++)
		left.cutting[i].way = CUT_CLIMB;
	carve(&record, &left);
	proof_record_free(&record);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(an_uneven_neck),
		cmocka_unit_test(an_uneven_neck_of_an_uneven_blank),
		cmocka_unit_test(a_left_handed_neck_cut_by_climb),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
