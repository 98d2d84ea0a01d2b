/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the page's scripts draw from, read again by the JSON library. */
#include "page/drawing.h"

#include <jansson.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "page/along.h"
#include "pictures/palette.h"
#include "support/near.h"
#include "support/sample_job.h"
#include "support/sampled.h"

static json_t *document_of(const struct sampled *s)
{
	char *text;
	json_error_t error;

	assert_int_equal(drawing_text(&text, &s->job, s->neck, &s->result, 0.02, NULL), FAULT_NONE);
	json_t *root = json_loads(text, JSON_REJECT_DUPLICATES, &error);
	assert_non_null(root);
	free(text);
	return root;
}

/* Member by a path such as "neck.from_mm"; fails when it is not there. */
static json_t *member(json_t *root, const char *path)
{
	char part[64];

	while (*path != '\0') {
		size_t size = strcspn(path, ".");
		assert_true(size < sizeof part);
		(void)snprintf(part, sizeof part, "%.*s", (int)size, path);
		root = json_object_get(root, part);
		if (!root)
			fail_msg("no member %s", part);
		path += size + (path[size] == '.');
	}
	return root;
}

static double number(json_t *root, const char *path)
{
	json_t *value = member(root, path);

	assert_true(json_is_number(value));
	return json_number_value(value);
}

static const char *text(json_t *root, const char *path)
{
	json_t *value = member(root, path);

	assert_true(json_is_string(value));
	return json_string_value(value);
}

static void the_grid_is_the_maps(void **state)
{
	struct sampled *s = *state;
	const struct column_map *grid = &s->result.blank_top;
	json_t *root = document_of(s);

	assert_int_equal((size_t)number(root, "planes.nx"), grid->nx);
	assert_int_equal((size_t)number(root, "planes.ny"), grid->ny);
	assert_near(number(root, "planes.x0_mm"), grid->x0_mm, 5e-5, "first column's x, mm");
	assert_near(number(root, "planes.y0_mm"), grid->y0_mm, 5e-5, "first column's y, mm");
	assert_near(number(root, "planes.cell_mm"), 4.0, 5e-5, "distance of columns, mm");
	assert_near(number(root, "planes.unit_mm"), 0.02, 1e-9, "unit, mm");
	assert_int_equal((int)number(root, "planes.pass_count"), 5);
	json_decref(root);
}

static void the_neck_is_described(void **state)
{
	struct sampled *s = *state;
	json_t *root = document_of(s);
	json_t *frets = member(root, "neck.fret_x_mm");

	assert_int_equal(json_array_size(frets), 21); /* nut and 20 frets */
	for (size_t fret = 0; fret < 21; fret++)
		assert_near(json_number_value(json_array_get(frets, fret)),
			    645.16 * (1.0 - pow(2.0, -(double)fret / 12.0)), 5.1e-5,
			    "place of a fret by equal temperament, mm");
	assert_near(number(root, "neck.from_mm"), neck_from_mm(s->neck), 5.1e-5, "end, mm");
	assert_near(number(root, "neck.to_mm"), neck_to_mm(s->neck), 5.1e-5, "end, mm");
	assert_near(number(root, "neck.fretboard_thickness_mm"), 6.0, 5.1e-5, "fretboard, mm");
	assert_near(number(root, "neck.heel_start_mm"), neck_heel_start_mm(s->neck), 5.1e-5,
		    "heel's start, mm");
	assert_near(number(root, "neck.heel_proper_mm"), neck_heel_proper_mm(s->neck), 5.1e-5,
		    "heel proper, mm");
	assert_near(number(root, "neck.straight_from_mm"), 0.0, 5.1e-5, "straight from the nut");
	assert_true(number(root, "neck.straight_to_mm") > 200.0);
	assert_string_equal(text(root, "neck.hand"), "right");
	assert_string_equal(text(root, "neck.minus_side"), "treble");
	assert_string_equal(text(root, "neck.plus_side"), "bass");
	json_decref(root);
}

static void a_left_handed_neck_has_its_sides_swapped(void **state)
{
	struct sampled *s = *state, left = *s;

	left.job.neck.hand = HAND_LEFT;
	left.neck = sample_neck_built(&left.job.neck);
	json_t *root = document_of(&left);
	assert_string_equal(text(root, "neck.hand"), "left");
	assert_string_equal(text(root, "neck.minus_side"), "bass");
	assert_string_equal(text(root, "neck.plus_side"), "treble");
	json_decref(root);
	neck_free(left.neck);
}

static void lines_share_their_places(void **state)
{
	struct sampled *s = *state;
	json_t *root = document_of(s), *along = member(root, "along");
	size_t count = json_array_size(member(along, "x_mm"));
	size_t nothing = 0;

	assert_int_equal(json_object_size(along), ALONG_LINES);
	assert_true(count > 200);
	for (int line = 0; line < ALONG_LINES; line++) {
		json_t *values = member(along, along_key((enum along_line)line));
		assert_int_equal(json_array_size(values), count);
		for (size_t i = 0; i < count; i++) {
			json_t *value = json_array_get(values, i);
			assert_true(json_is_number(value) || json_is_null(value));
			nothing += json_is_null(value);
		}
	}
	assert_true(nothing > 0); /* no channel before it begins, for one */
	json_decref(root);
}

static void stations_and_zones_have_names(void **state)
{
	struct sampled *s = *state;
	json_t *root = document_of(s);
	json_t *stations = member(root, "stations"), *zones = member(root, "zones");

	assert_int_equal(json_array_size(stations), s->result.station_count);
	json_t *fifth = json_array_get(stations, 2);
	assert_string_equal(text(fifth, "name"), "fret 5");
	assert_near(number(fifth, "fret"), 5.0, 1e-9, "fret");
	assert_near(number(fifth, "x_mm"), s->result.station[2].x_mm, 5.1e-5, "place, mm");
	assert_int_equal(json_array_size(zones), ZONE_COUNT);
	json_t *cheeks = json_array_get(zones, ZONE_HEEL_CHEEKS);
	assert_string_equal(text(cheeks, "key"), "heel_cheeks");
	assert_string_equal(text(cheeks, "name"), "heel cheeks");
	assert_near(number(cheeks, "allowance_mm"), 0.6, 1e-9, "of the sample job, mm");
	assert_near(number(root, "allowance.side_height_mm"), 4.0, 1e-9, "of the sample job, mm");
	json_decref(root);
}

/* The rule that drawing.h gives for a zone is the neck's own. */
static void zones_follow_from_the_place(void **state)
{
	struct sampled *s = *state;
	double low = s->job.neck.allowance.side_height_mm;
	double start = neck_heel_start_mm(s->neck), proper = neck_heel_proper_mm(s->neck);

	for (double x = neck_from_mm(s->neck) + 0.3; x < neck_to_mm(s->neck); x += 0.7)
		for (double v = 0.01; v < 1.0; v += 0.07) {
			double base = neck_base_mm(s->neck, x), crest = neck_crest_mm(s->neck, x);
			double z = base + v * (crest - base);
			enum stock_zone zone = x < 0.0	     ? ZONE_TRANSITIONS
					       : x >= proper ? ZONE_HEEL_CHEEKS
					       : z < low     ? ZONE_SIDES
					       : x > start   ? ZONE_TRANSITIONS
							     : ZONE_BACK;
			assert_int_equal(zone, neck_zone(s->neck, x, v));
		}
}

static void what_holds_the_neck_is_there(void **state)
{
	struct sampled *s = *state;
	struct fixture plain = s->job.fixture, *fixture = &s->job.fixture;
	json_t *root = document_of(s);

	assert_true(json_is_null(member(root, "fixture.riser")));
	assert_int_equal(json_array_size(member(root, "fixture.keep_out")), 0);
	json_decref(root);
	*fixture = (struct fixture){
		.riser_height_mm = 14.0,
		.riser_width_mm = 37.0,
		.riser_from_mm = 2.0,
		.riser_to_mm = 355.0,
		.keep_out_count = 1,
		.keep_out = { { "<clamp> \xff", -190.0, -120.0, -60.0, 61.0, 95.0, PLACE_BOX } },
		.hold_count = 1,
		.hold = { { "tape", 4.0, 353.0, -17.0, 17.0, 0.0, PLACE_BOX } }
	};
	root = document_of(s);
	assert_near(number(root, "fixture.riser.height_mm"), 14.0, 1e-9, "riser, mm");
	assert_near(number(root, "fixture.riser.to_mm"), 355.0, 1e-9, "riser, mm");
	json_t *clamp = json_array_get(member(root, "fixture.keep_out"), 0);
	assert_string_equal(text(clamp, "name"), "<clamp> ?"); /* valid whatever was written */
	assert_near(number(clamp, "y_to_mm"), 61.0, 1e-9, "clamp, mm");
	assert_near(number(clamp, "top_mm"), 95.0, 1e-9, "clamp, mm");
	assert_string_equal(text(clamp, "shape"), "box");
	json_t *tape = json_array_get(member(root, "fixture.hold"), 0);
	assert_near(number(tape, "x_to_mm"), 353.0, 1e-9, "tape, mm");
	json_decref(root);
	fixture->keep_out[0].shape = PLACE_CYLINDER;
	root = document_of(s);
	clamp = json_array_get(member(root, "fixture.keep_out"), 0);
	assert_string_equal(text(clamp, "shape"), "cylinder");
	json_decref(root);
	*fixture = plain;
}

static void colours_are_the_palettes(void **state)
{
	struct sampled *s = *state;
	json_t *root = document_of(s), *ramp = member(root, "ramp");
	unsigned r, g, b;

	assert_int_equal(json_object_size(member(root, "colours")), PALETTE_COUNT);
	assert_string_equal(text(root, "colours.paper"), "#f7f0e2"); /* docs/look.md */
	assert_string_equal(text(root, "colours.ink"), "#2a201a");
	assert_string_equal(text(root, "colours.brown"), "#7c5032");
	assert_int_equal(json_array_size(ramp), PALETTE_STEPS);
	for (int i = 0; i < PALETTE_STEPS; i++) {
		const char *colour = json_string_value(json_array_get(ramp, (size_t)i));
		assert_int_equal(sscanf(colour, "#%2x%2x%2x", &r, &g, &b), 3);
		assert_int_equal(r, palette_step_colour(i).r);
		assert_int_equal(g, palette_step_colour(i).g);
		assert_int_equal(b, palette_step_colour(i).b);
	}
	json_decref(root);
}

static void the_channel_may_be_missing(void **state)
{
	struct sampled *s = *state, plain = *s;
	json_t *root = document_of(s);

	assert_near(number(root, "channel.width_mm"), 6.0, 1e-9, "channel, mm");
	assert_near(number(root, "channel.depth_mm"), 10.0, 1e-9, "channel, mm");
	assert_near(number(root, "channel.to_mm"), 340.0, 1e-9, "channel, mm");
	json_decref(root);
	plain.job.neck.channel = (struct channel_spec){ 0 };
	plain.neck = sample_neck_built(&plain.job.neck);
	root = document_of(&plain);
	assert_true(json_is_null(member(root, "channel")));
	json_decref(root);
	neck_free(plain.neck);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_grid_is_the_maps),
		cmocka_unit_test(the_neck_is_described),
		cmocka_unit_test(a_left_handed_neck_has_its_sides_swapped),
		cmocka_unit_test(lines_share_their_places),
		cmocka_unit_test(stations_and_zones_have_names),
		cmocka_unit_test(zones_follow_from_the_place),
		cmocka_unit_test(what_holds_the_neck_is_there),
		cmocka_unit_test(colours_are_the_palettes),
		cmocka_unit_test(the_channel_may_be_missing),
	};

	return cmocka_run_group_tests(tests, sampled_setup, sampled_teardown);
}
