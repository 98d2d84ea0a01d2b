/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/beside_tables.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "support/sample_beside.h"
#include "support/sampled.h"

static void assert_has(const struct markup *out, const char *part)
{
	if (!out->text || !strstr(out->text, part))
		fail_msg("no \"%s\" in: %s", part, out->text ? out->text : "");
}

static void figures_are_those_of_the_result(void **state)
{
	struct sampled *sample = *state;
	struct markup out = { 0 };

	sample_beside(&sample->result);
	beside_tables(&out, &sample->job, &sample->result);
	assert_int_equal(markup_fault(&out, NULL), FAULT_NONE);
	assert_has(&out, "a channel of 16.50 mm (0.650 in)");
	assert_has(&out, "bass side from \xe2\x88\x92"
			 "30.5 to 356.5 mm");
	assert_has(&out, "<th scope=\"row\">treble side</th><td class=\"number\">61.5</td>"
			 "<td class=\"number\">8.25</td>");
	assert_has(&out, "tallest 5.87 mm (0.231 in)");
	assert_has(&out, "5.43 cm\xc2\xb3 in all");
	assert_has(&out, "A skin of 0.75 mm (0.030 in)");
	assert_has(&out, "<th scope=\"row\">nut</th><td class=\"number\">3.00</td>"
			 "<td class=\"number\">2.00</td><td class=\"number\">3.50</td>");
	assert_string_equal(out.text + out.size - strlen("</div>\n</section>\n"),
			    "</div>\n</section>\n");
	markup_free(&out);
}

static void nothing_stands_nothing_is_said(void **state)
{
	struct sampled *sample = *state;
	struct markup out = { 0 };

	beside_tables(&out, &sample->job, &sample->result);
	assert_int_equal(out.size, 0);
	markup_free(&out);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_setup_teardown(figures_are_those_of_the_result, sampled_setup,
						sampled_teardown),
		cmocka_unit_test_setup_teardown(nothing_stands_nothing_is_said, sampled_setup,
						sampled_teardown),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
