/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every tolerance of the program, with its unit and its reason. */
#ifndef NECKHEW_BASE_TOL_H
#define NECKHEW_BASE_TOL_H

/* A section drawn with straight pieces between waterlines may differ from its
 * family's formula by this much, mm. Ten times finer than a caliper reads. */
#define TOL_SECTION_MM 0.002

/* A facet may differ from the continuous surface by this much, mm; it is
 * charged against the safe side wherever facets stand in for the surface. */
#define TOL_FACET_MM 0.004

/* The proof accepts a clearance smaller than ball + allowance by this much,
 * mm: what rounding to program decimals and chords may use up. */
#define TOL_PROOF_MM 0.010

/* The planner keeps this much more than the allowance, mm, so that chords and
 * rounding never reach the proof's tolerance. */
#define TOL_PLAN_MARGIN_MM 0.004

/* A pass may leave the lowest-tip surface by this much between its points,
 * mm, measured along the normal. */
#define TOL_CHORD_MM 0.005

/* An arc written in place of straight cuts lies within this of them, mm,
 * whichever of its two radii (from the centre to its start and to its end, both
 * rounded to program decimals) a control goes by. A chord may come TOL_CHORD_MM
 * nearer to the wood than the margin, rounding takes up to 0.002 and the judging
 * of arcs 0.002: 0.004 - 0.005 - 0.002 - 0.005 - 0.002 = -0.010, the proof's
 * tolerance, in which the proof's charge for facets must find room too. All at
 * once is rare, for an arc through the corners of a polyline lies nearer to the
 * surface that both follow than its chords do: the least clearance met on
 * examples and random necks is -0.0071 with arcs and -0.0059 without. Should one
 * come too near, the proof refuses it. */
#define TOL_ARC_MM 0.005

/* The corners of the straight cuts lie within this of the arc, mm. */
#define TOL_ARC_CORNER_MM 0.002

/* The two radii of a written arc differ by no more than this, mm. Controls
 * refuse more than 0.002 (docs/program-form.md). */
#define TOL_ARC_RADII_MM 0.001

/* An arc that is read is judged in straight pieces no farther from it than
 * this, mm. */
#define TOL_ARC_PIECE_MM 0.001

/* Bites and levels are compared with this slack, mm: a program's decimals. */
#define TOL_BITE_MM 0.02

/* Wood that reaches into the ball's path by less than this from the side, mm,
 * is brushed off as dust; it is not a bite, however tall it stands. */
#define TOL_BRUSH_MM 0.05

/* A rapid must stay this far above wood, mm, whatever the job asks for. */
#define TOL_RAPID_MM 0.2

/* Wood thinner than this cannot hold a piece in place, mm (common practice,
 * no source). */
#define TOL_HOLDING_SKIN_MM 0.8

/* A loose piece smaller than this in plan, mm2, is dust, not a projectile. */
#define TOL_LOOSE_AREA_MM2 9.0

/* A downward move steeper than the ramp angle by this much still counts as
 * the ramp, rad: rounding of short moves to program decimals. */
#define TOL_RAMP_RAD 0.01

#endif
