/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The part of the settings table that describes the shop: machine, cutter,
 * wood, blank, fixture, and how the job is to be carved. Ranges only keep out
 * what cannot be meant. Usual values: common practice, no source. */
#include <math.h>

#include "config/draft.h"
#include "config/rows.h"

static const char *const waste_words[] = { "cleared", "rails", NULL };
static const char *const unit_names[] = { "mm", "in", NULL };
/* In the order of the enums in core/machine/abilities.h. */
static const char *const arc_words[] = { "none", "xy", "xy and xz", NULL };
static const char *const spindle_words[] = { "program", "hand", NULL };
static const char *const comment_words[] = { "parentheses", "semicolon", "none", NULL };
static const char *const wood_classes[] = { "soft", "medium", "hard", NULL };
static const char *const place_shapes[] = { "box", "cylinder", NULL };
static const char *const zero_places[] = { "nut", "heel", "blank end", NULL };
static const char *const zero_heights[] = { "gluing face", "bed", "blank top", "fretboard face",
					    NULL };

#define AT(field) offsetof(struct machine, field)
static const struct setting machine_rows[] = {
	ROW_TEXT("name", NEED_GIVEN, MACHINE_NAME_MAX, AT(name), "what the shop calls the machine"),
	ROW_VALUES("travel", KIND_LENGTH, NEED_GIVEN, 20, 5000, 0, AT(travel_mm), AXIS_COUNT,
		   "travel of the x, y and z axis"),
	ROW_WORDED("z_gap", KIND_LENGTH, 20, 3000, 0, "not known", AT(z_gap_mm),
		   "bed to the holder's lower face with z at its top"),
	ROW_VALUES("feed_limit", KIND_FEED, NEED_GIVEN, 10, 60000, 0, AT(feed_limit_mm_per_min),
		   AXIS_COUNT, "fastest cutting feed of each axis"),
	ROW_VALUES("rapid", KIND_FEED, NEED_GIVEN, 10, 100000, 0, AT(rapid_mm_per_min), AXIS_COUNT,
		   "speed of each axis in rapid moves"),
	ROW_VALUES("acceleration", KIND_ACCELERATION, NEED_GIVEN, 1, 20000, 0,
		   AT(acceleration_mm_per_s2), AXIS_COUNT, "acceleration of each axis"),
	ROW("corner_deviation", KIND_LENGTH, NEED_USUAL, 0.001, 1, 0.02, AT(corner_deviation_mm),
	    "how far the path may round a corner"),
	ROW_UNIT("spindle_least_rpm", "rpm", NEED_GIVEN, 0, 100000, 0, AT(spindle_least_rpm),
		 "slowest spindle speed"),
	ROW_UNIT("spindle_most_rpm", "rpm", NEED_GIVEN, 500, 100000, 0, AT(spindle_most_rpm),
		 "fastest spindle speed"),
	ROW_UNIT("spindle_power_w", "W", NEED_GIVEN, 20, 20000, 0, AT(spindle_power_w),
		 "power the spindle can give without slowing"),
	ROW_UNIT("spindle_start_s", "s", NEED_USUAL, 0, 120, 5, AT(spindle_start_s),
		 "wait after the spindle is switched on"),
	ROW_CHOICE("program_units", NEED_GIVEN, unit_names, 0, AT(program_unit),
		   "unit of the programs for this machine"),
	ROW("decimals", KIND_COUNT, NEED_GIVEN, 2, 5, 0, AT(decimals),
	    "decimals of a length in a program"),
	ROW_CHOICE("arcs", NEED_USUAL, arc_words, ARCS_NONE, AT(reads.arcs),
		   "planes in which it takes arcs by their centre"),
	ROW("number_step", KIND_COUNT, NEED_USUAL, 0, 1000, 0, AT(reads.number_step),
	    "from one block number to the next; 0: blocks have no numbers"),
	ROW_FLAG("percent_lines", NEED_USUAL, 0, AT(reads.percent_lines),
		 "whether a program stands between two lines of a % sign"),
	ROW_CHOICE("spindle_switch", NEED_USUAL, spindle_words, SPINDLE_BY_PROGRAM,
		   AT(reads.spindle), "who switches the spindle; by hand the program stops for it"),
	ROW_CHOICE("comments", NEED_USUAL, comment_words, COMMENTS_PARENTHESES, AT(reads.comments),
		   "how a comment is told from words"),
	ROW("longest_line", KIND_COUNT, NEED_USUAL, 30, 253, 253, AT(reads.longest_line),
	    "characters of the longest line it reads"),
	ROW_WORDED("feed_decimals", KIND_COUNT, 0, 4, -1,
		   "1 in mm per minute, 3 in inches per minute", AT(reads.feed_decimals),
		   "decimals of a feed in a program"),
	ROW_WORDED("largest_feed", KIND_FEED, 10, 100000, 0, "no limit but the axes'",
		   AT(reads.largest_feed_mm_per_min), "largest feed it reads"),
	ROW_WORDED("park_x", KIND_LENGTH, -3000, 3000, NAN, "no parking", AT(park_x_mm),
		   "where the tool goes at the end, above everything, from zero"),
	ROW_WORDED("park_y", KIND_LENGTH, -3000, 3000, NAN, "no parking", AT(park_y_mm),
		   "the same across the neck; give both or none"),
};
#undef AT
const struct setting_set settings_machine = SET("a machine", machine_rows);

static const struct setting chip_load_rows[] = {
	ROW("soft", KIND_LENGTH, NEED_GIVEN, 0.002, 2, 0, sizeof(double) * WOOD_SOFT,
	    "chip per tooth in soft wood"),
	ROW("medium", KIND_LENGTH, NEED_GIVEN, 0.002, 2, 0, sizeof(double) * WOOD_MEDIUM,
	    "chip per tooth in wood of medium hardness"),
	ROW("hard", KIND_LENGTH, NEED_GIVEN, 0.002, 2, 0, sizeof(double) * WOOD_HARD,
	    "chip per tooth in hard wood"),
};
static const struct setting_set chip_load_set = SET("a chip load", chip_load_rows);

#define AT(field) offsetof(struct holder_part, field)
static const struct setting part_rows[] = {
	ROW("diameter", KIND_LENGTH, NEED_GIVEN, 2, 400, 0, AT(diameter_mm),
	    "widest distance across it"),
	ROW("length", KIND_LENGTH, NEED_GIVEN, 1, 500, 0, AT(length_mm), "its length upward"),
};
#undef AT
static const struct setting_set part_set = SET("a part above the holder", part_rows);

#define AT(field) offsetof(struct cutter_draft, field)
static const struct setting cutter_rows[] = {
	ROW_TEXT("name", NEED_GIVEN, CUTTER_NAME_MAX, AT(cutter.name),
		 "what the shop calls the cutter"),
	ROW("ball_diameter", KIND_LENGTH, NEED_GIVEN, 0.5, 60, 0, AT(cutter.ball_diameter_mm),
	    "diameter of the ball end"),
	ROW("flute_length", KIND_LENGTH, NEED_GIVEN, 1, 200, 0, AT(cutter.flute_length_mm),
	    "how far up from the tip the cutter cuts"),
	ROW("shank_diameter", KIND_LENGTH, NEED_GIVEN, 0.5, 60, 0, AT(cutter.shank_diameter_mm),
	    "shank above the flutes"),
	ROW("stickout", KIND_LENGTH, NEED_GIVEN, 2, 300, 0, AT(cutter.stickout_mm),
	    "tip to holder when clamped"),
	ROW("holder_diameter", KIND_LENGTH, NEED_GIVEN, 2, 200, 0, AT(cutter.holder_diameter_mm),
	    "widest part of collet nut or holder"),
	ROW("holder_length", KIND_LENGTH, NEED_GIVEN, 1, 300, 0, AT(cutter.holder_length_mm),
	    "length of that part"),
	ROW_LIST("holder", NEED_NOTHING, 0, CUTTER_PARTS_MAX, &part_set, AT(cutter.part),
		 sizeof(struct holder_part), AT(cutter.part_count),
		 "what follows above it, upward: spindle nose, body, carriage"),
	ROW_WORDED("overall_length", KIND_LENGTH, 5, 400, 0, "stickout and 25 mm",
		   AT(cutter.overall_length_mm), "tip to the shank's upper end"),
	ROW("flutes", KIND_COUNT, NEED_GIVEN, 1, 12, 0, AT(cutter.flutes),
	    "number of cutting edges"),
	ROW_GROUP("chip_load", NEED_GIVEN, &chip_load_set, AT(chip_load_mm),
		  "chip per tooth, by class of wood"),
	ROW("depth_limit", KIND_LENGTH, NEED_GIVEN, 0.1, 60, 0, AT(cutter.depth_limit_mm),
	    "deepest bite of a pass"),
	ROW("stepover_limit", KIND_LENGTH, NEED_GIVEN, 0.05, 60, 0, AT(cutter.stepover_limit_mm),
	    "widest distance between neighbouring roughing lines"),
	ROW("ramp_deg", KIND_ANGLE, NEED_USUAL, 0.5, 45, 8, AT(cutter.ramp_angle_rad),
	    "steepest way into standing wood"),
	ROW("plunge_feed", KIND_FEED, NEED_GIVEN, 10, 20000, 0, AT(cutter.plunge_feed_mm_per_min),
	    "fastest downward speed in wood"),
	ROW_UNIT("spindle_rpm", "rpm", NEED_GIVEN, 500, 100000, 0, AT(cutter.spindle_rpm),
		 "spindle speed for this cutter"),
};
#undef AT
const struct setting_set settings_cutter = SET("a cutter", cutter_rows);

#define AT(field) offsetof(struct wood, field)
static const struct setting wood_rows[] = {
	ROW_TEXT("name", NEED_GIVEN, WOOD_NAME_MAX, AT(name), "what the shop calls the wood"),
	ROW_CHOICE("class", NEED_GIVEN, wood_classes, 0, AT(class),
		   "which chip load of a cutter applies"),
	ROW_UNIT("density_kg_m3", "kg/m3", NEED_GIVEN, 80, 1400, 0, AT(density_kg_per_m3),
		 "density at 12 % moisture"),
	ROW_UNIT("cutting_energy_j_cm3", "J/cm3", NEED_GIVEN, 1, 300, 0,
		 AT(cutting_energy_j_per_cm3), "energy to turn it into chips"),
	ROW_UNIT("shrinkage_tangential_percent", "%", NEED_GIVEN, 0, 25, 0,
		 AT(shrinkage_tangential_percent), "shrinkage green to dry, along the rings"),
	ROW_UNIT("shrinkage_radial_percent", "%", NEED_GIVEN, 0, 25, 0,
		 AT(shrinkage_radial_percent), "shrinkage green to dry, across the rings"),
};
#undef AT
const struct setting_set settings_wood = SET("a wood", wood_rows);

static const struct setting then_rows[] = {
	ROW_TEXT("cutter", NEED_GIVEN, CUTTER_NAME_MAX, offsetof(struct then_draft, cutter),
		 "name of one of the cutters"),
};
static const struct setting_set then_set = SET("a later cutter", then_rows);

#define AT(field) offsetof(struct use_draft, field)
#define ONLY_ONE "the only one there is"
static const struct setting use_rows[] = {
	{ .name = "machine",
	  .kind = KIND_TEXT,
	  .need = NEED_USUAL,
	  .usual_text = ONLY_ONE,
	  .size = MACHINE_NAME_MAX,
	  .offset = AT(machine),
	  .values = 1,
	  .help = "name of one of the machines" },
	{ .name = "cutter",
	  .kind = KIND_TEXT,
	  .need = NEED_USUAL,
	  .usual_text = ONLY_ONE,
	  .size = CUTTER_NAME_MAX,
	  .offset = AT(cutter),
	  .values = 1,
	  .help = "name of one of the cutters" },
	{ .name = "wood",
	  .kind = KIND_TEXT,
	  .need = NEED_USUAL,
	  .usual_text = ONLY_ONE,
	  .size = WOOD_NAME_MAX,
	  .offset = AT(wood),
	  .values = 1,
	  .help = "name of one of the woods" },
	ROW_LIST("then", NEED_NOTHING, 0, JOB_CUTTERS_MAX - 1, &then_set, AT(then),
		 sizeof(struct then_draft), AT(then_count),
		 "cutters that follow, each with its own program, where wood is left over"),
};
#undef AT
const struct setting_set settings_use = SET("what the job uses", use_rows);

#define AT(field) offsetof(struct blank, field)
static const struct setting blank_rows[] = {
	ROW_POINTS("top", NEED_GIVEN, NULL, AT(top),
		   "(x, height) of the upper surface; two points at one x make a step"),
	ROW_POINTS("bottom", NEED_NOTHING, "0 all along", AT(bottom),
		   "(x, height) of the under surface; 0 where it lies flat"),
	ROW_POINTS("half_width", NEED_NOTHING, "given here or as two sides", AT(half_width),
		   "(x, distance from the centre line) of both sides, when they are alike"),
	ROW_POINTS("plus_side", NEED_NOTHING, "half_width", AT(side[BLANK_PLUS]),
		   "(x, distance from the centre line) of the side toward +y"),
	ROW_POINTS("minus_side", NEED_NOTHING, "half_width", AT(side[BLANK_MINUS]),
		   "(x, distance from the centre line) of the side toward -y"),
	ROW("margin", KIND_LENGTH, NEED_USUAL, 0, 10, 0.5, AT(margin_mm),
	    "how far sawn faces may lie beside their outline, in or out"),
};
#undef AT
const struct setting_set settings_blank = SET("the blank", blank_rows);

#define NAME_HELP "what stands or holds there"
#define X_FROM_HELP "where it begins along the neck"
#define X_TO_HELP "where it ends along the neck"
#define Y_FROM_HELP "where it begins across the neck"
#define Y_TO_HELP "where it ends across the neck"
#define AT(field) offsetof(struct place, field)
static const struct setting hold_rows[] = {
	ROW_TEXT("name", NEED_GIVEN, FIXTURE_NAME_MAX, AT(name), NAME_HELP),
	ROW("x_from", KIND_LENGTH, NEED_GIVEN, -3000, 3000, 0, AT(x_from_mm), X_FROM_HELP),
	ROW("x_to", KIND_LENGTH, NEED_GIVEN, -3000, 3000, 0, AT(x_to_mm), X_TO_HELP),
	ROW("y_from", KIND_LENGTH, NEED_GIVEN, -1000, 1000, 0, AT(y_from_mm), Y_FROM_HELP),
	ROW("y_to", KIND_LENGTH, NEED_GIVEN, -1000, 1000, 0, AT(y_to_mm), Y_TO_HELP),
};
#undef AT
static const struct setting_set hold_set = SET("a holding place", hold_rows);

#define AT(field) offsetof(struct keep_out_draft, field)
#define BOX SETTING_VARIANT(PLACE_BOX)
#define CYLINDER SETTING_VARIANT(PLACE_CYLINDER)
static const struct setting keep_out_rows[] = {
	ROW_CHOICE("shape", NEED_USUAL, place_shapes, PLACE_BOX, AT(place.shape),
		   "box: a rectangle from above; cylinder: round from above, as a screw is"),
	ROW_TEXT("name", NEED_GIVEN, FIXTURE_NAME_MAX, AT(place.name), NAME_HELP),
	ROW_VARIANT(BOX, "x_from", KIND_LENGTH, NEED_GIVEN, -3000, 3000, 0, AT(place.x_from_mm),
		    X_FROM_HELP),
	ROW_VARIANT(BOX, "x_to", KIND_LENGTH, NEED_GIVEN, -3000, 3000, 0, AT(place.x_to_mm),
		    X_TO_HELP),
	ROW_VARIANT(BOX, "y_from", KIND_LENGTH, NEED_GIVEN, -1000, 1000, 0, AT(place.y_from_mm),
		    Y_FROM_HELP),
	ROW_VARIANT(BOX, "y_to", KIND_LENGTH, NEED_GIVEN, -1000, 1000, 0, AT(place.y_to_mm),
		    Y_TO_HELP),
	ROW_VARIANT(CYLINDER, "x_centre", KIND_LENGTH, NEED_GIVEN, -3000, 3000, 0, AT(x_mm),
		    "its middle along the neck"),
	ROW_VARIANT(CYLINDER, "y_centre", KIND_LENGTH, NEED_GIVEN, -1000, 1000, 0, AT(y_mm),
		    "its middle across the neck"),
	ROW_VARIANT(CYLINDER, "diameter", KIND_LENGTH, NEED_GIVEN, 0.5, 500, 0, AT(diameter_mm),
		    "its diameter, at the widest: a screw's head"),
	ROW("top", KIND_LENGTH, NEED_GIVEN, -300, 500, 0, AT(place.top_mm),
	    "height of its top; it fills the space below"),
};
#undef AT
static const struct setting_set keep_out_set = SET("a keep-out", keep_out_rows);

#define AT(field) offsetof(struct glued_fretboard, field)
static const struct setting fretboard_rows[] = {
	ROW_FLAG("glued", NEED_GIVEN, 0, AT(glued),
		 "true: the fretboard is on, and the work lies on its face"),
	ROW("clearance", KIND_LENGTH, NEED_USUAL, 0.05, 5, 0.3, AT(clearance_mm),
	    "no part of the tool comes nearer to the fretboard"),
	ROW("overhang", KIND_LENGTH, NEED_USUAL, 0, 60, 0, AT(overhang_mm),
	    "how far it goes on past the last fret"),
	ROW("shim", KIND_LENGTH, NEED_USUAL, 0, 30, 0, AT(shim_mm),
	    "what lies between its face and riser or bed: frets, tape, a caul"),
};
#undef AT
static const struct setting_set fretboard_set = SET("a glued fretboard", fretboard_rows);

#define AT(field) offsetof(struct zero_spec, field)
static const struct setting zero_rows[] = {
	ROW_CHOICE("height", NEED_GIVEN, zero_heights, ZERO_GLUING_FACE, AT(height),
		   "what program zero is level with"),
	ROW_CHOICE("along", NEED_USUAL, zero_places, ZERO_NUT, AT(along),
		   "where program zero is along the neck, on the centre line"),
	ROW_VARIANT(SETTING_VARIANT(ZERO_BLANK_TOP), "top_at", KIND_LENGTH, NEED_GIVEN, -3000, 3000,
		    0, AT(top_at_mm), "where along the neck the blank's top is touched"),
};
#undef AT
static const struct setting_set zero_set = SET("a program zero", zero_rows);

#define AT(field) offsetof(struct fixture_draft, field)
static const struct setting fixture_rows[] = {
	ROW("riser_height", KIND_LENGTH, NEED_GIVEN, 0, 200, 0, AT(fixture.riser_height_mm),
	    "riser board under the gluing face; 0: the blank lies on the bed"),
	ROW("riser_width", KIND_LENGTH, NEED_GIVEN, 0, 200, 0, AT(fixture.riser_width_mm),
	    "riser board across the neck, narrower than the neck"),
	ROW("riser_from", KIND_LENGTH, NEED_GIVEN, -1000, 2000, 0, AT(fixture.riser_from_mm),
	    "where the riser board begins along the neck"),
	ROW("riser_to", KIND_LENGTH, NEED_GIVEN, -1000, 2000, 0, AT(fixture.riser_to_mm),
	    "where the riser board ends along the neck"),
	ROW("bed_clearance", KIND_LENGTH, NEED_USUAL, 0.5, 50, 1, AT(fixture.bed_clearance_mm),
	    "the tip stays this far above the bed"),
	ROW("keep_out_clearance", KIND_LENGTH, NEED_USUAL, 0.5, 50, 2,
	    AT(fixture.keep_out_clearance_mm),
	    "the cutter stays this far from riser, clamps and screws"),
	ROW_LIST("keep_out", NEED_NOTHING, 0, FIXTURE_PLACES_MAX, &keep_out_set, AT(keep_out),
		 sizeof(struct keep_out_draft), AT(keep_out_count),
		 "clamps and screws to stay away from"),
	ROW_LIST("hold", NEED_GIVEN, 1, FIXTURE_PLACES_MAX, &hold_set, AT(fixture.hold),
		 sizeof(struct place), AT(fixture.hold_count), "where the blank is held down"),
	ROW_GROUP("fretboard", NEED_NOTHING, &fretboard_set, AT(fixture.fretboard),
		  "a fretboard that is on the neck before it is carved"),
	ROW_GROUP("zero", NEED_NOTHING, &zero_set, AT(fixture.zero),
		  "program zero in words, instead of work_zero"),
	ROW_VALUES("work_zero", KIND_LENGTH, NEED_USUAL, -3000, 3000, 0, AT(fixture.work_zero_mm),
		   AXIS_COUNT, "program zero: x from the nut, y from the centre, z height"),
};
#undef AT
const struct setting_set settings_fixture = SET("the fixture", fixture_rows);

#define AT(field) offsetof(struct carve_spec, field)
static const struct setting carve_rows[] = {
	ROW("from", KIND_LENGTH, NEED_GIVEN, -500, 1500, 0, AT(from_mm),
	    "where carving begins; negative lies toward the peghead"),
	ROW("to", KIND_LENGTH, NEED_GIVEN, 10, 1500, 0, AT(to_mm), "where carving ends"),
	ROW("scallop_limit", KIND_LENGTH, NEED_USUAL, 0.002, 1, 0.05, AT(scallop_limit_mm),
	    "highest ridge the last passes may leave"),
	ROW("clearance", KIND_LENGTH, NEED_USUAL, 0.5, 100, 3, AT(clearance_mm),
	    "height of rapid moves above standing wood"),
	ROW("cell", KIND_LENGTH, NEED_USUAL, 0.05, 2, 0.2, AT(cell_mm),
	    "grid of the simulated stock"),
	ROW_CHOICE("waste", NEED_USUAL, waste_words, WASTE_CLEARED, AT(waste.kind),
		   "wood beside the neck: cleared, or left standing as rails"),
	ROW_WORDED("channel", KIND_LENGTH, 1, 200, 0, "what the cutters need and 4 mm",
		   AT(waste.channel_mm), "width of the channel between neck and rails"),
	ROW("tab_width", KIND_LENGTH, NEED_USUAL, 0, 60, 8, AT(waste.tab_width_mm),
	    "tabs for what would come loose, 4 mm and more along; 0: refuse instead"),
	ROW("tab_height", KIND_LENGTH, NEED_USUAL, 1, 30, 3, AT(waste.tab_height_mm),
	    "thickness of the tabs above the blank's under side"),
	ROW_WORDED("cove_limit", KIND_LENGTH, 0, 100, 100, "any", AT(cove_limit_mm),
		   "tallest cove that a low riser may leave at the edges"),
};
#undef AT
const struct setting_set settings_carve = SET("the carving", carve_rows);
