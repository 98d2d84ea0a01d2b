// SPDX-License-Identifier: GPL-3.0-or-later
// The finished neck as ink lines: its edges at the gluing face, its crest, a rib
// at each fret, the channel. Numbers in, ends of lines out, in mm.
(function (neckhew) {
	'use strict';

	const RIB_GAP_MM = 25; // between ribs where there are no frets

	function segment(out, a, b) {
		out.push(a[0], a[1], a[2], b[0], b[1], b[2]);
	}

	function polyline(out, points) {
		for (let i = 1; i < points.length; i++)
			segment(out, points[i - 1], points[i]);
	}

	// A line over x that lasts as long as both its figures are there.
	function along(out, x, y, z) {
		let before = null;

		for (let i = 0; i < x.length; i++) {
			const here = y[i] === null || z[i] === null ? null : [x[i], y[i], z[i]];
			if (before && here)
				segment(out, before, here);
			before = here;
		}
	}

	// Frets on the neck, and places in between where they lie far apart.
	function ribPlaces(neck) {
		const firm = [neck.from_mm].concat(neck.fret_x_mm, neck.to_mm)
			.filter((x) => x >= neck.from_mm && x <= neck.to_mm).sort((a, b) => a - b);
		const places = firm.slice(0, 1);

		for (let i = 1; i < firm.length; i++) {
			const parts = Math.max(1, Math.floor((firm[i] - firm[i - 1]) / RIB_GAP_MM));
			for (let k = 1; k <= parts; k++)
				places.push(firm[i - 1] + (firm[i] - firm[i - 1]) * k / parts);
		}
		return places;
	}

	// Across the finished surface from edge to edge.
	function rib(out, model, at, edges) {
		const line = (name) => neckhew.turnLayout.valueAt(edges[name], at);
		const ix = model.at(at, 0).ix;
		const minus = -line('edge_minus_mm'), plus = line('edge_plus_mm'), base = line('base_mm');
		const points = [[at, minus, base]];

		for (let iy = 0; iy < model.ny; iy++) {
			const z = model.finished[iy * model.nx + ix], y = model.y(iy);
			if (z === z && y > minus && y < plus)
				points.push([at, y, z]);
		}
		points.push([at, plus, base], [at, minus, base]);
		polyline(out, points);
	}

	function channel(out, drawing) {
		const c = drawing.channel;

		if (!c)
			return;
		const floor = drawing.along.channel_floor_mm.find((z) => z !== null) || 0;
		for (const z of [0, floor])
			polyline(out, [[c.from_mm, -c.width_mm / 2, z], [c.to_mm, -c.width_mm / 2, z],
				[c.to_mm, c.width_mm / 2, z], [c.from_mm, c.width_mm / 2, z],
				[c.from_mm, -c.width_mm / 2, z]]);
	}

	// x, y, z of both ends of every line.
	function lines(model) {
		const { along: a, neck } = model.drawing;
		const edges = {};
		const out = [];

		for (const name of ['edge_minus_mm', 'edge_plus_mm', 'base_mm'])
			edges[name] = neckhew.turnLayout.lineOf(a, name);
		along(out, a.x_mm, a.edge_minus_mm.map((y) => y === null ? null : -y), a.base_mm);
		along(out, a.x_mm, a.edge_plus_mm, a.base_mm);
		along(out, a.x_mm, a.x_mm.map(() => 0), a.crest_mm);
		for (const at of ribPlaces(neck))
			rib(out, model, at, edges);
		channel(out, model.drawing);
		return out;
	}

	neckhew.turnNeck = { lines };
})(window.neckhew = window.neckhew || {});
