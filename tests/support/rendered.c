/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/rendered.h"

#include <fcntl.h>
#include <math.h>
#include <setjmp.h>
#include <spawn.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#include <cmocka.h>

#include "files/text_file.h"
#include "support/scratch.h"

#define IMAGE_BYTES_MOST ((size_t)64 << 20)
/* Grey of the palette's ink on white paper. */
#define INK_GREY 40.0
#define STROKE_INK (1.0 / 3.0)

extern char **environ;

/* Runs a program found on the path, its output going to a file. */
static void run(const char *const *argv, const char *output)
{
	posix_spawn_file_actions_t actions;
	int status = -1;
	pid_t child;

	assert_int_equal(posix_spawn_file_actions_init(&actions), 0);
	assert_int_equal(posix_spawn_file_actions_addopen(&actions, 1, output,
							  O_WRONLY | O_CREAT | O_TRUNC, 0600),
			 0);
	/* posix_spawnp changes none of the words, for all that its type says */
	union {
		const char *const *given;
		char *const *taken;
	} words = { .given = argv };
	if (posix_spawnp(&child, argv[0], &actions, NULL, words.taken, environ) != 0)
		fail_msg("%s cannot be run", argv[0]);
	(void)posix_spawn_file_actions_destroy(&actions);
	assert_int_equal(waitpid(child, &status, 0), child);
	if (!WIFEXITED(status) || WEXITSTATUS(status) != 0)
		fail_msg("%s failed on %s", argv[0], output);
}

char *rendered_tool(const char *folder, const char *tool, const char *option, const char *pdf)
{
	const char *const plain[] = { tool, pdf, "-", NULL };
	const char *const with[] = { tool, option, pdf, "-", NULL };
	bool takes_output = strcmp(tool, "pdftotext") == 0;
	const char *words[5];
	char path[SCRATCH_ROOM];

	memcpy(words, option ? with : plain, option ? sizeof with : sizeof plain);
	if (!takes_output)
		words[option ? 3 : 2] = NULL;
	run(words, scratch_path(path, folder, "tool.txt"));
	char *text = scratch_read(folder, "tool.txt");
	assert_non_null(text);
	return text;
}

/* One number of a PGM's head. Source: the Netpbm page pgm(5), raw form. */
static int head_number(const char *bytes, size_t size, size_t *at)
{
	int number = 0;

	while (*at < size && (bytes[*at] < '0' || bytes[*at] > '9'))
		++*at;
	while (*at < size && bytes[*at] >= '0' && bytes[*at] <= '9')
		number = number * 10 + (bytes[(*at)++] - '0');
	return number;
}

void rendered_page(struct rendered *out, const char *folder, const char *pdf, int page)
{
	char path[SCRATCH_ROOM], number[16], dpi[16], *bytes;
	const char *const argv[] = { "pdftoppm", "-gray", "-r",	  dpi, "-f",
				     number,	 "-l",	  number, pdf, NULL };
	size_t size, at = 2;

	(void)snprintf(number, sizeof number, "%d", page);
	(void)snprintf(dpi, sizeof dpi, "%d", RENDERED_DPI);
	run(argv, scratch_path(path, folder, "page.pgm"));
	assert_int_equal(text_file_read(&bytes, &size, path, IMAGE_BYTES_MOST, NULL), 0);
	assert_memory_equal(bytes, "P5", 2);
	out->width = head_number(bytes, size, &at);
	out->height = head_number(bytes, size, &at);
	assert_int_equal(head_number(bytes, size, &at), 255);
	at++;
	assert_int_equal(size - at, (size_t)out->width * (size_t)out->height);
	out->bytes = bytes;
	out->grey = (unsigned char *)bytes + at;
}

void rendered_free(struct rendered *image)
{
	free(image->bytes);
	*image = (struct rendered){ 0 };
}

double rendered_ink(const struct rendered *image, int x, int y)
{
	if (x < 0 || y < 0 || x >= image->width || y >= image->height)
		return 0.0;
	double grey = image->grey[(size_t)y * (size_t)image->width + (size_t)x];
	return fmin(1.0, (255.0 - grey) / (255.0 - INK_GREY));
}

static int pixel_of(double place_mm)
{
	return (int)floor(place_mm * RENDERED_PIXELS_PER_MM);
}

size_t rendered_strokes(const struct rendered *image, double x0, double y0, double x1, double y1,
			size_t room, double *at_mm)
{
	bool upright = fabs(y1 - y0) > fabs(x1 - x0);
	int from = pixel_of(upright ? y0 : x0), to = pixel_of(upright ? y1 : x1);
	int across = pixel_of(upright ? x0 : y0), step = to >= from ? 1 : -1;
	double begin = upright ? y0 : x0, weight = 0.0, sum = 0.0;
	size_t count = 0;

	for (int i = from; i != to + step; i += step) {
		double ink = upright ? rendered_ink(image, across, i)
				     : rendered_ink(image, i, across);
		if (ink > STROKE_INK) {
			weight += ink;
			sum += ink * (i + 0.5) / RENDERED_PIXELS_PER_MM;
			continue;
		}
		if (weight > 0.0 && count < room)
			at_mm[count++] = fabs(sum / weight - begin);
		weight = sum = 0.0;
	}
	return count;
}

double rendered_first_stroke(const struct rendered *image, double x0, double y0, double x1,
			     double y1)
{
	double at = NAN;

	if (rendered_strokes(image, x0, y0, x1, y1, 1, &at) == 0)
		fail_msg("no stroke from (%.1f, %.1f) to (%.1f, %.1f)", x0, y0, x1, y1);
	return at;
}

double rendered_longest_run(const struct rendered *image, bool upright, double at_mm,
			    double *from_mm)
{
	int across = pixel_of(at_mm), end = upright ? image->height : image->width;
	int run_from = 0, longest = 0;

	for (int i = 0; i <= end; i++) {
		double ink = upright ? rendered_ink(image, across, i)
				     : rendered_ink(image, i, across);
		if (ink > STROKE_INK)
			continue;
		if (i - run_from > longest) {
			longest = i - run_from;
			*from_mm = run_from / RENDERED_PIXELS_PER_MM;
		}
		run_from = i + 1;
	}
	return longest / RENDERED_PIXELS_PER_MM;
}
