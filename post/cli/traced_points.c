/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/traced_points.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "files/number_table.h"
#include "files/plain_number.h"

/* No point of a section lies farther from the gauge's origin. */
#define POINT_MOST_MM 3000.0
#define FRET_MOST 36.0

enum { COLUMN_STATION, COLUMN_Y, COLUMN_Z, COLUMN_COUNT };

bool traced_points_fret(double *fret, const char *word)
{
	double read;

	if (strcmp(word, "nut") == 0 || strcmp(word, "Nut") == 0) {
		*fret = 0.0;
		return true;
	}
	if (strncmp(word, "fret", 4) == 0 || strncmp(word, "Fret", 4) == 0)
		for (word += 4; *word == ' ';)
			word++;
	if (!plain_number(&read, word, strlen(word)) || read < 0.0 || read > FRET_MOST)
		return false;
	*fret = read;
	return true;
}

/* Counts a point of a fret's station, which is put in its order when it is new. */
static enum fault count_station(struct traced_points *out, double fret, const char *path, int line,
				struct fault_list *faults)
{
	size_t i = 0;

	while (i < out->station_count && out->station[i].fret < fret)
		i++;
	if (i < out->station_count && out->station[i].fret == fret) {
		out->station[i].count++;
		return FAULT_NONE;
	}
	if (out->station_count == NECK_STATIONS_MAX)
		return fault_add(faults, FAULT_FILE, path, line, NULL,
				 "This is beyond the %d stations that a neck can have.",
				 NECK_STATIONS_MAX);
	for (size_t k = out->station_count++; k > i; k--)
		out->station[k] = out->station[k - 1];
	out->station[i].fret = fret;
	out->station[i].count = 1;
	return FAULT_NONE;
}

/* Frets of all rows in fret[], and the stations with their counts. */
static enum fault find_stations(struct traced_points *out, double *fret,
				const struct number_table *table, const char *path, double without,
				struct fault_list *faults)
{
	for (size_t i = 0; i < table->count; i++) {
		const struct number_row *row = &table->row[i];
		fret[i] = without;
		if (table->has[COLUMN_STATION] && !traced_points_fret(&fret[i], row->label))
			return fault_add(faults, FAULT_FILE, path, row->line, NULL,
					 "Found \"%s\"; a station is \"nut\", a fret's number, or "
					 "\"fret\" and a number, 0 to 36.",
					 row->label);
		enum fault fault = count_station(out, fret[i], path, row->line, faults);
		if (fault)
			return fault;
	}
	return FAULT_NONE;
}

/* Sorts the points by station; in each they keep the file's order. */
static void take_points(struct traced_points *out, const double *fret,
			const struct number_table *table, enum length_unit unit)
{
	double per = units_mm_per(unit);
	size_t used = 0;

	for (size_t s = 0; s < out->station_count; s++) {
		out->station[s].first = used;
		for (size_t i = 0; i < table->count; i++) {
			const struct number_row *row = &table->row[i];
			if (fret[i] != out->station[s].fret)
				continue;
			out->point[used++] =
				(struct trace_point){ .y_mm = row->value[COLUMN_Y] * per,
						      .z_mm = row->value[COLUMN_Z] * per,
						      .line = row->line };
		}
	}
}

enum fault traced_points_read(struct traced_points *out, const char *path, enum length_unit unit,
			      double fret, struct fault_list *faults)
{
	double most = POINT_MOST_MM / units_mm_per(unit);
	const struct number_column columns[COLUMN_COUNT] = {
		[COLUMN_STATION] = { .name = "station", .may_lack = true, .label = true },
		[COLUMN_Y] = { .name = "y", .least = -most, .most = most },
		[COLUMN_Z] = { .name = "z", .least = -most, .most = most },
	};
	struct number_table table;

	*out = (struct traced_points){ 0 };
	enum fault fault = number_table_read(&table, path, columns, COLUMN_COUNT, faults);
	if (fault)
		return fault;
	double *frets = mem_array(table.count, sizeof *frets);
	out->point = mem_array(table.count, sizeof *out->point);
	if (!frets || !out->point) {
		fault = fault_no_memory(faults, "the points");
		goto cleanup;
	}
	fault = find_stations(out, frets, &table, path, fret, faults);
	if (!fault)
		take_points(out, frets, &table, unit);
cleanup:
	free(frets);
	number_table_free(&table);
	return fault;
}

void traced_points_free(struct traced_points *points)
{
	free(points->point);
	*points = (struct traced_points){ 0 };
}
