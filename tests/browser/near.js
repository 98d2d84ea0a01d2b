// SPDX-License-Identifier: GPL-3.0-or-later
'use strict';

const assert = require('assert');

// Figures shown with two decimals are the figure within half of the last one;
// what they come from is kept in counts of 0.01 mm or four decimals.
const SHOWN_MM = 0.011;

function assertNear(value, expected, tolerance, what) {
	assert.ok(
		Math.abs(value - expected) <= tolerance,
		`${what}: ${value} instead of ${expected}, within ${tolerance}`
	);
}

module.exports = { SHOWN_MM, assertNear };
