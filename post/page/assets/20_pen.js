// SPDX-License-Identifier: GPL-3.0-or-later
// Lines, letters and the ground they are drawn on. Each kind of line is said
// once, with the widths of docs/look.md.
(function (neckhew) {
	'use strict';

	const PX_PER_MM = 96 / 25.4;
	const PRINT_RATIO = 4; // canvas dots for each CSS pixel on paper: 384 dpi
	const PAPER_WIDTH_PX = 718; // 190 mm, what an A4 page holds between its margins

	// colour, width in mm, dashes in mm
	const LINES = {
		finished: ['ink', 0.5, []],
		standing: ['ink', 0.25, []],
		roughed: ['brown', 0.35, []],
		allowance: ['soft_ink', 0.25, [0.4, 0.7]],
		blank: ['soft_ink', 0.25, [2.4, 1.4]],
		board: ['soft_ink', 0.25, []],
		channel: ['soft_ink', 0.25, [1.2, 0.8]],
		station: ['soft_ink', 0.18, [0.4, 0.9]],
		centre: ['soft_ink', 0.18, [4, 1, 0.6, 1]],
		contour: ['ink', 0.2, []],
		edge: ['ink', 0.35, []],
		mark: ['ink', 0.3, []],
		dashes: ['ink', 0.35, [1.6, 1]],
		halo: ['paper', 1.1, []],
		hatch: ['soft_ink', 0.15, []],
		tick: ['ink', 0.2, []],
		frame: ['soft_ink', 0.2, []],
		grid: ['grid', 0.12, []],
		rule: ['rule', 0.15, []]
	};

	let colours = {};
	let printing = false;

	// On paper the paper is the printer's.
	function colour(name) {
		return printing && name === 'paper' ? '#ffffff' : colours[name];
	}

	function font(kind) {
		const size = printing ? 10 : 12;
		return kind === 'strong' ? 'bold ' + size + 'px sans-serif' : size + 'px sans-serif';
	}

	// A canvas as wide as its place and as tall as `height(width)` says,
	// cleared, with one unit for each CSS pixel.
	function ground(canvas, height) {
		const width = printing ? PAPER_WIDTH_PX : canvas.parentElement.clientWidth;
		const part = printing ? Number(canvas.dataset.paperShare || 1) : 1;
		const w = Math.max(Math.floor(width * part), 120);
		const h = Math.ceil(height(w));
		const ratio = printing ? PRINT_RATIO : Math.min(window.devicePixelRatio || 1, 3);
		const dotsX = Math.round(w * ratio), dotsY = Math.round(h * ratio);
		if (canvas.width !== dotsX || canvas.height !== dotsY) {
			canvas.width = dotsX; // which also clears it
			canvas.height = dotsY;
		}
		const pen = canvas.getContext('2d');
		pen.setTransform(canvas.width / w, 0, 0, canvas.height / h, 0, 0);
		pen.clearRect(0, 0, w, h);
		return { pen, width: w, height: h, ratio };
	}

	function use(pen, kind) {
		const [name, widthMm, dashes] = LINES[kind];
		pen.strokeStyle = colour(name);
		pen.lineWidth = Math.max(widthMm * PX_PER_MM, printing ? 0.3 : 0.6);
		pen.setLineDash(dashes.map((mm) => mm * PX_PER_MM));
		pen.lineJoin = 'round';
	}

	function stroke(pen, kind) {
		use(pen, kind);
		pen.stroke();
		pen.setLineDash([]);
	}

	function line(pen, kind, x1, y1, x2, y2) {
		pen.beginPath();
		pen.moveTo(x1, y1);
		pen.lineTo(x2, y2);
		stroke(pen, kind);
	}

	// kind: 'small', 'strong'; align: 'left', 'center', 'right'.
	function text(pen, kind, x, y, words, align) {
		pen.font = font(kind);
		pen.fillStyle = colour(kind === 'small' ? 'soft_ink' : 'ink');
		pen.textAlign = align || 'left';
		pen.textBaseline = 'alphabetic';
		pen.fillText(words, x, y);
	}

	// On a ground of paper, for letters that stand on wood.
	function textOnWood(pen, kind, x, y, words, align) {
		pen.font = font(kind);
		const width = pen.measureText(words).width + 4;
		const left = align === 'center' ? x - width / 2 : align === 'right' ? x - width + 2 : x - 2;
		pen.fillStyle = colour('paper');
		pen.fillRect(left, y - 10, width, 13);
		text(pen, kind, x, y, words, align);
	}

	// Read upward, centred on y.
	function textUpward(pen, x, y, words) {
		pen.save();
		pen.translate(x, y);
		pen.rotate(-Math.PI / 2);
		text(pen, 'small', 0, 0, words, 'center');
		pen.restore();
	}

	function fill(pen, name) {
		pen.fillStyle = colour(name);
		pen.fill();
	}

	neckhew.pen = {
		ground, stroke, line, text, textOnWood, textUpward, fill, colour, LINES,
		setColours: (table) => { colours = table; },
		setPrinting: (on) => { printing = on; },
		isPrinting: () => printing
	};
})(window.neckhew = window.neckhew || {});
