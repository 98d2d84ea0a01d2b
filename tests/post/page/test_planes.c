/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The packed maps, read back by a decoder of the test's own: base64 by its
 * table, zlib's own inflating, and the coding as planes.h describes it. */
#include "page/planes.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <zlib.h>
#include <cmocka.h>

#include "support/near.h"
#include "support/seed.h"

#define NX 37
#define NY 11
#define AREA ((size_t)NX * NY)
#define CUTS_MOST 120

struct sample {
	struct job_result result;
	struct column_map cut[CUTS_MOST];
};

static struct column_map new_map(void)
{
	struct column_map map = { NX, NY, -20.25, -3.0, 0.5, calloc(AREA, sizeof(float)) };

	assert_non_null(map.value);
	return map;
}

static void make_sample(struct sample *s, size_t cuts)
{
	*s = (struct sample){ .result = { .blank_top = new_map(),
					  .finished = new_map(),
					  .stock = new_map(),
					  .cut_count = cuts,
					  .cut = s->cut } };
	for (size_t p = 0; p < cuts; p++)
		s->cut[p] = new_map();
}

static void drop_sample(struct sample *s)
{
	for (size_t p = 0; p < s->result.cut_count; p++)
		free(s->cut[p].value);
	free(s->result.blank_top.value);
	free(s->result.finished.value);
	free(s->result.stock.value);
}

/* --- the reader ----------------------------------------------------------- */

static int digit_of(char c)
{
	static const char digits[] =
		"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
	const char *at = c == '\0' ? NULL : strchr(digits, c);

	assert_non_null(at);
	return (int)(at - digits);
}

static unsigned char *from_base64(const char *text, size_t size, size_t *count)
{
	unsigned char *bytes = calloc(size + 1, 1);
	size_t padding = 0;

	assert_non_null(bytes);
	assert_int_equal(size % 4, 0);
	while (padding < 2 && size > 0 && text[size - 1 - padding] == '=')
		padding++;
	*count = 0;
	unsigned bits = 0, held = 0;
	for (size_t i = 0; i < size - padding; i++) {
		bits = bits << 6 | (unsigned)digit_of(text[i]);
		held += 6;
		if (held >= 8) {
			held -= 8;
			bytes[(*count)++] = (unsigned char)(bits >> held & 0xffu);
		}
	}
	assert_int_equal(*count, size / 4 * 3 - padding);
	return bytes;
}

/* Undoes the coding of one plane. */
static void decode(const unsigned char *plane, int *value)
{
	for (size_t iy = 0; iy < NY; iy++) {
		long before = 0;
		for (size_t ix = 0; ix < NX; ix++) {
			size_t i = iy * NX + ix;
			long code = plane[i] + 256L * plane[AREA + i];
			long step = code % 2 == 0 ? code / 2 : -(code + 1) / 2;
			before += step;
			while (before > 32767)
				before -= 65536;
			while (before < -32768)
				before += 65536;
			value[i] = (int)before;
		}
	}
}

struct unpacked {
	size_t count;
	double unit_mm;
	int (*plane)[AREA];
};

/* Packs a sample and reads it again; release plane with free(). */
static struct unpacked round_trip(const struct sample *s)
{
	struct markup text = { 0 };
	struct unpacked read = { .count = s->result.cut_count + 3 };
	size_t packed_size;

	assert_int_equal(planes_pack(&text, &read.unit_mm, &s->result, NULL), FAULT_NONE);
	unsigned char *packed = from_base64(text.text, text.size, &packed_size);
	uLongf size = (uLongf)(read.count * AREA * 2);
	unsigned char *bytes = calloc(size + 1, 1);
	read.plane = calloc(read.count, sizeof *read.plane);
	assert_true(bytes && read.plane);
	uLongf whole = size + 1;
	assert_int_equal(uncompress(bytes, &whole, packed, (uLong)packed_size), Z_OK);
	assert_int_equal(whole, size);
	for (size_t p = 0; p < read.count; p++)
		decode(bytes + p * AREA * 2, read.plane[p]);
	free(bytes);
	free(packed);
	markup_free(&text);
	return read;
}

/* --- the tests ------------------------------------------------------------ */

/* Any heights: half a unit is lost and no more; nothing stays nothing. */
static void heights_come_back(void **state)
{
	gsl_rng *rng = seed_rng("heights_come_back");

	(void)state;
	for (unsigned long n = 0; n < 20; n++) {
		struct sample s;
		make_sample(&s, 0);
		seed_nth(rng, n);
		for (size_t i = 0; i < AREA; i++) {
			double nothing = seed_between(rng, 0.0, 1.0);
			s.result.blank_top.value[i] = (float)seed_between(rng, -300.0, 300.0);
			s.result.finished.value[i] =
				nothing < 0.3 ? NAN : (float)seed_between(rng, -20.0, 90.0);
			s.result.stock.value[i] = nothing < 0.5 ? INFINITY : (float)nothing;
		}
		struct unpacked read = round_trip(&s);
		assert_near(read.unit_mm, 0.01, 1e-15, "the usual unit, mm");
		const float *maps[] = { s.result.blank_top.value, s.result.finished.value,
					s.result.stock.value };
		for (size_t p = 0; p < 3; p++)
			for (size_t i = 0; i < AREA; i++) {
				if (isfinite(maps[p][i]))
					assert_near(read.plane[p][i] * read.unit_mm,
						    (double)maps[p][i], 0.005 + 1e-9,
						    "a height read back, mm");
				else
					assert_int_equal(read.plane[p][i], PLANES_NOTHING);
			}
		free(read.plane);
		drop_sample(&s);
	}
	gsl_rng_free(rng);
}

/* Neighbours as far apart as can be: differences wrap around 16 bits. */
static void extremes_next_to_each_other(void **state)
{
	static const float values[] = { 327.65f, -327.65f, NAN, 327.65f, NAN, -327.65f, 0.0f };
	static const int counts[] = { 32765,  -32765, PLANES_NOTHING, 32765, PLANES_NOTHING,
				      -32765, 0 };
	struct sample s;

	(void)state;
	make_sample(&s, 0);
	for (size_t i = 0; i < AREA; i++)
		s.result.finished.value[i] = values[i % 7];
	struct unpacked read = round_trip(&s);
	for (size_t i = 0; i < AREA; i++)
		assert_int_equal(read.plane[1][i], counts[i % 7]);
	free(read.plane);
	drop_sample(&s);
}

static void the_unit_grows_with_the_largest_value(void **state)
{
	static const struct {
		float most_mm;
		double unit_mm;
	} cases[] = { { 90.0f, 0.01 },	 { 327.6f, 0.01 }, { 328.0f, 0.02 },
		      { -700.0f, 0.05 }, { 2000.0f, 0.1 }, { 3.0e6f, 100.0 } };

	(void)state;
	for (size_t c = 0; c < sizeof cases / sizeof cases[0]; c++) {
		struct sample s;
		make_sample(&s, 1);
		/* in each of the maps once */
		float *at[] = { &s.result.blank_top.value[5], &s.result.finished.value[5],
				&s.cut[0].value[5], &s.result.stock.value[5] };
		*at[c % 4] = cases[c].most_mm;
		struct unpacked read = round_trip(&s);
		assert_near(read.unit_mm, cases[c].unit_mm, 1e-9 * cases[c].unit_mm, "unit, mm");
		static const size_t order[] = { 0, 1, 2, 3 };
		assert_near(read.plane[order[c % 4]][5] * read.unit_mm, (double)cases[c].most_mm,
			    read.unit_mm, "the largest value, mm");
		free(read.plane);
		drop_sample(&s);
	}
}

/* Passes that each take a little: rounded one by one, a hundred and twenty of
 * them could be half a millimetre off in the end. */
static void rounding_does_not_add_up(void **state)
{
	gsl_rng *rng = seed_rng("rounding_does_not_add_up");
	struct sample s;

	(void)state;
	make_sample(&s, CUTS_MOST);
	for (size_t i = 0; i < AREA; i++) {
		s.result.blank_top.value[i] = i % 9 == 0 ? NAN : (float)seed_between(rng, 40., 90.);
		for (size_t p = 0; p < CUTS_MOST; p++)
			s.cut[p].value[i] = p % 3 == 0 ? 0.0f : i % 2 ? 0.0149f : 0.2349f;
	}
	struct unpacked read = round_trip(&s);
	for (size_t i = 0; i < AREA; i++) {
		double top_mm = (double)s.result.blank_top.value[i], standing_mm = top_mm;
		int standing = read.plane[0][i];
		if (isnan(top_mm)) {
			assert_int_equal(standing, PLANES_NOTHING);
			continue;
		}
		for (size_t p = 0; p < CUTS_MOST; p++) {
			double cut_mm = (double)s.cut[p].value[i];
			int cut = read.plane[2 + p][i];
			standing_mm -= cut_mm;
			standing -= cut;
			assert_near(cut * read.unit_mm, cut_mm, read.unit_mm, "a single cut, mm");
			assert_near(standing * read.unit_mm, standing_mm, 0.005 + 1e-6,
				    "wood standing after a pass, mm");
			if (cut_mm == 0.0)
				assert_int_equal(cut, 0); /* untouched stays untouched */
		}
	}
	free(read.plane);
	drop_sample(&s);
	gsl_rng_free(rng);
}

static void a_cut_of_nothing_takes_nothing(void **state)
{
	struct sample s;

	(void)state;
	make_sample(&s, 2);
	for (size_t i = 0; i < AREA; i++) {
		s.result.blank_top.value[i] = 24.004f;
		s.cut[0].value[i] = i == 7 ? NAN : 1.0f;
		s.cut[1].value[i] = 1.0f;
	}
	struct unpacked read = round_trip(&s);
	assert_int_equal(read.plane[2][7], PLANES_NOTHING);
	assert_int_equal(read.plane[3][7], 100);
	assert_int_equal(read.plane[2][8], 100);
	free(read.plane);
	drop_sample(&s);
}

static void same_maps_same_text(void **state)
{
	struct sample s;
	struct markup first = { 0 }, second = { 0 };
	double unit_mm;

	(void)state;
	make_sample(&s, 3);
	for (size_t i = 0; i < AREA; i++)
		s.cut[1].value[i] = (float)(i * i % 97) / 10.0f;
	assert_int_equal(planes_pack(&first, &unit_mm, &s.result, NULL), FAULT_NONE);
	assert_int_equal(planes_pack(&second, &unit_mm, &s.result, NULL), FAULT_NONE);
	assert_string_equal(first.text, second.text);
	s.cut[1].value[AREA - 1] += 0.02f;
	markup_free(&second);
	assert_int_equal(planes_pack(&second, &unit_mm, &s.result, NULL), FAULT_NONE);
	assert_string_not_equal(first.text, second.text);
	markup_free(&first);
	markup_free(&second);
	drop_sample(&s);
}

static void maps_of_different_grids_are_refused(void **state)
{
	struct sample s;
	double unit_mm;

	(void)state;
	make_sample(&s, 2);
	struct column_map *maps[] = { &s.result.finished, &s.result.stock, &s.cut[1] };
	for (size_t m = 0; m < 3; m++) {
		struct fault_list faults = { 0 };
		struct markup out = { 0 };
		maps[m]->cell_mm = 0.25;
		assert_int_equal(planes_pack(&out, &unit_mm, &s.result, &faults), FAULT_INTERNAL);
		assert_int_equal(faults.count, 1);
		assert_null(out.text);
		maps[m]->cell_mm = 0.5;
	}
	struct job_result none = { 0 };
	struct markup out = { 0 };
	assert_int_equal(planes_pack(&out, &unit_mm, &none, NULL), FAULT_INTERNAL);
	drop_sample(&s);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(heights_come_back),
		cmocka_unit_test(extremes_next_to_each_other),
		cmocka_unit_test(the_unit_grows_with_the_largest_value),
		cmocka_unit_test(rounding_does_not_add_up),
		cmocka_unit_test(a_cut_of_nothing_takes_nothing),
		cmocka_unit_test(same_maps_same_text),
		cmocka_unit_test(maps_of_different_grids_are_refused),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
