// SPDX-License-Identifier: GPL-3.0-or-later
// The stock left for the hand: colours column by column, contour lines over the
// mean of 2 mm. It does not change with the pass.
(function (neckhew) {
	'use strict';

	const pen = neckhew.pen;
	const BLOCK_MM = 2; // wider than any stepover
	const KEY_PX = 47;
	const NARROW_PX = 600;
	const LABEL_APART_PX = 110; // figures on one line of equal stock
	const SHORT_PX = 14; // a line shorter than this is a speck

	// Full of the scale: twice the largest allowance, so that what was asked for
	// lies in its middle.
	function scaleOf(model) {
		const asked = model.drawing.zones.map((zone) => zone.allowance_mm);
		const wanted = 2 * Math.max(...asked) || 1;
		const full = neckhew.scale.ceiling(wanted, neckhew.scale.step(wanted, 10));
		return { full, by: neckhew.scale.step(full, 6),
			beyond: model.stock.some((v) => v > full) };
	}

	function linesOf(model, scale) {
		const block = Math.max(1, Math.round(BLOCK_MM / model.cell_mm));
		const smooth = neckhew.contour.smooth(model,
			neckhew.chisel.without(model, model.stock), block, 1.5 * scale.full);
		const levels = neckhew.scale.multiples(scale.by, scale.full, scale.by);
		return levels.flatMap((level) =>
			neckhew.contour.lines(smooth, level).map((points) => ({ level, points })));
	}

	function lengthPx(points, plan) {
		let sum = 0;
		for (let i = 1; i < points.length; i++)
			sum += Math.hypot(points[i].x - points[i - 1].x, points[i].y - points[i - 1].y);
		return sum * plan.scale;
	}

	function trace(g, plan, row, points) {
		g.beginPath();
		points.forEach((point, i) => {
			const p = neckhew.plan.place(plan, row, point.x, point.y);
			if (i === 0)
				g.moveTo(p.x, p.y);
			else
				g.lineTo(p.x, p.y);
		});
		pen.stroke(g, 'contour');
	}

	// The level's figure in the middle of a line, unless another stands near.
	function label(g, plan, row, line, scale, taken) {
		const middle = line.points[line.points.length >> 1];
		if (middle.x < row.x0 || middle.x > row.x1)
			return;
		const p = neckhew.plan.place(plan, row, middle.x, middle.y);
		if (taken.some((t) => Math.hypot(t.x - p.x, t.y - p.y) < LABEL_APART_PX &&
			(t.level === line.level || Math.hypot(t.x - p.x, t.y - p.y) < 30)))
			return;
		taken.push({ x: p.x, y: p.y, level: line.level });
		pen.textOnWood(g, 'small', p.x, p.y + 4,
			neckhew.words.number(line.level, neckhew.scale.decimals(scale.by)), 'center');
	}

	function contours(g, plan, lines, scale) {
		for (const row of plan.rows) {
			g.save();
			g.beginPath();
			g.rect(row.left, row.top, row.width, row.height);
			g.clip();
			const long = lines.filter((line) => lengthPx(line.points, plan) >= SHORT_PX);
			const taken = [];
			for (const line of long)
				trace(g, plan, row, line.points);
			for (const line of long)
				label(g, plan, row, line, scale, taken);
			g.restore();
		}
	}

	function key(g, app, plan, width, y, scale) {
		const narrow = width < NARROW_PX;
		const bar = narrow ? width - 110 : Math.min(360, width * 0.3);
		neckhew.scale.colourBar(g, app.model.drawing.ramp, 48, y, bar, scale.full, scale.beyond,
			'stock left for the hand, mm');
		const x = narrow ? 48 : bar + 110, under = narrow ? y + KEY_PX : y;
		neckhew.scale.scaleBar(g, x, under, plan.scale);
		const line = narrow ? x : x + 190, at = narrow ? under + 30 : under + 4;
		pen.line(g, 'contour', line, at, line + 24, at);
		pen.text(g, 'small', line + 30, at + 4, 'contour lines every ' +
			neckhew.words.number(scale.by, neckhew.scale.decimals(scale.by)) + ' mm');
		if (neckhew.chisel.any(app))
			neckhew.chisel.key(g, line, at + 12);
	}

	function make(app) {
		const canvas = document.getElementById('stock-map');
		const { ramp } = app.model.drawing;
		const scale = scaleOf(app.model);
		const look = () => ({ ramp, full: scale.full, most: false, paper: pen.colour('paper') });
		const lines = linesOf(app.model, scale);
		let plan = null, images = [], imagesOf = '';

		function colour(ratio) {
			const wanted = [plan.scale, plan.rows.length, ratio].join(' ');
			if (wanted !== imagesOf)
				images = plan.rows.map((row) =>
					neckhew.raster.row(app.model, app.model.stock, plan, row, ratio, look()));
			imagesOf = wanted;
		}

		function draw() {
			const sheet = pen.ground(canvas, (width) => {
				plan = neckhew.plan.layout(app.part, width);
				return plan.height + (width < NARROW_PX ? 2 : 1) * KEY_PX;
			});
			colour(sheet.ratio);
			plan.rows.forEach((row, i) =>
				sheet.pen.drawImage(images[i], row.left, row.top, row.width, row.height));
			contours(sheet.pen, plan, lines, scale);
			neckhew.chisel.draw(sheet.pen, app, plan);
			neckhew.planMarks.draw(sheet.pen, app, plan);
			key(sheet.pen, app, plan, sheet.width, plan.height + 2, scale);
			neckhew.planMarks.mark(sheet.pen, app, plan);
		}

		app.state.draw(['ix', 'iy', 'held'], draw);
		return {
			canvas,
			placeUnder: (clientX, clientY) => {
				const box = canvas.getBoundingClientRect();
				return plan && neckhew.plan.under(plan, clientX - box.left, clientY - box.top);
			}
		};
	}

	neckhew.stockMap = { make };
})(window.neckhew = window.neckhew || {});
