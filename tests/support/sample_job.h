/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole jobs for tests of core, and the neck of one made ready for queries. */
#ifndef NECKHEW_TESTS_SUPPORT_SAMPLE_JOB_H
#define NECKHEW_TESTS_SUPPORT_SAMPLE_JOB_H

#include "job/job.h"
#include "model/facet_tree.h"
#include "model/facets.h"
#include "model/neck.h"

/* The figures of examples/steel-string/neck.cfg: 645.16 mm scale, 21 mm at the
 * nut and 24 mm at the 11th fret over the fretboard, block heel 82 mm tall. */
struct job sample_steel_job(void);

/* A neck of the same kind but 90 mm long with a low heel: quick to plan. */
struct job sample_short_job(void);

/* The short job with tall rails, a tall heel and a cutter that sticks out half as
 * far: shank and holder keep terraces beside rails and heel, and in front of the
 * nose valleys run between them. */
struct job sample_terrace_job(void);

/* A job without neck work: a flat board 60 x 40 x 20 mm on a riser, held down
 * at its end toward the body, cut with a 6 mm ball. Its neck is the short
 * job's and plays no part. */
struct job sample_board_job(void);

/* A neck with its facets (TOL_FACET_MM) and their tree. */
struct sample_model {
	struct neck *neck;
	struct facets facets;
	struct facet_tree tree;
};

/* Fails the test when the neck cannot be built. Release with
 * sample_model_free. */
void sample_model_make(struct sample_model *out, const struct neck_spec *spec);
void sample_model_free(struct sample_model *model);

/* Point of the continuous surface: `v` of the way up on a side at x. */
struct vec3 sample_surface_point(const struct neck *neck, enum neck_side side, double x_mm,
				 double v);

/* A neck of the spec, which must be good; free it with neck_free. */
struct neck *sample_neck_built(const struct neck_spec *spec);

#endif
