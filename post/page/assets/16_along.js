// SPDX-License-Identifier: GPL-3.0-or-later
// Lines over x (crest, edges, blank, channel), read between their places. A
// line that makes a step has two places at one x; there the one behind counts.
(function (neckhew) {
	'use strict';

	// The last place not beyond x.
	function before(xs, x) {
		let low = 0, high = xs.length;
		while (low < high) {
			const middle = low + high >> 1;
			if (xs[middle] <= x)
				low = middle + 1;
			else
				high = middle;
		}
		return low - 1;
	}

	// NaN where the line is not.
	function value(xs, line, x) {
		const i = before(xs, x);
		if (i < 0 || line[i] === null)
			return NaN;
		if (xs[i] === x || i + 1 === xs.length)
			return xs[i] === x ? line[i] : NaN;
		if (line[i + 1] === null)
			return NaN;
		return line[i] + (x - xs[i]) / (xs[i + 1] - xs[i]) * (line[i + 1] - line[i]);
	}

	// along.at('crest_mm', x); along.most('blank_top_mm', x0, x1).
	function make(along) {
		const xs = along.x_mm;
		return {
			at: (name, x) => value(xs, along[name], x),
			places: (from, to) => xs.filter((x) => x >= from && x <= to),
			most: (name, from, to) => along[name].reduce((most, v, i) =>
				v !== null && xs[i] >= from && xs[i] <= to && !(v <= most) ? v : most, NaN)
		};
	}

	neckhew.along = { make };
})(window.neckhew = window.neckhew || {});
