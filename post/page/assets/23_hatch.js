// SPDX-License-Identifier: GPL-3.0-or-later
// Slanting lines, as a drawing office marks what is cut away or kept out of.
(function (neckhew) {
	'use strict';

	const PITCH_PX = 5;

	// Over a rectangle, within whatever is clipped. Lines meet from one
	// rectangle to the next, for they count from the sheet's corner.
	function lines(g, x, y, w, h) {
		g.beginPath();
		const first = Math.ceil((x + y) / PITCH_PX), last = Math.floor((x + w + y + h) / PITCH_PX);
		for (let i = first; i <= last; i++) {
			g.moveTo(i * PITCH_PX - y, y);
			g.lineTo(i * PITCH_PX - y - h, y + h);
		}
		neckhew.pen.stroke(g, 'hatch');
	}

	function rectangle(g, x, y, w, h) {
		g.save();
		g.beginPath();
		g.rect(x, y, w, h);
		g.clip();
		lines(g, x, y, w, h);
		g.restore();
	}

	// Inside a path that `trace` lays; `box` bounds it.
	function inside(g, trace, box) {
		g.save();
		g.beginPath();
		trace();
		g.clip();
		lines(g, box.x, box.y, box.width, box.height);
		g.restore();
	}

	neckhew.hatch = { rectangle, inside };
})(window.neckhew = window.neckhew || {});
