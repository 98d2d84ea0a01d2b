/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "motion/pass_kind.h"

const char *pass_kind_name(enum pass_kind kind)
{
	switch (kind) {
	case PASS_LEVEL:
		return "level lines";
	case PASS_CONTOUR:
		return "contour lines";
	case PASS_SURFACE:
		return "surface lines";
	}
	return "";
}
