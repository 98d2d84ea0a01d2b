/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/known_lengths.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "cli/traced_points.h"
#include "config/utf8.h"
#include "files/plain_number.h"

#define WORD_ROOM 32

struct reading {
	const char *option;
	enum length_unit unit;
	double least_mm, most_mm;
	struct fault_list *faults;
};

static enum fault refuse(const struct reading *reading, const char *text)
{
	char plain[48];
	double per = units_mm_per(reading->unit);

	utf8_make_plain(plain, sizeof plain, text);
	return fault_add(reading->faults, FAULT_USAGE, NULL, 0, NULL,
			 "--%s is \"%s\"; it can be a length from %.5g to %.5g %s, or one for each "
			 "station such as nut=43.5,11=53.",
			 reading->option, plain, reading->least_mm / per, reading->most_mm / per,
			 reading->unit == UNIT_INCH ? "in" : "mm");
}

static bool read_length(const struct reading *reading, double *mm, const char *text, size_t length)
{
	double value;

	if (!plain_number(&value, text, length))
		return false;
	*mm = value * units_mm_per(reading->unit);
	return *mm >= reading->least_mm && *mm <= reading->most_mm;
}

/* One "FRET=LENGTH". */
static bool read_pair(const struct reading *reading, struct known_lengths *out, const char *text,
		      size_t length)
{
	const char *equals = memchr(text, '=', length);
	char word[WORD_ROOM];

	if (!equals || (size_t)(equals - text) >= sizeof word || out->count == NECK_STATIONS_MAX)
		return false;
	memcpy(word, text, (size_t)(equals - text));
	word[equals - text] = '\0';
	if (!traced_points_fret(&out->fret[out->count], word) ||
	    !read_length(reading, &out->mm[out->count], equals + 1,
			 length - (size_t)(equals + 1 - text)))
		return false;
	out->count++;
	return true;
}

enum fault known_lengths_read(struct known_lengths *out, const char *option, const char *text,
			      enum length_unit unit, double least_mm, double most_mm,
			      struct fault_list *faults)
{
	const struct reading reading = { option, unit, least_mm, most_mm, faults };

	*out = (struct known_lengths){ 0 };
	if (!text)
		return FAULT_NONE;
	if (!strchr(text, '='))
		return read_length(&reading, &out->everywhere_mm, text, strlen(text))
			       ? FAULT_NONE
			       : refuse(&reading, text);
	for (const char *at = text;; at++) {
		size_t length = strcspn(at, ",");
		if (!read_pair(&reading, out, at, length))
			return refuse(&reading, text);
		at += length;
		if (*at == '\0')
			return FAULT_NONE;
	}
}

double known_lengths_at(const struct known_lengths *known, double fret)
{
	for (size_t i = 0; i < known->count; i++)
		if (known->fret[i] == fret)
			return known->mm[i];
	return known->everywhere_mm;
}
