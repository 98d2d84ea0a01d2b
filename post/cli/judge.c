/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/judge.h"

#include <stdlib.h>

#include "base/mem.h"
#include "files/text_file.h"
#include "program/read.h"

/* No program that a router is fed is larger; more would only fill memory. */
#define PROGRAM_MOST_BYTES ((size_t)256 * 1024 * 1024)

/* What was read of the files; index by program. */
struct readings {
	size_t count;
	struct motion_list *motions;
	struct read_fault *form;
	struct proof_program *program;
};

static int count_lines(const char *text, size_t size)
{
	int lines = 0;

	for (size_t i = 0; i < size; i++)
		lines += text[i] == '\n' || i + 1 == size;
	return lines;
}

/* What the strict reader makes of a text. */
static enum fault read_text(struct readings *readings, int *blocks, size_t i, const char *text,
			    size_t size, const struct judge_program *program,
			    const struct machine *machine, struct fault_list *faults)
{
	*blocks = count_lines(text, size);
	enum fault fault = program_read(&readings->motions[i], text, size, program->name, machine,
					&readings->form[i], NULL);
	if (fault && fault != FAULT_PROGRAM)
		return fault_add(faults, fault, program->path, 0, NULL,
				 "This program could not be read.");
	readings->program[i] = (struct proof_program){
		.file = program->name,
		.cutter = program->cutter,
		.motions = fault ? NULL : &readings->motions[i],
		.form_block = fault ? readings->form[i].block : 0,
		.form_why = fault ? readings->form[i].why : NULL,
		.pass_count = program->pass_count,
		.pass_first_block = program->pass_first_block,
	};
	return FAULT_NONE;
}

static enum fault read_file(struct readings *readings, int *blocks, size_t i,
			    const struct judge_program *program, const struct machine *machine,
			    struct fault_list *faults)
{
	char *text;
	size_t size;
	enum fault fault = text_file_read(&text, &size, program->path, PROGRAM_MOST_BYTES, faults);

	if (fault)
		return fault;
	fault = read_text(readings, blocks, i, text, size, program, machine, faults);
	free(text);
	return fault;
}

static void free_readings(struct readings *readings)
{
	for (size_t i = 0; readings->motions && i < readings->count; i++)
		motion_list_free(&readings->motions[i]);
	free(readings->motions);
	free(readings->form);
	free(readings->program);
}

static enum fault make_readings(struct readings *readings, struct judgement *out, size_t count,
				struct fault_list *faults)
{
	*readings = (struct readings){ .count = count,
				       .motions = mem_array(count, sizeof *readings->motions),
				       .form = mem_array(count, sizeof *readings->form),
				       .program = mem_array(count, sizeof *readings->program) };
	*out = (struct judgement){ .program_count = count,
				   .blocks = mem_array(count, sizeof *out->blocks) };
	return readings->motions && readings->form && readings->program && out->blocks
		       ? FAULT_NONE
		       : fault_no_memory(faults, "the programs");
}

enum fault judge_programs(struct judgement *out, const struct judge_program *programs, size_t count,
			  const struct job *job, const struct neck *neck,
			  const struct facets *facets, const struct watch *watch,
			  struct fault_list *faults)
{
	struct readings readings;
	enum fault fault = make_readings(&readings, out, count, faults);

	for (size_t i = 0; i < count && !fault; i++)
		fault = read_file(&readings, &out->blocks[i], i, &programs[i], &job->machine,
				  faults);
	if (!fault)
		fault = proof_judge(&out->verdict, &out->record, job, neck, facets,
				    readings.program, count, watch, faults);
	free_readings(&readings);
	return fault;
}

enum fault judge_texts(struct judgement *out, const struct judge_text *texts, size_t count,
		       const struct job *job, const struct neck *neck, const struct facets *facets,
		       const struct watch *watch, struct fault_list *faults)
{
	struct readings readings;
	enum fault fault = make_readings(&readings, out, count, faults);

	for (size_t i = 0; i < count && !fault; i++)
		fault = read_text(&readings, &out->blocks[i], i, texts[i].bytes, texts[i].size,
				  &texts[i].about, &job->machine, faults);
	if (!fault)
		fault = proof_judge(&out->verdict, &out->record, job, neck, facets,
				    readings.program, count, watch, faults);
	free_readings(&readings);
	return fault;
}

void judge_free(struct judgement *judgement)
{
	proof_record_free(&judgement->record);
	free(judgement->blocks);
	*judgement = (struct judgement){ 0 };
}
