/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef _GNU_SOURCE
#define _GNU_SOURCE /* renameat2, O_NOFOLLOW */
#endif
#include "files/out_dir.h"

#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/mem.h"
#include "files/folder.h"
#include "files/leftover.h"
#include "files/stamp.h"

/* Hidden names tried before giving up: each is taken only when an earlier run
 * with the same process number was killed. */
#define NAMES_TRIED 1000

static char *text_of(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* A new string, or NULL. */
static char *text_of(const char *format, ...)
{
	va_list args;

	va_start(args, format);
	int length = vsnprintf(NULL, 0, format, args);
	va_end(args);
	char *text = length < 0 ? NULL : mem_array((size_t)length + 1, 1);
	if (!text)
		return NULL;
	va_start(args, format);
	(void)vsnprintf(text, (size_t)length + 1, format, args);
	va_end(args);
	return text;
}

static enum fault refuse(const struct out_dir *out, struct fault_list *faults, const char *sentence)
{
	return fault_add(faults, FAULT_FILE, out->target, 0, NULL, "%s", sentence);
}

static enum fault trouble(const struct out_dir *out, struct fault_list *faults, const char *what,
			  int error)
{
	return fault_add(faults, FAULT_FILE, out->target, 0, NULL, "%s: %s.", what,
			 strerror(error));
}

/* Splits the target into the parent's path (returned, new) and `base`, without
 * slashes at the end. NULL when memory is out. */
static char *split(struct out_dir *out, const char *target)
{
	size_t end = strlen(target);

	while (end > 0 && target[end - 1] == '/')
		end--;
	size_t start = end;
	while (start > 0 && target[start - 1] != '/')
		start--;
	out->target = text_of("%.*s", (int)end, target);
	out->base = text_of("%.*s", (int)(end - start), target + start);
	char *parent = start > 0 ? text_of("%.*s", (int)start, target) : text_of("./");
	if (out->target && out->base && parent)
		return parent;
	free(parent);
	return NULL;
}

/* May the old output, open at `fd`, be thrown away? */
static enum fault check_replaceable(const struct out_dir *out, int fd, struct fault_list *faults)
{
	char stranger[STAMP_ENTRY_ROOM];

	if (folder_is_empty(fd))
		return FAULT_NONE;
	if (!stamp_is_ours(fd))
		return refuse(out, faults,
			      "This folder is no output of neckhew (its job.json is missing or "
			      "foreign), so it is not replaced.");
	int error = stamp_check(fd, stranger);
	if (error == 0)
		return FAULT_NONE;
	if (error != EEXIST && error != ENOENT)
		return trouble(out, faults, "This folder cannot be looked through", error);
	return fault_add(faults, FAULT_FILE, out->target, 0, NULL,
			 "This folder holds \"%s\", which neckhew did not write; move it away "
			 "first, then the output can be replaced.",
			 stranger[0] ? stranger : "files without a list of them");
}

/* Is the target free, or an output that may be replaced? *exists tells. */
static enum fault check_target(const struct out_dir *out, bool *exists, struct fault_list *faults)
{
	struct stat about;

	*exists = fstatat(out->parent_fd, out->base, &about, AT_SYMLINK_NOFOLLOW) == 0;
	if (!*exists)
		return errno == ENOENT ? FAULT_NONE
				       : trouble(out, faults, "This name cannot be used", errno);
	if (!S_ISDIR(about.st_mode))
		return refuse(
			out, faults,
			S_ISLNK(about.st_mode)
				? "A symbolic link stands here; name a folder that does not "
				  "exist yet."
				: "A file stands here; name a folder that does not exist yet.");
	if (!out->replace)
		return refuse(out, faults,
			      "This folder exists already; ask for it to be replaced, or name "
			      "another.");
	int fd = folder_open_at(out->parent_fd, out->base);
	if (fd < 0)
		return trouble(out, faults, "This folder cannot be looked into", errno);
	enum fault fault = check_replaceable(out, fd, faults);
	(void)close(fd);
	return fault;
}

static enum fault open_parent(struct out_dir *out, const char *parent, struct fault_list *faults)
{
	if (out->base[0] == '\0' || strcmp(out->base, ".") == 0 || strcmp(out->base, "..") == 0)
		return refuse(out, faults, "The output needs the name of a folder of its own.");
	out->parent_fd = open(parent, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
	if (out->parent_fd >= 0)
		return FAULT_NONE;
	return fault_add(faults, FAULT_FILE, out->target, 0, NULL,
			 "The folder \"%s\" that the output is to stand in cannot be opened: %s.",
			 parent, strerror(errno));
}

/* Makes ".neckhew-PID-N" and marks it as in use by a lock that ends with this
 * process. */
static enum fault make_hidden(struct out_dir *out, const char *parent, struct fault_list *faults)
{
	int made = -1;

	errno = EEXIST;
	for (int n = 0; n < NAMES_TRIED && made != 0 && errno == EEXIST; n++) {
		free(out->hidden_base);
		out->hidden_base = leftover_name(n);
		if (!out->hidden_base)
			return fault_no_memory(faults, "a folder's name");
		made = mkdirat(out->parent_fd, out->hidden_base, 0777);
	}
	if (made != 0)
		return trouble(out, faults, "No folder can be made here", errno);
	out->hidden_fd = folder_open_at(out->parent_fd, out->hidden_base);
	if (out->hidden_fd < 0)
		return trouble(out, faults, "The new folder cannot be opened", errno);
	(void)flock(out->hidden_fd, LOCK_EX | LOCK_NB);
	out->hidden = text_of("%s%s", parent, out->hidden_base);
	return out->hidden ? FAULT_NONE : fault_no_memory(faults, "a folder's name");
}

enum fault out_dir_begin(struct out_dir *out, const char *target, bool replace,
			 struct fault_list *faults)
{
	bool exists;

	*out = (struct out_dir)OUT_DIR_NONE;
	out->replace = replace;
	char *parent = split(out, target);
	if (!parent)
		return fault_no_memory(faults, "a folder's name");
	enum fault fault = open_parent(out, parent, faults);
	if (!fault)
		fault = check_target(out, &exists, faults);
	if (!fault) {
		leftover_clear(out->parent_fd);
		fault = make_hidden(out, parent, faults);
	}
	free(parent);
	return fault;
}

static enum fault refuse_name(const struct out_dir *out, const char *name,
			      struct fault_list *faults)
{
	return fault_add(faults, FAULT_INTERNAL, out->target, 0, NULL,
			 "\"%s\" is no name for what stands in an output.", name);
}

enum fault out_dir_folder(const struct out_dir *out, const char *name, char **path,
			  struct fault_list *faults)
{
	*path = NULL;
	if (!folder_name_is_plain(name, strlen(name)) || strcmp(name, STAMP_NAME) == 0)
		return refuse_name(out, name, faults);
	int error = mkdirat(out->hidden_fd, name, 0777) == 0 || errno == EEXIST ? 0 : errno;
	int fd = error != 0 ? -1 : folder_open_at(out->hidden_fd, name);
	if (error == 0 && fd < 0)
		error = errno; /* a file of this name, for example */
	if (error != 0)
		return fault_add(faults, FAULT_FILE, out->target, 0, NULL,
				 "The folder \"%s\" cannot be made in the output: %s.", name,
				 strerror(error));
	(void)close(fd);
	*path = text_of("%s/%s", out->hidden, name);
	return *path ? FAULT_NONE : fault_no_memory(faults, "a folder's name");
}

/* A bare name or "folder/name", and not the one that the list will have? */
static bool is_file_name(const char *name)
{
	const char *slash = strchr(name, '/');
	const char *last = slash ? slash + 1 : name;

	if (slash && !folder_name_is_plain(name, (size_t)(slash - name)))
		return false;
	return folder_name_is_plain(last, strlen(last)) && strcmp(name, STAMP_NAME) != 0;
}

char *out_dir_file(const struct out_dir *out, const char *name, struct fault_list *faults)
{
	if (!is_file_name(name)) {
		(void)refuse_name(out, name, faults);
		return NULL;
	}
	char *path = text_of("%s/%s", out->hidden, name);
	if (!path)
		(void)fault_no_memory(faults, "a file's name");
	return path;
}

/* Where an old output goes that cannot be exchanged or removed. */
static char *aside_name(const struct out_dir *out)
{
	return text_of("%s.replaced-%ld", out->base, (long)getpid());
}

/* A rename that refuses to land on something. Returns 0 or an errno. */
static int rename_to_free(const struct out_dir *out)
{
	if (renameat2(out->parent_fd, out->hidden_base, out->parent_fd, out->base,
		      RENAME_NOREPLACE) == 0)
		return 0;
	if (errno != ENOSYS && errno != EINVAL)
		return errno;
	/* a plain rename replaces at most an empty folder */
	return renameat(out->parent_fd, out->hidden_base, out->parent_fd, out->base) == 0 ? 0
											  : errno;
}

/* For file systems without exchange: two renames, the first undone when the
 * second fails. Returns 0 or an errno; `aside` is where the old output went. */
static int swap_by_renames(const struct out_dir *out, const char *aside)
{
	int fd = out->parent_fd;

	if (renameat(fd, out->base, fd, aside) != 0)
		return errno;
	if (renameat(fd, out->hidden_base, fd, out->base) == 0)
		return 0;
	int error = errno;
	(void)renameat(fd, aside, fd, out->base);
	return error;
}

/* Puts the new folder in the old one's place. Returns 0 or an errno; the old
 * output is then at out->hidden_base. */
static int swap(struct out_dir *out)
{
	if (renameat2(out->parent_fd, out->hidden_base, out->parent_fd, out->base,
		      RENAME_EXCHANGE) == 0)
		return 0;
	if (errno != ENOSYS && errno != EINVAL)
		return errno;
	char *aside = aside_name(out);
	if (!aside)
		return ENOMEM;
	int error = swap_by_renames(out, aside);
	if (error != 0) {
		free(aside);
		return error;
	}
	free(out->hidden_base);
	out->hidden_base = aside;
	return 0;
}

/* Removes the old output once the new one stands. Looked at once more before,
 * because somebody may have put a file into it since. */
static int remove_old(const struct out_dir *out)
{
	int fd = folder_open_at(out->parent_fd, out->hidden_base);

	if (fd < 0)
		return errno;
	enum fault fault = check_replaceable(out, fd, NULL);
	(void)close(fd);
	return fault ? ENOTEMPTY : folder_remove_at(out->parent_fd, out->hidden_base);
}

/* The same; what resists is given a name that the builder sees and that no
 * later run clears away. */
static enum fault drop_old(const struct out_dir *out, struct fault_list *faults)
{
	int error = remove_old(out);

	if (error == 0)
		return FAULT_NONE;
	char *aside = aside_name(out);
	if (!aside)
		return fault_no_memory(faults, "a folder's name");
	(void)renameat(out->parent_fd, out->hidden_base, out->parent_fd, aside);
	enum fault fault = fault_add(faults, FAULT_FILE, out->target, 0, NULL,
				     "The new output is in place, but the old one could not be "
				     "removed and stands beside it as \"%s\": %s.",
				     aside, strerror(error));
	free(aside);
	return fault;
}

enum fault out_dir_commit(struct out_dir *out, struct fault_list *faults)
{
	bool exists;
	int error = stamp_write(out->hidden_fd);

	if (error != 0)
		return trouble(out, faults, "The output cannot be brought to disk", error);
	enum fault fault = check_target(out, &exists, faults);
	if (fault)
		return fault;
	error = exists ? swap(out) : rename_to_free(out);
	if (error != 0)
		return trouble(out, faults, "The output cannot be put into place", error);
	out->committed = true;
	(void)fsync(out->parent_fd); /* some file systems cannot; the rename stands */
	return exists ? drop_old(out, faults) : FAULT_NONE;
}

void out_dir_close(struct out_dir *out)
{
	if (out->hidden_fd >= 0)
		(void)close(out->hidden_fd);
	if (out->hidden_base && !out->committed && out->parent_fd >= 0)
		(void)folder_remove_at(out->parent_fd, out->hidden_base);
	if (out->parent_fd >= 0)
		(void)close(out->parent_fd);
	free(out->target);
	free(out->hidden);
	free(out->base);
	free(out->hidden_base);
	*out = (struct out_dir)OUT_DIR_NONE;
}
