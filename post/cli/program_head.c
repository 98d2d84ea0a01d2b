/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/program_head.h"

#include <math.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "program/checklist.h"
#include "report/words.h"

#define LINE_MAX_BYTES 512

static char *copy_text(const char *text)
{
	size_t size = strlen(text) + 1;
	char *copy = mem_array(size, 1);

	if (copy)
		memcpy(copy, text, size);
	return copy;
}

static enum fault add_line(struct head_text *head, struct fault_list *faults, const char *format,
			   ...) __attribute__((format(printf, 3, 4)));

static enum fault add_line(struct head_text *head, struct fault_list *faults, const char *format,
			   ...)
{
	char text[LINE_MAX_BYTES];
	va_list args;

	va_start(args, format);
	(void)vsnprintf(text, sizeof text, format, args);
	va_end(args);
	char **grown = mem_grow(head->line, &head->capacity, head->count + 1, sizeof *grown);
	if (!grown)
		return fault_no_memory(faults, "the program's head");
	head->line = grown;
	head->line[head->count] = copy_text(text);
	if (!head->line[head->count])
		return fault_no_memory(faults, "the program's head");
	head->count++;
	return FAULT_NONE;
}

/* Bounds of all moves once every axis is known. */
static void find_bounds(const struct motion_list *motions, struct vec3 *least, struct vec3 *most)
{
	*least = vec3_make(INFINITY, INFINITY, INFINITY);
	*most = vec3_make(-INFINITY, -INFINITY, -INFINITY);
	for (size_t i = 0; i < motions->count; i++) {
		const struct motion *motion = &motions->item[i];
		if (!motion_moves(motion) || motion->known != KNOWN_ALL)
			continue;
		least->x = fmin(least->x, motion->to.x);
		least->y = fmin(least->y, motion->to.y);
		least->z = fmin(least->z, motion->to.z);
		most->x = fmax(most->x, motion->to.x);
		most->y = fmax(most->y, motion->to.y);
		most->z = fmax(most->z, motion->to.z);
	}
}

static enum fault add_bounds(struct head_text *head, const struct job *job,
			     const struct motion_list *motions, struct fault_list *faults)
{
	bool inch = job->machine.program_unit == UNIT_INCH;
	double unit = units_mm_per(job->machine.program_unit);
	const char *name = inch ? "in" : "mm";
	struct vec3 least, most;

	find_bounds(motions, &least, &most);
	return add_line(head, faults, "bounds %s: X %.2f to %.2f, Y %.2f to %.2f, Z %.2f to %.2f",
			name, least.x / unit, most.x / unit, least.y / unit, most.y / unit,
			least.z / unit, most.z / unit);
}

/* The cutter, and which of several it is. */
static enum fault add_cutter(struct head_text *head, const struct job *job, size_t turn,
			     struct fault_list *faults)
{
	const struct cutter *cutter = &job->cutter[turn];
	char which[64] = "cutter";

	if (job->cutter_count > 1)
		(void)snprintf(which, sizeof which, "cutter %zu of %zu", turn + 1,
			       job->cutter_count);
	return add_line(head, faults, "%s: %s, ball %.3f mm, stickout at least %.1f mm", which,
			cutter->name, cutter->ball_diameter_mm, cutter->stickout_mm);
}

/* Where zero lies, in figures, and in the builder's words when it was stated so. */
static enum fault add_zero(struct head_text *head, const struct job *job, struct fault_list *faults)
{
	const struct vec3 zero = job->fixture.work_zero_mm;
	char words[WORDS_ZERO_ROOM];
	enum fault fault = add_line(head, faults,
				    "zero: x %.2f mm from the nut, y %.2f mm from the centre line, "
				    "z %.2f mm above the gluing face",
				    zero.x, zero.y, zero.z);

	if (fault || !job->fixture.zero.by_words)
		return fault;
	words_zero(words, job);
	return add_line(head, faults, "%s", words);
}

/* A fretboard that is on changes what the work lies on: whoever sets up must know. */
static enum fault add_fretboard(struct head_text *head, const struct job *job,
				struct fault_list *faults)
{
	if (!job->fixture.fretboard.glued)
		return FAULT_NONE;
	return add_line(head, faults,
			"fretboard: glued on, face down; it rests %.2f mm below the gluing face",
			-job_rest_mm(job));
}

static enum fault add_facts(struct head_text *head, const struct job *job, size_t turn,
			    const char *title, double minutes, struct fault_list *faults)
{
	const struct allowance_spec *allowance = &job->neck.allowance;
	enum fault fault = add_line(head, faults, "%s", title);

	if (!fault)
		fault = add_line(head, faults, "neck: %s", job->neck.name);
	if (!fault)
		fault = add_cutter(head, job, turn, faults);
	if (!fault)
		fault = add_zero(head, job, faults);
	if (!fault)
		fault = add_fretboard(head, job, faults);
	if (!fault)
		fault = add_line(head, faults, "axes: x toward the body, +y is the %s side, z up",
				 job->neck.hand == HAND_RIGHT ? "bass" : "treble");
	if (!fault)
		fault = add_line(head, faults,
				 "hand-finish stock mm: back %.2f, sides %.2f, heel cheeks %.2f, "
				 "transitions %.2f",
				 allowance->back_mm, allowance->sides_mm, allowance->heel_cheeks_mm,
				 allowance->transitions_mm);
	if (!fault)
		fault = add_line(head, faults, "time: about %.0f min", ceil(minutes));
	if (!fault)
		fault = add_line(head, faults, "inputs: %s", job->digest);
	return fault;
}

/* What the operator must do or expect besides watching. */
static enum fault add_habits(struct head_text *head, const struct job *job,
			     const struct motion_list *motions, struct fault_list *faults)
{
	const struct machine *machine = &job->machine;
	const bool inch = machine->program_unit == UNIT_INCH;
	const double unit = units_mm_per(machine->program_unit);
	double rpm = 0.0;
	enum fault fault = FAULT_NONE;

	for (size_t i = 0; i < motions->count; i++)
		if (motions->item[i].kind == MOTION_SPINDLE_ON)
			rpm = motions->item[i].spindle_rpm;
	if (rpm > 0.0 && machine->reads.spindle == SPINDLE_BY_HAND)
		fault = add_line(head, faults,
				 "spindle: the program stops at the beginning for you to switch it "
				 "on, %.0f rpm, and at the end to switch it off",
				 rpm);
	if (!fault && machine->parks)
		fault = add_line(head, faults, "parks at X %.2f Y %.2f %s, above everything",
				 machine->park_x_mm / unit, machine->park_y_mm / unit,
				 inch ? "in" : "mm");
	return fault;
}

static enum fault add_checklist(struct head_text *head, struct fault_list *faults)
{
	size_t count;
	const char *const *lines = safety_checklist(&count);
	enum fault fault = add_line(head, faults, "before you start:");

	for (size_t i = 0; i < count && !fault; i++)
		fault = add_line(head, faults, "%s", lines[i]);
	return fault;
}

static enum fault make_labels(struct head_text *head, const struct plan *plan,
			      struct fault_list *faults)
{
	char text[LINE_MAX_BYTES];

	head->label = mem_array(plan->pass_count, sizeof *head->label);
	if (!head->label)
		return fault_no_memory(faults, "the program's head");
	head->label_count = plan->pass_count;
	for (size_t i = 0; i < plan->pass_count; i++) {
		(void)snprintf(text, sizeof text, "pass %zu of %zu: %s to Z %.2f mm", i + 1,
			       plan->pass_count, pass_kind_name(plan->pass[i].kind),
			       plan->pass[i].level_mm);
		head->label[i] = copy_text(text);
		if (!head->label[i])
			return fault_no_memory(faults, "the program's head");
	}
	return FAULT_NONE;
}

enum fault program_head_make(struct head_text *out, const struct job *job, size_t turn,
			     const struct plan *plan, const struct motion_list *motions,
			     const char *title, double minutes, struct fault_list *faults)
{
	*out = (struct head_text){ 0 };
	enum fault fault = add_facts(out, job, turn, title, minutes, faults);
	if (!fault)
		fault = add_bounds(out, job, motions, faults);
	if (!fault)
		fault = add_habits(out, job, motions, faults);
	if (!fault)
		fault = add_checklist(out, faults);
	return fault ? fault : make_labels(out, plan, faults);
}

void program_head_free(struct head_text *head)
{
	for (size_t i = 0; i < head->count; i++)
		free(head->line[i]);
	for (size_t i = 0; head->label && i < head->label_count; i++)
		free(head->label[i]);
	free(head->line);
	free(head->label);
	*head = (struct head_text){ 0 };
}
