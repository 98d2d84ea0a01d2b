/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Traced stations as a neck file reads them. */
#include "report/stations_text.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <jansson.h>
#include <cmocka.h>

#include "post/config/neck_file.h"
#include "report/traced_json.h"
#include "report/traced_table.h"
#include "support/any_outline.h"
#include "support/near.h"
#include "support/scratch.h"
#include "support/seed.h"

/* Four decimals, as core/trace makes them. */
static struct section_outline rounded(struct section_outline outline)
{
	for (size_t i = 0; i < outline.count; i++) {
		outline.height[i] = (double)(long)(outline.height[i] * 1e4 + 0.5) / 1e4;
		outline.breadth[i] = (double)(long)(outline.breadth[i] * 1e4 + 0.5) / 1e4;
	}
	return outline;
}

static void make(struct traced *out, const gsl_rng *rng)
{
	*out = (struct traced){ .unit = UNIT_MM, .hand = HAND_RIGHT, .count = 2 };
	out->station[1].fret = 9.5;
	for (size_t i = 0; i < 2; i++) {
		struct trace_section *section = &out->station[i].section;
		section->thickness_mm = 15.0 + (double)i;
		section->width_mm = 43.7;
		for (int side = 0; side < 2; side++)
			section->outline[side] = rounded(any_outline(rng));
	}
}

/* The list of stations in the neck file's place, as one includes it. */
static void read_back(struct loaded *l, const char *folder, const struct traced *traced)
{
	static const char old[] =
		"stations = (\n"
		"{ fret = \"nut\"; thickness = 21; },\n"
		"{ fret = 11; thickness = 24; shape = \"D\"; fullness = 2.4; flat_share = "
		"0.3;\n"
		"  bass = { shape = \"C\"; }; treble = { fullness = 2.8; }; }\n"
		");\n";
	char path[SCRATCH_ROOM];
	FILE *out = fopen(scratch_path(path, folder, "stations.cfg"), "w");

	assert_non_null(out);
	stations_text_write(out, traced);
	assert_int_equal(fclose(out), 0);
	write_changed(folder, "", old, "\n@include \"stations.cfg\"\n", "");
	load(l, folder);
	assert_int_equal(l->code, FAULT_NONE);
}

static void assert_outline(const struct section_spec *read, const struct section_outline *made)
{
	assert_int_equal(read->family, SECTION_MEASURED);
	assert_int_equal(read->outline.count, made->count);
	for (size_t i = 0; i < made->count; i++) {
		assert_near(read->outline.height[i], made->height[i], 1e-9, "height, share");
		assert_near(read->outline.breadth[i], made->breadth[i], 1e-9, "breadth, share");
	}
}

static void stations_come_back(void **state)
{
	gsl_rng *rng = seed_rng("stations_come_back");

	for (int n = 0; n < 20; n++) {
		struct traced traced;
		struct loaded l;
		make(&traced, rng);
		traced.hand = n % 2 ? HAND_LEFT : HAND_RIGHT;
		traced.unit = n % 3 ? UNIT_MM : UNIT_INCH;
		traced.fretboard_mm = n % 4 ? 0.0 : 6.0;
		read_back(&l, *state, &traced);
		const struct neck_spec *neck = &l.job.neck;
		assert_int_equal(neck->station_count, 2);
		assert_near(neck->station[0].fret, 0.0, 0, "nut");
		assert_near(neck->station[1].fret, 9.5, 0, "fret");
		int bass = n % 2 ? SIDE_MINUS : SIDE_PLUS;
		for (size_t i = 0; i < 2; i++) {
			const struct trace_section *section = &traced.station[i].section;
			assert_near(neck->station[i].thickness_mm,
				    section->thickness_mm + traced.fretboard_mm, 0.0051,
				    "thickness, mm");
			assert_outline(&neck->station[i].bass, &section->outline[bass]);
			assert_outline(&neck->station[i].treble, &section->outline[1 - bass]);
		}
	}
	gsl_rng_free(rng);
}

static void one_shape_stands_once(void **state)
{
	gsl_rng *rng = seed_rng("one_shape_stands_once");
	struct traced traced;
	struct loaded l;

	make(&traced, rng);
	traced.alike = true;
	for (size_t i = 0; i < 2; i++)
		traced.station[i].section.outline[0] = traced.station[i].section.outline[1];
	read_back(&l, *state, &traced);
	char *text = scratch_read(*state, "stations.cfg");
	assert_non_null(text);
	assert_null(strstr(text, "bass"));
	free(text);
	assert_outline(&l.job.neck.station[1].bass, &traced.station[1].section.outline[0]);
	assert_outline(&l.job.neck.station[1].treble, &traced.station[1].section.outline[0]);
	gsl_rng_free(rng);
}

/* Every kind of note is one sentence on lines of a terminal, in table and JSON. */
static void notes_are_told(void **state)
{
	(void)state;
	gsl_rng *rng = seed_rng("notes_are_told");
	struct traced traced;
	char *text = NULL;

	make(&traced, rng);
	struct trace_section *section = &traced.station[0].section;
	for (int kind = NOTE_DOUBLE; kind <= NOTE_CREST; kind++)
		section->note[section->note_count++] =
			(struct trace_note){ .kind = (enum trace_note_kind)kind,
					     .count = 3,
					     .line = 17,
					     .size_mm = 1.25,
					     .place = { -12.5, 3.0 },
					     .to = { -8.0, 9.0 } };
	assert_int_equal(traced_json_text(&text, &traced, NULL), FAULT_NONE);
	json_t *root = json_loads(text, 0, NULL);
	assert_non_null(root);
	json_t *notes =
		json_object_get(json_array_get(json_object_get(root, "stations"), 0), "notes");
	assert_int_equal(json_array_size(notes), section->note_count);
	for (size_t i = 0; i < section->note_count; i++) {
		const char *sentence =
			json_string_value(json_object_get(json_array_get(notes, i), "sentence"));
		assert_non_null(sentence);
		assert_in_range(strlen(sentence), 20, TRACED_SENTENCE_ROOM - 2);
		char last = sentence[strlen(sentence) - 1];
		assert_true(last == '.' || last == '?');
		for (size_t k = 0; k < i; k++)
			assert_string_not_equal(sentence,
						json_string_value(json_object_get(
							json_array_get(notes, k), "sentence")));
	}
	json_decref(root);
	free(text);
	FILE *out = tmpfile();
	assert_non_null(out);
	traced_table_print(out, &traced, "# ");
	text = scratch_text(out);
	for (char *line = strtok(text, "\n"); line; line = strtok(NULL, "\n")) {
		assert_in_range(strlen(line), 3, 80);
		assert_memory_equal(line, "# ", 2);
	}
	free(text);
	gsl_rng_free(rng);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		SCRATCH_TEST(stations_come_back),
		SCRATCH_TEST(one_shape_stands_once),
		cmocka_unit_test(notes_are_told),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
