/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts of the page that are the same for every neck. They are built into
 * the program by post/page/embed, from post/page/assets and the library that
 * draws the turning view. */
#ifndef NECKHEW_PAGE_ASSETS_H
#define NECKHEW_PAGE_ASSETS_H

#include <stddef.h>

enum page_asset_name {
	ASSET_PAGE, /* HTML with gaps, see page/template.h */
	ASSET_STYLE, /* CSS */
	ASSET_SCRIPT, /* the page's own scripts, as one function */
	ASSET_LIBRARY, /* THREE, for the turning view */
	ASSET_LICENCE /* whose that is, and its licence; plain text */
};

/* Ends in a NUL that size does not count; nothing to release. */
struct asset {
	const char *text;
	size_t size;
};

struct asset page_asset(enum page_asset_name name);

#endif
