/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A measured outline as a setting: ((0, 1), (0.12, 0.98), ... (1, 0)). */
#ifndef NECKHEW_CONFIG_SHARES_H
#define NECKHEW_CONFIG_SHARES_H

#include <libconfig.h>

#include "base/fault.h"
#include "config/settings.h"
#include "config/value.h"
#include "model/neck_spec.h"

/* Reads the pairs of a KIND_SHARES row. FAULT_SETTING when the node is no list
 * of as many pairs of numbers from 0 to 1 as the row allows; *out is then as it
 * was. Whether they make an outline is judged when the section is made. */
enum fault shares_read(struct section_outline *out, const struct setting *row,
		       const config_setting_t *node, const struct value_spot *spot);

#endif
