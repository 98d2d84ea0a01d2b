/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/fault.h"

static struct fault_list *new_list(void)
{
	struct fault_list *faults = calloc(1, sizeof *faults);

	assert_non_null(faults);
	return faults;
}

static void phrases_are_distinct(void **state)
{
	(void)state;
	for (int code = 0; code < FAULT_COUNT; code++) {
		const char *phrase = fault_phrase((enum fault)code);
		assert_non_null(phrase);
		assert_true(phrase[0] != '\0');
		for (int other = 0; other < code; other++)
			assert_string_not_equal(phrase, fault_phrase((enum fault)other));
	}
	assert_string_equal(fault_phrase(FAULT_SETTING), "bad setting");
	assert_string_equal(fault_phrase(FAULT_COUNT), "unknown fault");
	assert_string_equal(fault_phrase((enum fault) - 1), "unknown fault");
}

static void record_holds_all(void **state)
{
	(void)state;
	struct fault_list *faults = new_list();
	enum fault fault = fault_add(faults, FAULT_SETTING, "neck.cfg", 12, "nut_width",
				     "The nut is %d mm wide, %s.", 400, "too much");

	assert_int_equal(fault, FAULT_SETTING);
	assert_int_equal(faults->count, 1);
	assert_int_equal(faults->more, 0);
	assert_int_equal(faults->record[0].code, FAULT_SETTING);
	assert_int_equal(faults->record[0].line, 12);
	assert_string_equal(faults->record[0].file, "neck.cfg");
	assert_string_equal(faults->record[0].setting, "nut_width");
	assert_string_equal(faults->record[0].message, "The nut is 400 mm wide, too much.");
	free(faults);
}

static void nothing_to_blame(void **state)
{
	(void)state;
	struct fault_list *faults = new_list();

	assert_int_equal(fault_add(faults, FAULT_PLAN, NULL, 0, NULL, "No way."), FAULT_PLAN);
	assert_string_equal(faults->record[0].file, "");
	assert_string_equal(faults->record[0].setting, "");
	assert_int_equal(faults->record[0].line, 0);
	free(faults);
}

static void no_list_is_fine(void **state)
{
	(void)state;
	assert_int_equal(fault_add(NULL, FAULT_FILE, "a", 1, "b", "c %d", 1), FAULT_FILE);
	assert_int_equal(fault_no_memory(NULL, "anything"), FAULT_MEMORY);
}

static void full_list_counts_on(void **state)
{
	(void)state;
	struct fault_list *faults = new_list();

	for (int i = 0; i < FAULT_LIST_MAX + 5; i++)
		assert_int_equal(fault_add(faults, FAULT_GEOMETRY, NULL, i, NULL, "Fault %d.", i),
				 FAULT_GEOMETRY);
	assert_int_equal(faults->count, FAULT_LIST_MAX);
	assert_int_equal(faults->more, 5);
	assert_string_equal(faults->record[0].message, "Fault 0.");
	assert_int_equal(faults->record[FAULT_LIST_MAX - 1].line, FAULT_LIST_MAX - 1);
	free(faults);
}

/* A filled buffer must end inside its own field. */
static void long_text_is_cut(void **state)
{
	(void)state;
	struct fault_list *faults = new_list();
	char text[2048];

	memset(text, 'x', sizeof text - 1);
	text[sizeof text - 1] = '\0';
	(void)fault_add(faults, FAULT_FILE, text, 1, text, "%s", text);
	const struct fault_record *record = &faults->record[0];
	assert_int_equal(strlen(record->file), FAULT_FILE_MAX - 1);
	assert_int_equal(strlen(record->setting), FAULT_SETTING_MAX - 1);
	assert_int_equal(strlen(record->message), FAULT_MESSAGE_MAX - 1);
	assert_int_equal(record->line, 1);
	free(faults);
}

/* Text from files is never taken as a format. */
static void percent_signs_stay(void **state)
{
	(void)state;
	struct fault_list *faults = new_list();

	(void)fault_add(faults, FAULT_FILE, "%s%n.cfg", 0, "%d", "%s", "100 %n");
	assert_string_equal(faults->record[0].file, "%s%n.cfg");
	assert_string_equal(faults->record[0].setting, "%d");
	assert_string_equal(faults->record[0].message, "100 %n");
	free(faults);
}

static void memory_shorthand(void **state)
{
	(void)state;
	struct fault_list *faults = new_list();

	assert_int_equal(fault_no_memory(faults, "the map"), FAULT_MEMORY);
	assert_int_equal(faults->record[0].code, FAULT_MEMORY);
	assert_string_equal(faults->record[0].message, "No memory left for the map.");
	free(faults);
}

static void lists_are_joined_as_far_as_there_is_room(void **state)
{
	static struct fault_list to, from;

	(void)state;
	to = (struct fault_list){ 0 };
	from = (struct fault_list){ 0 };
	(void)fault_add(&to, FAULT_FILE, "a", 1, NULL, "first");
	(void)fault_add(&from, FAULT_PLAN, "b", 2, NULL, "second");
	fault_list_append(&to, &from);
	assert_int_equal(to.count, 2);
	assert_int_equal(to.record[1].code, FAULT_PLAN);
	assert_string_equal(to.record[1].message, "second");
	for (int i = 0; i < FAULT_LIST_MAX; i++)
		fault_list_append(&to, &from);
	assert_int_equal(to.count, FAULT_LIST_MAX);
	assert_int_equal(to.more, 2);
}

static void the_first_code_is_kept(void **state)
{
	(void)state;
	enum fault first = FAULT_NONE;

	fault_keep(&first, FAULT_NONE);
	assert_int_equal(first, FAULT_NONE);
	fault_keep(&first, FAULT_PLAN);
	fault_keep(&first, FAULT_FILE);
	fault_keep(&first, FAULT_NONE);
	assert_int_equal(first, FAULT_PLAN);
}

static void lengths_must_be_positive(void **state)
{
	(void)state;
	static const double bad[] = { 0.0, -1.0, INFINITY, NAN };
	struct fault_list faults = { 0 };

	assert_int_equal(fault_unless_positive(&faults, "neck.width", 1e-3), FAULT_NONE);
	assert_int_equal(faults.count, 0);
	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
		assert_int_equal(fault_unless_positive(&faults, "neck.width", bad[i]),
				 FAULT_SETTING);
	assert_int_equal(faults.count, 4);
	assert_string_equal(faults.record[1].setting, "neck.width");
	assert_string_equal(faults.record[1].message, "It is -1 mm; it must be more than 0.");
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(lists_are_joined_as_far_as_there_is_room),
		cmocka_unit_test(phrases_are_distinct),
		cmocka_unit_test(record_holds_all),
		cmocka_unit_test(nothing_to_blame),
		cmocka_unit_test(no_list_is_fine),
		cmocka_unit_test(full_list_counts_on),
		cmocka_unit_test(long_text_is_cut),
		cmocka_unit_test(percent_signs_stay),
		cmocka_unit_test(memory_shorthand),
		cmocka_unit_test(the_first_code_is_kept),
		cmocka_unit_test(lengths_must_be_positive),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
