/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the files say, before names are looked up and sides inherit from their
 * station. Filled by walking the table, then turned into a job. */
#ifndef NECKHEW_CONFIG_DRAFT_H
#define NECKHEW_CONFIG_DRAFT_H

#include "base/fault.h"
#include "config/places.h"
#include "job/job.h"

#define DRAFT_CATALOG_MAX 64

/* `family` -1 and NAN elsewhere: as the station says. */
struct side_draft {
	int family;
	double fullness, flat_share, apex_radius_mm;
	struct section_outline outline; /* without points: as the station says */
};

struct station_draft {
	double fret, thickness_mm;
	struct side_draft both, bass, treble;
};

struct cutter_draft {
	struct cutter cutter;
	double chip_load_mm[WOOD_CLASS_COUNT];
};

/* What the shop owns; a job uses a machine, a wood and one or more cutters. */
struct shop_draft {
	size_t machine_count, cutter_count, wood_count;
	struct machine machines[DRAFT_CATALOG_MAX];
	struct cutter_draft cutters[DRAFT_CATALOG_MAX];
	struct wood woods[DRAFT_CATALOG_MAX];
};

/* A cutter that comes after the first. */
struct then_draft {
	char cutter[CUTTER_NAME_MAX];
};

struct use_draft {
	char machine[MACHINE_NAME_MAX];
	char cutter[CUTTER_NAME_MAX];
	char wood[WOOD_NAME_MAX];
	size_t then_count;
	struct then_draft then[JOB_CUTTERS_MAX - 1];
};

/* -1: as for the whole neck. */
struct stretch_draft {
	int lines, way, grain;
};

struct cutting_draft {
	struct cutting whole;
	struct stretch_draft stretch[STRETCH_COUNT];
};

/* A keep-out: of a cylinder only centre and diameter are stated. */
struct keep_out_draft {
	struct place place;
	double x_mm, y_mm, diameter_mm;
};

struct fixture_draft {
	struct fixture fixture; /* all but the keep-outs */
	size_t keep_out_count;
	struct keep_out_draft keep_out[FIXTURE_PLACES_MAX];
};

struct config_draft {
	struct job job; /* neck (without stations), blank, carve */
	struct fixture_draft fixture;
	size_t station_count;
	struct station_draft station[NECK_STATIONS_MAX];
	struct cutter_draft cutter; /* written into the job file itself */
	struct shop_draft shop;
	struct use_draft use;
	struct cutting_draft cutting;
};

/* Completes draft->job: sides inherit from their station, stretches from the
 * whole neck, cylinders get the square around them, program zero in words becomes
 * a place, the named machine,
 * cutters and wood are taken from the shop (and their places also entered as
 * "machine...", "cutter...", "use.then[0]...", "wood..."), the chip load is that
 * of the wood.
 * Every fault found is added; returns the first code. */
enum fault draft_finish(struct config_draft *draft, struct config_places *places,
			struct fault_list *faults);

#endif
