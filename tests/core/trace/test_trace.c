/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sections whose outline is known in closed form, and points with faults. */
#include "trace/trace.h"

#include <gsl/gsl_errno.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/units.h"
#include "model/measured.h"
#include "support/gauge.h"
#include "support/near.h"
#include "support/seed.h"

#define ROOM 700

struct cloud {
	size_t count;
	struct trace_point point[ROOM];
};

static void add(struct cloud *cloud, double y, double z)
{
	cloud->point[cloud->count] =
		(struct trace_point){ .y_mm = y, .z_mm = z, .line = (int)cloud->count + 2 };
	cloud->count++;
}

/* Points of half an ellipse, even in its own angle, and of its flat side. */
static void half_ellipse(struct cloud *cloud, double half_width, double height, size_t count,
			 size_t face)
{
	cloud->count = 0;
	for (size_t i = 0; i < count; i++) {
		double a = PI * (double)i / (double)(count - 1);
		add(cloud, half_width * cos(a), height * sin(a));
	}
	for (size_t i = 0; i < face; i++)
		add(cloud, half_width * (2.0 * ((double)i + 0.5) / (double)face - 1.0), 0.0);
}

/* Turns by degrees and moves all points; their order is reversed. */
static void lay_askew(struct cloud *cloud, double degrees, double y, double z)
{
	double c = cos(units_rad_from_deg(degrees)), s = sin(units_rad_from_deg(degrees));
	struct cloud was = *cloud;

	for (size_t i = 0; i < was.count; i++) {
		const struct trace_point *p = &was.point[was.count - 1 - i];
		cloud->point[i].y_mm = y + c * p->y_mm - s * p->z_mm;
		cloud->point[i].z_mm = z + s * p->y_mm + c * p->z_mm;
	}
}

static struct trace_section traced(struct cloud *cloud, struct trace_ask ask)
{
	struct trace_section section;
	struct fault_list faults = { 0 };

	if (trace_section_make(&section, cloud->point, cloud->count, &ask, &faults))
		fail_msg("%s", faults.record[0].message);
	return section;
}

static void assert_refused(struct cloud *cloud, const char *part)
{
	struct trace_section section;
	struct trace_ask ask = { 0 };
	struct fault_list faults = { 0 };

	assert_int_equal(trace_section_make(&section, cloud->point, cloud->count, &ask, &faults),
			 FAULT_GEOMETRY);
	assert_int_equal(faults.count, 1);
	if (!strstr(faults.record[0].message, part))
		fail_msg("%s", faults.record[0].message);
}

/* The share of a half ellipse is sqrt(1 - v^2). */
static void assert_ellipse(const struct section_outline *outline, double tolerance)
{
	struct measured measured;

	assert_int_equal(measured_make(&measured, outline, "s", NULL), FAULT_NONE);
	for (double v = 0.0; v < 0.99; v += 0.01)
		assert_near(measured_share(&measured, v), sqrt(1.0 - v * v), tolerance,
			    "share of an ellipse");
}

static const struct trace_note *note_of(const struct trace_section *section,
					enum trace_note_kind kind)
{
	for (size_t i = 0; i < section->note_count; i++)
		if (section->note[i].kind == kind)
			return &section->note[i];
	return NULL;
}

static void circles_and_ellipses_come_back(void **state)
{
	(void)state;
	static const struct {
		double half_width, height, degrees;
	} cases[] = { { 21.0, 21.0, 0.0 }, { 22.0, 17.0, 3.5 }, { 27.0, 15.0, -7.0 } };
	struct cloud cloud;

	for (size_t i = 0; i < 3; i++) {
		half_ellipse(&cloud, cases[i].half_width, cases[i].height, 90, 15);
		lay_askew(&cloud, cases[i].degrees, 13.0, -40.0);
		struct trace_section section = traced(&cloud, (struct trace_ask){ 0 });
		assert_int_equal(section.datum, DATUM_FACE);
		assert_near(section.width_mm, 2.0 * cases[i].half_width, 0.002, "width, mm");
		assert_near(section.thickness_mm, cases[i].height, 0.002, "thickness, mm");
		assert_near(section.frame.tilt_rad, units_rad_from_deg(cases[i].degrees), 1e-4,
			    "tilt, rad");
		assert_near(section.frame.y_mm, 13.0, 0.002, "middle, mm");
		assert_near(section.frame.z_mm, -40.0, 0.002, "gluing face, mm");
		assert_between(section.rms_mm, 0.0, 0.002, "residual, mm RMS");
		assert_between(section.difference_mm, 0.0, 0.005, "sides, mm");
		assert_ellipse(&section.outline[0], 0.001);
		assert_ellipse(&section.outline[1], 0.001);
		assert_int_equal(section.note_count, 0);
	}
}

static void the_outline_alone_stands_on_its_lowest_points(void **state)
{
	(void)state;
	struct cloud cloud;

	half_ellipse(&cloud, 22.0, 17.0, 90, 0);
	lay_askew(&cloud, 2.0, 5.0, 6.0);
	struct trace_section section = traced(&cloud, (struct trace_ask){ 0 });
	assert_int_equal(section.datum, DATUM_LOWEST);
	assert_near(section.thickness_mm, 17.0, 0.01, "thickness, mm");
	assert_near(section.frame.tilt_rad, units_rad_from_deg(2.0), 1e-4, "tilt, rad");
	/* points that end 2 mm above the edges: the thickness puts it right */
	size_t kept = 0;
	half_ellipse(&cloud, 22.0, 17.0, 120, 0);
	for (size_t i = 0; i < cloud.count; i++)
		if (cloud.point[i].z_mm > 2.0)
			cloud.point[kept++] = cloud.point[i];
	cloud.count = kept;
	section = traced(&cloud, (struct trace_ask){ .thickness_mm = 17.0 });
	assert_int_equal(section.datum, DATUM_THICKNESS);
	assert_near(section.width_mm, 44.0, 0.1, "width where the face is, mm");
	assert_ellipse(&section.outline[0], 0.005);
}

static void a_known_width_is_kept(void **state)
{
	(void)state;
	struct cloud cloud;

	half_ellipse(&cloud, 22.0, 17.0, 90, 15);
	struct trace_section section = traced(&cloud, (struct trace_ask){ .width_mm = 44.3 });
	assert_near(section.width_mm, 44.3, 1e-6, "width, mm");
	assert_null(note_of(&section, NOTE_WIDTH));
	section = traced(&cloud, (struct trace_ask){ .width_mm = 43.0 });
	assert_non_null(note_of(&section, NOTE_WIDTH));
	assert_near(note_of(&section, NOTE_WIDTH)->size_mm, 1.0, 0.15, "wider than told, mm");
}

/* Two ellipses that share the crest: a lean treble side, a full bass side. */
static void sides_are_kept_apart_or_made_one(void **state)
{
	(void)state;
	struct cloud cloud = { 0 };

	for (int i = 0; i <= 120; i++) {
		double a = PI * i / 120.0, n = a < PI / 2.0 ? 2.0 : 2.6;
		double r = pow(pow(fabs(cos(a)), n) + pow(fabs(sin(a)), n), -1.0 / n);
		add(&cloud, 22.0 * r * cos(a), 17.0 * r * sin(a));
	}
	struct trace_section section = traced(&cloud, (struct trace_ask){ 0 });
	assert_ellipse(&section.outline[SIDE_PLUS], 0.003);
	/* on the diagonal 2^-1/2 against 2^-1/2.6 of the half-diagonal */
	double apart = (pow(2.0, -1.0 / 2.6) - pow(2.0, -0.5)) * hypot(22.0, 17.0);
	assert_near(section.difference_mm, apart, 0.25, "sides, mm");
	section = traced(&cloud, (struct trace_ask){ .alike = true });
	assert_near(section.difference_mm, 0.0, 1e-9, "sides, mm");
	assert_memory_equal(&section.outline[0], &section.outline[1], sizeof section.outline[0]);
	assert_between(section.rms_mm, 0.2, 0.9, "what one shape for both costs, mm RMS");
}

static void mistakes_are_left_out_and_named(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("mistakes_are_left_out_and_named");
	struct cloud cloud;

	half_ellipse(&cloud, 22.0, 17.0, 90, 15);
	for (size_t i = 0; i < cloud.count; i++) {
		cloud.point[i].y_mm += seed_between(rng, -0.05, 0.05);
		cloud.point[i].z_mm += seed_between(rng, -0.05, 0.05);
	}
	add(&cloud, 150.0, 9.0); /* 15.0 */
	add(&cloud, cloud.point[30].y_mm, cloud.point[30].z_mm);
	add(&cloud, 0.0, 19.0); /* a splinter on the crest */
	struct trace_section section = traced(&cloud, (struct trace_ask){ 0 });
	assert_int_equal(note_of(&section, NOTE_FAR)->count, 1);
	assert_int_equal(note_of(&section, NOTE_FAR)->line, 107);
	assert_int_equal(note_of(&section, NOTE_DOUBLE)->count, 1);
	assert_int_equal(note_of(&section, NOTE_DOUBLE)->line, 108);
	assert_int_equal(note_of(&section, NOTE_ASIDE)->count, 1);
	assert_int_equal(note_of(&section, NOTE_ASIDE)->line, 109);
	assert_near(note_of(&section, NOTE_ASIDE)->size_mm, 2.0, 0.05, "off the outline, mm");
	assert_null(note_of(&section, NOTE_LAYERS));
	assert_near(section.thickness_mm, 17.0, 0.05, "the splinter does not count, mm");
	gsl_rng_free(rng);
}

static void gaps_are_named(void **state)
{
	(void)state;
	struct cloud all, cloud = { 0 };

	half_ellipse(&all, 22.0, 17.0, 100, 15);
	for (size_t i = 0; i < all.count; i++)
		if (!(all.point[i].y_mm > 8.0 && all.point[i].y_mm < 17.0 &&
		      all.point[i].z_mm > 1.0))
			cloud.point[cloud.count++] = all.point[i];
	struct trace_section section = traced(&cloud, (struct trace_ask){ 0 });
	const struct trace_note *gap = note_of(&section, NOTE_GAP);
	assert_non_null(gap);
	assert_near(gap->place.y_mm, 17.0, 1.0, "where the gap begins, mm");
	assert_near(gap->to.y_mm, 8.0, 1.0, "where it ends, mm");
	/* from (17, 10.8) to (8, 15.8) */
	assert_near(gap->size_mm, 10.3, 1.5, "its length, mm");
	/* one side's points fill the other's gap where both are one shape */
	section = traced(&cloud, (struct trace_ask){ .alike = true });
	assert_null(note_of(&section, NOTE_GAP));
}

/* A circle's upper two thirds: its widest place is above the edges. */
static void hooks_are_named(void **state)
{
	(void)state;
	struct cloud cloud = { 0 };

	for (int i = 0; i <= 100; i++) {
		double a = PI * (-0.12 + 1.24 * i / 100.0);
		add(&cloud, 22.0 * cos(a), 22.0 * sin(a));
	}
	struct trace_section section = traced(&cloud, (struct trace_ask){ 0 });
	const struct trace_note *hook = note_of(&section, NOTE_HOOK);
	assert_non_null(hook);
	/* 22 (1 - cos 0.12 pi) */
	assert_near(hook->size_mm, 1.54, 0.3, "leans out by, mm");
	/* 22 sin 0.12 pi above the edges */
	assert_near(hook->place.z_mm, 8.1, 2.5, "at, mm");
	for (int side = 0; side < 2; side++)
		for (size_t i = 1; i < section.outline[side].count; i++)
			assert_true(section.outline[side].breadth[i] <=
				    section.outline[side].breadth[i - 1]);
}

/* The gauge slipped by 1.5 mm half way through, and was set on again. */
static void a_second_outline_is_noticed(void **state)
{
	(void)state;
	struct cloud cloud;

	half_ellipse(&cloud, 22.0, 17.0, 120, 15);
	for (size_t i = 10; i < 28; i++) {
		double a = PI * (double)i / 119.0;
		add(&cloud, 20.5 * cos(a), 15.5 * sin(a));
	}
	struct trace_section section = traced(&cloud, (struct trace_ask){ 0 });
	const struct trace_note *layers = note_of(&section, NOTE_LAYERS);
	assert_non_null(layers);
	assert_in_range(layers->count, 14, 20);
}

static void a_crest_beside_the_centre_line_is_noticed(void **state)
{
	(void)state;
	struct cloud cloud = { 0 };

	for (int i = 0; i <= 120; i++) {
		double a = PI * i / 120.0;
		/* sheared by 3 mm at the top, on points of the face that tell how it lay */
		add(&cloud, 22.0 * cos(a) + 3.0 * sin(a), 17.0 * sin(a));
	}
	for (int i = 0; i < 40; i++)
		add(&cloud, -21.0 + 42.0 * i / 39.0, 0.0);
	struct trace_section section = traced(&cloud, (struct trace_ask){ 0 });
	const struct trace_note *crest = note_of(&section, NOTE_CREST);
	assert_non_null(crest);
	assert_near(crest->place.y_mm, 3.0, 1.0, "beside the centre line by, mm");
}

static void few_points(void **state)
{
	(void)state;
	struct cloud cloud;

	half_ellipse(&cloud, 22.0, 17.0, 15, 0);
	struct trace_section section = traced(&cloud, (struct trace_ask){ 0 });
	assert_non_null(note_of(&section, NOTE_FEW));
	assert_near(section.thickness_mm, 17.0, 0.1, "thickness, mm");
	half_ellipse(&cloud, 22.0, 17.0, 11, 0);
	assert_refused(&cloud, "There are 11 points of the outline");
	half_ellipse(&cloud, 22.0, 17.0, 60, 0);
	cloud.count = 28; /* the +y side alone */
	add(&cloud, -22.0, 0.0);
	assert_refused(&cloud, "turned by");
}

static void what_is_no_section_is_refused(void **state)
{
	(void)state;
	struct cloud cloud = { 0 };

	assert_refused(&cloud, "one line or in one place");
	for (int i = 0; i < 40; i++)
		add(&cloud, i, 2.0 * i);
	assert_refused(&cloud, "one line");
	half_ellipse(&cloud, 22.0, 17.0, 60, 10);
	lay_askew(&cloud, 180.0, 0.0, 0.0);
	assert_refused(&cloud, "upside down");
	half_ellipse(&cloud, 22.0, 17.0, 60, 10);
	lay_askew(&cloud, 40.0, 0.0, 0.0);
	assert_refused(&cloud, "turned by");
	half_ellipse(&cloud, 22.0 / 25.4, 17.0 / 25.4, 60, 10);
	assert_refused(&cloud, "another unit");
	half_ellipse(&cloud, 22.0 * 25.4, 17.0 * 25.4, 60, 10);
	assert_refused(&cloud, "another unit");
}

/* The order of the points in the file changes nothing but the last digits. */
static void order_is_no_matter(void **state)
{
	(void)state;
	static struct gauge_line line;
	static struct trace_point point[GAUGE_POINTS_MAX];
	gsl_rng *rng = seed_rng("order_is_no_matter");
	struct gauge_shape shape = { .side = { { .family = SECTION_U, .fullness = 2.6 },
					       { .family = SECTION_C } },
				     .width_mm = 44.0,
				     .height_mm = 16.0 };
	struct gauge_reading how = { .outline = 90, .face = 20, .scatter_mm = 0.1 };
	struct trace_ask ask = { 0 };
	struct trace_section one, other;

	gauge_draw(&line, &shape);
	size_t count = gauge_read(point, &line, &how, rng);
	assert_int_equal(trace_section_make(&one, point, count, &ask, NULL), FAULT_NONE);
	for (size_t i = 0; i < count / 2; i++) {
		struct trace_point kept = point[i];
		point[i] = point[count - 1 - i];
		point[count - 1 - i] = kept;
	}
	assert_int_equal(trace_section_make(&other, point, count, &ask, NULL), FAULT_NONE);
	assert_near(one.rms_mm, other.rms_mm, 1e-4, "residual, mm RMS");
	for (int side = 0; side < 2; side++)
		for (size_t i = 0; i < one.outline[side].count; i++)
			assert_near(one.outline[side].breadth[i], other.outline[side].breadth[i],
				    2e-4, "share");
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(circles_and_ellipses_come_back),
		cmocka_unit_test(the_outline_alone_stands_on_its_lowest_points),
		cmocka_unit_test(a_known_width_is_kept),
		cmocka_unit_test(sides_are_kept_apart_or_made_one),
		cmocka_unit_test(mistakes_are_left_out_and_named),
		cmocka_unit_test(gaps_are_named),
		cmocka_unit_test(hooks_are_named),
		cmocka_unit_test(a_second_outline_is_noticed),
		cmocka_unit_test(a_crest_beside_the_centre_line_is_noticed),
		cmocka_unit_test(few_points),
		cmocka_unit_test(what_is_no_section_is_refused),
		cmocka_unit_test(order_is_no_matter),
	};

	(void)gsl_set_error_handler_off();
	return cmocka_run_group_tests(tests, NULL, NULL);
}
