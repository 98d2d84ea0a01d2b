// SPDX-License-Identifier: GPL-3.0-or-later
// Round steps, axes with their unit, the colour bar, the bar of so many mm.
(function (neckhew) {
	'use strict';

	const pen = neckhew.pen;
	const SLACK = 1e-9;

	// Figures closer than this would touch.
	function figureRoom() {
		return pen.isPrinting() ? 26 : 34;
	}

	// The smallest of 1, 2, 5 times a power of ten that divides `span` into at
	// most `parts`.
	function step(span, parts) {
		if (!(span > 0) || !Number.isFinite(span))
			return 1;
		const rough = span / Math.max(parts, 1);
		const power = Math.pow(10, Math.floor(Math.log10(rough) + SLACK));
		const mantissa = [1, 2, 5, 10].find((m) => m * power * (1 + SLACK) >= rough);
		return mantissa * power;
	}

	function ceiling(value, by) {
		return Math.ceil(value / by - SLACK) * by;
	}

	function decimals(by) {
		return Math.max(0, -Math.floor(Math.log10(by) + SLACK));
	}

	// Multiples of `by` within from..to.
	function multiples(from, to, by) {
		const list = [];
		for (let i = Math.ceil(from / by - SLACK); i * by <= to + SLACK * by; i++)
			list.push(i * by);
		return list;
	}

	// `place` turns a value into px. Returns the y under the label.
	function axisBelow(g, from, to, place, y, label) {
		const by = step(to - from, Math.max(1, Math.round((place(to) - place(from)) / figureRoom())));
		pen.line(g, 'tick', place(from), y, place(to), y);
		for (const value of multiples(from, to, by)) {
			pen.line(g, 'tick', place(value), y, place(value), y + 4);
			pen.text(g, 'small', place(value), y + 15,
				neckhew.words.number(value, decimals(by)), 'center');
		}
		if (label)
			pen.text(g, 'small', (place(from) + place(to)) / 2, y + 29, label, 'center');
		return y + (label ? 32 : 18);
	}

	function axisLeft(g, from, to, place, x, label) {
		const by = step(to - from, Math.max(1, Math.abs(place(to) - place(from)) / 18));
		let widest = 0;
		pen.line(g, 'tick', x, place(from), x, place(to));
		for (const value of multiples(from, to, by)) {
			pen.line(g, 'tick', x - 4, place(value), x, place(value));
			const figure = neckhew.words.number(value, decimals(by));
			pen.text(g, 'small', x - 6, place(value) + 4, figure, 'right');
			widest = Math.max(widest, g.measureText(figure).width);
		}
		// with wide letters the label would leave the drawing before it touched the figures
		pen.textUpward(g, Math.max(x - 13 - widest, 11), (place(from) + place(to)) / 2, label);
	}

	// The ramp as a bar, 0 at its left, `full` at its right. `beyond`: larger
	// values share the last colour. Takes BAR_HEIGHT_PX.
	function colourBar(g, ramp, x, y, width, full, beyond, label) {
		const place = (value) => x + value / full * width;
		for (let i = 0; i < ramp.length; i++) {
			g.fillStyle = ramp[i];
			g.fillRect(x + i * width / ramp.length, y, width / ramp.length + 0.5, 10);
		}
		axisBelow(g, 0, full, place, y + 11, label);
		if (beyond)
			pen.text(g, 'small', x + width + 4, y + 9, 'and more');
	}

	// A bar to measure by: so many mm of the neck at the drawing's own scale.
	function scaleBar(g, x, y, scale) {
		const mm = [100, 50, 20, 10, 5].find((m) => m * scale <= 160) || 5;
		for (let i = 0; i < 5; i++) {
			g.fillStyle = pen.colour(i % 2 ? 'paper' : 'ink');
			g.fillRect(x + i * mm * scale / 5, y, mm * scale / 5, 5);
		}
		g.beginPath();
		g.rect(x, y, mm * scale, 5);
		pen.stroke(g, 'tick');
		pen.text(g, 'small', x, y + 17, mm + ' mm along and across');
	}

	neckhew.scale = { step, ceiling, decimals, multiples, axisBelow, axisLeft, colourBar,
		scaleBar, BAR_HEIGHT_PX: 44 };
})(window.neckhew = window.neckhew || {});
