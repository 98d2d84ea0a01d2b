/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The part of the settings table that describes the neck. Ranges are wide
 * enough for ukulele and bass alike; whether the figures fit each other is
 * judged when the neck is built. Usual values: common practice, no source. */
#include <math.h>

#include "config/draft.h"
#include "config/rows.h"
#include "model/neck_spec.h"

static const char *const hands[] = { "right", "left", NULL };
static const char *const shapes[] = { "C", "U", "D", "V", "measured", NULL };
static const char *const heel_kinds[] = { "block", "flat", "set", NULL };
static const char *const cap_plans[] = { "round", "pointed", "square", NULL };
static const char *const joint_kinds[] = { "none", "dovetail", "tenon", "bolt", NULL };

#define AT(field) offsetof(struct neck_spec, field)
static const struct setting neck_rows[] = {
	ROW_TEXT("name", NEED_GIVEN, NECK_NAME_MAX, AT(name),
		 "what the papers and programs call this neck"),
	ROW_CHOICE("hand", NEED_USUAL, hands, HAND_RIGHT, AT(hand),
		   "hand of the player the instrument is built for"),
	ROW("scale_length", KIND_LENGTH, NEED_GIVEN, 300, 1100, 0, AT(scale_length_mm),
	    "nut to saddle, without compensation"),
	ROW("frets", KIND_COUNT, NEED_GIVEN, 5, 36, 0, AT(fret_count), "number of frets"),
	ROW("joint_fret", KIND_FRET, NEED_GIVEN, 5, 30, 0, AT(joint_fret),
	    "fret at which the body begins"),
	ROW("nut_width", KIND_LENGTH, NEED_GIVEN, 20, 120, 0, AT(nut_width_mm),
	    "fretboard width at the nut"),
	ROW("width_fret", KIND_FRET, NEED_GIVEN, 1, 36, 0, AT(width_fret),
	    "the other fret at which the fretboard width is stated"),
	ROW("width", KIND_LENGTH, NEED_GIVEN, 20, 140, 0, AT(width_mm),
	    "fretboard width there; the edges are straight"),
	ROW("fretboard_thickness", KIND_LENGTH, NEED_GIVEN, 0, 15, 0, AT(fretboard_thickness_mm),
	    "fretboard thickness on the centre line"),
	ROW("side_margin", KIND_LENGTH, NEED_USUAL, 0, 5, 0, AT(side_margin_mm),
	    "how much narrower the wood is than the fretboard, per side"),
	ROW_FLAG("thickness_over_fretboard", NEED_GIVEN, 0, AT(over_fretboard),
		 "true: a station's thickness spans fretboard and wood; false: wood"),
};
#undef AT
const struct setting_set settings_neck = SET("the neck", neck_rows);

#define AT(field) offsetof(struct side_draft, field)
#define SHAPE_HELP "section: C oval, U deep, D flat-backed, V ridged, or measured"
#define FULLNESS_HELP "roundness of C, U and D: 2 is an ellipse, more is fuller"
#define FLAT_HELP "flat part of a D's half-width, 0.01 to 0.8"
#define APEX_HELP "rounding of a V's ridge"
#define OUTLINE_HELP "shares of height and half-width of a measured side, from (0, 1) up"
#define INHERITED "as the station"
static const struct setting side_rows[] = {
	{ .name = "shape",
	  .kind = KIND_CHOICE,
	  .need = NEED_USUAL,
	  .choices = shapes,
	  .usual = -1,
	  .usual_text = INHERITED,
	  .offset = AT(family),
	  .values = 1,
	  .help = SHAPE_HELP },
	ROW_WORDED("fullness", KIND_NUMBER, 2, 5, NAN, INHERITED, AT(fullness), FULLNESS_HELP),
	ROW_WORDED("flat_share", KIND_NUMBER, 0.01, 0.8, NAN, INHERITED, AT(flat_share), FLAT_HELP),
	ROW_WORDED("apex_radius", KIND_LENGTH, 0.5, 30, NAN, INHERITED, AT(apex_radius_mm),
		   APEX_HELP),
	ROW_SHARES("outline", INHERITED, AT(outline), OUTLINE_HELP),
};
#undef AT
static const struct setting_set side_set = SET("a side of a station", side_rows);

#define AT(field) offsetof(struct station_draft, field)
#define BY_SHAPE "usual for the shape"
static const struct setting station_rows[] = {
	ROW("fret", KIND_FRET, NEED_GIVEN, 0, 36, 0, AT(fret),
	    "where the station is; fractions lie between frets"),
	ROW("thickness", KIND_LENGTH, NEED_GIVEN, 5, 80, 0, AT(thickness_mm),
	    "finished thickness on the centre line, as the caliper reads it"),
	ROW_CHOICE("shape", NEED_USUAL, shapes, SECTION_C, AT(both.family), SHAPE_HELP),
	ROW_WORDED("fullness", KIND_NUMBER, 2, 5, 0, BY_SHAPE, AT(both.fullness), FULLNESS_HELP),
	ROW_WORDED("flat_share", KIND_NUMBER, 0.01, 0.8, 0, BY_SHAPE, AT(both.flat_share),
		   FLAT_HELP),
	ROW_WORDED("apex_radius", KIND_LENGTH, 0.5, 30, 0, BY_SHAPE, AT(both.apex_radius_mm),
		   APEX_HELP),
	ROW_SHARES("outline", "none", AT(both.outline), OUTLINE_HELP),
	ROW_GROUP("bass", NEED_USUAL, &side_set, AT(bass), "the bass side, where it differs"),
	ROW_GROUP("treble", NEED_USUAL, &side_set, AT(treble), "the treble side, where it differs"),
};
#undef AT
const struct setting_set settings_station = SET("a station", station_rows);

#define AT(field) offsetof(struct joint_spec, field)
#define SOME_JOINT                                                        \
	(SETTING_VARIANT(JOINT_DOVETAIL) | SETTING_VARIANT(JOINT_TENON) | \
	 SETTING_VARIANT(JOINT_BOLT))
static const struct setting joint_rows[] = {
	ROW_CHOICE("kind", NEED_GIVEN, joint_kinds, JOINT_NONE, AT(kind),
		   "what stands out of the neck's end and may not be cut"),
	ROW_VARIANT(SOME_JOINT, "length", KIND_LENGTH, NEED_GIVEN, 1, 150, 0, AT(length_mm),
		    "length of the joint along the neck, from its end on"),
	ROW_VARIANT(SOME_JOINT, "width", KIND_LENGTH, NEED_GIVEN, 1, 100, 0, AT(width_mm),
		    "width of the joint across the neck, where it is widest"),
	ROW_VARIANT(SOME_JOINT, "bottom", KIND_LENGTH, NEED_USUAL, 0, 150, 0, AT(bottom_mm),
		    "height above the gluing face at which the joint begins"),
	ROW_VARIANT(SOME_JOINT, "top", KIND_LENGTH, NEED_GIVEN, 1, 150, 0, AT(top_mm),
		    "height above the gluing face at which the joint ends"),
};
#undef AT
static const struct setting_set joint_set = SET("the heel's joint", joint_rows);

#define AT(field) offsetof(struct heel_spec, field)
#define BLOCK SETTING_VARIANT(HEEL_BLOCK)
#define FLAT SETTING_VARIANT(HEEL_FLAT)
#define SET_IN SETTING_VARIANT(HEEL_SET)
static const struct setting heel_rows[] = {
	ROW_CHOICE("kind", NEED_GIVEN, heel_kinds, 0, AT(kind),
		   "block: tall, with a cap; flat: bolt-on slab; set: tenon into the body"),
	ROW("height", KIND_LENGTH, NEED_GIVEN, 5, 150, 0, AT(height_mm),
	    "block: gluing face to cap; flat, set: thickness of slab or tenon"),
	ROW_VARIANT_CHOICE(BLOCK, "cap_plan", cap_plans, CAP_ROUND, AT(cap_plan),
			   "the cap's front seen from its own side"),
	ROW_VARIANT(BLOCK, "cap_length", KIND_LENGTH, NEED_GIVEN, 3, 60, 0, AT(cap_length_mm),
		    "cap along the neck; it ends at the body"),
	ROW_VARIANT_WORDED(BLOCK, "cap_curve", KIND_LENGTH, 1, 60, 0, "by plan and width",
			   AT(cap_curve_mm), "how much of the cap's length its front curve takes"),
	ROW_VARIANT(BLOCK, "cap_width_front", KIND_LENGTH, NEED_GIVEN, 5, 100, 0,
		    AT(cap_width_front_mm),
		    "cap width where the front's curve ends; square: at the front"),
	ROW_VARIANT(BLOCK, "cap_width_back", KIND_LENGTH, NEED_GIVEN, 5, 100, 0,
		    AT(cap_width_back_mm), "cap width at the body"),
	ROW_VARIANT(BLOCK, "hollow", KIND_LENGTH, NEED_USUAL, 0, 5, 1, AT(hollow_mm),
		    "how far the cheeks dip at mid height, so that their rims bear"),
	ROW_VARIANT(BLOCK, "hollow_rim", KIND_LENGTH, NEED_USUAL, 0, 30, 3, AT(hollow_rim_mm),
		    "height of the straight rims above and below the hollow"),
	ROW_VARIANT(BLOCK, "nose_radius", KIND_LENGTH, NEED_GIVEN, 3, 100, 0, AT(nose_radius_mm),
		    "fillet between shaft and nose, seen from the side"),
	ROW_VARIANT(BLOCK, "nose_angle_deg", KIND_ANGLE, NEED_GIVEN, 20, 85, 0, AT(nose_angle_rad),
		    "steepness of the nose above its fillet"),
	ROW_VARIANT(FLAT, "slab_length", KIND_LENGTH, NEED_GIVEN, 10, 200, 0, AT(slab_length_mm),
		    "slab from its start to the neck's end"),
	ROW_VARIANT(FLAT | SET_IN, "beyond_joint", KIND_LENGTH, NEED_USUAL, 0, 150, 0,
		    AT(beyond_joint_mm),
		    "how far the neck runs past the body joint; a tenon's length"),
	ROW_VARIANT(FLAT | SET_IN, "ease_length", KIND_LENGTH, NEED_GIVEN, 5, 200, 0,
		    AT(ease_length_mm), "length over which the shaft fairs into slab or tenon"),
	ROW_VARIANT(SET_IN, "tenon_width", KIND_LENGTH, NEED_GIVEN, 10, 120, 0, AT(tenon_width_mm),
		    "width of the tenon between its straight sides"),
	ROW_VARIANT(SET_IN, "shoulder_length", KIND_LENGTH, NEED_USUAL, 1, 100, 20,
		    AT(shoulder_length_mm),
		    "past the joint, over which the sides close in to the tenon"),
	ROW_GROUP("joint", NEED_NOTHING, &joint_set, AT(joint),
		  "the joint that stands out of the neck's end, to be kept clear"),
};
#undef AT
const struct setting_set settings_heel = SET("the heel", heel_rows);

#define AT(field) offsetof(struct peghead_spec, field)
static const struct setting peghead_rows[] = {
	ROW("angle_deg", KIND_ANGLE, NEED_GIVEN, 0, 25, 0, AT(angle_rad),
	    "between gluing face and peghead face"),
	ROW("thickness", KIND_LENGTH, NEED_GIVEN, 8, 30, 0, AT(thickness_mm),
	    "peghead thickness, square to its face"),
	ROW("width", KIND_LENGTH, NEED_GIVEN, 20, 200, 0, AT(width_mm),
	    "peghead width beyond the flare"),
	ROW("transition", KIND_LENGTH, NEED_GIVEN, 5, 120, 0, AT(transition_mm),
	    "length along the neck from the nut to the peghead proper"),
	ROW("length", KIND_LENGTH, NEED_USUAL, 1, 250, 40, AT(length_mm),
	    "how much of the peghead proper is modelled, along the neck"),
	ROW("flare", KIND_LENGTH, NEED_USUAL, 1, 100, 20, AT(flare_mm),
	    "length over which the plan opens from nut to peghead width"),
	ROW("volute_height", KIND_LENGTH, NEED_USUAL, 0, 12, 0, AT(volute_height_mm),
	    "rise of a volute behind the nut; 0: none"),
	ROW("volute_length", KIND_LENGTH, NEED_USUAL, 0, 80, 0, AT(volute_length_mm),
	    "length of the volute along the neck"),
};
#undef AT
const struct setting_set settings_peghead = SET("the peghead", peghead_rows);

#define AT(field) offsetof(struct channel_spec, field)
static const struct setting channel_rows[] = {
	ROW("width", KIND_LENGTH, NEED_GIVEN, 1, 20, 0, AT(width_mm), "width of the rod channel"),
	ROW("depth", KIND_LENGTH, NEED_GIVEN, 1, 30, 0, AT(depth_mm),
	    "depth of the rod channel below the gluing face"),
	ROW("from", KIND_LENGTH, NEED_USUAL, -60, 1000, 0, AT(from_mm),
	    "where the channel begins; 0 is the nut"),
	ROW("to", KIND_LENGTH, NEED_GIVEN, 10, 1000, 0, AT(to_mm), "where the channel ends"),
	ROW("least_wood", KIND_LENGTH, NEED_USUAL, 1, 20, 3, AT(least_wood_mm),
	    "wood that must remain between channel and finished back"),
};
#undef AT
const struct setting_set settings_channel = SET("the rod channel", channel_rows);

#define AT(field) offsetof(struct allowance_spec, field)
static const struct setting allowance_rows[] = {
	ROW("back", KIND_LENGTH, NEED_USUAL, 0, 5, 1, AT(back_mm), "hand-finish stock on the back"),
	ROW("sides", KIND_LENGTH, NEED_USUAL, 0, 5, 0.6, AT(sides_mm),
	    "hand-finish stock on the sides, next to the fretboard"),
	ROW("heel_cheeks", KIND_LENGTH, NEED_USUAL, 0, 5, 1, AT(heel_cheeks_mm),
	    "hand-finish stock on the heel's cheeks and cap"),
	ROW("transitions", KIND_LENGTH, NEED_USUAL, 0, 5, 1, AT(transitions_mm),
	    "hand-finish stock at peghead and heel nose"),
	ROW("side_height", KIND_LENGTH, NEED_USUAL, 0, 30, 4, AT(side_height_mm),
	    "how high above the gluing face the sides reach"),
};
#undef AT
const struct setting_set settings_allowance = SET("the allowance", allowance_rows);
