/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the program calls itself in its outputs. */
#ifndef NECKHEW_VERSION_H
#define NECKHEW_VERSION_H

#define NECKHEW_NAME "neckhew"
#define NECKHEW_VERSION "0.1.0"

#endif
