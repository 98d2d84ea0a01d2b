// SPDX-License-Identifier: GPL-3.0-or-later
// Colours and words that the turning view and the plain picture share.
(function (neckhew) {
	'use strict';

	// '#rrggbb' as three parts from 0 to 1.
	function parts(hex) {
		return [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16) / 255);
	}

	// A function that writes red, green and blue of a depth into out[at...].
	// What the pass leaves alone is pale wood, as on the pass map.
	function painter(model) {
		const ramp = model.drawing.ramp.map(parts);
		const pale = parts(model.drawing.colours.pale_wood);
		const most = neckhew.map.fullOf(model);

		return function (depthMm, out, at) {
			const step = Math.min(Math.floor(depthMm / most * ramp.length), ramp.length - 1);
			const c = depthMm > 0 ? ramp[step] : pale;
			out[at] = c[0];
			out[at + 1] = c[1];
			out[at + 2] = c[2];
		};
	}

	// What stands there, for who cannot see the picture.
	function stock(model, pass) {
		const count = model.passes.length;

		if (pass < 0)
			return 'The blank before the first of ' + count + ' passes';
		const p = model.passes[pass].figures;
		return 'The stock after pass ' + (pass + 1) + ' of ' + count + ', ' + p.kind + ' at z ' +
			neckhew.words.number(p.level_mm, 2) + ' mm';
	}

	function element(name, className, text) {
		const made = document.createElement(name);

		made.className = className;
		made.textContent = text || '';
		return made;
	}

	neckhew.turnLook = { parts, painter, stock, element };
})(window.neckhew = window.neckhew || {});
