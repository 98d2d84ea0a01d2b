// SPDX-License-Identifier: GPL-3.0-or-later
// Side view along the chosen line: wood, outlines, fretboard, channel, and the
// straight edge as it lies.
(function (neckhew) {
	'use strict';

	const pen = neckhew.pen;
	const AIR_MM = 2;
	const LEFT_PX = 48, RIGHT_PX = 8, TOP_PX = 8, FRETS_PX = 16, AXIS_PX = 36;
	const EDGE_PX = 7; // how thick the straight edge is drawn
	const TIMES = [3, 2, 1.5, 1]; // heights may be drawn larger than lengths

	function lowest(app) {
		return -app.model.drawing.neck.fretboard_thickness_mm - AIR_MM;
	}

	// Scales and places for a width.
	function frame(app, width) {
		const { x0, x1 } = app.part;
		const room = width - LEFT_PX - RIGHT_PX, scale = room / (x1 - x0);
		const low = lowest(app), high = app.along.most('blank_top_mm', x0, x1) + AIR_MM;
		const limit = pen.isPrinting() ? 155 : Math.max(190, 0.27 * width);
		const times = TIMES.find((t) => (high - low) * scale * t <= limit) || 1;
		const bottom = TOP_PX + (high - low) * scale * times;
		return { x0, x1, low, high, scale, times, bottom, top: TOP_PX, left: LEFT_PX,
			right: LEFT_PX + room,
			x: (mm) => LEFT_PX + (mm - x0) * scale,
			z: (mm) => bottom - (mm - low) * scale * times,
			height: bottom + FRETS_PX + AXIS_PX };
	}

	function trace(g, f, points) {
		points.forEach((p, i) => {
			if (i === 0)
				g.moveTo(f.x(p.x), f.z(p.z));
			else
				g.lineTo(f.x(p.x), f.z(p.z));
		});
	}

	// From a line down to another one, both over x.
	function area(g, f, upper, lower, colour) {
		g.beginPath();
		trace(g, f, upper);
		for (let i = lower.length - 1; i >= 0; i--)
			g.lineTo(f.x(lower[i].x), f.z(lower[i].z));
		pen.fill(g, colour);
	}

	function stroke(g, f, points, kind) {
		g.beginPath();
		trace(g, f, points);
		pen.stroke(g, kind);
	}

	// Places of a line that comes with the page, within what is drawn.
	function given(app, name, from, to) {
		return app.along.places(from, to).map((x) => ({ x, z: app.along.at(name, x) }))
			.filter((p) => !Number.isNaN(p.z));
	}

	function ruling(g, f) {
		g.beginPath();
		for (const z of neckhew.scale.multiples(f.low, f.high, 10)) {
			g.moveTo(f.left, f.z(z));
			g.lineTo(f.right, f.z(z));
		}
		pen.stroke(g, 'rule');
	}

	function wood(g, f, app, line) {
		const { model, along } = app;
		const from = app.part.x0, to = app.part.x1;
		const on = (plane) => neckhew.edge.along(app, plane, line, from, to);
		const bottomUnder = (points) => points.map((p) => ({ x: p.x,
			z: along.at('blank_bottom_mm', p.x) })).filter((p) => p.z === p.z);
		const standing = on(model.standing(app.state.pass - 1)), roughed = on(model.roughed);
		const finished = on(model.finished);
		const base = finished.map((p) => ({ x: p.x, z: along.at('base_mm', p.x) }));
		area(g, f, standing, bottomUnder(standing), 'pale_wood');
		area(g, f, roughed, bottomUnder(roughed), 'light_wood');
		area(g, f, finished, base, 'wood');
		stroke(g, f, on(model.blank), 'blank');
		stroke(g, f, given(app, 'blank_bottom_mm', from, to), 'blank');
		stroke(g, f, standing, 'standing');
		stroke(g, f, roughed, 'roughed');
		stroke(g, f, finished, 'finished');
		stroke(g, f, base, 'finished');
	}

	// The channel runs under the centre line and shows there alone.
	function channel(g, f, app, line) {
		if (line === 0 && app.model.drawing.channel)
			stroke(g, f, given(app, 'channel_floor_mm', app.part.x0, app.part.x1), 'channel');
	}

	function board(g, f, app) {
		const neck = app.model.drawing.neck, frets = neck.fret_x_mm;
		const to = Math.min(frets[frets.length - 1], app.part.x1);
		g.beginPath();
		g.moveTo(f.x(to), f.z(-neck.fretboard_thickness_mm));
		g.lineTo(f.x(0), f.z(-neck.fretboard_thickness_mm));
		g.lineTo(f.x(0), f.z(0));
		let last = -Infinity;
		frets.forEach((x, i) => {
			if (x > to)
				return;
			g.moveTo(f.x(x), f.z(0));
			g.lineTo(f.x(x), f.z(-neck.fretboard_thickness_mm));
			if (f.x(x) - last > 16) {
				pen.text(g, 'small', f.x(x), f.bottom + 10, i === 0 ? 'nut' : String(i), 'center');
				last = f.x(x);
			}
		});
		pen.stroke(g, 'board');
	}

	// A bar of steel on edge, lying on the wood.
	function straightEdge(g, f, laid) {
		if (!laid)
			return;
		const a = { x: f.x(laid.from), y: f.z(laid.z(laid.from)) };
		const b = { x: f.x(laid.to), y: f.z(laid.z(laid.to)) };
		g.beginPath();
		g.moveTo(a.x, a.y);
		g.lineTo(b.x, b.y);
		g.lineTo(b.x, b.y - EDGE_PX);
		g.lineTo(a.x, a.y - EDGE_PX);
		g.closePath();
		pen.fill(g, 'paper');
		pen.stroke(g, 'edge');
	}

	function mark(g, f, app) {
		const x = f.x(app.model.x(app.state.ix));
		if (x < f.left || x > f.right)
			return;
		pen.line(g, 'mark', x, f.top, x, f.bottom);
		pen.textOnWood(g, 'strong', x + (x > f.right - 16 ? -6 : 6), f.top + 10, 'A',
			x > f.right - 16 ? 'right' : 'left');
	}

	// Into a sheet of this frame; `laid` is the straight edge on the standing wood.
	function draw(g, f, app, line, laid) {
		ruling(g, f);
		wood(g, f, app, line);
		channel(g, f, app, line);
		board(g, f, app);
		straightEdge(g, f, laid);
		mark(g, f, app);
		neckhew.scale.axisLeft(g, f.low, f.high, f.z, f.left, 'z, mm');
		neckhew.scale.axisBelow(g, f.x0, f.x1, f.x, f.bottom + FRETS_PX, 'x from the nut, mm');
	}

	neckhew.side = { frame, draw };
})(window.neckhew = window.neckhew || {});
