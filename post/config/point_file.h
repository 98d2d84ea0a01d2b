/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Outlines whose points stand in a table of their own, as a digitiser or a
 * spreadsheet writes them: top = "side.csv"; or, when the table is in another
 * unit than the file that names it, top = { file = "side.csv"; units = "in"; };
 * Private to the reader. */
#ifndef NECKHEW_CONFIG_POINT_FILE_H
#define NECKHEW_CONFIG_POINT_FILE_H

#include "config/value.h"
#include "machine/blank.h"

/* No point of a blank lies farther from the nut, mm. */
#define POINT_MOST_MM 3000.0

/* Reads the table that `node`, a text or a group, names: columns "x" and
 * "value", one point a row, from the peghead toward the body. Leaves its path
 * and the line of its first point in spot->files. Faults about the table name
 * its own lines; *out then stays as it was. */
enum fault point_file_read(struct outline *out, const struct setting *row,
			   const config_setting_t *node, const struct value_spot *spot);

#endif
