/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config/nearest.h"

#include <stdint.h>
#include <string.h>

#define WORD_MAX 63

/* Letter as compared: ASCII capitals become small, '-' becomes '_'. */
static char folded(char c)
{
	if (c >= 'A' && c <= 'Z')
		return (char)(c - 'A' + 'a');
	return c == '-' ? '_' : c;
}

static size_t least_of(size_t a, size_t b)
{
	return a < b ? a : b;
}

static size_t word_length(const char *word)
{
	const char *end = memchr(word, '\0', WORD_MAX);

	return end ? (size_t)(end - word) : WORD_MAX;
}

size_t nearest_distance(const char *a, const char *b)
{
	size_t before[WORD_MAX + 1] = { 0 }, above[WORD_MAX + 1], here[WORD_MAX + 1];
	size_t rows = word_length(a), columns = word_length(b);

	for (size_t j = 0; j <= columns; j++)
		above[j] = j;
	for (size_t i = 1; i <= rows; i++) {
		here[0] = i;
		for (size_t j = 1; j <= columns; j++) {
			char x = folded(a[i - 1]), y = folded(b[j - 1]);
			size_t replace = above[j - 1] + (x == y ? 0 : 1);
			here[j] = least_of(replace, least_of(above[j], here[j - 1]) + 1);
			if (i > 1 && j > 1 && x == folded(b[j - 2]) && folded(a[i - 2]) == y)
				here[j] = least_of(here[j], before[j - 2] + 1);
		}
		memcpy(before, above, sizeof before);
		memcpy(above, here, (columns + 1) * sizeof here[0]);
	}
	return above[columns];
}

size_t nearest_word(const char *wanted, size_t count,
		    const char *(*word)(const void *context, size_t i), const void *context)
{
	size_t best = count, best_distance = SIZE_MAX;

	for (size_t i = 0; i < count; i++) {
		size_t distance = nearest_distance(wanted, word(context, i));
		if (distance < best_distance) {
			best_distance = distance;
			best = i;
		}
	}
	return best;
}
