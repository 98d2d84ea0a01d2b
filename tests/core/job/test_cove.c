/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Coves at the edges of a short neck on a low riser, on none, and on one that
 * is high enough. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "base/tol.h"
#include "job/beside.h"
#include "support/near.h"
#include "support/planned.h"

/* Both stations lie on the shaft. */
struct coved {
	struct planned planned;
	struct station_figures station[2];
	struct job_result result;
};

static void make(struct coved *coved, double riser_mm)
{
	struct job job = sample_short_job();

	*coved = (struct coved){ 0 };
	job.fixture.riser_height_mm = riser_mm;
	job.carve.cell_mm = 0.2;
	job.neck.allowance.back_mm = 0.6; /* as the sides: one stock all around */
	planned_make(&coved->planned, &job);
	coved->station[0].x_mm = 10.0;
	coved->station[1].x_mm = 25.0;
	coved->result.station = coved->station;
	coved->result.station_count = 2;
	assert_int_equal(beside_measure(&coved->result, &job, coved->planned.model.neck,
					&coved->planned.model.facets, &coved->planned.plan[0].left,
					NULL),
			 FAULT_NONE);
}

/* A circle of 4 mm whose middle is at height `middle`, pushed against the
 * section from the side until it keeps the stock of 0.6 mm: where it stands, and how
 * high it touches. The neck is all but a prism here. */
struct pushed {
	double y_mm, touch_mm;
};

static struct pushed push(const struct neck *neck, double x, double middle)
{
	struct pushed pushed = { -INFINITY, 0.0 };

	for (double v = 0.0; v <= 0.6; v += 0.0005) {
		double z = v * neck_crest_mm(neck, x);
		double off = 4.6 * 4.6 - (z - middle) * (z - middle);
		double y = neck_half_breadth_mm(neck, SIDE_PLUS, x, v) + sqrt(fmax(off, 0.0));
		if (off <= 0.0 || y <= pushed.y_mm)
			continue;
		pushed.y_mm = y;
		pushed.touch_mm = middle + 4.0 * (z - middle) / 4.6;
	}
	return pushed;
}

/* On a riser of 3 mm with 1 mm of clearance the ball's middle comes down to
 * 2 mm over the gluing face. */
static void a_low_riser_leaves_a_cove(void **state)
{
	(void)state;
	struct coved coved;
	double middle = 2.0;

	make(&coved, 3.0);
	assert_near(job_cove_mm(&coved.planned.job), middle, 1e-9, "middle, mm");
	for (size_t i = 0; i < 2; i++) {
		double x = coved.station[i].x_mm;
		struct pushed ball = push(coved.planned.model.neck, x, middle);
		double edge =
			neck_half_breadth_mm(coved.planned.model.neck, SIDE_PLUS, x, 0.0) + 0.6;
		/* the circle is a tenth of a millimetre high there */
		double out = ball.y_mm - sqrt(16.0 - 1.9 * 1.9) - edge;
		/* and so high a column and a half outside the edge */
		double beside = middle - sqrt(16.0 - pow(ball.y_mm - edge - 0.3, 2.0));
		for (int side = 0; side < 2; side++) {
			const struct cove_figures *cove = &coved.station[i].cove[side];
			assert_between(cove->height_mm, beside, ball.touch_mm + 0.1, "height, mm");
			assert_near(cove->width_mm, out, 0.3, "width, mm");
		}
	}
	const struct beside_figures *beside = &coved.result.beside;
	assert_between(beside->cove.height_mm, coved.station[0].cove[0].height_mm, middle,
		       "tallest, mm");
	assert_near(beside->skin_mm, 0.0, 0.0, "skin, mm");
	/* at most a triangle as high and as wide, along 86 mm of both edges and
	 * some of the peghead */
	assert_between(beside->cove_mm3, 5.0, 0.5 * 2.0 * 1.0 * 2.0 * 100.0, "volume, mm3");
	planned_free(&coved.planned);
}

static void the_bed_itself_leaves_a_skin(void **state)
{
	(void)state;
	struct coved coved;

	make(&coved, 0.0);
	assert_near(coved.result.beside.skin_mm, 1.0, 1e-9, "skin, mm");
	for (int side = 0; side < 2; side++)
		assert_between(coved.station[1].cove[side].height_mm, 2.0, 5.0, "height, mm");
	/* as far as the ball is wide it thins down to the skin */
	assert_between(coved.station[1].cove[0].width_mm, 2.0, 4.0, "width, mm");
	planned_free(&coved.planned);
}

static void a_high_riser_leaves_none(void **state)
{
	(void)state;
	struct coved coved;

	make(&coved, 5.0);
	assert_near(coved.result.beside.cove.height_mm, 0.0, 0.0, "height, mm");
	assert_near(coved.result.beside.cove_mm3, 0.0, 0.0, "volume, mm3");
	assert_near(coved.station[0].cove[0].height_mm, 0.0, 0.0, "height, mm");
	planned_free(&coved.planned);
}

/* A tab is no cove, and is measured as it stands. */
static void tabs_are_measured(void **state)
{
	(void)state;
	struct job job = sample_short_job();
	struct sample_model model;
	struct job_result result = { 0 };
	struct stock stock;
	struct tab tab = { .x_mm = 30.0,
			   .width_mm = 6.0,
			   .side = -1.0,
			   .inner_mm = 14.0,
			   .outer_mm = 19.0,
			   .height_mm = 2.0 };

	job.tabs = (struct tabs){ 1, { tab } };
	sample_model_make(&model, &job.neck);
	assert_int_equal(stock_build(&stock, &job.blank, 0.2, NULL), FAULT_NONE);
	for (size_t i = 0; i < stock.nx * stock.ny; i++) {
		double x = stock_x(&stock, i % stock.nx);
		/* thinned to 1.7 mm at one end, narrowed by 1 mm at the other */
		stock.top[i] = x < 27.5 ? 0.0F : (x < 28.0 ? 1.7F : 2.0F);
	}
	assert_int_equal(beside_measure(&result, &job, model.neck, &model.facets, &stock, NULL),
			 FAULT_NONE);
	assert_int_equal(result.beside.tab_count, 1);
	assert_near(result.beside.tab[0].least_height_mm, 0.0, 1e-6, "thinnest, mm");
	assert_near(result.beside.tab[0].least_width_mm, 5.0, 0.41, "narrowest, mm");
	stock_free(&stock);
	sample_model_free(&model);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_low_riser_leaves_a_cove),
		cmocka_unit_test(the_bed_itself_leaves_a_skin),
		cmocka_unit_test(a_high_riser_leaves_none),
		cmocka_unit_test(tabs_are_measured),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
