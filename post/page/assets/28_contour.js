// SPDX-License-Identifier: GPL-3.0-or-later
// Lines of equal value. The map is first made coarser, each value the mean over
// a block of columns, so that lines follow the surface and not every furrow.
// Method: marching squares; a saddle is decided by the mean of its corners.
(function (neckhew) {
	'use strict';

	// Mean over block x block columns, values above `top` counting as `top`; NaN
	// unless half of the block has a value.
	function smooth(model, plane, block, top) {
		const nx = Math.floor(model.nx / block), ny = Math.floor(model.ny / block);
		const value = new Float32Array(nx * ny);
		for (let by = 0; by < ny; by++)
			for (let bx = 0; bx < nx; bx++)
				value[by * nx + bx] = mean(model, plane, bx * block, by * block, block, top);
		const middle = (block - 1) / 2 * model.cell_mm;
		return { nx, ny, value, x0: model.x0_mm + middle, y0: model.y0_mm + middle,
			cell: model.cell_mm * block };
	}

	function mean(model, plane, fromX, fromY, block, top) {
		let sum = 0, count = 0;
		for (let iy = fromY; iy < fromY + block; iy++)
			for (let ix = fromX; ix < fromX + block; ix++) {
				const v = plane[iy * model.nx + ix];
				if (v === v) {
					sum += Math.min(v, top);
					count++;
				}
			}
		return 2 * count >= block * block ? sum / count : NaN;
	}

	// Edges of a cell a line crosses, in pairs, for each of the 16 patterns of
	// corners above the level (1 lower left, 2 lower right, 4 upper right, 8
	// upper left). Edges: 0 lower, 1 right, 2 upper, 3 left.
	const PAIRS = [[], [3, 0], [0, 1], [3, 1], [1, 2], [3, 0, 1, 2], [0, 2], [3, 2],
		[2, 3], [2, 0], [0, 1, 2, 3], [2, 1], [1, 3], [1, 0], [0, 3], []];
	const SADDLE_FULL = { 5: [3, 2, 1, 0], 10: [0, 3, 2, 1] };

	// A name for each edge of the whole map, the same from both its cells.
	function edgeName(map, ix, iy, edge) {
		const i = iy * map.nx + ix;
		return [2 * i, 2 * (i + 1) + 1, 2 * (i + map.nx), 2 * i + 1][edge];
	}

	function crossing(map, ix, iy, edge, level) {
		const ends = [[0, 0, 1, 0], [1, 0, 1, 1], [0, 1, 1, 1], [0, 0, 0, 1]][edge];
		const a = map.value[(iy + ends[1]) * map.nx + ix + ends[0]];
		const b = map.value[(iy + ends[3]) * map.nx + ix + ends[2]];
		const t = (level - a) / (b - a);
		return { x: map.x0 + (ix + ends[0] + t * (ends[2] - ends[0])) * map.cell,
			y: map.y0 + (iy + ends[1] + t * (ends[3] - ends[1])) * map.cell };
	}

	function pairsOf(map, ix, iy, level) {
		const i = iy * map.nx + ix;
		const v = [map.value[i], map.value[i + 1], map.value[i + 1 + map.nx],
			map.value[i + map.nx]];
		const sum = v[0] + v[1] + v[2] + v[3];
		if (!(sum === sum))
			return [];
		const pattern = v.reduce((bits, x, k) => bits | (x >= level ? 1 << k : 0), 0);
		return sum / 4 >= level && SADDLE_FULL[pattern] || PAIRS[pattern];
	}

	// Which crossings follow which, by the names of their edges.
	function links(map, level) {
		const next = new Map(), points = new Map();
		function join(a, b) {
			if (!next.has(a))
				next.set(a, []);
			next.get(a).push(b);
		}
		for (let iy = 0; iy + 1 < map.ny; iy++)
			for (let ix = 0; ix + 1 < map.nx; ix++) {
				const pairs = pairsOf(map, ix, iy, level);
				for (let k = 0; k < pairs.length; k += 2) {
					const names = [pairs[k], pairs[k + 1]].map((edge) => {
						const name = edgeName(map, ix, iy, edge);
						points.set(name, crossing(map, ix, iy, edge, level));
						return name;
					});
					join(names[0], names[1]);
					join(names[1], names[0]);
				}
			}
		return { next, points };
	}

	function follow(next, from, seen) {
		const names = [from];
		seen.add(from);
		for (let at = from; ;) {
			const on = next.get(at).find((name) => !seen.has(name));
			if (on === undefined)
				break;
			seen.add(on);
			names.push(on);
			at = on;
		}
		const last = names[names.length - 1];
		if (names.length > 2 && next.get(last).includes(from))
			names.push(from); // a ring
		return names;
	}

	// All lines of one level, each a list of points in mm.
	function lines(map, level) {
		const { next, points } = links(map, level);
		const seen = new Set(), found = [];
		const ends = [...next.keys()].filter((name) => next.get(name).length === 1);
		for (const from of [...ends, ...next.keys()])
			if (!seen.has(from))
				found.push(follow(next, from, seen).map((name) => points.get(name)));
		return found;
	}

	neckhew.contour = { smooth, lines };
})(window.neckhew = window.neckhew || {});
