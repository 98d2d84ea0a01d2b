/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "papers/setup_labels.h"

#include <stdio.h>

#define RISE_MM 2.1 /* height of capitals and figures in strong letters */
#define AIR_MM 0.6
#define GROUND_MM 1.2 /* what the ground of a label sticks out */

void setup_label(char out[SETUP_LABEL_ROOM], bool keep_out, size_t index)
{
	(void)snprintf(out, SETUP_LABEL_ROOM, "%c%u", keep_out ? 'K' : 'H',
		       (unsigned)(index + 1) % 1000u);
}

static bool overlap(const struct sheet_area *a, const struct sheet_area *b)
{
	return a->left < b->right && b->left < a->right && a->top < b->bottom && b->top < a->bottom;
}

static bool is_free(const struct setup_labels *labels, const struct sheet_area *box)
{
	for (size_t i = 0; i < labels->count; i++)
		if (overlap(&labels->taken[i], box))
			return false;
	return true;
}

static struct sheet_area box_at(double x, double y, double width)
{
	return (struct sheet_area){ x - width / 2.0, y - RISE_MM - AIR_MM, x + width / 2.0,
				    y + AIR_MM };
}

/* Places tried in turn: the middle, the ends, then beyond the four sides. */
void setup_label_put(struct setup_labels *labels, struct canvas *canvas,
		     const struct sheet_area *place, const char *text)
{
	double width = pen_text_width_mm(canvas, TEXT_STRONG, text) + GROUND_MM;
	double x = (place->left + place->right) / 2.0;
	double y = (place->top + place->bottom + RISE_MM) / 2.0;
	const double at[][2] = {
		{ x, y },
		{ place->left + width, y },
		{ place->right - width, y },
		{ x, place->top - 2.0 * AIR_MM },
		{ x, place->bottom + RISE_MM + 2.0 * AIR_MM },
		{ place->right + width / 2.0 + AIR_MM, y },
		{ place->left - width / 2.0 - AIR_MM, y },
	};
	bool roomy = place->right - place->left > width && place->bottom - place->top > RISE_MM + 1;
	size_t chosen = 0;

	for (size_t i = roomy ? 0 : 3; i < sizeof at / sizeof at[0]; i++) {
		struct sheet_area box = box_at(at[i][0], at[i][1], width);
		if (!is_free(labels, &box))
			continue;
		chosen = i;
		break;
	}
	if (labels->count < sizeof labels->taken / sizeof labels->taken[0])
		labels->taken[labels->count++] = box_at(at[chosen][0], at[chosen][1], width);
	pen_text_on_map(canvas, at[chosen][0], at[chosen][1], TEXT_STRONG, ANCHOR_MIDDLE, text);
}
