/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/load.h"

#include "config/read.h"

enum fault load_job(struct job *job, struct neck **neck, const char *path,
		    struct fault_list *faults)
{
	struct config_places places = { 0 };
	enum fault code = config_load(job, &places, path, faults);

	*neck = NULL;
	if (!code) {
		enum fault built = neck_build(neck, &job->neck, faults);
		enum fault checked = job_check(job, faults);
		config_place_faults(&places, faults);
		code = built ? built : checked;
	}
	config_places_free(&places);
	if (code) {
		neck_free(*neck);
		*neck = NULL;
	}
	return code;
}

static void print_fault(const struct fault_record *record, FILE *to)
{
	if (record->file[0] != '\0')
		(void)fprintf(to, "%s:", record->file);
	if (record->file[0] != '\0' && record->line > 0)
		(void)fprintf(to, "%d:", record->line);
	if (record->file[0] != '\0')
		(void)fputc(' ', to);
	if (record->setting[0] != '\0')
		(void)fprintf(to, "%s: ", record->setting);
	(void)fprintf(to, "%s\n", record->message);
}

void load_print_faults(const struct fault_list *faults, FILE *to)
{
	for (size_t i = 0; i < faults->count; i++)
		print_fault(&faults->record[i], to);
	if (faults->more > 0)
		(void)fprintf(to, "... and %zu more\n", faults->more);
}
