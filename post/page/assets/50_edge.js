// SPDX-License-Identifier: GPL-3.0-or-later
// A straight edge laid on the back. It rests on two high places with its middle
// between them, and light shows where the wood lies lower.
(function (neckhew) {
	'use strict';

	// Beside the centre line the edge is laid where the wood is still round:
	// nearer to the edge the surface is too steep to say anything about height.
	const SHARE = 0.7;

	// y of a line at x: 0 the centre, -1 and 1 near the edges.
	function across(app, line, x) {
		if (line === 0)
			return 0;
		return line * SHARE * app.along.at(line < 0 ? 'edge_minus_mm' : 'edge_plus_mm', x);
	}

	// z of a plane at (column ix, y), linear between the columns across.
	function height(model, plane, ix, y) {
		const at = (y - model.y0_mm) / model.cell_mm;
		const iy = Math.floor(at), t = at - iy;
		if (!(iy >= 0 && iy + 1 < model.ny))
			return NaN;
		const a = plane[iy * model.nx + ix], b = plane[(iy + 1) * model.nx + ix];
		return a + t * (b - a);
	}

	// Points (x, z) of a plane along a line, from..to mm.
	function along(app, plane, line, from, to) {
		const model = app.model, points = [];
		const first = model.at(from, 0).ix, last = model.at(to, 0).ix;
		for (let ix = first; ix <= last; ix++) {
			const x = model.x(ix);
			const z = height(model, plane, ix, across(app, line, x));
			if (z === z)
				points.push({ x, z });
		}
		return points;
	}

	// The upper hull. Method: Andrew's monotone chain.
	function hull(points) {
		const top = [];
		for (const p of points) {
			while (top.length > 1 && turnsUp(top[top.length - 2], top[top.length - 1], p))
				top.pop();
			top.push(p);
		}
		return top;
	}

	function turnsUp(a, b, c) {
		return (b.x - a.x) * (c.z - a.z) >= (c.x - a.x) * (b.z - a.z);
	}

	// The two places it rests on: the side of the hull under its middle.
	function rest(points) {
		const top = hull(points);
		const middle = (points[0].x + points[points.length - 1].x) / 2;
		const i = Math.max(1, top.findIndex((p, k) => k > 0 && p.x >= middle));
		return top.length > 1 ? [top[i - 1], top[i]] : [top[0], top[0]];
	}

	// -> { from, to, z(x), gaps: [{ x, gap }], most: { x, gap } } or null.
	function lay(points) {
		if (points.length < 2)
			return null;
		const [a, b] = rest(points);
		const slope = b.x > a.x ? (b.z - a.z) / (b.x - a.x) : 0;
		const z = (x) => a.z + (x - a.x) * slope;
		const gaps = points.map((p) => ({ x: p.x, gap: Math.max(z(p.x) - p.z, 0) }));
		return { from: points[0].x, to: points[points.length - 1].x, z, gaps,
			most: gaps.reduce((most, g) => g.gap > most.gap ? g : most) };
	}

	// Laid on a plane from the first station to where the shaft is to be straight.
	function on(app, plane, line) {
		const neck = app.model.drawing.neck;
		return lay(along(app, plane, line, neck.straight_from_mm, neck.straight_to_mm));
	}

	neckhew.edge = { across, height, along, lay, on, SHARE };
})(window.neckhew = window.neckhew || {});
