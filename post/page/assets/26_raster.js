// SPDX-License-Identifier: GPL-3.0-or-later
// A map of columns as dots of colour. Where several columns share a dot the
// telling one is shown: the deepest cut, the least stock.
(function (neckhew) {
	'use strict';

	// '#rrggbb' as the number an image holds (red in the lowest byte).
	function dot(hex) {
		const v = parseInt(hex.slice(1), 16);
		return (0xff000000 | (v & 0xff) << 16 | v & 0xff00 | v >>> 16) >>> 0;
	}

	// The columns first..last behind each of `dots` dots from `from` mm on.
	function share(from, span, dots, origin, cell, count) {
		const first = new Int32Array(dots), last = new Int32Array(dots);
		for (let d = 0; d < dots; d++) {
			const a = (from + d / dots * span - origin) / cell + 0.5;
			const b = (from + (d + 1) / dots * span - origin) / cell + 0.5;
			first[d] = Math.min(Math.max(Math.floor(a), 0), count - 1);
			last[d] = Math.min(Math.max(Math.ceil(b) - 1, first[d]), count - 1);
		}
		return { first, last };
	}

	function telling(model, plane, xs, ys, dx, dy, most) {
		let found = NaN;
		for (let iy = ys.first[dy]; iy <= ys.last[dy]; iy++)
			for (let ix = xs.first[dx]; ix <= xs.last[dx]; ix++) {
				const v = plane[iy * model.nx + ix];
				if (!(v === v))
					continue;
				if (!(found === found) || (most ? v > found : v < found))
					found = v;
			}
		return found;
	}

	// An off-screen canvas of one row. look: { full, most, ramp, zero, paper }
	// where `zero`, if given, is the colour of a column left alone.
	function row(model, plane, plan, r, ratio, look) {
		const w = Math.max(1, Math.round(r.width * ratio));
		const h = Math.max(1, Math.round(r.height * ratio));
		const canvas = document.createElement('canvas');
		canvas.width = w;
		canvas.height = h;
		const image = new ImageData(w, h);
		const dots = new Uint32Array(image.data.buffer);
		const ramp = look.ramp.map(dot), paper = dot(look.paper);
		const zero = look.zero ? dot(look.zero) : ramp[0];
		const xs = share(r.x0, r.x1 - r.x0, w, model.x0_mm, model.cell_mm, model.nx);
		const ys = share(plan.part.y0, plan.part.y1 - plan.part.y0, h, model.y0_mm,
			model.cell_mm, model.ny);
		for (let dy = 0; dy < h; dy++)
			for (let dx = 0; dx < w; dx++) {
				const v = telling(model, plane, xs, ys, dx, h - 1 - dy, look.most);
				const step = Math.floor(v / look.full * ramp.length);
				dots[dy * w + dx] = !(v === v) ? paper : v <= 0 ? zero
					: ramp[Math.min(Math.max(step, 0), ramp.length - 1)];
			}
		canvas.getContext('2d').putImageData(image, 0, 0);
		return canvas;
	}

	neckhew.raster = { row };
})(window.neckhew = window.neckhew || {});
