// SPDX-License-Identifier: GPL-3.0-or-later
// Where wood is, and its edges seen from above.
//
// A column is a corner of the solid's top. A cell between columns is wood when
// three or four of its corners are; with three it is a triangle. An edge has
// wood on its left only.
(function (neckhew) {
	'use strict';

	// Thinner wood than this is none: a column that is cut through stands at its
	// under side, but for the rounding of the packed heights.
	const THINNEST_MM = 0.1;
	// Rounds of smoothing along an edge, and how far that may move a corner, in
	// columns. A cut edge at a slant to the columns is a staircase otherwise,
	// and its wall would flicker.
	const ROUNDS = 12;
	const ROOM = 0.6;

	function findWood(s, standing) {
		const { nx, ny, column, row, bottom } = s.plan;

		for (let j = 0, c = 0; j < ny; j++)
			for (let i = 0; i < nx; i++, c++) {
				const z = standing[j * row + column[i]];
				const wood = z - bottom[i] > THINNEST_MM; // also false for NaN
				s.wood[c] = wood ? 1 : 0;
				s.position[3 * c + 2] = wood ? z : bottom[i];
			}
		for (let j = 0; j + 1 < ny; j++)
			for (let i = 0; i + 1 < nx; i++) {
				const c = j * nx + i;
				s.around[j * (nx - 1) + i] =
					s.wood[c] + s.wood[c + 1] + s.wood[c + nx] + s.wood[c + nx + 1];
			}
	}

	function add(s, from, to) {
		s.edge.push(from, to);
		s.next[from] = to;
		s.back[to] = from;
	}

	// The line between two neighbouring columns, if just one of the cells on its
	// two sides is wood. `left` and `right` count the corners of these cells.
	function side(s, from, to, left, right) {
		if (!s.wood[from] || !s.wood[to] || (left >= 3) === (right >= 3))
			return;
		if (left >= 3)
			add(s, from, to);
		else
			add(s, to, from);
	}

	// The slanting edge of a cell that lacks one corner. Corners go round a, b,
	// c, d anticlockwise, seen from above.
	function slant(s, a, b, c, d) {
		if (!s.wood[a])
			add(s, d, b);
		else if (!s.wood[b])
			add(s, a, c);
		else if (!s.wood[c])
			add(s, b, d);
		else
			add(s, c, a);
	}

	function findEdges(s) {
		const { nx, ny } = s.plan;
		const cell = (i, j) => i < 0 || j < 0 || i >= nx - 1 || j >= ny - 1 ? 0
			: s.around[j * (nx - 1) + i];

		s.next.fill(-1);
		s.back.fill(-1);
		s.edge.length = 0;
		for (let j = 0, a = 0; j < ny; j++)
			for (let i = 0; i < nx; i++, a++) {
				const here = cell(i, j);
				if (i + 1 < nx)
					side(s, a, a + 1, here, cell(i, j - 1));
				if (j + 1 < ny)
					side(s, a, a + nx, cell(i - 1, j), here);
				if (here === 3)
					slant(s, a, a + 1, a + nx + 1, a + nx);
			}
	}

	// How far from the blank's side its outermost columns may lie: a column
	// across, and what the side runs in or out between two columns along.
	function reach(plan, side, i) {
		const before = side[Math.max(i - 1, 0)];
		const behind = side[Math.min(i + 1, plan.nx - 1)];

		return plan.cell_mm + Math.max(Math.abs(behind - side[i]), Math.abs(before - side[i]));
	}

	// Corners stand on their columns, those of the blank's own sides on these.
	function place(s) {
		const { nx, ny, x, y, minus, plus, cell_mm } = s.plan, p = s.position;
		const [nearMinus, nearPlus] = [minus, plus].map((side) =>
			Float32Array.from(x, (v, i) => reach(s.plan, side, i)));

		for (let j = 0, c = 0; j < ny; j++) {
			const [half, near] = y[j] < 0 ? [minus, nearMinus] : [plus, nearPlus];
			for (let i = 0; i < nx; i++, c++) {
				const inside = half[i] - Math.abs(y[j]);
				const on = s.next[c] >= 0 && inside < near[i] && inside > -cell_mm;
				p[3 * c] = x[i];
				p[3 * c + 1] = on ? Math.sign(y[j]) * half[i] : y[j];
				s.fixed[c] = on || i === 0 || i === nx - 1 ? 1 : 0;
			}
		}
	}

	function within(value, middle, room) {
		return Math.min(Math.max(value, middle - room), middle + room);
	}

	// Draws each free corner of an edge toward the middle of its neighbours.
	function smooth(s) {
		const { nx, x, y, cell_mm } = s.plan, p = s.position;
		const free = [];

		for (let e = 0; e < s.edge.length; e += 2)
			if (!s.fixed[s.edge[e]] && s.back[s.edge[e]] >= 0)
				free.push(s.edge[e]);
		for (let round = 0; round < ROUNDS; round++)
			for (const c of free) {
				const a = 3 * s.back[c], b = 3 * s.next[c], i = c % nx;
				const room = ROOM * Math.min(x[i] - x[i - 1], x[i + 1] - x[i]);
				p[3 * c] = within(0.5 * p[3 * c] + 0.25 * (p[a] + p[b]), x[i], room);
				p[3 * c + 1] = within(0.5 * p[3 * c + 1] + 0.25 * (p[a + 1] + p[b + 1]),
					y[(c - i) / nx], ROOM * cell_mm);
			}
	}

	// Fills wood, around, edge, next, back, fixed and position of a solid (see
	// turn_mesh.js) from the heights.
	function find(s, standing) {
		findWood(s, standing);
		findEdges(s);
		place(s);
		smooth(s);
	}

	neckhew.turnEdges = { find };
})(window.neckhew = window.neckhew || {});
