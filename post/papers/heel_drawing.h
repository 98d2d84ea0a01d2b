/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the heel's template is drawn: side view, plan and their tables. */
#ifndef NECKHEW_PAPERS_HEEL_DRAWING_H
#define NECKHEW_PAPERS_HEEL_DRAWING_H

#include "papers/heel_template.h"
#include "papers/tiles.h"

/* The drawing; it points at the template, which must stay where it is. */
struct tile_drawing heel_drawing(const struct heel_template *heel);

#endif
