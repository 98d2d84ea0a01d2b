/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files that include files. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cmocka.h>

#include "base/mem.h"
#include "config/source.h"
#include "support/scratch.h"

static enum fault read_main(struct source_list *list, const char *folder, struct fault_list *faults)
{
	char path[SCRATCH_ROOM];

	*list = (struct source_list){ 0 };
	*faults = (struct fault_list){ 0 };
	return source_list_read(list, scratch_path(path, folder, "main.cfg"), faults);
}

static void make_folder(const char *folder, const char *name)
{
	char path[SCRATCH_ROOM];

	assert_int_equal(mkdir(scratch_path(path, folder, name), 0755), 0);
}

/* Reads main.cfg and checks that there is one fault, in file `name` at that
 * line and in these words. */
static void assert_refused(const char *folder, enum fault code, const char *name, int line,
			   const char *words)
{
	struct source_list list;
	struct fault_list faults;
	char path[SCRATCH_ROOM];

	assert_int_equal(read_main(&list, folder, &faults), code);
	if (faults.count != 1 || !strstr(faults.record[0].message, words))
		print_message("%zu: %s\n", faults.count, faults.record[0].message);
	assert_int_equal(faults.count, 1);
	assert_string_equal(faults.record[0].file, scratch_path(path, folder, name));
	assert_int_equal(faults.record[0].line, line);
	assert_non_null(strstr(faults.record[0].message, words));
	source_list_free(&list);
}

static int number_in(const struct source_list *list, size_t i, const char *name)
{
	int value = -1;

	(void)config_lookup_int(&list->source[i]->parsed, name, &value);
	return value;
}

static void one_file(void **state)
{
	struct source_list list;
	struct fault_list faults;

	/* SHA-256 of these seven bytes, from sha256sum of GNU coreutils */
	scratch_write(*state, "main.cfg", "a = 1;\n");
	assert_int_equal(read_main(&list, *state, &faults), FAULT_NONE);
	assert_int_equal(list.count, 1);
	assert_int_equal(number_in(&list, 0, "a"), 1);
	assert_string_equal(list.digest,
			    "78a5f362a48ff6a0e33f661e9ca18abf2ad6f9c621988c4c83f9135714d76f1e");
	source_list_free(&list);
	source_list_free(NULL);
}

static void includes_count_from_their_own_folder(void **state)
{
	struct source_list list;
	struct fault_list faults;

	make_folder(*state, "shop");
	make_folder(*state, "shop/more");
	scratch_write(*state, "main.cfg", "@include \"shop/one.cfg\"\na = 1;\n");
	scratch_write(*state, "shop/one.cfg", "b = 2;\n@include \"more/two.cfg\"\n");
	scratch_write(*state, "shop/more/two.cfg", "@include \"../../three.cfg\"\nc = 3;\n");
	scratch_write(*state, "three.cfg", "d = 4;\n");
	assert_int_equal(read_main(&list, *state, &faults), FAULT_NONE);
	assert_int_equal(list.count, 4);
	assert_int_equal(number_in(&list, 0, "a"), 1);
	assert_int_equal(number_in(&list, 1, "b"), 2);
	assert_int_equal(number_in(&list, 2, "c"), 3);
	assert_int_equal(number_in(&list, 3, "d"), 4);
	/* sha256sum over the four files in this order, as cat gives them */
	assert_string_equal(list.digest,
			    "2c0e7e0a84539adead72509f5722186eb6be606c286d7a2616d2cc862ae46a5a");
	source_list_free(&list);
}

static void absolute_path(void **state)
{
	struct source_list list;
	struct fault_list faults;
	char path[SCRATCH_ROOM], text[SCRATCH_ROOM + 32];

	scratch_write(*state, "b.cfg", "b = 2;\n");
	(void)snprintf(text, sizeof text, "@include \"%s\"\n", scratch_path(path, *state, "b.cfg"));
	scratch_write(*state, "main.cfg", text);
	assert_int_equal(read_main(&list, *state, &faults), FAULT_NONE);
	assert_int_equal(number_in(&list, 1, "b"), 2);
	source_list_free(&list);
}

static void twice_included_is_read_once(void **state)
{
	struct source_list list;
	struct fault_list faults;

	scratch_write(*state, "main.cfg", "@include \"b.cfg\"\n@include \"c.cfg\"\n");
	scratch_write(*state, "b.cfg", "@include \"./c.cfg\"\n");
	scratch_write(*state, "c.cfg", "c = 3;\n");
	assert_int_equal(read_main(&list, *state, &faults), FAULT_NONE);
	assert_int_equal(list.count, 3);
	source_list_free(&list);
}

static void circles(void **state)
{
	scratch_write(*state, "main.cfg", "a = 1;\n@include \"main.cfg\"\n");
	assert_refused(*state, FAULT_FILE, "main.cfg", 2, "includes this one");
	scratch_write(*state, "main.cfg", "@include \"b.cfg\"\n");
	scratch_write(*state, "b.cfg", "b = 1;\n\n@include \"c.cfg\"\n");
	scratch_write(*state, "c.cfg", "@include \"main.cfg\"\n");
	assert_refused(*state, FAULT_FILE, "c.cfg", 1, "includes this one");
}

static void too_deep(void **state)
{
	struct source_list list;
	struct fault_list faults;
	char name[16], text[64];

	scratch_write(*state, "main.cfg", "@include \"f1.cfg\"\n");
	for (int i = 1; i <= SOURCE_DEPTH_MAX; i++) {
		(void)snprintf(name, sizeof name, "f%d.cfg", i);
		(void)snprintf(text, sizeof text, "@include \"f%d.cfg\"\n", i + 1);
		scratch_write(*state, name, i < SOURCE_DEPTH_MAX ? text : "z = 1;\n");
	}
	assert_int_equal(read_main(&list, *state, &faults), FAULT_NONE);
	assert_int_equal(list.count, SOURCE_DEPTH_MAX + 1);
	source_list_free(&list);
	scratch_write(*state, "f8.cfg", "@include \"f9.cfg\"\n");
	scratch_write(*state, "f9.cfg", "z = 1;\n");
	assert_refused(*state, FAULT_FILE, "f8.cfg", 1, "at most 8 deep");
}

static void too_many(void **state)
{
	struct source_list list;
	struct fault_list faults;
	char name[16], text[2048] = "", other[2048] = "@include \"other.cfg\"\n";

	for (int i = 0; i < 31; i++) {
		(void)snprintf(name, sizeof name, "f%d.cfg", i);
		scratch_write(*state, name, "z = 1;\n");
		(void)snprintf(strchr(i < 15 ? other : text, '\0'), 32, "@include \"%s\"\n", name);
	}
	scratch_write(*state, "main.cfg", other);
	scratch_write(*state, "other.cfg", text);
	assert_int_equal(read_main(&list, *state, &faults), FAULT_FILE);
	assert_int_equal(faults.count, 1);
	assert_non_null(strstr(faults.record[0].message, "at most 32 files"));
	assert_int_equal(list.count, SOURCE_FILES_MAX);
	source_list_free(&list);
}

static void unusable_main_file(void **state)
{
	struct source_list list;
	struct fault_list faults;
	char path[SCRATCH_ROOM], endless[FAULT_FILE_MAX + 2];

	assert_refused(*state, FAULT_FILE, "main.cfg", 0, "No such file");
	make_folder(*state, "main.cfg");
	assert_refused(*state, FAULT_FILE, "main.cfg", 0, "folder");
	assert_int_equal(rmdir(scratch_path(path, *state, "main.cfg")), 0);
	assert_int_equal(mkfifo(path, 0600), 0);
	assert_refused(*state, FAULT_FILE, "main.cfg", 0, "pipe");
	memset(endless, 'p', sizeof endless - 1);
	endless[sizeof endless - 1] = '\0';
	list = (struct source_list){ 0 };
	faults = (struct fault_list){ 0 };
	assert_int_equal(source_list_read(&list, endless, &faults), FAULT_FILE);
	assert_int_equal(faults.count, 1);
	source_list_free(&list);
}

static void unusable_includes(void **state)
{
	char path[SCRATCH_ROOM];

	scratch_write(*state, "main.cfg", "a = 1;\n\n@include \"no.cfg\"\n");
	assert_refused(*state, FAULT_FILE, "main.cfg", 3, "No such file");
	make_folder(*state, "no.cfg");
	assert_refused(*state, FAULT_FILE, "main.cfg", 3, "folder");
	assert_int_equal(rmdir(scratch_path(path, *state, "no.cfg")), 0);
	scratch_write(*state, "no.cfg", "");
	assert_refused(*state, FAULT_SETTING, "no.cfg", 0, "empty");
	if (geteuid() == 0)
		return; /* who may read everything cannot be refused */
	scratch_write(*state, "no.cfg", "b = 1;\n");
	assert_int_equal(chmod(path, 0), 0);
	assert_refused(*state, FAULT_FILE, "main.cfg", 3, "ermission");
}

static void empty_files(void **state)
{
	scratch_write(*state, "main.cfg", "");
	assert_refused(*state, FAULT_SETTING, "main.cfg", 0, "empty");
	scratch_write(*state, "main.cfg", "# nothing\n\n/* either */\n");
	assert_refused(*state, FAULT_SETTING, "main.cfg", 0, "empty");
}

static void too_large(void **state)
{
	struct source_list list;
	struct fault_list faults;
	char *text = mem_array(SOURCE_BYTES_MAX + 2, 1);

	assert_non_null(text);
	memset(text, ' ', SOURCE_BYTES_MAX + 1);
	memcpy(text, "a = 1;", 6);
	text[SOURCE_BYTES_MAX] = '\0';
	scratch_write(*state, "main.cfg", text);
	assert_int_equal(read_main(&list, *state, &faults), FAULT_NONE);
	source_list_free(&list);
	text[SOURCE_BYTES_MAX] = ' ';
	scratch_write(*state, "main.cfg", text);
	assert_refused(*state, FAULT_FILE, "main.cfg", 0, "larger than");
	free(text);
}

static void syntax_faults(void **state)
{
	scratch_write(*state, "main.cfg", "a = 1;\nb = ;\n");
	assert_refused(*state, FAULT_SETTING, "main.cfg", 2, "\"b = ;\"");
	scratch_write(*state, "main.cfg", "a = 1;\n@include \"b.cfg\"\n");
	scratch_write(*state, "b.cfg", "\n\n   g = { a = 1; a = 2; };   \n");
	assert_refused(*state, FAULT_SETTING, "b.cfg", 3, "stands here already");
	scratch_write(*state, "b.cfg", "a = [0, 25.4];\n");
	assert_refused(*state, FAULT_SETTING, "b.cfg", 1, "( ) takes both");
	scratch_write(*state, "b.cfg", "a = {\n");
	assert_refused(*state, FAULT_SETTING, "b.cfg", 2, "name = value;");
}

static void faults_of_several_files_come_at_once(void **state)
{
	struct source_list list;
	struct fault_list faults;

	scratch_write(*state, "main.cfg",
		      "@include \"no.cfg\"\n@include \"b.cfg\"\n@include \"c.cfg\"\n");
	scratch_write(*state, "b.cfg", "b = ;\n");
	scratch_write(*state, "c.cfg", "c = \"\n");
	assert_int_equal(read_main(&list, *state, &faults), FAULT_FILE);
	assert_int_equal(faults.count, 3);
	source_list_free(&list);
}

#define SCRATCH_TEST(test) cmocka_unit_test_setup_teardown(test, scratch_make, scratch_remove)

int main(void)
{
	const struct CMUnitTest tests[] = {
		SCRATCH_TEST(one_file),
		SCRATCH_TEST(includes_count_from_their_own_folder),
		SCRATCH_TEST(absolute_path),
		SCRATCH_TEST(twice_included_is_read_once),
		SCRATCH_TEST(circles),
		SCRATCH_TEST(too_deep),
		SCRATCH_TEST(too_many),
		SCRATCH_TEST(unusable_main_file),
		SCRATCH_TEST(unusable_includes),
		SCRATCH_TEST(empty_files),
		SCRATCH_TEST(too_large),
		SCRATCH_TEST(syntax_faults),
		SCRATCH_TEST(faults_of_several_files_come_at_once),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}
