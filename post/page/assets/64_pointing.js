// SPDX-License-Identifier: GPL-3.0-or-later
// The mark on the maps: by mouse, finger and keys. A mouse on its way
// elsewhere would drag the mark along, so that a click holds it in place.
(function (neckhew) {
	'use strict';

	const FAR_MM = 10;
	const WANDER_PX = 5;

	function put(app, place) {
		if (place)
			app.state.set(app.model.at(place.x, place.y));
	}

	// A press that wandered off is no click.
	function apart(a, b) {
		return Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY) > WANDER_PX;
	}

	function pointer(app, map) {
		const canvas = map.canvas;
		let down = null;

		canvas.addEventListener('pointermove', (event) => {
			if (event.pointerType !== 'mouse' || !app.state.held)
				put(app, map.placeUnder(event.clientX, event.clientY));
		});
		canvas.addEventListener('pointerdown', (event) => {
			down = event;
			if (event.pointerType === 'mouse')
				return;
			canvas.setPointerCapture(event.pointerId); // a finger may slide off the edge
			put(app, map.placeUnder(event.clientX, event.clientY));
		});
		canvas.addEventListener('pointerup', (event) => {
			if (event.pointerType !== 'mouse' || event.button !== 0 || !down || apart(down, event))
				return;
			if (!app.state.held)
				put(app, map.placeUnder(event.clientX, event.clientY));
			app.state.set({ held: !app.state.held });
		});
	}

	// Columns to go for an arrow; up on the map is +y.
	const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

	function step(app, arrow, far) {
		const model = app.model;
		const columns = far ? Math.max(1, Math.round(FAR_MM / model.cell_mm)) : 1;
		const within = (i, count) => Math.min(Math.max(i, 0), count - 1);
		app.state.set({ ix: within(app.state.ix + arrow[0] * columns, model.nx),
			iy: within(app.state.iy + arrow[1] * columns, model.ny) });
	}

	// What a key does, or undefined.
	function action(app, controls, event) {
		const end = (x) => () => put(app, { x, y: app.model.y(app.state.iy) });
		if (event.key in ARROWS)
			return () => step(app, ARROWS[event.key], event.shiftKey);
		return {
			Home: end(app.part.x0 + app.model.cell_mm / 2),
			End: end(app.part.x1 - app.model.cell_mm),
			c: () => put(app, { x: app.model.x(app.state.ix), y: 0 }),
			PageUp: () => controls.choose(app.state.pass - 1),
			PageDown: () => controls.choose(app.state.pass + 1),
			' ': controls.toggle,
			Enter: () => app.state.set({ held: !app.state.held })
		}[event.key.length === 1 ? event.key.toLowerCase() : event.key];
	}

	function keys(app, map, controls) {
		map.canvas.addEventListener('keydown', (event) => {
			if (event.ctrlKey || event.altKey || event.metaKey)
				return;
			const act = action(app, controls, event);
			if (!act)
				return;
			event.preventDefault(); // or the window would scroll
			act();
		});
	}

	neckhew.pointing = { pointer, keys };
})(window.neckhew = window.neckhew || {});
