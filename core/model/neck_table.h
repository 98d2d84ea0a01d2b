/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The waterlines as a table of cubic pieces: what the finished surface is.
 * Private to core/model; others use neck.h and facets.h. */
#ifndef NECKHEW_MODEL_NECK_TABLE_H
#define NECKHEW_MODEL_NECK_TABLE_H

#include <stddef.h>

#include "base/fault.h"
#include "model/breadth.h"
#include "model/crest.h"

struct neck_table {
	size_t knot_count, level_count;
	double *knot; /* x, ascending */
	double *level; /* v, 0 to 1 */
	/* Per knot: value, slope toward the knot from the left and on from it to
	 * the right. They differ where two rules meet at a corner. */
	double *crest, *crest_in, *crest_out;
	/* the same by [side][knot * level_count + level] */
	double *breadth[SIDE_COUNT], *breadth_in[SIDE_COUNT], *breadth_out[SIDE_COUNT];
	double base_slope; /* of the peghead's face in front of the nut: base = slope * x */
};

/* A place along x: which piece and the weights of its cubic there. */
struct neck_piece {
	size_t knot; /* left knot of the piece */
	double w[4]; /* for values */
	double x_mm; /* clamped to the table */
};

/* Tabulates crest and breadths over knots dense enough that the cubics follow
 * them (every place where a rule changes is a knot). */
enum fault neck_table_build(struct neck_table *out, const struct neck_spec *spec,
			    const struct crest *crest, const struct breadth *breadth,
			    struct fault_list *faults);
void neck_table_free(struct neck_table *table);

/* The piece at x (clamped to the table's ends). */
struct neck_piece neck_table_piece(const struct neck_table *table, double x_mm);

/* Half-breadth of a level, crest and base at a piece's place, mm. */
static inline double neck_table_breadth_mm(const struct neck_table *table,
					   const struct neck_piece *piece, int side, size_t level)
{
	size_t a = piece->knot * table->level_count + level, b = a + table->level_count;

	return piece->w[0] * table->breadth[side][a] + piece->w[1] * table->breadth_out[side][a] +
	       piece->w[2] * table->breadth[side][b] + piece->w[3] * table->breadth_in[side][b];
}

static inline double neck_table_crest_mm(const struct neck_table *table,
					 const struct neck_piece *piece)
{
	size_t a = piece->knot, b = a + 1;

	return piece->w[0] * table->crest[a] + piece->w[1] * table->crest_out[a] +
	       piece->w[2] * table->crest[b] + piece->w[3] * table->crest_in[b];
}

static inline double neck_table_base_mm(const struct neck_table *table, double x_mm)
{
	return x_mm < 0.0 ? table->base_slope * x_mm : 0.0;
}

#endif
