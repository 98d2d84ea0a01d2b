// SPDX-License-Identifier: GPL-3.0-or-later
// The stock after a pass where it cannot be turned about: drawn column by
// column, back to front, in one fixed slanting view. x runs to the right, z up,
// and what lies farther back (toward +y) is moved up and to the left, so that
// one sees the top, the near side and the peghead end.
(function (neckhew) {
	'use strict';

	const BACK_LEFT = 0.3, BACK_UP = 0.45; // of a mm across
	const MARGIN_PX = 6;
	const RATIO_MOST = 2;
	// Light from the upper left over the viewer's shoulder; as in the turning
	// view, what faces it has the colours of the pass map.
	const LIGHT = [-0.45, -0.4, 0.8], LIGHT_SIZE = Math.hypot(...LIGHT);
	const DIM = 0.62, LIT = 0.36;
	// Shade takes more of blue than of red: wood does not go grey.
	const WARM = [0.85, 1, 1.25];
	// A side that falls toward the viewer so steeply runs on into its wall.
	const ROUND = -0.6; // part of its normal
	// A farther row shows behind a nearer one: that much farther is another brink.
	const BRINK_ROWS = 14;

	const NONE = -32768; // no wood drawn at this dot

	function shade(nx, ny, nz) {
		const toward = nx * LIGHT[0] + ny * LIGHT[1] + nz * LIGHT[2];

		return Math.min(DIM + LIT * Math.max(toward / LIGHT_SIZE, 0) + 0.06 * nz, 1);
	}

	function dot(c, light) {
		const part = (i) => Math.round(Math.max(c[i] * (1 - (1 - light) * WARM[i]), 0) * 255);

		return (0xff000000 | part(2) << 16 | part(1) << 8 | part(0)) >>> 0;
	}

	// Scale and origin of a picture so many dots wide.
	function frame(model, plan, dots, margin) {
		const from = plan.x[0], to = plan.x[plan.nx - 1];
		const half = [...plan.minus, ...plan.plus].reduce((most, v) => Math.max(most, v), 0);
		const high = model.blank.reduce((most, z) => z > most ? z : most, 0);
		const low = plan.bottom.reduce((least, z) => Math.min(least, z), 0);
		const scale = (dots - 2 * margin) / (to - from + 2 * half * BACK_LEFT);

		return {
			scale, width: dots, from, to,
			left: margin + (half * BACK_LEFT - from) * scale,
			base: margin + (high + half * BACK_UP) * scale,
			height: Math.ceil(2 * margin + (high - low + 2 * half * BACK_UP) * scale)
		};
	}

	// The columns of one row behind the dots of the picture's width.
	function columns(f, model, yMm, at) {
		for (let d = 0; d < f.width; d++) {
			const x = (d + 0.5 - f.left) / f.scale + yMm * BACK_LEFT;
			at[d] = x < f.from || x > f.to ? -1 : model.at(x, yMm).ix;
		}
	}

	// Rise per mm at a column toward its neighbours `step` on and back.
	function rise(z, c, step, cell) {
		const a = z[c - step], b = z[c + step];
		const low = a === a ? a : z[c], high = b === b ? b : z[c];
		const run = (a === a ? 1 : 0) + (b === b ? 1 : 0);

		return run > 0 ? (high - low) / (run * cell) : 0;
	}

	// Heights, with NaN for what is cut through.
	function woodOf(model, standing, bottom) {
		const z = new Float32Array(standing.length);

		for (let c = 0; c < z.length; c++)
			z[c] = standing[c] - bottom[c % model.nx] > 0.1 ? standing[c] : NaN;
		return z;
	}

	// Top and front colour of one column.
	function colours(model, z, cut, c, paint, tint, nearWood, endWood) {
		const u = rise(z, c, 1, model.cell_mm), v = rise(z, c, model.nx, model.cell_mm);
		const size = Math.sqrt(1 + u * u + v * v);

		paint(cut ? cut[c] : 0, tint, 0);
		const top = dot(tint, shade(-u / size, -v / size, 1 / size));
		if ((nearWood && endWood) || -v / size < ROUND)
			return { top, front: top };
		paint(0, tint, 0);
		return { top, front: nearWood ? dot(tint, shade(-1, 0, 0)) : dot(tint, shade(0, -1, 0)) };
	}

	function drawRow(image, f, model, wood, iy) {
		const { z, cut, bottom, paint, tint, at, nearer } = wood;
		const y = model.y(iy);

		columns(f, model, y, at);
		columns(f, model, model.y(iy - 1), nearer);
		for (let d = 0; d < f.width; d++) {
			const c = iy * model.nx + at[d];
			if (at[d] < 0 || !(z[c] === z[c]))
				continue;
			const near = (iy - 1) * model.nx + nearer[d];
			const nearWood = iy > 0 && nearer[d] >= 0 && z[near] === z[near];
			const left = d > 0 ? iy * model.nx + at[d - 1] : -1;
			const endWood = d > 0 && at[d - 1] >= 0 && z[left] === z[left];
			const { top, front } = colours(model, z, cut, c, paint, tint, nearWood, endWood);
			const brink = Math.round(f.base - (z[c] + y * BACK_UP) * f.scale);
			const foot = Math.round(f.base - (bottom[at[d]] + y * BACK_UP) * f.scale);
			for (let r = Math.max(brink, 0); r < Math.min(foot, f.height); r++) {
				image.dots[r * f.width + d] = r === brink ? top : front;
				image.row[r * f.width + d] = iy;
			}
		}
	}

	// Ink where wood ends, and where a farther part shows behind a nearer one.
	function outline(image, f, ink) {
		const { row, dots } = image;

		for (let r = 1; r + 1 < f.height; r++)
			for (let d = 1; d + 1 < f.width; d++) {
				const c = r * f.width + d, here = row[c];
				if (here === NONE)
					continue;
				const other = [row[c - 1], row[c + 1], row[c - f.width], row[c + f.width]];
				if (other.some((v) => v === NONE || v - here > BRINK_ROWS))
					dots[c] = ink;
			}
	}

	function picture(model, pass, f) {
		const colour = model.drawing.colours, look = neckhew.turnLook;
		const data = new ImageData(f.width, f.height);
		const image = { dots: new Uint32Array(data.data.buffer),
			row: new Int16Array(f.width * f.height).fill(NONE) };
		const line = neckhew.turnLayout.lineOf(model.drawing.along, 'blank_bottom_mm');
		const bottom = Float32Array.from({ length: model.nx },
			(v, ix) => neckhew.turnLayout.valueAt(line, model.x(ix)));
		const wood = {
			z: woodOf(model, model.standing(pass), bottom), bottom,
			cut: pass < 0 ? null : model.cut(pass),
			paint: look.painter(model), tint: [0, 0, 0],
			at: new Int32Array(f.width), nearer: new Int32Array(f.width)
		};

		image.dots.fill(dot(look.parts(colour.paper), 1));
		for (let iy = model.ny - 1; iy >= 0; iy--)
			drawRow(image, f, model, wood, iy);
		outline(image, f, dot(look.parts(colour.soft_ink), 1));
		return data;
	}

	// host: an empty element; why: a sentence that says why there is no turning.
	// -> { show(passIndex), free() }
	function make(host, model, why) {
		const { element } = neckhew.turnLook;
		const canvas = element('canvas', 'turn-canvas');
		const plan = neckhew.turnLayout.make(model.drawing.planes, model.drawing.along, model.blank);
		let pass = -1, asked = 0;

		function draw() {
			asked = 0;
			if (host.clientWidth === 0)
				return;
			const ratio = Math.min(window.devicePixelRatio || 1, RATIO_MOST);
			const f = frame(model, plan, Math.round(host.clientWidth * ratio), MARGIN_PX * ratio);
			canvas.width = f.width;
			canvas.height = f.height;
			canvas.getContext('2d').putImageData(picture(model, pass, f), 0, 0);
			canvas.dataset.drawn = pass + 1;
		}
		function ask() {
			asked = asked || requestAnimationFrame(draw);
		}
		const watch = new ResizeObserver(ask);

		canvas.setAttribute('role', 'img');
		host.append(canvas, element('p', 'note', why + ' So the stock cannot be turned about here; ' +
			'this plain picture follows the chosen pass, seen from the ' +
			model.drawing.neck.minus_side + ' side, above and the peghead end. ' +
			'Its colours are those of the pass map.'));
		watch.observe(host);
		return {
			show: function (index) {
				pass = index;
				canvas.setAttribute('aria-label', neckhew.turnLook.stock(model, pass) +
					', in a slanting view from above.');
				ask();
			},
			free: function () {
				watch.disconnect();
				cancelAnimationFrame(asked);
				host.replaceChildren();
			}
		};
	}

	neckhew.turnPlain = { make };
})(window.neckhew = window.neckhew || {});
