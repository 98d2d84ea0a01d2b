/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/template.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static const struct template_slot slots[] = {
	{ "title", "Neck {{digest}} }}", 18 },
	{ "digest", "0f1e", 4 },
	{ "none", NULL, 0 },
};

#define SLOTS (sizeof slots / sizeof slots[0])

static enum fault fill(struct markup *out, const char *template, struct fault_list *faults)
{
	return template_fill(out, template, strlen(template), SLOTS, slots, faults);
}

static void gaps_are_filled_and_fillings_left_alone(void **state)
{
	struct markup out = { 0 };

	(void)state;
	assert_int_equal(fill(&out, "{{title}}<p>{{digest}}{{none}}{{digest}}</p> { } {x}", NULL),
			 FAULT_NONE);
	assert_string_equal(out.text, "Neck {{digest}} }}<p>0f1e0f1e</p> { } {x}");
	markup_free(&out);
}

/* The template fails, and the message names what is to blame. */
static void assert_refused(const char *template, const char *words)
{
	struct markup out = { 0 };
	struct fault_list faults = { 0 };

	assert_int_equal(fill(&out, template, &faults), FAULT_INTERNAL);
	assert_int_equal(faults.count, 1);
	assert_non_null(strstr(faults.record[0].message, words));
	markup_free(&out);
}

static void a_gap_without_a_filling_is_a_fault(void **state)
{
	(void)state;
	assert_refused("{{title}}{{digest}}{{none}}{{colour}}", "{{colour}}");
	assert_refused("{{title}}{{digest}}{{none}}{{}}", "{{}}");
	assert_refused("{{title}}{{digest}}{{none}}{{titl}}", "{{titl}}");
	assert_refused("{{title}}{{digest}}{{none}}{{titles}}", "{{titles}}");
	assert_refused("{{title}}{{digest}}{{none}}{{ title }}", "{{ title }}");
}

static void a_filling_without_a_gap_is_a_fault(void **state)
{
	(void)state;
	assert_refused("", "{{title}}");
	assert_refused("{{title}}{{none}}", "{{digest}}");
	assert_refused("{{title}}{{digest}}{none}", "{{none}}");
}

static void an_open_gap_is_a_fault(void **state)
{
	(void)state;
	assert_refused("{{title}}{{digest}}{{none}} {{title", "not closed");
	assert_refused("{{title}}{{digest}}{{none}} {{title}", "not closed");
	assert_refused("{{title}}{{digest}}{{none}} {{", "not closed");
}

/* A template need not end in a NUL: nothing beyond its size is read. */
static void the_size_counts(void **state)
{
	static const char text[] = "{{digest}}{{none}}{{title}}{{digest}}";
	struct markup out = { 0 };

	(void)state;
	assert_int_equal(template_fill(&out, text, 27, SLOTS, slots, NULL), FAULT_NONE);
	assert_string_equal(out.text, "0f1eNeck {{digest}} }}");
	assert_int_equal(template_fill(&out, text, 26, SLOTS, slots, NULL), FAULT_INTERNAL);
	char *exact = malloc(27);
	assert_non_null(exact);
	memcpy(exact, text, 27);
	assert_int_equal(template_fill(&out, exact, 27, SLOTS, slots, NULL), FAULT_NONE);
	free(exact);
	markup_free(&out);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(gaps_are_filled_and_fillings_left_alone),
		cmocka_unit_test(a_gap_without_a_filling_is_a_fault),
		cmocka_unit_test(a_filling_without_a_gap_is_a_fault),
		cmocka_unit_test(an_open_gap_is_a_fault),
		cmocka_unit_test(the_size_counts),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
