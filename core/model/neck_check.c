/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/neck_check.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>

#include "base/units.h"
#include "model/crest.h"
#include "model/heel_check.h"
#include "model/taper.h"

/* Collects the first code while every check runs. */
struct check {
	const struct neck_spec *spec;
	struct fault_list *faults;
	enum fault first;
};

static void check_lengths(struct check *check)
{
	const struct neck_spec *spec = check->spec;
	const struct {
		const char *setting;
		double value_mm;
	} lengths[] = {
		{ "neck.scale_length", spec->scale_length_mm },
		{ "neck.nut_width", spec->nut_width_mm },
		{ "neck.width", spec->width_mm },
		{ "neck.width_fret", spec->width_fret },
		{ "neck.joint_fret", spec->joint_fret },
		{ "peghead.thickness", spec->peghead.thickness_mm },
		{ "peghead.transition", spec->peghead.transition_mm },
		{ "peghead.length", spec->peghead.length_mm },
		{ "peghead.flare", spec->peghead.flare_mm },
		{ "heel.height", spec->heel.height_mm },
	};

	for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++)
		fault_keep(&check->first, fault_unless_positive(check->faults, lengths[i].setting,
								lengths[i].value_mm));
}

static void check_width(struct check *check)
{
	const struct neck_spec *spec = check->spec;
	double nut_mm = taper_wood_half_width_mm(spec, 0.0);
	double joint_mm = taper_wood_half_width_mm(spec, taper_neck_end_mm(spec));

	if (nut_mm < 5.0 || joint_mm < 5.0)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_GEOMETRY, NULL, 0, "neck.width",
				     "The wood would be %.4g mm wide at the nut and %.4g mm at "
				     "the joint; it must be at least 10 mm.",
				     2.0 * nut_mm, 2.0 * joint_mm));
	if (!(spec->peghead.width_mm / 2.0 >= nut_mm) || !isfinite(spec->peghead.width_mm))
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_GEOMETRY, NULL, 0, "peghead.width",
				     "The peghead is %.4g mm wide, the wood at the nut %.4g mm; "
				     "the peghead must be at least as wide.",
				     spec->peghead.width_mm, 2.0 * nut_mm));
	if (spec->joint_fret > spec->fret_count)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_GEOMETRY, NULL, 0, "neck.joint_fret",
				     "The neck joins the body at fret %.4g, but has only %d "
				     "frets.",
				     spec->joint_fret, spec->fret_count));
}

static void check_one_station(struct check *check, size_t i)
{
	const struct neck_spec *spec = check->spec;
	char setting[64];

	(void)snprintf(setting, sizeof setting, "stations[%zu].thickness", i);
	if (!(crest_station_wood_mm(spec, i) >= NECK_LEAST_WOOD_MM))
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_GEOMETRY, NULL, 0, setting,
				     "The thickness leaves %.4g mm of wood; at least %.4g mm "
				     "must remain%s.",
				     crest_station_wood_mm(spec, i), NECK_LEAST_WOOD_MM,
				     spec->over_fretboard ? " under the fretboard" : ""));
	(void)snprintf(setting, sizeof setting, "stations[%zu].fret", i);
	if (i > 0 && !(spec->station[i].fret > spec->station[i - 1].fret))
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, setting,
				     "Fret %.4g does not lie beyond the station before it "
				     "(fret %.4g); list stations from the nut on.",
				     spec->station[i].fret, spec->station[i - 1].fret));
	if (spec->station[i].fret < 0.0 || !isfinite(spec->station[i].fret))
		fault_keep(&check->first, fault_add(check->faults, FAULT_SETTING, NULL, 0, setting,
						    "A station cannot lie in front of the nut."));
}

static void check_figure(struct check *check, const char *setting, double value)
{
	if (value >= 0.0 && isfinite(value))
		return;
	fault_keep(&check->first,
		   fault_add(check->faults, FAULT_SETTING, NULL, 0, setting,
			     "It is %.4g; it must be a number that is not negative.", value));
}

static void check_section_figures(struct check *check, size_t i)
{
	const struct station_spec *station = &check->spec->station[i];
	const struct section_spec *sides[] = { &station->bass, &station->treble };
	char setting[64];

	(void)snprintf(setting, sizeof setting, "stations[%zu].shape", i);
	for (size_t k = 0; k < 2; k++) {
		check_figure(check, setting, sides[k]->fullness);
		check_figure(check, setting, sides[k]->flat_share);
		check_figure(check, setting, sides[k]->apex_radius_mm);
	}
}

static void check_stations(struct check *check)
{
	const struct neck_spec *spec = check->spec;

	if (spec->station_count < 2 || spec->station_count > NECK_STATIONS_MAX) {
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "stations",
				     "There are %zu stations; a neck needs 2 to %d.",
				     spec->station_count, NECK_STATIONS_MAX));
		return;
	}
	if (spec->station[0].fret > 1.0)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "stations[0].fret",
				     "The first station is fret %.4g; it must be the nut or the "
				     "1st fret.",
				     spec->station[0].fret));
	for (size_t i = 0; i < spec->station_count; i++) {
		check_one_station(check, i);
		check_section_figures(check, i);
	}
}

static void check_peghead(struct check *check)
{
	const struct peghead_spec *peghead = &check->spec->peghead;

	if (!(peghead->angle_rad >= 0.0) || peghead->angle_rad > units_rad_from_deg(25.0))
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_SETTING, NULL, 0, "peghead.angle_deg",
				     "The angle is %.4g degrees; it can be 0 to 25.",
				     units_deg_from_rad(peghead->angle_rad)));
	if (peghead->flare_mm > peghead->length_mm)
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_GEOMETRY, NULL, 0, "peghead.flare",
				     "The flare of %.4g mm is longer than the modelled peghead of "
				     "%.4g mm.",
				     peghead->flare_mm, peghead->length_mm));
	if (!(peghead->volute_height_mm >= 0.0) ||
	    (peghead->volute_height_mm > 0.0 &&
	     !(peghead->volute_length_mm > 0.0 &&
	       peghead->volute_length_mm <= peghead->transition_mm)))
		fault_keep(&check->first,
			   fault_add(check->faults, FAULT_GEOMETRY, NULL, 0,
				     "peghead.volute_length",
				     "A volute of %.4g mm length does not fit the transition of "
				     "%.4g mm.",
				     peghead->volute_length_mm, peghead->transition_mm));
}

static void check_allowance(struct check *check)
{
	const struct allowance_spec *a = &check->spec->allowance;
	const struct {
		const char *setting;
		double value_mm;
	} zones[] = { { "allowance.back", a->back_mm },
		      { "allowance.sides", a->sides_mm },
		      { "allowance.heel_cheeks", a->heel_cheeks_mm },
		      { "allowance.transitions", a->transitions_mm },
		      { "allowance.side_height", a->side_height_mm } };

	for (size_t i = 0; i < sizeof zones / sizeof zones[0]; i++)
		if (!(zones[i].value_mm >= 0.0) || !isfinite(zones[i].value_mm))
			fault_keep(&check->first, fault_add(check->faults, FAULT_SETTING, NULL, 0,
							    zones[i].setting,
							    "It is %.4g mm; it cannot be negative.",
							    zones[i].value_mm));
}

enum fault neck_check(const struct neck_spec *spec, struct fault_list *faults)
{
	struct check check = { .spec = spec, .faults = faults };

	check_lengths(&check);
	check_stations(&check);
	if (check.first == FAULT_NONE)
		check_width(&check);
	fault_keep(&check.first, heel_check(spec, faults));
	check_peghead(&check);
	check_allowance(&check);
	check_figure(&check, "channel.width", spec->channel.width_mm);
	check_figure(&check, "channel.least_wood", spec->channel.least_wood_mm);
	return check.first;
}
