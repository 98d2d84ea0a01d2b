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

enum fault load_match_programs(const struct job *job, size_t count, struct fault_list *faults)
{
	if (job->cutter_count == 1 || count <= job->cutter_count)
		return FAULT_NONE;
	return fault_add(faults, FAULT_PROGRAM, NULL, 0, "use.then",
			 "%zu programs are given, but the job uses %zu cutters, each with one "
			 "program: give at most %zu, in the cutters' order.",
			 count, job->cutter_count, job->cutter_count);
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
