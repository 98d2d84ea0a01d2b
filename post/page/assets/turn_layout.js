// SPDX-License-Identifier: GPL-3.0-or-later
// Which columns make the turning view's solid, and the blank round them.
// Lengths in mm. Numbers in, numbers out: no page, no WebGL.
(function (neckhew) {
	'use strict';

	// More corners than this cost time without showing more on a screen: then
	// only every 2nd (3rd ...) column along x is taken. Never fewer across:
	// furrows run along x, and with every 2nd column across they would be lost.
	const CORNERS_MOST = 110000;
	// A jump of the blank's top between two columns that needs both of them.
	const STEP_MM = 0.5;
	const SLACK_MM = 1e-6;

	// A line of drawing.along where it is. It has no gaps in the blank.
	function lineOf(along, name) {
		const there = along.x_mm.map((x, i) => i).filter((i) => along[name][i] !== null);

		return { x: there.map((i) => along.x_mm[i]), v: there.map((i) => along[name][i]) };
	}

	// Straight between the places, the last value beyond them; behind a step.
	function valueAt(line, at) {
		const { x, v } = line;
		let low = 0, high = x.length - 1;

		if (at <= x[low])
			return v[low];
		if (at >= x[high])
			return v[high];
		while (high - low > 1) {
			const middle = low + high >> 1;
			if (x[middle] <= at)
				low = middle;
			else
				high = middle;
		}
		return v[low] + (v[high] - v[low]) * (at - x[low]) / (x[high] - x[low]);
	}

	function isStep(grid, blankTop, ix) {
		const row = (grid.ny >> 1) * grid.nx;

		return Math.abs(blankTop[row + ix + 1] - blankTop[row + ix]) > STEP_MM;
	}

	// Columns along x: every so many of those from..to, the first, the last,
	// and both sides of every step.
	function pick(grid, from, to, blankTop) {
		const place = (ix) => grid.x0_mm + ix * grid.cell_mm;
		const picked = [];
		let first = 0, last = grid.nx - 1;

		while (first < last && place(first) < from - SLACK_MM)
			first++;
		while (last > first && place(last) > to + SLACK_MM)
			last--;
		const stride = Math.max(1, Math.ceil((last - first + 1) * grid.ny / CORNERS_MOST));
		for (let ix = first; ix <= last; ix++)
			if ((ix - first) % stride === 0 || ix === last ||
			    isStep(grid, blankTop, ix) || (ix > first && isStep(grid, blankTop, ix - 1)))
				picked.push(ix);
		return picked;
	}

	// grid: nx, ny, x0_mm, y0_mm, cell_mm. Of the answer, x, bottom, minus and plus
	// (distances of the blank's sides) go with nx, y with ny; column[i] is the place of x[i]
	// in a row of the maps, `row` their length.
	function make(grid, along, blankTop) {
		const minus = lineOf(along, 'blank_minus_mm'), plus = lineOf(along, 'blank_plus_mm');
		const bottom = lineOf(along, 'blank_bottom_mm');
		const from = bottom.x[0], to = bottom.x[bottom.x.length - 1];
		const column = pick(grid, from, to, blankTop);
		const x = Float32Array.from(column, (ix) => grid.x0_mm + ix * grid.cell_mm);

		// the blank ends where it ends, not at the last column before that
		x[0] = from;
		x[x.length - 1] = to;
		return {
			nx: x.length, ny: grid.ny, row: grid.nx, cell_mm: grid.cell_mm, column, x,
			y: Float32Array.from({ length: grid.ny }, (v, iy) => grid.y0_mm + iy * grid.cell_mm),
			bottom: Float32Array.from(x, (at) => valueAt(bottom, at)),
			minus: Float32Array.from(x, (at) => valueAt(minus, at)),
			plus: Float32Array.from(x, (at) => valueAt(plus, at))
		};
	}

	neckhew.turnLayout = { make, lineOf, valueAt };
})(window.neckhew = window.neckhew || {});
