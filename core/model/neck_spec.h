/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the builder says about the neck, in mm and radians, validated by
 * neck_build and nowhere else. */
#ifndef NECKHEW_MODEL_NECK_SPEC_H
#define NECKHEW_MODEL_NECK_SPEC_H

#include <stdbool.h>
#include <stddef.h>

#define NECK_STATIONS_MAX 24
#define NECK_NAME_MAX 128

/* The instrument lies face down, x toward the body: on a right-handed one the
 * bass side is then at +y, on a left-handed one at -y. */
enum neck_hand { HAND_RIGHT, HAND_LEFT };

/* SIDE_MINUS is the side at -y, SIDE_PLUS the one at +y. */
enum neck_side { SIDE_MINUS, SIDE_PLUS, SIDE_COUNT };

/* Section families a station can ask for (model/section.c holds the table). */
enum section_family {
	SECTION_C,
	SECTION_U,
	SECTION_D,
	SECTION_V,
	SECTION_MEASURED,
	SECTION_FAMILY_COUNT
};

/* A measured outline by points: share of the height, 0 to 1, and share of the
 * half-width there, from 1 down. */
#define SECTION_POINTS_LEAST 4
#define SECTION_POINTS_MAX 33
struct section_outline {
	size_t count; /* 0: none given */
	double height[SECTION_POINTS_MAX];
	double breadth[SECTION_POINTS_MAX];
};

/* One side of one station's section. A value of 0 asks for the family's
 * usual figure. */
struct section_spec {
	enum section_family family;
	double fullness; /* superellipse exponent, none; C, U, D */
	double flat_share; /* flat part of the half-breadth, 0..0.8; D */
	double apex_radius_mm; /* rounding of the ridge; V */
	struct section_outline outline; /* measured, and must then be given */
};

struct station_spec {
	double fret; /* 0 is the nut; fractions allowed between frets */
	double thickness_mm; /* as the builder's caliper spans it, see over_fretboard */
	struct section_spec bass, treble;
};

enum heel_kind {
	HEEL_BLOCK, /* tall heel with a cap, hollowed cheeks and a nose */
	HEEL_FLAT, /* flat slab for a bolt-on pocket */
	HEEL_SET, /* deep heel that runs into the body as a tenon with straight sides */
	HEEL_KIND_COUNT
};

/* The cap's front end seen from its own side. */
enum cap_plan {
	CAP_ROUND, /* half an ellipse */
	CAP_POINTED, /* two arcs that meet at a point */
	CAP_SQUARE, /* straight across */
	CAP_PLAN_COUNT
};

/* What holds the neck in the body, made before the neck is carved. */
enum joint_kind {
	JOINT_NONE, /* nothing stands out of the neck's end */
	JOINT_DOVETAIL,
	JOINT_TENON,
	JOINT_BOLT, /* bolts or their inserts stand out of the end */
	JOINT_KIND_COUNT
};

/* The joint's box, out of the neck's end into the body: model/joint.h. */
struct joint_spec {
	enum joint_kind kind;
	double length_mm; /* along the neck, from its end on */
	double width_mm; /* across, where it is widest; half to each side */
	double bottom_mm, top_mm; /* heights above the gluing face */
};

struct heel_spec {
	enum heel_kind kind;
	/* HEEL_BLOCK: from the gluing face to the cap. HEEL_FLAT: wood
	 * thickness of the slab. HEEL_SET: depth of the tenon. */
	double height_mm;
	/* HEEL_BLOCK */
	enum cap_plan cap_plan;
	double cap_length_mm; /* along x, ends at the body joint */
	double cap_curve_mm; /* so much of it is the front's curve; 0: usual */
	double cap_width_front_mm; /* where the curve ends; square: at the front */
	double cap_width_back_mm; /* at the body joint */
	double hollow_mm; /* how far the cheeks dip at mid height */
	double hollow_rim_mm; /* height of the straight rims above and below */
	double nose_radius_mm; /* fillet between shaft and nose, side view */
	double nose_angle_rad; /* steepness of the nose above the fillet */
	/* HEEL_FLAT */
	double slab_length_mm; /* from its start to the neck's end */
	/* HEEL_FLAT and HEEL_SET */
	double beyond_joint_mm; /* how far the neck runs past the body joint */
	double ease_length_mm; /* over which the shaft fairs into slab or tenon */
	/* HEEL_SET */
	double tenon_width_mm;
	double shoulder_length_mm; /* over which the sides close in to it, past the joint */
	struct joint_spec joint;
};

struct peghead_spec {
	double angle_rad; /* between gluing face and peghead face */
	double thickness_mm; /* square to its face */
	double width_mm; /* beyond the transition */
	double transition_mm; /* length along x from the nut to the peghead proper */
	double length_mm; /* of the peghead proper that the model carries, along x */
	double flare_mm; /* length over which the plan opens from nut to peghead width */
	double volute_height_mm; /* 0: none */
	double volute_length_mm;
};

struct channel_spec {
	double width_mm, depth_mm; /* 0 width: no channel */
	double from_mm, to_mm; /* along x */
	double least_wood_mm; /* to remain between channel floor and finished back */
};

/* Hand-finish stock by zone, mm along the surface normal. */
struct allowance_spec {
	double back_mm, sides_mm, heel_cheeks_mm, transitions_mm;
	double side_height_mm; /* the sides are this high above the gluing face */
};

struct neck_spec {
	char name[NECK_NAME_MAX];
	enum neck_hand hand;
	double scale_length_mm;
	int fret_count;
	double joint_fret; /* where the body begins */
	double nut_width_mm;
	double width_fret; /* the second place where the width is stated ... */
	double width_mm; /* ... and the width there */
	double fretboard_thickness_mm; /* on the centre line */
	double side_margin_mm; /* wood is this much narrower per side than the fretboard */
	bool over_fretboard; /* thickness_mm spans fretboard and wood */
	size_t station_count;
	struct station_spec station[NECK_STATIONS_MAX];
	struct heel_spec heel;
	struct peghead_spec peghead;
	struct channel_spec channel;
	struct allowance_spec allowance;
};

#endif
