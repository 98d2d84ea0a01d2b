/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "program/file_names.h"

#include <stdio.h>

const char *program_roughing_file(char name[PROGRAM_FILE_ROOM], size_t turn, size_t count)
{
	if (count == 1)
		(void)snprintf(name, PROGRAM_FILE_ROOM, "rough.nc");
	else
		(void)snprintf(name, PROGRAM_FILE_ROOM, "rough-%zu.nc", turn + 1);
	return name;
}
