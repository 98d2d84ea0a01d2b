// SPDX-License-Identifier: GPL-3.0-or-later
// One section of the wood: outlines in (y, z) at a column of x. Outlines of
// wood follow the columns, one point each; the finished one also has its edges
// on the gluing face.
(function (neckhew) {
	'use strict';

	const GONE_MM = 0.02; // columns lower than this over the underside are no wood
	const BRINK_POINTS = 8;
	const STEEP = 1; // beyond this slope along x no allowance line is drawn

	function column(model, plane, ix) {
		const list = [];
		for (let iy = 0; iy < model.ny; iy++)
			list.push({ y: model.y(iy), z: plane[iy * model.nx + ix] });
		return list;
	}

	// Runs of columns that have wood, each a list of points from - to +.
	function runs(model, plane, ix, bottom) {
		const found = [];
		let run = null;
		for (const point of column(model, plane, ix)) {
			if (!(point.z > bottom + GONE_MM)) {
				run = null;
				continue;
			}
			if (!run)
				found.push(run = []);
			run.push(point);
		}
		return found;
	}

	// From the outermost column down to the edge. Columns cannot tell how the
	// outline comes down there, but it does so as a power of the height (as
	// ellipses and their kin do), and the two outermost tell which.
	function brink(edge, base, outer, inner) {
		const power = Math.log((edge - inner.y) / (edge - outer.y)) /
			Math.log((inner.z - base) / (outer.z - base));
		const p = Math.min(Math.max(power || 1, 1), 6);
		const points = [];
		for (let i = 1; i < BRINK_POINTS; i++) {
			const share = i / BRINK_POINTS;
			points.push({ y: edge - (edge - outer.y) * Math.pow(share, p),
				z: base + (outer.z - base) * share });
		}
		return [{ y: edge, z: base }, ...points];
	}

	function finished(app, ix) {
		const model = app.model, x = model.x(ix);
		const base = app.along.at('base_mm', x);
		const minus = -app.along.at('edge_minus_mm', x), plus = app.along.at('edge_plus_mm', x);
		const inside = column(model, model.finished, ix)
			.filter((p) => p.z === p.z && p.y > minus && p.y < plus);
		const n = inside.length;
		if (n < 2 || Number.isNaN(base))
			return [];
		return [...brink(minus, base, inside[0], inside[1]), ...inside,
			...brink(plus, base, inside[n - 1], inside[n - 2]).reverse()];
	}

	// By the rule that comes with the page's data.
	function zoneKey(drawing, x, z) {
		const neck = drawing.neck;
		if (x < 0)
			return 'transitions';
		if (x >= neck.heel_proper_mm)
			return 'heel_cheeks';
		if (z < drawing.allowance.side_height_mm)
			return 'sides';
		return x > neck.heel_start_mm ? 'transitions' : 'back';
	}

	function allowance(drawing, x, z) {
		const key = zoneKey(drawing, x, z);
		return drawing.zones.find((zone) => zone.key === key).allowance_mm;
	}

	// Slope of the finished surface along x at a point of the section.
	function slopeAlong(model, ix, y) {
		const iy = model.at(0, y).iy;
		const a = model.finished[iy * model.nx + Math.max(ix - 1, 0)];
		const b = model.finished[iy * model.nx + Math.min(ix + 1, model.nx - 1)];
		return (b - a) / (2 * model.cell_mm) || 0;
	}

	// The line at the asked distance from the finished outline. The distance is
	// square to the surface; within the section it is longer by the share of the
	// surface's slope along x.
	function allowanceLine(app, ix, outline) {
		const model = app.model, x = model.x(ix);
		const found = [];
		for (let i = 0; i < outline.length; i++) {
			const p = outline[i];
			const a = outline[Math.max(i - 1, 0)], b = outline[Math.min(i + 1, outline.length - 1)];
			const length = Math.hypot(b.y - a.y, b.z - a.z) || 1;
			const ny = -(b.z - a.z) / length, nz = (b.y - a.y) / length;
			const slope = slopeAlong(model, ix, p.y);
			if (Math.abs(slope) > STEEP)
				return [];
			const far = allowance(model.drawing, x, p.z) * Math.hypot(1, slope * nz);
			found.push({ y: p.y + ny * far, z: p.z + nz * far });
		}
		return found;
	}

	// Everything a section is drawn from, after `pass` passes.
	function make(app, ix, pass) {
		const model = app.model, x = model.x(ix);
		const bottom = app.along.at('blank_bottom_mm', x);
		const outline = finished(app, ix);
		return {
			x, bottom,
			top: app.along.at('blank_top_mm', x),
			minus: app.along.at('blank_minus_mm', x),
			plus: app.along.at('blank_plus_mm', x),
			base: app.along.at('base_mm', x),
			boardHalf: app.along.at('fretboard_half_mm', x),
			boardThickness: model.drawing.neck.fretboard_thickness_mm,
			channelFloor: app.along.at('channel_floor_mm', x),
			before: runs(model, model.standing(Math.max(pass, 1) - 2), ix, bottom),
			standing: runs(model, model.standing(pass - 1), ix, bottom),
			roughed: runs(model, model.roughed, ix, bottom),
			finished: outline,
			allowance: allowanceLine(app, ix, outline)
		};
	}

	neckhew.profile = { make, zoneKey, allowance };
})(window.neckhew = window.neckhew || {});
