// SPDX-License-Identifier: GPL-3.0-or-later
// Canvases hold dots, so they are drawn anew when their width changes, and for
// the printer finer and at the width of the paper.
(function (neckhew) {
	'use strict';

	function make(app) {
		let width = document.documentElement.clientWidth, ratio = window.devicePixelRatio;

		function print(on) {
			neckhew.pen.setPrinting(on);
			app.state.redraw();
		}
		window.addEventListener('beforeprint', () => print(true));
		window.addEventListener('afterprint', () => print(false));
		window.addEventListener('resize', () => {
			const now = document.documentElement.clientWidth;
			if (now === width && ratio === window.devicePixelRatio)
				return;
			width = now;
			ratio = window.devicePixelRatio;
			app.state.redraw();
		});
	}

	neckhew.paper = { make };
})(window.neckhew = window.neckhew || {});
