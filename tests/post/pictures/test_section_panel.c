/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sections: what they are made of, and their parts found again as pixels. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

#include "pictures/panels.h"
#include "pictures/pen.h"
#include "post/pictures/sheet_pixels.h"
#include "support/near.h"
#include "support/sample_result.h"

struct sample {
	struct job job;
	struct neck *neck;
	struct job_result result;
	struct section_panel *panel; /* at nut, 1, 5, 9, 11 and 13.5 */
	size_t count;
};

static int make(void **state)
{
	struct sample *s = calloc(1, sizeof *s);

	assert_non_null(s);
	sample_job(&s->job);
	assert_int_equal(neck_build(&s->neck, &s->job.neck, NULL), FAULT_NONE);
	sample_result(&s->result, s->neck, &s->job, 0.5, 3);
	assert_int_equal(panels_build(&s->panel, &s->count, &s->result, s->neck, &s->job, NULL),
			 FAULT_NONE);
	*state = s;
	return 0;
}

static int drop(void **state)
{
	struct sample *s = *state;

	panels_free(s->panel, s->count);
	panels_free(NULL, 0);
	sample_result_free(&s->result);
	neck_free(s->neck);
	free(s);
	return 0;
}

static double top_of(const struct section_line *line)
{
	double top = -INFINITY;

	for (size_t i = 0; i < line->count; i++)
		top = fmax(top, line->point[i].z_mm);
	return top;
}

static void panels_hold_the_jobs_figures(void **state)
{
	struct sample *s = *state;
	const struct section_panel *nut = &s->panel[0], *fifth = &s->panel[2];

	assert_int_equal(s->count, 6);
	assert_near(nut->channel_width_mm, 0.0, 0.0, "the channel begins behind the nut, mm");
	assert_near(fifth->channel_width_mm, 6.0, 0.0, "channel, mm");
	assert_near(fifth->channel_depth_mm, 10.0, 0.0, "channel, mm");
	assert_near(fifth->over_channel_mm, neck_wood_over_channel_mm(s->neck, fifth->x_mm), 1e-9,
		    "wood over the channel, mm");
	assert_near(top_of(&fifth->grown), neck_crest_mm(s->neck, fifth->x_mm) + 1.0, 0.02,
		    "allowance of 1 mm on the back, mm");
	assert_between(fifth->least_stock_mm, 0.4 - 1e-6, 0.45,
		       "least stock: 0.4 on the sides and part of a furrow, mm");
	assert_near(fifth->width_mm, s->result.station[2].width_mm, 0.0, "width, mm");
}

/* 90 mm of blank do not make the neck small. */
static void a_tall_blank_is_broken_off(void **state)
{
	struct sample *s = *state;
	const struct section_panel *fifth = &s->panel[2], *heel = &s->panel[4];

	assert_near(fifth->blank_top_mm, 26.0, 1e-9, "blank over the shaft, mm");
	assert_true(section_panel_high_mm(fifth) > 26.0);
	assert_near(heel->blank_top_mm, 90.0, 1e-9, "blank at the heel, mm");
	assert_between(section_panel_high_mm(heel), neck_crest_mm(s->neck, heel->x_mm) + 5.0, 50.0,
		       "shown of it, mm");
	assert_true(section_panel_low_mm(fifth) <= -6.0);
}

static struct section_frame frame_at(double scale)
{
	return (struct section_frame){ 40.0, 110.0, 40.0, scale, "treble", "bass" };
}

static uint32_t pixel_at(const struct canvas *canvas, const struct section_frame *f,
			 const struct section_panel *p, double y, double z)
{
	return sheet_pixel_at(canvas, f->left + (y + f->half_width_mm) * f->scale,
			      f->bottom - (z - section_panel_low_mm(p)) * f->scale);
}

static uint32_t named(enum palette_name name)
{
	return palette_pixel(palette_colour(name));
}

static void parts_lie_where_they_belong(void **state)
{
	struct sample *s = *state;
	const struct section_panel *p = &s->panel[2];
	struct section_frame f = frame_at(2.0);
	struct canvas canvas;
	double crest = neck_crest_mm(s->neck, p->x_mm);

	assert_int_equal(canvas_open(&canvas, CANVAS_PNG, 140.0, NULL), FAULT_NONE);
	section_panel_draw(&canvas, &f, p);
	/* the channel is hollow to its floor and no wider than it is */
	assert_int_equal(pixel_at(&canvas, &f, p, 1.3, 5.0), named(PALETTE_PAPER));
	assert_int_equal(pixel_at(&canvas, &f, p, -2.6, 9.6), named(PALETTE_PAPER));
	assert_int_equal(pixel_at(&canvas, &f, p, -3.4, 9.6), named(PALETTE_WOOD));
	assert_int_equal(pixel_at(&canvas, &f, p, -2.6, 10.4), named(PALETTE_WOOD));
	/* finished wood, wood for the hand, and nothing; dashes are drawn on what
	 * stands 1 mm above */
	assert_int_equal(pixel_at(&canvas, &f, p, -1.6, crest - 0.6), named(PALETTE_WOOD));
	assert_int_equal(pixel_at(&canvas, &f, p, -1.6, crest + 0.5), named(PALETTE_LIGHT_WOOD));
	assert_int_equal(pixel_at(&canvas, &f, p, -1.5, ceil(crest) + 2.5), named(PALETTE_PAPER));
	assert_true(sheet_grey(pixel_at(&canvas, &f, p, -1.6, crest)) <
		    sheet_grey(named(PALETTE_BROWN)));
	canvas_close(&canvas);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(panels_hold_the_jobs_figures),
		cmocka_unit_test(a_tall_blank_is_broken_off),
		cmocka_unit_test(parts_lie_where_they_belong),
	};

	return cmocka_run_group_tests(tests, make, drop);
}
