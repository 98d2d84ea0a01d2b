// SPDX-License-Identifier: GPL-3.0-or-later
// How figures and places are written: as in the pictures, with a point, a true
// minus sign and a dash where there is no figure.
(function (neckhew) {
	'use strict';

	function number(value, decimals) {
		if (!Number.isFinite(value))
			return '-';
		const text = Math.abs(value).toFixed(decimals);
		return value < 0 && Number(text) !== 0 ? '\u2212' + text : text;
	}

	// The same with a hyphen as the minus sign, for what other programs and
	// tests read back as a number.
	function plain(value, decimals) {
		return number(value, decimals).replace('\u2212', '-');
	}

	function fret(value) {
		return value === 0 ? 'nut' : 'fret ' + String(value);
	}

	// Which side of the centre line a place lies on.
	function side(drawing, yMm) {
		if (Math.abs(yMm) < drawing.planes.cell_mm / 4)
			return 'on the centre line';
		return (yMm < 0 ? drawing.neck.minus_side : drawing.neck.plus_side) + ' side';
	}

	neckhew.words = { number, plain, fret, side };
})(window.neckhew = window.neckhew || {});
