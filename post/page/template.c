/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/template.h"

#include <string.h>

#define NAME_MAX_SHOWN 40

struct span {
	const char *at;
	size_t size;
};

/* What stands before the first `mark` (two equal characters); the whole when
 * there is none. */
static size_t before_mark(struct span text, char mark)
{
	for (size_t i = 0; i + 1 < text.size; i++)
		if (text.at[i] == mark && text.at[i + 1] == mark)
			return i;
	return text.size;
}

static struct span without(struct span text, size_t size)
{
	return (struct span){ text.at + size, text.size - size };
}

static bool is_named(const struct template_slot *slot, struct span name)
{
	return strlen(slot->name) == name.size && memcmp(slot->name, name.at, name.size) == 0;
}

static enum fault fill_gap(struct markup *out, struct span name, size_t slot_count,
			   const struct template_slot *slot, struct fault_list *faults)
{
	for (size_t i = 0; i < slot_count; i++)
		if (is_named(&slot[i], name)) {
			markup_bytes(out, slot[i].text, slot[i].size);
			return FAULT_NONE;
		}
	int shown = (int)(name.size < NAME_MAX_SHOWN ? name.size : NAME_MAX_SHOWN);
	return fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
			 "Nothing fills the page's gap {{%.*s}}.", shown, name.at);
}

static bool has_gap(struct span text, const char *name)
{
	size_t size = strlen(name);

	for (size_t i = 0; i + size + 4 <= text.size; i++)
		if (memcmp(text.at + i, "{{", 2) == 0 && memcmp(text.at + i + 2, name, size) == 0 &&
		    memcmp(text.at + i + 2 + size, "}}", 2) == 0)
			return true;
	return false;
}

static enum fault check_slots(struct span text, size_t slot_count, const struct template_slot *slot,
			      struct fault_list *faults)
{
	for (size_t i = 0; i < slot_count; i++)
		if (!has_gap(text, slot[i].name))
			return fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
					 "The page has no gap {{%s}}.", slot[i].name);
	return FAULT_NONE;
}

enum fault template_fill(struct markup *out, const char *template, size_t size, size_t slot_count,
			 const struct template_slot *slot, struct fault_list *faults)
{
	struct span rest = { template, size };
	enum fault fault = check_slots(rest, slot_count, slot, faults);

	while (!fault && rest.size > 0) {
		size_t plain = before_mark(rest, '{');
		markup_bytes(out, rest.at, plain);
		rest = without(rest, plain);
		if (rest.size == 0)
			break;
		rest = without(rest, 2);
		struct span name = { rest.at, before_mark(rest, '}') };
		if (name.size == rest.size)
			return fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
					 "A gap of the page is not closed.");
		fault = fill_gap(out, name, slot_count, slot, faults);
		rest = without(rest, name.size + 2);
	}
	return fault ? fault : markup_fault(out, faults);
}
