/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/names.h"

#include <stdio.h>

#include "report/words.h"

void names_station(char *out, double fret)
{
	char number[WORDS_FRET_ROOM];

	words_fret(number, fret);
	(void)snprintf(out, NAMES_ROOM, "%s%s", fret == 0.0 ? "" : "fret ", number);
}

void names_zone(char *out, enum stock_zone zone)
{
	(void)snprintf(out, NAMES_ROOM, "%s", stock_zone_key(zone));
	for (char *at = out; *at != '\0'; at++)
		if (*at == '_')
			*at = ' ';
}
