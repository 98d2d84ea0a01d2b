/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/zone.h"

const char *stock_zone_key(enum stock_zone zone)
{
	switch (zone) {
	case ZONE_BACK:
		return "back";
	case ZONE_SIDES:
		return "sides";
	case ZONE_HEEL_CHEEKS:
		return "heel_cheeks";
	case ZONE_TRANSITIONS:
		return "transitions";
	case ZONE_COUNT:
		break;
	}
	return "";
}
