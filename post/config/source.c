/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config/source.h"

#include <nettle/base16.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/mem.h"
#include "config/scan.h"
#include "config/utf8.h"
#include "files/text_file.h"

#define TOO_MANY "A job may have at most 32 files."

struct reading {
	struct source_list *list;
	struct fault_list *faults;
};

/* Who asked for a file: the include line, or nobody for the main file. */
struct asked_by {
	const char *file; /* NULL for the main file */
	int line;
	int depth;
};

/* Adds a fault about the file `path`, at the include line if there is one;
 * `why` is a whole sentence. */
static enum fault cannot_use(struct reading *reading, const struct asked_by *by, enum fault code,
			     const char *path, const char *why)
{
	if (!by->file)
		return fault_add(reading->faults, code, path, 0, NULL, "%s", why);
	return fault_add(reading->faults, code, by->file, by->line, NULL,
			 "The included file \"%s\" cannot be used. %s", path, why);
}

/* Reads a plain file of at most SOURCE_BYTES_MAX and notes which file it is;
 * *text is NUL-terminated and belongs to the caller. */
static enum fault read_bytes(struct reading *reading, const struct asked_by *by,
			     struct source *source, char **text, size_t *size)
{
	struct fault_list own = { 0 };
	struct stat status;

	enum fault code = text_file_read(text, size, source->path, SOURCE_BYTES_MAX, &own);
	if (code)
		return cannot_use(reading, by, code, source->path, own.record[0].message);
	if (stat(source->path, &status) != 0)
		return cannot_use(reading, by, FAULT_FILE, source->path,
				  "It went away while it was read.");
	source->device = status.st_dev;
	source->inode = status.st_ino;
	return FAULT_NONE;
}

/* Copies line `number` of the text for a message, cut and without the blanks
 * in front of it and behind it. */
static void copy_line(char *to, size_t size, const char *text, int number)
{
	char line[256];

	while (number > 1 && (text = strchr(text, '\n'))) {
		text++;
		number--;
	}
	to[0] = '\0';
	if (!text)
		return;
	text += strspn(text, " \t");
	size_t length = strcspn(text, "\n");
	while (length > 0 && strchr(" \t", text[length - 1]))
		length--;
	(void)snprintf(line, sizeof line, "%.*s",
		       (int)(length < sizeof line ? length : sizeof line - 1), text);
	utf8_make_plain(to, size, line);
}

/* What libconfig's own words mean to a builder. */
static const char *parse_hint(const char *words)
{
	if (strstr(words, "duplicate"))
		return "a setting of this name stands here already";
	if (strstr(words, "mismatched"))
		return "inside [ ] numbers must all be written alike, 0.0 beside 25.4; ( ) takes "
		       "both 0 and 25.4";
	return "the line, or the end of the one before it, is not written as \"name = value;\"";
}

static enum fault parse(struct reading *reading, struct source *source, const char *text)
{
	char shown[61];

	if (config_read_string(&source->parsed, text) == CONFIG_TRUE)
		return FAULT_NONE;
	const char *words = config_error_text(&source->parsed);
	int line = config_error_line(&source->parsed);
	copy_line(shown, sizeof shown, text, line);
	return fault_add(reading->faults, FAULT_SETTING, source->path, line, NULL,
			 "Nothing is read beyond this line, \"%s\": %s.", shown,
			 parse_hint(words ? words : ""));
}

/* Puts the path of an include, which counts from `from`'s folder, in *to. */
static bool join_path(char to[FAULT_FILE_MAX], const char *from, const char *path)
{
	const char *slash = strrchr(from, '/');
	int folder = path[0] != '/' && slash ? (int)(slash - from) + 1 : 0;
	int size = snprintf(to, FAULT_FILE_MAX, "%.*s%s", folder, from, path);

	return size >= 0 && size < FAULT_FILE_MAX;
}

static struct source *find_source(const struct source_list *list, const struct source *wanted)
{
	for (size_t i = 0; i < list->count; i++) {
		struct source *known = list->source[i];
		if (known->device == wanted->device && known->inode == wanted->inode)
			return known;
	}
	return NULL;
}

static void source_free(struct source *source)
{
	if (!source)
		return;
	config_destroy(&source->parsed);
	free(source);
}

/* Recursive by way of the includes; SOURCE_DEPTH_MAX bounds it. */
static enum fault read_file(struct reading *reading, const char *path, const struct asked_by *by);

static enum fault read_includes(struct reading *reading, struct source *source, int depth,
				const struct scan_result *scanned)
{
	enum fault first = FAULT_NONE;

	for (size_t i = 0; i < scanned->count; i++) {
		const struct scan_include *include = &scanned->include[i];
		struct asked_by by = { source->path, include->line, depth + 1 };
		char path[FAULT_FILE_MAX];
		enum fault code = FAULT_NONE;
		if (!join_path(path, source->path, include->path))
			code = cannot_use(reading, &by, FAULT_FILE, include->path,
					  "Its path is too long.");
		else
			code = read_file(reading, path, &by);
		if (!first)
			first = code;
	}
	return first;
}

/* Parses the text of a file that is already in the list, and its includes. */
static enum fault read_text(struct reading *reading, struct source *source, char *text, size_t size,
			    int depth)
{
	struct scan_result scanned;

	sha256_update(&reading->list->hash, size, (const uint8_t *)text);
	enum fault code = scan_settings(text, size, source->path, &scanned, reading->faults);
	if (!code)
		code = parse(reading, source, text);
	source->open = true;
	enum fault included = read_includes(reading, source, depth, &scanned);
	source->open = false;
	if (!code && scanned.count == 0 &&
	    config_setting_length(config_root_setting(&source->parsed)) == 0)
		code = fault_add(reading->faults, FAULT_SETTING, source->path, 0, NULL,
				 "This file is empty: no setting stands in it.");
	return code ? code : included;
}

static enum fault read_file(struct reading *reading, const char *path, const struct asked_by *by)
{
	char *text = NULL;
	size_t size = 0;

	if (by->depth > SOURCE_DEPTH_MAX)
		return cannot_use(reading, by, FAULT_FILE, path,
				  "Files may include each other at most 8 deep.");
	if (reading->list->count == SOURCE_FILES_MAX)
		return cannot_use(reading, by, FAULT_FILE, path, TOO_MANY);
	struct source *source = mem_array(1, sizeof *source);
	if (!source)
		return fault_no_memory(reading->faults, "a settings file");
	config_init(&source->parsed);
	(void)snprintf(source->path, sizeof source->path, "%s", path);
	enum fault code = read_bytes(reading, by, source, &text, &size);
	const struct source *known = code ? NULL : find_source(reading->list, source);
	if (known && known->open)
		code = cannot_use(reading, by, FAULT_FILE, path,
				  "It is the file that, directly or by way of others, "
				  "includes this one.");
	if (code || known) {
		source_free(source);
	} else {
		reading->list->source[reading->list->count++] = source;
		code = read_text(reading, source, text, size, by->depth);
	}
	free(text);
	return code;
}

/* The digest of all that was read so far. */
static void tell_digest(struct source_list *list)
{
	struct sha256_ctx so_far = list->hash;
	uint8_t sum[SHA256_DIGEST_SIZE];

	sha256_digest(&so_far, sizeof sum, sum);
	base16_encode_update(list->digest, sizeof sum, sum);
	list->digest[2 * sizeof sum] = '\0';
}

enum fault source_list_read(struct source_list *list, const char *path, struct fault_list *faults)
{
	struct reading reading = { .list = list, .faults = faults };
	struct asked_by nobody = { NULL, 0, 0 };

	if (strlen(path) >= FAULT_FILE_MAX)
		return fault_add(faults, FAULT_FILE, path, 0, NULL, "This path is too long.");
	sha256_init(&list->hash);
	enum fault code = read_file(&reading, path, &nobody);
	tell_digest(list);
	return code;
}

/* A file that a value names cannot be used. */
static enum fault cannot_name(const struct named_file *file, const char *path, const char *why,
			      struct fault_list *faults)
{
	char plain[128];

	utf8_make_plain(plain, sizeof plain, path);
	return fault_add(faults, FAULT_FILE, file->source->path, file->line, file->setting,
			 "The file \"%s\" cannot be used. %s", plain, why);
}

enum fault source_list_named(struct source_list *list, struct named_file *file,
			     struct fault_list *faults)
{
	struct fault_list own = { 0 };

	file->text = NULL;
	if (!utf8_is_name(file->path))
		return cannot_name(file, file->path,
				   "Its name is blank, or holds characters that cannot be shown.",
				   faults);
	if (!join_path(file->found, file->source->path, file->path))
		return cannot_name(file, file->path, "Its path is too long.", faults);
	if (list->count + list->named_count >= SOURCE_FILES_MAX)
		return cannot_name(file, file->path, TOO_MANY, faults);
	if (text_file_read(&file->text, &file->size, file->found, file->most_bytes, &own))
		return cannot_name(file, file->found, own.record[0].message, faults);
	list->named_count++;
	sha256_update(&list->hash, file->size, (const uint8_t *)file->text);
	tell_digest(list);
	return FAULT_NONE;
}

void source_list_free(struct source_list *list)
{
	if (!list)
		return;
	for (size_t i = 0; i < list->count; i++)
		source_free(list->source[i]);
	*list = (struct source_list){ 0 };
}
