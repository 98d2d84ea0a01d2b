// SPDX-License-Identifier: GPL-3.0-or-later
// Where the plan of a long neck goes on a sheet: one row where there is room,
// more rows on a narrow one, each going on where the row above ends. One scale
// along and across. Turns places into px and back.
(function (neckhew) {
	'use strict';

	const LEFT_PX = 48;
	const RIGHT_PX = 8;
	const TOP_PX = 18; // names of stations
	const AXIS_PX = 36;
	const AIR_MM = 3;
	const LEAST_SCALE = 1.6; // px for each mm: a column of half a millimetre shows

	// part: { x0, x1, y0, y1 } in mm.
	function layout(part, width) {
		const room = width - LEFT_PX - RIGHT_PX;
		const span = part.x1 - part.x0;
		// a printer's dots are fine enough for one row
		const wanted = neckhew.pen.isPrinting() ? 1 : Math.ceil(span * LEAST_SCALE / room - 0.05);
		const count = Math.min(Math.max(wanted, 1), 6);
		const each = span / count;
		const scale = room / each;
		const tall = (part.y1 - part.y0) * scale;
		const pitch = TOP_PX + tall + AXIS_PX;
		const rows = [];
		for (let i = 0; i < count; i++)
			rows.push({ x0: part.x0 + i * each, x1: part.x0 + (i + 1) * each,
				left: LEFT_PX, top: i * pitch + TOP_PX, width: room, height: tall });
		return { part, rows, scale, height: count * pitch };
	}

	function place(plan, row, xMm, yMm) {
		return { x: row.left + (xMm - row.x0) * plan.scale,
			y: row.top + (plan.part.y1 - yMm) * plan.scale };
	}

	// The place under a px, or null beyond the rows.
	function under(plan, px, py) {
		const row = plan.rows.find((r) => py >= r.top - TOP_PX / 2 &&
			py <= r.top + r.height + TOP_PX / 2);
		if (!row)
			return null;
		const along = Math.min(Math.max(px - row.left, 0), row.width);
		return { x: row.x0 + along / plan.scale,
			y: plan.part.y1 - (py - row.top) / plan.scale };
	}

	// The row that shows x.
	function rowOf(plan, xMm) {
		return plan.rows.find((r) => xMm <= r.x1) || plan.rows[plan.rows.length - 1];
	}

	// First and last x of columns for which `holds(i)` is true anywhere across.
	function extent(model, holds) {
		let low = Infinity, high = -Infinity;
		for (let i = 0; i < model.blank.length; i++)
			if (holds(i)) {
				low = Math.min(low, i % model.nx);
				high = Math.max(high, i % model.nx);
			}
		return { low: model.x(low), high: model.x(high) };
	}

	// The part worth drawing: the neck and whatever any pass touches, with a
	// little air, as far as there is wood.
	function worthDrawing(model) {
		const neck = model.drawing.neck, half = model.cell_mm / 2;
		const wood = extent(model, (i) => model.blank[i] === model.blank[i]);
		const cut = extent(model, (i) => model.roughed[i] < model.blank[i]);
		return { x0: Math.max(Math.min(neck.from_mm, cut.low) - AIR_MM, wood.low - half),
			x1: Math.min(Math.max(neck.to_mm, cut.high) + AIR_MM, wood.high + half),
			y0: model.y0_mm - half, y1: model.y(model.ny - 1) + half };
	}

	neckhew.plan = { layout, place, under, rowOf, worthDrawing };
})(window.neckhew = window.neckhew || {});
