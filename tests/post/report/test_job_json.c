/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/job_json.h"

#include <jansson.h>
#include <locale.h>
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

#include "support/near.h"
#include "support/sample_beside.h"
#include "support/sample_result.h"
#include "support/sampled.h"
#include "support/scratch.h"

#define KEY_ROOM 256

static int set_up(void **state)
{
	struct sampled *sampled = sampled_make(4.0, 5);

	sampled->result.verdict = (struct verdict){ 0 }; /* nothing judged yet */
	sample_result_chisel(&sampled->result, &sampled->job);
	*state = sampled;
	return 0;
}

static char *text_of(const struct sampled *sample)
{
	char *text;

	assert_int_equal(job_json_text(&text, &sample->job, sample->neck, &sample->result, NULL),
			 FAULT_NONE);
	return text;
}

static json_t *document_of(const struct sampled *sample)
{
	char *text = text_of(sample);
	json_t *root = json_loads(text, JSON_REJECT_DUPLICATES, NULL);

	assert_non_null(root);
	free(text);
	return root;
}

/* Follows a path of keys, "12" being an index where a list stands. */
static const json_t *at(const json_t *value, const char *path)
{
	char key[KEY_ROOM];

	while (*path != '\0') {
		size_t length = strcspn(path, ".");
		(void)snprintf(key, sizeof key, "%.*s", (int)length, path);
		value = json_is_array(value) ? json_array_get(value, strtoul(key, NULL, 10))
					     : json_object_get(value, key);
		if (!value)
			fail_msg("no \"%s\"", key);
		path += length + (path[length] == '.');
	}
	return value;
}

static double number_at(const json_t *root, const char *path)
{
	const json_t *value = at(root, path);

	assert_true(json_is_number(value));
	return json_number_value(value);
}

static const char *text_at(const json_t *root, const char *path)
{
	assert_true(json_is_string(at(root, path)));
	return json_string_value(at(root, path));
}

static void figures_stand_under_their_keys(void **state)
{
	struct sampled *sample = *state;
	struct pass_figures *pass = &sample->result.program[0].pass[1];

	*pass = (struct pass_figures){ PASS_CONTOUR,
				       18.25,
				       3.123456,
				       12345.678,
				       4321.5,
				       17.125,
				       2.34567,
				       2400.04,
				       FEED_BY_POWER,
				       { .stepover_mm = 1.85432,
					 .step_cap = STEP_BY_SCALLOP,
					 .scallop_limit_mm = 0.05,
					 .lengthwise = true,
					 .ways = 1U << CUT_CLIMB } };
	sample->result.program[1].least = vec3_make(-5.0, -30.0, -60.0);
	sample->result.program[1].most = vec3_make(370.0, 31.0, 15.0);
	sample->result.program[0].least = vec3_make(-7.0, -29.0, -61.0);
	sample->result.program[0].most = vec3_make(371.0, 30.0, 14.0);
	sample->result.program[0].air_share = 0.0312345678;
	sample->result.program[0].blocks = 4711;
	json_t *root = document_of(sample);
	assert_int_equal((int)number_at(root, "schema"), JOB_JSON_SCHEMA);
	assert_string_equal(text_at(root, "generator"), "neckhew");
	assert_string_equal(text_at(root, "inputs.neck"), "Steel string, 14 frets clear");
	assert_string_equal(text_at(root, "inputs.digest"), sample->job.digest);
	assert_int_equal((int)number_at(root, "programs.0.passes.1.number"), 2);
	assert_string_equal(text_at(root, "programs.0.passes.1.kind"),
			    pass_kind_name(PASS_CONTOUR));
	assert_near(number_at(root, "programs.0.passes.1.deepest_bite_mm"), 3.1235, 1e-12, "mm");
	assert_near(number_at(root, "programs.0.passes.1.stepover_mm"), 1.8543, 1e-12, "mm");
	assert_string_equal(text_at(root, "programs.0.passes.1.lines"), "lengthwise");
	assert_string_equal(text_at(root, "programs.0.passes.1.why"),
			    "Contour lines on sides steeper than 45 degrees, climb; 1.85 mm apart "
			    "keep ridges under 0.05 mm.");
	assert_true(json_is_null(at(root, "programs.0.passes.0.why")));
	assert_near(number_at(root, "programs.0.passes.1.volume_mm3"), 12345.7, 1e-9, "mm3");
	assert_near(number_at(root, "programs.0.passes.1.length_mm"), 4321.5, 1e-12, "mm");
	assert_near(number_at(root, "programs.0.passes.1.idle_mm"), 17.125, 1e-12, "mm");
	assert_near(number_at(root, "programs.0.passes.1.minutes"), 2.346, 1e-12, "min");
	assert_near(number_at(root, "programs.0.passes.1.feed_mm_per_min"), 2400.0, 1e-12,
		    "mm/min");
	assert_string_equal(text_at(root, "programs.0.passes.1.feed_cap"), "spindle power");
	assert_near(number_at(root, "programs.0.air_share"), 0.03123, 1e-12, "share");
	assert_int_equal((int)number_at(root, "programs.0.blocks"), 4711);
	assert_near(number_at(root, "bounds.least_mm.0"), -7.0, 0.0, "mm");
	assert_near(number_at(root, "bounds.least_mm.1"), -30.0, 0.0, "mm");
	assert_near(number_at(root, "bounds.most_mm.1"), 31.0, 0.0, "mm");
	assert_near(number_at(root, "bounds.most_mm.2"), 15.0, 0.0, "mm");
	json_decref(root);
}

static void stations_are_told_in_both_units(void **state)
{
	struct sampled *sample = *state;

	sample->result.station[0].roughed_mm = 22.0;
	sample->result.station[0].finished_mm = 21.0;
	sample->result.station[0].width_mm = 43.0;
	json_t *root = document_of(sample);
	assert_string_equal(text_at(root, "stations.0.name"), "nut");
	assert_string_equal(text_at(root, "stations.4.name"), "11");
	assert_string_equal(text_at(root, "stations.5.name"), "13.5");
	/* 1 in = 25.4 mm exactly (international yard and pound agreement, 1959):
	 * 22 mm = 0.866142 in, 21 mm = 0.826772 in, 43 mm = 1.692913 in */
	assert_near(number_at(root, "stations.0.roughed_in"), 0.86614, 1e-12, "in");
	assert_near(number_at(root, "stations.0.finished_in"), 0.82677, 1e-12, "in");
	assert_near(number_at(root, "stations.0.width_in"), 1.69291, 1e-12, "in");
	assert_near(number_at(root, "stations.0.to_carve_mm"), 1.0, 1e-12, "mm");
	assert_near(number_at(root, "stations.0.to_carve_in"), 0.03937, 1e-12, "in");
	/* equal temperament, fret 11 of 645.16 mm: 303.398395 mm */
	assert_near(number_at(root, "stations.4.x_mm"), 303.3984, 1e-12, "mm");
	/* the channel ends at 340 mm, before fret 13.5 */
	assert_true(json_is_null(at(root, "stations.5.wood_over_channel_mm")));
	assert_true(json_is_null(at(root, "stations.5.wood_over_channel_in")));
	json_decref(root);
}

static void the_centre_column_is_told_pass_by_pass(void **state)
{
	struct sampled *sample = *state;
	struct column_reading *centre = &sample->result.station[4].centre;

	assert_true(centre->pass_count >= 3);
	centre->x_mm = 303.5;
	centre->standing_mm[0] = 41.25;
	centre->standing_mm[1] = 36.12345;
	centre->blank_mm = NAN;
	json_t *root = document_of(sample);
	assert_near(number_at(root, "stations.4.centre_column.x_mm"), 303.5, 1e-12, "mm");
	assert_near(number_at(root, "stations.4.centre_column.standing_mm.0"), 41.25, 1e-12, "mm");
	assert_near(number_at(root, "stations.4.centre_column.standing_mm.1"), 36.1235, 1e-12,
		    "mm");
	assert_int_equal(json_array_size(at(root, "stations.4.centre_column.standing_mm")),
			 centre->pass_count);
	assert_true(json_is_null(at(root, "stations.4.centre_column.blank_mm")));
	assert_near(number_at(root, "stations.4.centre_column.finished_mm"), centre->finished_mm,
		    5e-5, "mm");
	json_decref(root);
}

static void what_stands_beside_the_neck_is_told(void **state)
{
	struct sampled *sample = *state;
	json_t *root = document_of(sample);

	assert_string_equal(text_at(root, "beside.waste"), "cleared");
	assert_true(json_is_null(at(root, "beside.rails")));
	assert_true(json_is_null(at(root, "beside.cove")));
	assert_int_equal(json_array_size(at(root, "beside.tabs")), 0);
	json_decref(root);
	sample_beside(&sample->result);
	root = document_of(sample);
	assert_string_equal(text_at(root, "beside.waste"), "rails");
	assert_near(number_at(root, "beside.rails.channel_mm"), 16.5, 1e-9, "channel, mm");
	assert_near(number_at(root, "beside.rails.minus_from_mm"), -31.5, 1e-9, "rail, mm");
	assert_near(number_at(root, "beside.rails.plus_to_mm"), 356.5, 1e-9, "rail, mm");
	assert_near(number_at(root, "beside.tabs.0.y_from_mm"), -44.0, 1e-9, "tab, mm");
	assert_near(number_at(root, "beside.tabs.0.y_to_mm"), -24.5, 1e-9, "tab, mm");
	assert_near(number_at(root, "beside.tabs.1.y_to_mm"), 44.0, 1e-9, "tab, mm");
	assert_string_equal(text_at(root, "beside.tabs.1.side"), "bass side");
	assert_near(number_at(root, "beside.tabs.1.least_height_mm"), 3.12, 1e-9, "tab, mm");
	assert_near(number_at(root, "beside.cove.height_mm"), 5.87, 1e-9, "cove, mm");
	assert_string_equal(text_at(root, "beside.cove.side"), "bass side");
	assert_near(number_at(root, "stations.0.plus_cove.height_mm"), 3.5, 1e-9, "cove, mm");
	json_decref(root);
}

static void stock_and_promises_stand_under_their_keys(void **state)
{
	struct sampled *sample = *state;
	struct promise_result *rapid = &sample->result.verdict.promise[PROMISE_RAPID];

	sample->result.zone[ZONE_SIDES] = (struct zone_figures){ 0.4, 0.39, 0.61, 0.45, 8123.46 };
	*rapid = (struct promise_result){ .judged = true,
					  .worst = -1.25,
					  .limit = 0.2,
					  .program = 1,
					  .block = 815,
					  .why = "The rapid cuts wood." };
	sample->result.verdict.promise[PROMISE_BITE].program = 7; /* of no use without a block */
	json_t *root = document_of(sample);
	assert_near(number_at(root, "hand_finish_stock.sides.allowance_mm"), 0.4, 0.0, "mm");
	assert_near(number_at(root, "hand_finish_stock.sides.least_mm"), 0.39, 0.0, "mm");
	assert_near(number_at(root, "hand_finish_stock.sides.area_mm2"), 8123.5, 1e-9, "mm2");
	assert_near(number_at(root, "left_for_the_chisel_mm3"),
		    number_at(root, "left_for_the_chisel.over_allowance_mm3"), 0.0, "mm3");
	assert_string_equal(text_at(root, "meshes.roughed"), "roughed.stl");
	assert_true(json_is_false(at(root, "proof.proven")));
	const struct promise_text *text = promise_text(PROMISE_RAPID);
	const json_t *entry = json_object_get(at(root, "proof.promises"), text->key);
	assert_non_null(entry);
	assert_true(json_is_false(at(entry, "kept")));
	assert_true(json_is_true(at(entry, "judged")));
	assert_near(number_at(entry, "worst"), -1.25, 0.0, "mm");
	assert_int_equal((int)number_at(entry, "block"), 815);
	assert_string_equal(text_at(entry, "program"), "2-small-ball.ngc");
	assert_string_equal(text_at(entry, "why"), "The rapid cuts wood.");
	assert_string_equal(text_at(entry, "sentence"), text->sentence);
	entry = json_object_get(at(root, "proof.promises"), promise_text(PROMISE_BITE)->key);
	assert_true(json_is_null(at(entry, "program")));
	assert_true(json_is_null(at(entry, "block")));
	assert_int_equal(json_object_size(at(root, "proof.promises")), PROMISE_COUNT);
	json_decref(root);
}

static void zero_is_told_in_words(void **state)
{
	struct sampled *sample = *state;

	sample->job.fixture.work_zero_mm = vec3_make(0.0, 0.0, 90.0);
	json_t *root = document_of(sample);
	assert_string_equal(
		text_at(root, "frame.work_zero"),
		"Program zero is at the nut's front edge, on the centre line, level with "
		"the blank's highest wood.");
	assert_non_null(strstr(text_at(root, "frame.y"), "bass side"));
	json_decref(root);
	sample->job.neck.hand = HAND_LEFT;
	sample->job.fixture.work_zero_mm = vec3_make(-12.5, 20.0, 26.0);
	root = document_of(sample);
	assert_string_equal(text_at(root, "frame.work_zero"),
			    "Program zero is 12.5 mm from the nut's front edge toward the peghead, "
			    "20 mm from the centre line on the treble side, 26 mm above the "
			    "gluing face.");
	assert_near(number_at(root, "frame.work_zero_mm.0"), -12.5, 0.0, "mm");
	assert_non_null(strstr(text_at(root, "frame.y"), "treble side"));
	json_decref(root);
	sample->job.fixture.riser_height_mm = 25.0;
	sample->job.fixture.work_zero_mm = vec3_make(5.0, -1.0, -25.0);
	root = document_of(sample);
	assert_string_equal(text_at(root, "frame.work_zero"),
			    "Program zero is 5 mm from the nut's front edge toward the body, "
			    "1 mm from the centre line on the bass side, on the machine's bed.");
	json_decref(root);
	sample->job.fixture.work_zero_mm = vec3_make(0.0, 0.0, 0.0);
	root = document_of(sample);
	assert_non_null(strstr(text_at(root, "frame.work_zero"), "level with the gluing face"));
	json_decref(root);
}

static void what_is_unknown_is_null(void **state)
{
	struct sampled *sample = *state;

	sample->job.digest[0] = '\0';
	sample->result.zone[ZONE_BACK].least_mm = NAN;
	sample->result.zone[ZONE_BACK].most_mm = INFINITY;
	sample->result.program[0].least = sample->result.program[0].most = vec3_make(NAN, NAN, NAN);
	sample->result.program[1].least = sample->result.program[1].most = vec3_make(NAN, NAN, NAN);
	json_t *root = document_of(sample);
	assert_true(json_is_null(at(root, "inputs.digest")));
	assert_true(json_is_null(at(root, "hand_finish_stock.back.least_mm")));
	assert_true(json_is_null(at(root, "hand_finish_stock.back.most_mm")));
	assert_true(json_is_null(at(root, "bounds.least_mm.0")));
	assert_true(json_is_null(at(root, "programs.1.most_mm.2")));
	json_decref(root);
}

static void zero_has_no_sign_and_decimals_are_exact(void **state)
{
	struct sampled *sample = *state;

	sample->result.zone[ZONE_BACK].least_mm = -0.0;
	sample->result.zone[ZONE_BACK].most_mm = -0.00001;
	sample->result.zone[ZONE_BACK].mean_mm = 0.1 + 0.2;
	char *text = text_of(sample);
	assert_null(strstr(text, "-0.0,"));
	assert_non_null(strstr(text, "\"mean_mm\": 0.3,"));
	assert_null(strstr(text, "00000000"));
	free(text);
}

static void any_bytes_in_a_name_give_valid_text(void **state)
{
	struct sampled *sample = *state;

	(void)snprintf(sample->job.neck.name, sizeof sample->job.neck.name,
		       "bad \xff\xc3 \"quoted\" \\ \n\x01 end");
	json_t *root = document_of(sample);
	assert_string_equal(text_at(root, "inputs.neck"), "bad ?? \"quoted\" \\ \n\x01 end");
	json_decref(root);
	(void)snprintf(sample->job.neck.name, sizeof sample->job.neck.name, "h\xc3\xaatre");
	root = document_of(sample);
	assert_string_equal(text_at(root, "inputs.neck"), "h\xc3\xaatre");
	json_decref(root);
}

static void the_same_job_gives_the_same_bytes(void **state)
{
	struct sampled *sample = *state;
	char *first = text_of(sample);
	/* a decimal comma, where the system has such a locale */
	bool comma = setlocale(LC_ALL, "de_DE.UTF-8") != NULL;
	char *second = text_of(sample);

	(void)setlocale(LC_ALL, "C");
	assert_string_equal(first, second);
	assert_int_equal(first[strlen(first) - 1], '\n');
	print_message("locale with a comma: %s\n", comma ? "tried" : "not on this system");
	free(first);
	free(second);
}

static void a_file_holds_the_same_text(void **state)
{
	struct sampled *sample = *state;
	char path[SCRATCH_ROOM];
	struct fault_list faults = { 0 };
	void *folder;

	assert_int_equal(scratch_make(&folder), 0);
	scratch_path(path, folder, "job.json");
	assert_int_equal(job_json_write(path, &sample->job, sample->neck, &sample->result, &faults),
			 FAULT_NONE);
	char *written = scratch_read(folder, "job.json"), *text = text_of(sample);
	assert_string_equal(written, text);
	free(written);
	free(text);
	scratch_path(path, folder, "no/job.json");
	assert_int_equal(job_json_write(path, &sample->job, sample->neck, &sample->result, &faults),
			 FAULT_FILE);
	assert_int_equal(faults.count, 1);
	assert_int_equal(scratch_remove(&folder), 0);
}

static void the_fixture_is_told(void **state)
{
	struct sampled *sample = *state;
	struct fixture *fixture = &sample->job.fixture;

	sample->result.verdict.fretboard_mm = INFINITY; /* none is there */
	json_t *root = document_of(sample);
	assert_true(json_is_null(at(root, "fixture.fretboard")));
	assert_true(json_is_null(at(root, "fixture.joint")));
	assert_true(json_is_null(at(root, "proof.promises.keep_out.fretboard_mm")));
	json_decref(root);
	fixture->riser_height_mm = 14.0;
	fixture->fretboard = (struct glued_fretboard){ true, 0.3, 5.0, 1.0 };
	fixture->keep_out_count = 1;
	fixture->keep_out[0] = (struct place){ "a \"screw\"", 10, 19, 30, 39, 12, PLACE_CYLINDER };
	sample->job.neck.heel.joint = (struct joint_spec){ JOINT_TENON, 18, 20, 0, 70 };
	sample->result.verdict.fretboard_mm = 0.51234;
	root = document_of(sample);
	double face = -sample->job.neck.fretboard_thickness_mm;
	assert_near(number_at(root, "fixture.rest_mm"), face - 1.0, 1e-9, "rest, mm");
	assert_near(number_at(root, "fixture.bed_mm"), face - 15.0, 1e-9, "bed, mm");
	assert_near(number_at(root, "fixture.fretboard.face_mm"), face, 1e-9, "face, mm");
	assert_near(number_at(root, "fixture.fretboard.width_from_mm"),
		    sample->job.neck.nut_width_mm, 1e-9, "nut, mm");
	assert_string_equal(text_at(root, "fixture.joint.name"), "tenon");
	assert_string_equal(text_at(root, "fixture.keep_out.0.name"), "a \"screw\"");
	assert_string_equal(text_at(root, "fixture.keep_out.0.shape"), "cylinder");
	assert_near(number_at(root, "fixture.keep_out.0.diameter_mm"), 9.0, 1e-12, "mm");
	assert_near(number_at(root, "proof.promises.keep_out.fretboard_mm"), 0.5123, 1e-12, "mm");
	json_decref(root);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
#define WITH_SAMPLE(test) cmocka_unit_test_setup_teardown(test, set_up, sampled_teardown)
		WITH_SAMPLE(figures_stand_under_their_keys),
		WITH_SAMPLE(the_fixture_is_told),
		WITH_SAMPLE(stations_are_told_in_both_units),
		WITH_SAMPLE(the_centre_column_is_told_pass_by_pass),
		WITH_SAMPLE(what_stands_beside_the_neck_is_told),
		WITH_SAMPLE(stock_and_promises_stand_under_their_keys),
		WITH_SAMPLE(zero_is_told_in_words),
		WITH_SAMPLE(what_is_unknown_is_null),
		WITH_SAMPLE(zero_has_no_sign_and_decimals_are_exact),
		WITH_SAMPLE(any_bytes_in_a_name_give_valid_text),
		WITH_SAMPLE(the_same_job_gives_the_same_bytes),
		WITH_SAMPLE(a_file_holds_the_same_text),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
