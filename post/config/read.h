/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Neck file to job. */
#ifndef NECKHEW_CONFIG_READ_H
#define NECKHEW_CONFIG_READ_H

#include "base/fault.h"
#include "config/places.h"
#include "job/job.h"

/* Reads a neck file and everything it includes. Every fault of the settings is
 * added, each with file, line, setting, what was found and what is allowed;
 * returns the first code, and then *out is all zero. `places` must be zeroed
 * before and freed by the caller in either case. Whether the settings fit each
 * other is for neck_build and job_check to say; config_place_faults gives
 * their faults a file and a line. job.digest is the SHA-256 of the contents of
 * all files, one after the other in the order of reading. */
enum fault config_load(struct job *out, struct config_places *places, const char *path,
		       struct fault_list *faults);

#endif
