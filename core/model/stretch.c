/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/stretch.h"

#include "model/neck.h"

struct stretches stretches_of(const struct neck *neck)
{
	return (struct stretches){ { 0.0, neck_heel_start_mm(neck), neck_heel_proper_mm(neck) } };
}
