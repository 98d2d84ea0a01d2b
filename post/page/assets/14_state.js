// SPDX-License-Identifier: GPL-3.0-or-later
// What is chosen: the pass (0 is the blank, n the stock after n passes), the
// marked column, whether the mark is held, the line of the straight edge.
// Views ask to be told; many changes between two frames are drawn once.
(function (neckhew) {
	'use strict';

	function make(first) {
		const state = Object.assign({ pass: 0, ix: 0, iy: 0, held: false, line: 0 }, first);
		const atOnce = [];
		const drawn = [];
		let waiting = new Set();

		function frame() {
			const changed = waiting;
			waiting = new Set();
			for (const view of drawn)
				if (view.keys.some((key) => changed.has(key)))
					view.draw();
		}

		// Texts follow at once, pictures with the next frame.
		state.set = function (change) {
			const keys = Object.keys(change).filter((key) => state[key] !== change[key]);
			if (keys.length === 0)
				return;
			Object.assign(state, change);
			if (waiting.size === 0)
				requestAnimationFrame(frame);
			for (const key of keys)
				waiting.add(key);
			for (const text of atOnce)
				if (text.keys.some((key) => keys.includes(key)))
					text.write();
		};
		state.write = function (keys, write) {
			atOnce.push({ keys, write });
			write();
		};
		state.draw = function (keys, draw) {
			drawn.push({ keys, draw });
		};
		// Everything anew, now: the width or the paper has changed.
		state.redraw = function () {
			for (const view of drawn)
				view.draw();
		};
		return state;
	}

	neckhew.state = { make };
})(window.neckhew = window.neckhew || {});
