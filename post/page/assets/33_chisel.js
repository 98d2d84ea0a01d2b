// SPDX-License-Identifier: GPL-3.0-or-later
// The area left for the chisel: hatched, on the wood's colour, with its edge.
(function (neckhew) {
	'use strict';

	const pen = neckhew.pen;

	// The stretches of columns as rectangles of the sheet.
	function boxes(app, plan, row) {
		const { rows, cell_mm: cell } = app.model.drawing.chisel;
		return rows.flatMap(({ y_mm: y, x_mm: stretches }) => stretches
			.filter(([from, to]) => to > row.x0 && from < row.x1)
			.map(([from, to]) => {
				const a = neckhew.plan.place(plan, row, from, y + cell / 2);
				const b = neckhew.plan.place(plan, row, to, y - cell / 2);
				return { x: a.x, y: a.y, width: b.x - a.x, height: b.y - a.y };
			}));
	}

	function drawRow(g, row, list) {
		const trace = () => {
			for (const box of list)
				g.rect(box.x, box.y, box.width, box.height + 0.3);
		};
		g.save();
		g.beginPath();
		g.rect(row.left, row.top, row.width, row.height);
		g.clip();
		g.beginPath();
		trace();
		pen.fill(g, 'pale_wood');
		neckhew.hatch.inside(g, trace,
			{ x: row.left, y: row.top, width: row.width, height: row.height });
		g.restore();
	}

	function any(app) {
		return app.model.drawing.chisel.rows.length > 0;
	}

	// A plane without the columns that are left: lines of equal stock would run
	// under the hatching.
	function without(model, plane) {
		const kept = Float32Array.from(plane), cell = model.cell_mm;
		for (const { y_mm: y, x_mm: stretches } of model.drawing.chisel.rows)
			for (const [from, to] of stretches) {
				const iy = Math.round((y - model.y(0)) / cell);
				const first = Math.round((from - model.x(0)) / cell + 0.5);
				const end = Math.round((to - model.x(0)) / cell + 0.5);
				kept.fill(NaN, iy * model.nx + first, iy * model.nx + end);
			}
		return kept;
	}

	function draw(g, app, plan) {
		if (!any(app))
			return;
		for (const row of plan.rows) {
			const list = boxes(app, plan, row);
			if (list.length > 0)
				drawRow(g, row, list);
		}
	}

	// Swatch and words of a key.
	function key(g, x, y) {
		g.beginPath();
		g.rect(x, y, 22, 11);
		pen.fill(g, 'pale_wood');
		neckhew.hatch.rectangle(g, x, y, 22, 11);
		g.beginPath();
		g.rect(x, y, 22, 11);
		pen.stroke(g, 'frame');
		pen.text(g, 'small', x + 28, y + 10, 'left for the chisel');
	}

	neckhew.chisel = { any, draw, key, without };
})(window.neckhew = window.neckhew || {});
