/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lightness, contrast and evenness of the palette, measured here with formulas
 * of the test's own, and the figures in docs/look.md. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "pictures/palette.h"
#include "support/near.h"

/* Linear light of an sRGB code. Source: IEC 61966-2-1. */
static double linear(unsigned char code)
{
	double c = code / 255.0;

	return c <= 0.04045 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4);
}

/* Relative luminance. Source: WCAG 2.1 and IEC 61966-2-1. */
static double luminance(struct colour c)
{
	return 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b);
}

/* Source: WCAG 2.1, definition of contrast ratio. */
static double contrast(struct colour a, struct colour b)
{
	double ya = luminance(a), yb = luminance(b);

	return (fmax(ya, yb) + 0.05) / (fmin(ya, yb) + 0.05);
}

static double lab_f(double t)
{
	return t > 216.0 / 24389.0 ? cbrt(t) : (24389.0 / 27.0 * t + 16.0) / 116.0;
}

/* CIELAB under D65. Source: ISO/CIE 11664-4. */
static void lab(struct colour c, double out[3])
{
	double r = linear(c.r), g = linear(c.g), b = linear(c.b);
	double x = lab_f((0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / 0.95047);
	double y = lab_f(0.2126729 * r + 0.7151522 * g + 0.0721750 * b);
	double z = lab_f((0.0193339 * r + 0.1191920 * g + 0.9503041 * b) / 1.08883);

	out[0] = 116.0 * y - 16.0;
	out[1] = 500.0 * (x - y);
	out[2] = 200.0 * (y - z);
}

static double lightness(struct colour c)
{
	double l[3];

	lab(c, l);
	return l[0];
}

static void formulas_give_known_values(void **state)
{
	(void)state;
	const struct colour black = { 0, 0, 0 }, white = { 255, 255, 255 };
	const struct colour grey = { 0x77, 0x77, 0x77 };

	assert_near(contrast(black, white), 21.0, 1e-9, "contrast of black on white (WCAG)");
	assert_near(contrast(grey, white), 4.48, 0.005, "contrast of #777777 on white (known)");
	assert_near(lightness(white), 100.0, 1e-3, "L* of white");
}

static void text_is_legible(void **state)
{
	(void)state;
	struct colour paper = palette_colour(PALETTE_PAPER);

	assert_between(contrast(palette_colour(PALETTE_INK), paper), 7.0, 21.0, "ink on paper");
	assert_between(contrast(palette_colour(PALETTE_SOFT_INK), paper), 7.0, 21.0,
		       "soft ink on paper");
	assert_between(contrast(palette_colour(PALETTE_BROWN), paper), 4.5, 21.0,
		       "roughed line on paper");
	assert_between(contrast(palette_colour(PALETTE_INK), palette_colour(PALETTE_WOOD)), 3.0,
		       21.0, "finished line on wood");
}

static void ramp_falls_evenly_in_lightness(void **state)
{
	(void)state;
	for (int i = 1; i < PALETTE_STEPS; i++)
		assert_between(lightness(palette_step_colour(i - 1)) -
				       lightness(palette_step_colour(i)),
			       0.7, 1.3, "fall of L* from step to step");
	assert_near(lightness(palette_step_colour(0)), 79.5, 0.3, "L* of the light end");
	assert_near(lightness(palette_step_colour(63)), 18.5, 0.3, "L* of the dark end");
}

static void ramp_steps_look_alike(void **state)
{
	(void)state;
	for (int i = 4; i < PALETTE_STEPS; i++) {
		double a[3], b[3];
		lab(palette_step_colour(i - 4), a);
		lab(palette_step_colour(i), b);
		assert_between(sqrt((a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1]) +
				    (a[2] - b[2]) * (a[2] - b[2])),
			       3.6, 5.0, "CIE 1976 difference over four steps");
	}
}

static void no_ramp_colour_is_clipped(void **state)
{
	(void)state;
	for (int i = 0; i < PALETTE_STEPS; i++) {
		struct colour c = palette_step_colour(i);
		assert_true(c.r > 0 && c.r < 255 && c.g > 0 && c.g < 255 && c.b > 0 && c.b < 255);
		/* wood: red over green over blue everywhere, so no rainbow */
		assert_true(c.r > c.g && c.g > c.b);
	}
}

/* Machado, Oliveira and Fernandes, IEEE Trans. Vis. Comput. Graph. 15 (2009)
 * 1291, full severity, on linear light. Values from memory; rows sum to 1. */
static void order_survives_colour_blindness(void **state)
{
	(void)state;
	static const double blind[3][3][3] = {
		{ { 0.152286, 1.052583, -0.204868 },
		  { 0.114503, 0.786281, 0.099216 },
		  { -0.003882, -0.048116, 1.051998 } },
		{ { 0.367322, 0.860646, -0.227968 },
		  { 0.280085, 0.672501, 0.047413 },
		  { -0.011820, 0.042940, 0.968881 } },
		{ { 1.255528, -0.076749, -0.178779 },
		  { -0.078411, 0.930809, 0.147602 },
		  { 0.004733, 0.691367, 0.303900 } },
	};

	for (int kind = 0; kind < 3; kind++) {
		double before = INFINITY;
		for (int i = 0; i < PALETTE_STEPS; i++) {
			struct colour c = palette_step_colour(i);
			const double rgb[3] = { linear(c.r), linear(c.g), linear(c.b) };
			const double weight[3] = { 0.2126, 0.7152, 0.0722 };
			double y = 0.0;
			for (int row = 0; row < 3; row++)
				for (int col = 0; col < 3; col++)
					y += weight[row] * blind[kind][row][col] * rgb[col];
			assert_true(y < before);
			before = y;
		}
	}
}

static void shares_find_their_step(void **state)
{
	(void)state;
	assert_int_equal(palette_step(-1.0), 0);
	assert_int_equal(palette_step(0.0), 0);
	assert_int_equal(palette_step(0.5), 32);
	assert_int_equal(palette_step(0.999999), 63);
	assert_int_equal(palette_step(1.0), 63);
	assert_int_equal(palette_step(INFINITY), 63);
	struct colour paper = palette_colour(PALETTE_PAPER), nothing = palette_ramp(NAN);
	assert_memory_equal(&paper, &nothing, sizeof paper);
}

static void paper_pale_wood_and_ramp_stay_apart(void **state)
{
	(void)state;
	double paper = lightness(palette_colour(PALETTE_PAPER));
	double pale = lightness(palette_colour(PALETTE_PALE_WOOD));

	assert_between(paper - pale, 4.0, 10.0, "paper over pale wood, L*");
	assert_between(pale - lightness(palette_step_colour(0)), 8.0, 15.0,
		       "pale wood over the ramp, L*");
}

/* The colour that docs/look.md calls `name`. */
static int named_colour(const char *name, struct colour *out)
{
	static const char *const names[PALETTE_COUNT] = {
		[PALETTE_PAPER] = "paper",
		[PALETTE_INK] = "ink",
		[PALETTE_SOFT_INK] = "soft ink",
		[PALETTE_GRID] = "grid",
		[PALETTE_RULE] = "rule",
		[PALETTE_PALE_WOOD] = "pale wood",
		[PALETTE_LIGHT_WOOD] = "light wood",
		[PALETTE_WOOD] = "wood",
		[PALETTE_BROWN] = "brown",
	};
	int step;

	if (sscanf(name, "step %d", &step) == 1) {
		*out = palette_step_colour(step);
		return 1;
	}
	for (int i = 0; i < PALETTE_COUNT; i++)
		if (strcmp(name, names[i]) == 0) {
			*out = palette_colour((enum palette_name)i);
			return 1;
		}
	return 0;
}

/* Tests run from the top of the source tree. */
static void look_page_tells_the_truth(void **state)
{
	(void)state;
	FILE *page = fopen("docs/look.md", "r");
	char line[512], name[32];
	int rows = 0;

	assert_non_null(page);
	while (fgets(line, sizeof line, page)) {
		unsigned r, g, b;
		double l, ratio;
		if (sscanf(line, "| %31[a-z0-9 ] | #%2x%2x%2x | %lf | %lf |", name, &r, &g, &b, &l,
			   &ratio) != 6)
			continue;
		struct colour c = { 0, 0, 0 };
		name[strcspn(name, "|") - 1] = '\0';
		assert_true(named_colour(name, &c));
		assert_true(c.r == r && c.g == g && c.b == b);
		assert_near(lightness(c), l, 0.051, name);
		assert_near(contrast(c, palette_colour(PALETTE_PAPER)), ratio, 0.0051, name);
		rows++;
	}
	(void)fclose(page);
	assert_int_equal(rows, PALETTE_COUNT + 5);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(formulas_give_known_values),
		cmocka_unit_test(text_is_legible),
		cmocka_unit_test(ramp_falls_evenly_in_lightness),
		cmocka_unit_test(ramp_steps_look_alike),
		cmocka_unit_test(no_ramp_colour_is_clipped),
		cmocka_unit_test(order_survives_colour_blindness),
		cmocka_unit_test(shares_find_their_step),
		cmocka_unit_test(paper_pale_wood_and_ramp_stay_apart),
		cmocka_unit_test(look_page_tells_the_truth),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
