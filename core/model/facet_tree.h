/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Distances from a point to the finished surface: a tree of boxes over the
 * facets. The facets must outlive the tree. */
#ifndef NECKHEW_MODEL_FACET_TREE_H
#define NECKHEW_MODEL_FACET_TREE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/fault.h"
#include "model/facets.h"

struct facet_node {
	double low[3], high[3];
	double allowance_mm; /* the largest below */
	unsigned first, count; /* leaf: order[first .. first + count) */
	unsigned right; /* inner node (count 0): left child is the next node */
};

struct facet_tree {
	const struct facets *facets;
	unsigned *order;
	struct facet_node *node;
	size_t node_count;
};

enum fault facet_tree_build(struct facet_tree *out, const struct facets *facets,
			    struct fault_list *faults);
void facet_tree_free(struct facet_tree *tree);

/* The point of a triangle nearest to `point`. Source: Voronoi regions of a
 * triangle, C. Ericson, Real-Time Collision Detection (2005), section 5.1.5
 * (from memory). */
struct vec3 facet_nearest_point(const struct facet *facet, struct vec3 point);

struct nearest {
	size_t facet; /* index of the nearest facet */
	struct vec3 point; /* on it */
	double distance_mm; /* to the facets */
	double bound_mm; /* the continuous surface is at most this much nearer or farther */
};

/* Nearest point of the finished surface. False only when the tree is empty. */
bool facet_tree_nearest(const struct facet_tree *tree, struct vec3 point, struct nearest *out);

/* Least of (distance - allowance) over all facets, mm, or `limit_mm` when none
 * is less. */
double facet_tree_clearance_mm(const struct facet_tree *tree, struct vec3 point, double limit_mm);

/* Calls visit(context, facet, nearest point, distance) for every facet with
 * distance - allowance < limit_mm, until a visit returns false. Returns false
 * when one did. */
bool facet_tree_visit(const struct facet_tree *tree, struct vec3 point, double limit_mm,
		      bool (*visit)(void *context, const struct facet *facet, struct vec3 nearest,
				    double distance_mm),
		      void *context);

#endif
