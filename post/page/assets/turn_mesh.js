// SPDX-License-Identifier: GPL-3.0-or-later
// The stock as a closed solid of triangles, from heights of columns. Lengths in
// mm. Numbers in, numbers out: no page, no WebGL.
(function (neckhew) {
	'use strict';

	// Room for a solid on a layout of turn_layout.js. position, normal, colour
	// and index are its top; rest its walls and under side, three corners to a
	// face; line the ends of its ink lines. Filled anew for every pass.
	function make(plan) {
		const corners = plan.nx * plan.ny, cells = (plan.nx - 1) * (plan.ny - 1);

		return {
			plan,
			wood: new Uint8Array(corners),
			around: new Uint8Array(cells), // how many corners of a cell are wood
			edge: [], // corners from, to, from, to ...
			next: new Int32Array(corners), // on an edge, or -1
			back: new Int32Array(corners),
			fixed: new Uint8Array(corners), // on a side or end of the blank
			mark: new Uint8Array(corners), // stands in the under side too
			position: new Float32Array(3 * corners),
			normal: new Float32Array(3 * corners),
			colour: new Float32Array(3 * corners),
			index: new Uint32Array(6 * cells),
			used: 0, // of index
			rest: { position: [], normal: [], colour: [] },
			line: []
		};
	}

	// Rise of the top per mm along one axis. A neighbour that is cut through
	// counts with its foot, so that a rounded side runs on into its wall without
	// a seam; off the blank there is none, so that its own edges stay sharp.
	function rise(s, c, step, hasLow, hasHigh, axis) {
		const p = s.position, free = !s.fixed[c];
		const low = 3 * (hasLow && (free || s.wood[c - step]) ? c - step : c);
		const high = 3 * (hasHigh && (free || s.wood[c + step]) ? c + step : c);
		const run = p[high + axis] - p[low + axis];

		return run > 0 ? (p[high + 2] - p[low + 2]) / run : 0;
	}

	function normals(s) {
		const { nx, ny } = s.plan, n = s.normal;

		for (let j = 0, c = 0; j < ny; j++)
			for (let i = 0; i < nx; i++, c++) {
				if (!s.wood[c])
					continue;
				const u = rise(s, c, 1, i > 0, i + 1 < nx, 0);
				const v = rise(s, c, nx, j > 0, j + 1 < ny, 1);
				const size = Math.sqrt(1 + u * u + v * v);
				n[3 * c] = -u / size;
				n[3 * c + 1] = -v / size;
				n[3 * c + 2] = 1 / size;
			}
	}

	function colours(s, cut, paint) {
		const { nx, ny, column, row } = s.plan;

		for (let j = 0, c = 0; j < ny; j++)
			for (let i = 0; i < nx; i++, c++)
				paint(cut ? cut[j * row + column[i]] : 0, s.colour, 3 * c);
	}

	// A whole cell is two triangles, parted along the flatter of its diagonals,
	// so that steep walls at a slant do not come out as teeth.
	function cell(s, a, k) {
		const p = s.position, index = s.index, nx = s.plan.nx;
		const b = a + 1, d = a + nx, c = d + 1;
		const ac = Math.abs(p[3 * a + 2] - p[3 * c + 2]) <= Math.abs(p[3 * b + 2] - p[3 * d + 2]);

		index[k] = a;
		index[k + 1] = b;
		index[k + 2] = ac ? c : d;
		index[k + 3] = c;
		index[k + 4] = d;
		index[k + 5] = ac ? a : b;
	}

	function top(s) {
		const { nx, ny } = s.plan;
		let k = 0;

		for (let j = 0; j + 1 < ny; j++)
			for (let i = 0; i + 1 < nx; i++) {
				const around = s.around[j * (nx - 1) + i], a = j * nx + i;
				if (around === 4) {
					cell(s, a, k);
					k += 6;
				} else if (around === 3) {
					for (const corner of [a, a + 1, a + nx + 1, a + nx])
						if (s.wood[corner])
							s.index[k++] = corner;
				}
			}
		s.used = k;
	}

	// `standing` is z of the wood, `cut` what this pass took off (null for the
	// blank); paint(depth, out, at) writes the colour of a depth.
	function fill(s, standing, cut, paint) {
		neckhew.turnEdges.find(s, standing);
		normals(s);
		colours(s, cut, paint);
		top(s);
		neckhew.turnWalls.close(s, cut, paint);
	}

	neckhew.turnMesh = { make, fill };
})(window.neckhew = window.neckhew || {});
