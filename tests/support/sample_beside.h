/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Made-up figures of what stands beside a neck, for tests of what is printed. */
#ifndef NECKHEW_TESTS_SUPPORT_SAMPLE_BESIDE_H
#define NECKHEW_TESTS_SUPPORT_SAMPLE_BESIDE_H

#include "job/result.h"

/* Rails on both sides behind a channel of 16.5 mm, a tab on each side, and a
 * cove whose sizes differ from station to station and from side to side. */
void sample_beside(struct job_result *result);

#endif
