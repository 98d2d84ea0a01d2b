/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "mesh/neck_levels.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"

/* Half-breadths of both sides at all knots and levels: line k is one side at
 * one knot. */
struct sections {
	size_t lines, levels;
	const double *level;
	double *height; /* [line]: crest less base */
	double *half; /* [line * levels + level] */
};

static void measure(struct sections *sections, const struct neck *neck, const double *knot)
{
	for (size_t line = 0; line < sections->lines; line++) {
		double x_mm = knot[line / SIDE_COUNT];
		enum neck_side side = (enum neck_side)(line % SIDE_COUNT);
		sections->height[line] = neck_crest_mm(neck, x_mm) - neck_base_mm(neck, x_mm);
		for (size_t i = 0; i < sections->levels; i++)
			sections->half[line * sections->levels + i] =
				neck_half_breadth_mm(neck, side, x_mm, sections->level[i]);
	}
}

/* Distance of level i from the straight piece between levels a and b. */
static double off_chord(const struct sections *sections, size_t line, size_t a, size_t b, size_t i)
{
	const double *half = sections->half + line * sections->levels;
	double height = sections->height[line];
	double chord_y = half[b] - half[a];
	double chord_z = height * (sections->level[b] - sections->level[a]);
	double y = half[i] - half[a], z = height * (sections->level[i] - sections->level[a]);

	/* levels rise strictly, so the chord has a length */
	return fabs(chord_y * z - chord_z * y) / hypot(chord_y, chord_z);
}

static int can_skip_between(const struct sections *sections, size_t a, size_t b, double chord_mm)
{
	for (size_t line = 0; line < sections->lines; line++)
		for (size_t i = a + 1; i < b; i++)
			if (off_chord(sections, line, a, b, i) > chord_mm)
				return 0;
	return 1;
}

static size_t choose(double *out, const struct sections *sections, double chord_mm)
{
	size_t count = 0, last = sections->levels - 1;

	out[count++] = sections->level[0];
	for (size_t a = 0; a < last;) {
		size_t b = a + 1;
		while (b < last && can_skip_between(sections, a, b + 1, chord_mm))
			b++;
		out[count++] = sections->level[b];
		a = b;
	}
	return count;
}

enum fault neck_levels_choose(double **level, size_t *count, const struct neck *neck,
			      double chord_mm, struct fault_list *faults)
{
	size_t knots;
	struct sections sections = { 0 };
	const double *knot = neck_knots(neck, &knots);

	sections.level = neck_levels(neck, &sections.levels);
	sections.lines = SIDE_COUNT * knots;
	sections.height = mem_array(sections.lines, sizeof(double));
	/* knots and levels are in memory already, so their product fits */
	sections.half = mem_array(sections.lines * sections.levels, sizeof(double));
	*level = mem_array(sections.levels, sizeof(double));
	if (sections.height && sections.half && *level) {
		measure(&sections, neck, knot);
		*count = choose(*level, &sections, chord_mm);
	} else {
		free(*level);
		*level = NULL;
	}
	free(sections.height);
	free(sections.half);
	return *level ? FAULT_NONE : fault_no_memory(faults, "the mesh of the finished neck");
}
