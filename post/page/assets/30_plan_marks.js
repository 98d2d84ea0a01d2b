// SPDX-License-Identifier: GPL-3.0-or-later
// What both maps carry besides their colours: axes, frets, stations, the neck's
// outline, what the cutter must keep out of, and the mark with its section
// letters.
(function (neckhew) {
	'use strict';

	const pen = neckhew.pen;
	const LETTER_ROOM_PX = 8;

	function clipped(g, row, draw) {
		g.save();
		g.beginPath();
		g.rect(row.left, row.top, row.width, row.height);
		g.clip();
		draw();
		g.restore();
	}

	function edgeLine(g, app, plan, row, name, sign) {
		const neck = app.model.drawing.neck;
		const from = Math.max(row.x0 - 5, neck.from_mm), to = Math.min(row.x1 + 5, neck.to_mm);
		let down = false;
		g.beginPath();
		for (const x of app.along.places(from, to)) {
			const half = app.along.at(name, x);
			if (Number.isNaN(half))
				continue;
			const p = neckhew.plan.place(plan, row, x, sign * half);
			if (down)
				g.lineTo(p.x, p.y);
			else
				g.moveTo(p.x, p.y);
			down = true;
		}
		pen.stroke(g, 'contour');
	}

	function outline(g, app, plan, row) {
		clipped(g, row, () => {
			edgeLine(g, app, plan, row, 'edge_minus_mm', -1);
			edgeLine(g, app, plan, row, 'edge_plus_mm', 1);
			const y = neckhew.plan.place(plan, row, row.x0, 0).y;
			pen.line(g, 'centre', row.left, y, row.left + row.width, y);
		});
	}

	// Fret numbers above a row; those that are stations in bold with a line.
	function frets(g, app, plan, row) {
		const drawing = app.model.drawing;
		const stations = new Map(drawing.stations.map((s) => [s.x_mm, s.name]));
		const marks = drawing.neck.fret_x_mm.map((x, i) => [x, i === 0 ? 'nut' : String(i)]);
		for (const [x, name] of stations)
			if (!drawing.neck.fret_x_mm.includes(x))
				marks.push([x, name]);
		pen.text(g, 'small', row.left, row.top - 5, 'fret', 'right');
		for (const [x, name] of marks) {
			if (x < row.x0 || x > row.x1)
				continue;
			const at = neckhew.plan.place(plan, row, x, 0).x;
			pen.text(g, stations.has(x) ? 'strong' : 'small', at, row.top - 5, name, 'center');
			if (stations.has(x) || x === 0)
				pen.line(g, x === 0 ? 'tick' : 'station', at, row.top, at, row.top + row.height);
		}
	}

	function axes(g, app, plan, row, last) {
		const words = app.model.drawing.neck;
		const x = (mm) => row.left + (mm - row.x0) * plan.scale;
		const y = (mm) => row.top + (plan.part.y1 - mm) * plan.scale;
		g.beginPath();
		g.rect(row.left, row.top, row.width, row.height);
		pen.stroke(g, 'frame');
		neckhew.scale.axisBelow(g, row.x0, row.x1, x, row.top + row.height,
			last ? 'x from the nut, mm' : '');
		const sign = words.plus_side === 'bass' ? '+' : '\u2212';
		neckhew.scale.axisLeft(g, plan.part.y0, plan.part.y1, y, row.left,
			'y, mm (' + sign + ' bass)');
	}

	// Hatched: clamps and whatever else stands there.
	function keepOut(g, plan, row, place) {
		const a = neckhew.plan.place(plan, row, place.x_from_mm, place.y_to_mm);
		const b = neckhew.plan.place(plan, row, place.x_to_mm, place.y_from_mm);
		const box = { x: a.x, y: a.y, width: b.x - a.x, height: b.y - a.y };
		const trace = () => {
			if (place.shape === 'cylinder')
				g.ellipse((a.x + b.x) / 2, (a.y + b.y) / 2, box.width / 2, box.height / 2,
					0, 0, 2 * Math.PI);
			else
				g.rect(box.x, box.y, box.width, box.height);
		};
		clipped(g, row, () => {
			neckhew.hatch.inside(g, trace, box);
			g.beginPath();
			trace();
			pen.stroke(g, 'frame');
		});
	}

	// Ink on a broader stroke of paper, so that it shows on pale and dark wood.
	function haloed(g, path) {
		g.lineCap = 'round';
		for (const kind of ['halo', 'mark']) {
			path();
			pen.stroke(g, kind);
		}
	}

	// A line across where the section is taken, a ring at the place.
	function mark(g, app, plan) {
		const xMm = app.model.x(app.state.ix), yMm = app.model.y(app.state.iy);
		if (xMm < plan.part.x0 || xMm > plan.part.x1)
			return;
		const row = neckhew.plan.rowOf(plan, xMm);
		const p = neckhew.plan.place(plan, row, xMm, yMm);
		haloed(g, () => {
			g.beginPath();
			g.moveTo(p.x, row.top - 3);
			g.lineTo(p.x, p.y - 5);
			g.moveTo(p.x, p.y + 5);
			g.lineTo(p.x, row.top + row.height + 3);
			g.moveTo(p.x + 5, p.y);
			g.arc(p.x, p.y, 5, 0, 2 * Math.PI);
		});
		if (app.state.held) {
			g.beginPath();
			g.arc(p.x, p.y, 2.5, 0, 2 * Math.PI);
			pen.fill(g, 'ink');
		}
		const beside = p.x + LETTER_ROOM_PX > row.left + row.width - 8 ? -1 : 1;
		for (const y of [row.top + 11, row.top + row.height - 4])
			pen.textOnWood(g, 'strong', p.x + beside * LETTER_ROOM_PX, y, 'A',
				beside < 0 ? 'right' : 'left');
	}

	function draw(g, app, plan) {
		plan.rows.forEach((row, i) => {
			for (const place of app.model.drawing.fixture.keep_out)
				keepOut(g, plan, row, place);
			outline(g, app, plan, row);
			frets(g, app, plan, row);
			axes(g, app, plan, row, i + 1 === plan.rows.length);
		});
	}

	neckhew.planMarks = { draw, mark };
})(window.neckhew = window.neckhew || {});
