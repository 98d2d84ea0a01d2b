// SPDX-License-Identifier: GPL-3.0-or-later
// Side view and light together, the choice of the line the straight edge lies
// on, and in words where most light shows on all three.
(function (neckhew) {
	'use strict';

	const number = neckhew.words.number;
	const GAP_PX = 12;

	function nameOf(drawing, line) {
		if (line === 0)
			return 'the centre line';
		return 'the ' + (line < 0 ? drawing.neck.minus_side : drawing.neck.plus_side) + ' edge';
	}

	// An end of the straight edge, as builders say it.
	function endName(drawing, xMm) {
		const fret = drawing.neck.fret_x_mm.findIndex((x) => Math.abs(x - xMm) < 0.01);
		return fret === 0 ? 'the nut' : fret > 0 ? 'fret ' + fret
			: 'x ' + number(xMm, 1) + ' mm, where the heel begins';
	}

	function light(laid) {
		return laid ? number(laid.most.gap, 2) + ' mm (at x ' + number(laid.most.x, 0) + ')' : '-';
	}

	function row(drawing, line, lays) {
		const cells = [lays.now, lays.finished].flatMap((laid) => laid
			? [number(laid.most.gap, 2), number(laid.most.x, 0)] : ['-', '-']);
		const tr = document.createElement('tr');
		const head = neckhew.sectionViews.element('th', '', nameOf(drawing, line));
		head.scope = 'row';
		tr.append(head, ...cells.map((text) => neckhew.sectionViews.element('td', 'number', text)));
		return tr;
	}

	function words(app, times, magnified) {
		const drawing = app.model.drawing;
		const heights = times === 1 ? 'like lengths'
			: number(times, times % 1 ? 1 : 0) + ' times as large as lengths';
		return 'The straight edge lies from ' + endName(drawing, drawing.neck.straight_from_mm) +
			' to ' + endName(drawing, drawing.neck.straight_to_mm) + '. Near an edge means at ' +
			number(neckhew.edge.SHARE, 1) + ' of the half width, where the back is still round. ' +
			'Heights in the side view are drawn ' + heights + '. Below it the light, ' +
			number(magnified, 0) + ' times as high as long: heavy line, the edge; pale, the wood ' +
			'as it stands; dashes, the finished neck under an edge of its own.';
	}

	function make(app) {
		const canvas = document.getElementById('side');
		const table = document.querySelector('#side-light tbody');
		const drawing = app.model.drawing;
		const finished = new Map([0, -1, 1].map((line) =>
			[line, neckhew.edge.on(app, app.model.finished, line)]));

		function draw() {
			const line = app.state.line;
			const standing = app.model.standing(app.state.pass - 1);
			const lays = (l) => ({ now: neckhew.edge.on(app, standing, l), finished: finished.get(l) });
			let f;
			const sheet = neckhew.pen.ground(canvas, (width) => {
				f = neckhew.side.frame(app, width);
				return f.height + GAP_PX + neckhew.light.height();
			});
			const chosen = lays(line);
			neckhew.side.draw(sheet.pen, f, app, line, chosen.now);
			const magnified = neckhew.light.draw(sheet.pen, f, f.height + GAP_PX / 2, chosen.now,
				chosen.finished);
			document.getElementById('side-words').textContent = words(app, f.times, magnified);
			table.replaceChildren(...[0, -1, 1].map((l) => row(drawing, l, lays(l))));
			canvas.setAttribute('aria-label', 'Side view along ' + nameOf(drawing, line) +
				' with a straight edge on the back. Most light now ' + light(chosen.now) + '.');
		}

		document.getElementById('side-minus').textContent = nameOf(drawing, -1);
		document.getElementById('side-plus').textContent = nameOf(drawing, 1);
		document.getElementById('side-choice').addEventListener('change', (event) =>
			app.state.set({ line: Number(event.target.value) }));
		app.state.draw(['pass', 'ix', 'line'], draw);
	}

	neckhew.sideView = { make };
})(window.neckhew = window.neckhew || {});
