/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/facet_tree.h"

#include <math.h>
#include <stdlib.h>

#include "base/mem.h"
#include "base/minmax.h"

#define LEAF_FACETS 4
/* A tree halved at the median is never deeper than this for 2^32 facets. */
#define DEPTH_MAX 64

static double coordinate(struct vec3 p, int axis)
{
	return axis == 0 ? p.x : (axis == 1 ? p.y : p.z);
}

static double middle_of(const struct facet *facet, int axis)
{
	return coordinate(facet->p[0], axis) + coordinate(facet->p[1], axis) +
	       coordinate(facet->p[2], axis);
}

static void bound_node(struct facet_tree *tree, struct facet_node *node, size_t first, size_t count)
{
	node->allowance_mm = 0.0;
	for (int axis = 0; axis < 3; axis++) {
		node->low[axis] = INFINITY;
		node->high[axis] = -INFINITY;
	}
	for (size_t i = first; i < first + count; i++) {
		const struct facet *facet = &tree->facets->item[tree->order[i]];
		node->allowance_mm = larger(node->allowance_mm, facet->allowance_mm);
		for (int corner = 0; corner < 3; corner++)
			for (int axis = 0; axis < 3; axis++) {
				double value = coordinate(facet->p[corner], axis);
				node->low[axis] = smaller(node->low[axis], value);
				node->high[axis] = larger(node->high[axis], value);
			}
	}
}

static int longest_axis(const struct facet_node *node)
{
	int best = 0;

	for (int axis = 1; axis < 3; axis++)
		if (node->high[axis] - node->low[axis] > node->high[best] - node->low[best])
			best = axis;
	return best;
}

/* Hoare's selection: afterwards order[first + half] stands where sorting along
 * `axis` would put it, smaller ones before it. */
static void select_half(struct facet_tree *tree, size_t first, size_t count, int axis)
{
	unsigned *order = tree->order;
	const struct facet *facets = tree->facets->item;
	size_t low = first, high = first + count - 1, target = first + count / 2;

	while (low < high) {
		double pivot = middle_of(&facets[order[(low + high) / 2]], axis);
		size_t i = low, j = high;
		while (i <= j) {
			while (middle_of(&facets[order[i]], axis) < pivot)
				i++;
			while (middle_of(&facets[order[j]], axis) > pivot)
				j--;
			if (i <= j) {
				unsigned swap = order[i];
				order[i++] = order[j];
				order[j] = swap;
				if (j == 0)
					break;
				j--;
			}
		}
		if (target <= j)
			high = j;
		else if (target >= i)
			low = i;
		else
			return;
	}
}

/* Builds the node for order[first ..) and all below it; returns its index. */
static size_t build_node(struct facet_tree *tree, size_t first, size_t count)
{
	size_t index = tree->node_count++;
	struct facet_node *node = &tree->node[index];

	bound_node(tree, node, first, count);
	node->first = (unsigned)first;
	node->count = (unsigned)count;
	node->right = 0;
	if (count <= LEAF_FACETS)
		return index;
	select_half(tree, first, count, longest_axis(node));
	node->count = 0;
	build_node(tree, first, count / 2);
	size_t right = build_node(tree, first + count / 2, count - count / 2);
	tree->node[index].right = (unsigned)right;
	return index;
}

enum fault facet_tree_build(struct facet_tree *out, const struct facets *facets,
			    struct fault_list *faults)
{
	*out = (struct facet_tree){ .facets = facets };
	out->order = mem_array(facets->count, sizeof *out->order);
	/* a binary tree with at least LEAF_FACETS / 2 facets in each leaf */
	out->node = mem_array(facets->count + 1, sizeof *out->node);
	if (!out->order || !out->node) {
		facet_tree_free(out);
		return fault_no_memory(faults, "the tree of facets");
	}
	for (size_t i = 0; i < facets->count; i++)
		out->order[i] = (unsigned)i;
	if (facets->count > 0)
		build_node(out, 0, facets->count);
	return FAULT_NONE;
}

void facet_tree_free(struct facet_tree *tree)
{
	if (!tree)
		return;
	free(tree->order);
	free(tree->node);
	*tree = (struct facet_tree){ 0 };
}

/* Nearest point on edge a-b when the foot is known to fall on it. */
static struct vec3 on_edge(struct vec3 a, struct vec3 b, double from_a, double from_b)
{
	return vec3_between(a, b, from_a / (from_a - from_b));
}

struct vec3 facet_nearest_point(const struct facet *facet, struct vec3 point)
{
	struct vec3 a = facet->p[0], b = facet->p[1], c = facet->p[2];
	struct vec3 ab = vec3_sub(b, a), ac = vec3_sub(c, a);
	struct vec3 ap = vec3_sub(point, a), bp = vec3_sub(point, b), cp = vec3_sub(point, c);
	double d1 = vec3_dot(ab, ap), d2 = vec3_dot(ac, ap);
	double d3 = vec3_dot(ab, bp), d4 = vec3_dot(ac, bp);
	double d5 = vec3_dot(ab, cp), d6 = vec3_dot(ac, cp);

	if (d1 <= 0.0 && d2 <= 0.0)
		return a;
	if (d3 >= 0.0 && d4 <= d3)
		return b;
	if (d6 >= 0.0 && d5 <= d6)
		return c;
	double vc = d1 * d4 - d3 * d2, vb = d5 * d2 - d1 * d6, va = d3 * d6 - d5 * d4;
	if (vc <= 0.0 && d1 >= 0.0 && d3 <= 0.0)
		return on_edge(a, b, d1, d3);
	if (vb <= 0.0 && d2 >= 0.0 && d6 <= 0.0)
		return on_edge(a, c, d2, d6);
	if (va <= 0.0 && d4 - d3 >= 0.0 && d5 - d6 >= 0.0)
		return on_edge(b, c, d4 - d3, -(d5 - d6));
	double whole = va + vb + vc;
	return vec3_add(a, vec3_add(vec3_scale(ab, vb / whole), vec3_scale(ac, vc / whole)));
}

static double box_distance(const struct facet_node *node, struct vec3 point)
{
	double sum = 0.0;

	for (int axis = 0; axis < 3; axis++) {
		double value = coordinate(point, axis);
		double off = larger(larger(node->low[axis] - value, value - node->high[axis]), 0.0);
		sum += off * off;
	}
	return sqrt(sum);
}

/* Search for the least of (distance - weight * allowance). */
struct search {
	const struct facet_tree *tree;
	struct vec3 point;
	double weight; /* 1: charge the allowance, 0: plain distance */
	double best;
	struct nearest nearest;
	bool found;
};

static void search_leaf(struct search *search, const struct facet_node *node)
{
	for (unsigned i = node->first; i < node->first + node->count; i++) {
		unsigned index = search->tree->order[i];
		const struct facet *facet = &search->tree->facets->item[index];
		struct vec3 point = facet_nearest_point(facet, search->point);
		double distance = vec3_distance(point, search->point);
		double value = distance - search->weight * facet->allowance_mm;
		if (value >= search->best)
			continue;
		search->best = value;
		search->found = true;
		search->nearest = (struct nearest){ index, point, distance, 0.0 };
	}
}

static void search_tree(struct search *search)
{
	const struct facet_tree *tree = search->tree;
	size_t stack[DEPTH_MAX], depth = 0;

	if (tree->node_count == 0)
		return;
	stack[depth++] = 0;
	while (depth > 0) {
		size_t index = stack[--depth];
		const struct facet_node *node = &tree->node[index];
		double least =
			box_distance(node, search->point) - search->weight * node->allowance_mm;
		if (least >= search->best)
			continue;
		if (node->count > 0) {
			search_leaf(search, node);
			continue;
		}
		size_t left = index + 1, right = node->right;
		bool left_first = box_distance(&tree->node[left], search->point) <
				  box_distance(&tree->node[right], search->point);
		stack[depth++] = left_first ? right : left;
		stack[depth++] = left_first ? left : right;
	}
}

bool facet_tree_nearest(const struct facet_tree *tree, struct vec3 point, struct nearest *out)
{
	struct search search = { .tree = tree, .point = point, .best = INFINITY };

	search_tree(&search);
	*out = search.nearest;
	out->bound_mm = tree->facets->deviation_mm;
	return search.found;
}

double facet_tree_clearance_mm(const struct facet_tree *tree, struct vec3 point, double limit_mm)
{
	struct search search = { .tree = tree, .point = point, .weight = 1.0, .best = limit_mm };

	search_tree(&search);
	return search.best;
}

bool facet_tree_visit(const struct facet_tree *tree, struct vec3 point, double limit_mm,
		      bool (*visit)(void *context, const struct facet *facet, struct vec3 nearest,
				    double distance_mm),
		      void *context)
{
	size_t stack[DEPTH_MAX], depth = 0;

	if (tree->node_count == 0)
		return true;
	stack[depth++] = 0;
	while (depth > 0) {
		size_t index = stack[--depth];
		const struct facet_node *node = &tree->node[index];
		if (box_distance(node, point) - node->allowance_mm >= limit_mm)
			continue;
		if (node->count == 0) {
			stack[depth++] = node->right;
			stack[depth++] = index + 1;
			continue;
		}
		for (unsigned i = node->first; i < node->first + node->count; i++) {
			const struct facet *facet = &tree->facets->item[tree->order[i]];
			struct vec3 nearest = facet_nearest_point(facet, point);
			double distance = vec3_distance(nearest, point);
			if (distance - facet->allowance_mm < limit_mm &&
			    !visit(context, facet, nearest, distance))
				return false;
		}
	}
	return true;
}
