/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The part of the settings table that says which way lines run and in which
 * direction they are cut, for the whole neck and for its stretches. */
#include "config/draft.h"
#include "config/rows.h"

static const char *const line_names[] = { "lengthwise", "crosswise", NULL };
static const char *const way_names[] = { "both", "climb", "conventional", NULL };
static const char *const grain_names[] = { "any", "downhill", NULL };

#define LINES_HELP "along or across the neck; contour lines on steep sides always run along"
#define WAY_HELP "cut both ways, or one way only with a lift back"
#define GRAIN_HELP "downhill: lengthwise lines are cut down every slope of the back"

#define AT(field) offsetof(struct stretch_draft, field)
#define AS_WHOLE "as for the whole neck"
static const struct setting stretch_rows[] = {
	ROW_CHOICE_WORDED("lines", line_names, AS_WHOLE, AT(lines), LINES_HELP),
	ROW_CHOICE_WORDED("way", way_names, AS_WHOLE, AT(way), WAY_HELP),
	ROW_CHOICE_WORDED("grain", grain_names, AS_WHOLE, AT(grain), GRAIN_HELP),
};
#undef AT
static const struct setting_set stretch_set = SET("a stretch of the neck", stretch_rows);

#define AT(field) offsetof(struct cutting_draft, field)
static const struct setting cutting_rows[] = {
	ROW_CHOICE("lines", NEED_USUAL, line_names, CUT_LENGTHWISE, AT(whole.lines), LINES_HELP),
	ROW_CHOICE("way", NEED_USUAL, way_names, CUT_BOTH_WAYS, AT(whole.way), WAY_HELP),
	ROW_CHOICE("grain", NEED_USUAL, grain_names, CUT_ANY_GRAIN, AT(whole.grain), GRAIN_HELP),
	ROW_GROUP("peghead", NEED_USUAL, &stretch_set, AT(stretch[STRETCH_PEGHEAD]),
		  "in front of the nut, where it differs"),
	ROW_GROUP("shaft", NEED_USUAL, &stretch_set, AT(stretch[STRETCH_SHAFT]),
		  "from the nut to where the heel begins to rise, where it differs"),
	ROW_GROUP("nose", NEED_USUAL, &stretch_set, AT(stretch[STRETCH_NOSE]),
		  "the heel's nose, or the ease of a flat heel, where it differs"),
	ROW_GROUP("heel", NEED_USUAL, &stretch_set, AT(stretch[STRETCH_HEEL]),
		  "the heel's cap and cheeks, or slab, where it differs"),
};
#undef AT
const struct setting_set settings_cutting = SET("the cutting", cutting_rows);
