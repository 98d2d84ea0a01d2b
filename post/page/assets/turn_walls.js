// SPDX-License-Identifier: GPL-3.0-or-later
// What closes the stock into a piece of wood: walls from the edges of its top
// down to the under side, the under side, and the ink along its edges.
(function (neckhew) {
	'use strict';

	// The brink of a wall gets ink when the wood behind it is no steeper than
	// this (mm per mm). A rounded side has no brink to draw.
	const STEEP = 1;
	// A corner of the blank gets upright ink when its side turns by more.
	const BEND = Math.sin(25 * Math.PI / 180);

	// A flat face of four corners, anticlockwise seen from outside, and their
	// normals.
	function face(out, corners, normals, colour) {
		for (const k of [0, 1, 2, 0, 2, 3]) {
			out.position.push(corners[3 * k], corners[3 * k + 1], corners[3 * k + 2]);
			out.normal.push(normals[k][0], normals[k][1], normals[k][2]);
			out.colour.push(colour[0], colour[1], colour[2]);
		}
	}

	// The deepest cut of this pass among the columns round a corner that are
	// gone: so high is its wall freshly cut.
	function freshAt(s, cut, c) {
		const { nx, ny, column, row } = s.plan;
		const i = c % nx, j = (c - i) / nx;
		let most = 0;

		for (let v = Math.max(j - 1, 0); v <= Math.min(j + 1, ny - 1); v++)
			for (let u = Math.max(i - 1, 0); u <= Math.min(i + 1, nx - 1); u++)
				if (!s.wood[v * nx + u] && cut[v * row + column[u]] > most)
					most = cut[v * row + column[u]];
		return most;
	}

	// Is the wood at a corner flat enough for a brink? Only neighbours that are
	// wood count.
	function isFlat(s, c) {
		const { nx, ny, cell_mm } = s.plan, p = s.position;
		const i = c % nx, j = (c - i) / nx;
		const flat = (n, run) => !s.wood[n] || Math.abs(p[3 * n + 2] - p[3 * c + 2]) < STEEP * run;

		return (j === 0 || flat(c - nx, cell_mm)) && (j === ny - 1 || flat(c + nx, cell_mm)) &&
			(i === 0 || flat(c - 1, s.plan.x[i] - s.plan.x[i - 1])) &&
			(i === nx - 1 || flat(c + 1, s.plan.x[i + 1] - s.plan.x[i]));
	}

	// At its brink a wall is lit like the wood behind it where that is rounded
	// toward it, so that the meeting of the two does not show.
	function brink(s, c, normal) {
		const n = s.normal;

		return s.fixed[c] || isFlat(s, c) ? normal : [n[3 * c], n[3 * c + 1], n[3 * c + 2]];
	}

	// The wall under one edge: its lower part is fresh when this pass went
	// through beside it.
	function wall(s, from, to, cut, paint, tint) {
		const p = s.position, a = 3 * from, b = 3 * to, nx = s.plan.nx;
		const footA = s.plan.bottom[from % nx], footB = s.plan.bottom[to % nx];
		const dx = p[b] - p[a], dy = p[b + 1] - p[a + 1], size = Math.hypot(dx, dy) || 1;
		const normal = [dy / size, -dx / size, 0];
		const fresh = cut ? Math.max(freshAt(s, cut, from), freshAt(s, cut, to)) : 0;
		const midA = Math.min(footA + fresh, p[a + 2]), midB = Math.min(footB + fresh, p[b + 2]);

		paint(0, tint, 0);
		face(s.rest, [p[a], p[a + 1], midA, p[b], p[b + 1], midB,
			p[b], p[b + 1], p[b + 2], p[a], p[a + 1], p[a + 2]],
		[normal, normal, brink(s, to, normal), brink(s, from, normal)], tint);
		if (!(fresh > 0))
			return;
		paint(fresh, tint, 0);
		face(s.rest, [p[a], p[a + 1], footA, p[b], p[b + 1], footB,
			p[b], p[b + 1], midB, p[a], p[a + 1], midA],
		[normal, normal, normal, normal], tint);
	}

	// Does the edge turn sharply at a corner of the blank?
	function bends(s, c) {
		const p = s.position, a = 3 * s.back[c], b = 3 * c, d = 3 * s.next[c];

		if (!s.fixed[c] || a < 0 || d < 0)
			return false;
		const ux = p[b] - p[a], uy = p[b + 1] - p[a + 1];
		const vx = p[d] - p[b], vy = p[d + 1] - p[b + 1];
		const size = Math.hypot(ux, uy) * Math.hypot(vx, vy);
		return size > 0 && Math.abs(ux * vy - uy * vx) > BEND * size;
	}

	function ink(s, from, to) {
		const p = s.position, a = 3 * from, b = 3 * to;
		const footA = s.plan.bottom[from % s.plan.nx], footB = s.plan.bottom[to % s.plan.nx];

		s.line.push(p[a], p[a + 1], footA, p[b], p[b + 1], footB);
		if (isFlat(s, from) && isFlat(s, to))
			s.line.push(p[a], p[a + 1], p[a + 2], p[b], p[b + 1], p[b + 2]);
		if (bends(s, from))
			s.line.push(p[a], p[a + 1], footA, p[a], p[a + 1], p[a + 2]);
	}

	// Corners that a face of the under side may not pass by: those on an edge,
	// which may have been moved, and those of a cell with three corners.
	function marks(s) {
		const { nx, ny } = s.plan, mark = s.mark;

		for (let c = 0; c < mark.length; c++)
			mark[c] = s.next[c] >= 0 ? 1 : 0;
		for (let j = 0, k = 0; j + 1 < ny; j++)
			for (let i = 0; i + 1 < nx; i++, k++)
				if (s.around[k] === 3)
					for (const c of [j * nx + i, (j + 1) * nx + i])
						mark[c] = mark[c + 1] = 1;
	}

	// A triangle of the under side in the stretch from column i to the next.
	function flat(s, i, corners, tint) {
		const { nx, bottom, x } = s.plan, p = s.position, rest = s.rest;
		const rise = (bottom[i + 1] - bottom[i]) / (x[i + 1] - x[i]), size = Math.hypot(1, rise);

		for (const c of corners) {
			rest.position.push(p[3 * c], p[3 * c + 1], bottom[c % nx]);
			rest.normal.push(rise / size, 0, -1 / size);
			rest.colour.push(tint[0], tint[1], tint[2]);
		}
	}

	// The under side over cells from..to - 1 of the stretch from column i to the
	// next: it is flat across, so that triangles need only the marked corners of
	// the two columns and leave no crack between them and the next stretch.
	function strip(s, i, from, to, tint) {
		const nx = s.plan.nx;
		let left = from * nx + i, right = left + 1;
		const lastLeft = to * nx + i, lastRight = lastLeft + 1;
		const on = function (c, last) {
			do
				c += nx;
			while (c < last && !s.mark[c]);
			return c;
		};

		while (left < lastLeft || right < lastRight) {
			const nextLeft = left < lastLeft ? on(left, lastLeft) : Infinity;
			const nextRight = right < lastRight ? on(right, lastRight) : Infinity;
			if (nextLeft < nextRight) {
				flat(s, i, [left, nextLeft, right], tint);
				left = nextLeft;
			} else {
				flat(s, i, [left, nextRight, right], tint);
				right = nextRight;
			}
		}
	}

	function underSide(s, tint) {
		const { nx, ny } = s.plan;

		marks(s);
		for (let i = 0; i + 1 < nx; i++) {
			let from = -1;
			for (let j = 0; j < ny; j++) {
				const around = j + 1 < ny ? s.around[j * (nx - 1) + i] : 0, a = j * nx + i;
				if (from >= 0 && around !== 4) {
					strip(s, i, from, j, tint);
					from = -1;
				}
				if (around === 4 && from < 0)
					from = j;
				if (around === 3)
					flat(s, i, [a, a + nx, a + nx + 1, a + 1].filter((c) => s.wood[c]), tint);
			}
		}
	}

	// Writes rest and line of a solid whose edges and normals are known.
	function close(s, cut, paint) {
		const tint = [0, 0, 0];

		for (const list of [s.rest.position, s.rest.normal, s.rest.colour, s.line])
			list.length = 0;
		for (let e = 0; e < s.edge.length; e += 2) {
			wall(s, s.edge[e], s.edge[e + 1], cut, paint, tint);
			ink(s, s.edge[e], s.edge[e + 1]);
		}
		paint(0, tint, 0);
		underSide(s, tint);
	}

	neckhew.turnWalls = { close };
})(window.neckhew = window.neckhew || {});
