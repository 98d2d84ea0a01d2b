/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The kinds of passes, for names and figures. */
#ifndef NECKHEW_MOTION_PASS_KIND_H
#define NECKHEW_MOTION_PASS_KIND_H

enum pass_kind {
	PASS_LEVEL, /* raster lines on a level */
	PASS_CONTOUR, /* contour lines on steep sides */
	PASS_SURFACE /* last lines over the surface */
};

/* Sentence-ready name such as "level lines"; "" for what is no kind. */
const char *pass_kind_name(enum pass_kind kind);

#endif
