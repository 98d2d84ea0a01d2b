// SPDX-License-Identifier: GPL-3.0-or-later
// The pass map: how deep the chosen pass cuts at each place of the plan.
(function (neckhew) {
	'use strict';

	const pen = neckhew.pen;
	const KEY_PX = 47;
	const NARROW_PX = 600;

	// Full of the one scale all passes share, so that passes compare.
	function fullOf(model) {
		const by = neckhew.scale.step(model.deepest_mm, 10);
		return neckhew.scale.ceiling(model.deepest_mm, by) || 1;
	}

	function look(app) {
		const { ramp, colours } = app.model.drawing;
		return { ramp, full: fullOf(app.model), most: true, zero: colours.pale_wood,
			paper: pen.colour('paper') };
	}

	// The blank's map is a cut of nothing where there is wood.
	function planeOf(model, pass) {
		return pass > 0 ? model.cut(pass - 1) : model.blank.map((z) => z === z ? 0 : NaN);
	}

	function key(g, app, plan, width, y) {
		const narrow = width < NARROW_PX;
		const bar = narrow ? width - 90 : Math.min(360, width * 0.3);
		const { ramp } = app.model.drawing;
		neckhew.scale.colourBar(g, ramp, 48, y, bar, fullOf(app.model), false,
			'cut by this pass, mm');
		const x = narrow ? 48 : bar + 90, under = narrow ? y + KEY_PX : y;
		neckhew.scale.scaleBar(g, x, under, plan.scale);
		const swatch = narrow ? x : x + 190, line = narrow ? under + 26 : under;
		g.beginPath();
		g.rect(swatch, line, 22, 11);
		pen.fill(g, 'pale_wood');
		pen.stroke(g, 'frame');
		pen.text(g, 'small', swatch + 28, line + 10, 'wood this pass leaves alone');
	}

	function keyHeight(width) {
		return width < NARROW_PX ? 2 * KEY_PX : KEY_PX;
	}

	function name(app) {
		const n = app.state.pass;
		return n === 0 ? 'Plan of the blank: nothing cut yet.'
			: 'Plan of the neck: how deep ' + neckhew.passes.title(app.model, n) + ' cuts.';
	}

	function make(app) {
		const canvas = document.getElementById('map');
		let plan = null, images = [], imagesOf = '';

		// Colours change with the pass and the paper, not with the mark.
		function colour(ratio) {
			const wanted = [app.state.pass, plan.scale, plan.rows.length, ratio].join(' ');
			if (wanted === imagesOf)
				return;
			const plane = planeOf(app.model, app.state.pass);
			images = plan.rows.map((row) =>
				neckhew.raster.row(app.model, plane, plan, row, ratio, look(app)));
			imagesOf = wanted;
		}

		function draw() {
			const sheet = pen.ground(canvas, (width) => {
				plan = neckhew.plan.layout(app.part, width);
				return plan.height + keyHeight(width);
			});
			colour(sheet.ratio);
			plan.rows.forEach((row, i) =>
				sheet.pen.drawImage(images[i], row.left, row.top, row.width, row.height));
			neckhew.planMarks.draw(sheet.pen, app, plan);
			key(sheet.pen, app, plan, sheet.width, plan.height + 2);
			neckhew.planMarks.mark(sheet.pen, app, plan);
			canvas.setAttribute('aria-label', name(app));
		}

		// Client px of a place, and back.
		function pointAt(xMm, yMm) {
			const row = neckhew.plan.rowOf(plan, xMm);
			const p = neckhew.plan.place(plan, row, xMm, yMm);
			const box = canvas.getBoundingClientRect();
			return { x: box.left + p.x, y: box.top + p.y };
		}

		function placeUnder(clientX, clientY) {
			const box = canvas.getBoundingClientRect();
			return plan && neckhew.plan.under(plan, clientX - box.left, clientY - box.top);
		}

		app.state.draw(['pass', 'ix', 'iy', 'held'], draw);
		neckhew.map.pointAt = pointAt;
		return { canvas, pointAt, placeUnder };
	}

	neckhew.map = { make, fullOf };
})(window.neckhew = window.neckhew || {});
