// SPDX-License-Identifier: GPL-3.0-or-later
// The wood column by column: what stands after each pass, what each pass takes,
// what is finished, what is left. Everything drawn and read on the page comes
// from here. Passes count from 0 as in the planes; standing(-1) is the blank.
(function (neckhew) {
	'use strict';

	const NOTHING = neckhew.unpack.NOTHING;
	const KEPT = 4; // millimetre planes remembered: neighbours in a play

	function read(id) {
		return JSON.parse(document.getElementById(id).textContent);
	}

	function inMm(counts, unitMm) {
		const out = new Float32Array(counts.length);
		for (let i = 0; i < counts.length; i++)
			out[i] = counts[i] === NOTHING ? NaN : counts[i] * unitMm;
		return out;
	}

	// Remembers the last few answers of a function of a pass.
	function remembering(make) {
		const kept = new Map();
		return function (pass) {
			if (!kept.has(pass)) {
				kept.set(pass, make(pass));
				if (kept.size > KEPT)
					kept.delete(kept.keys().next().value);
			}
			return kept.get(pass);
		};
	}

	// Passes of all programs in one row, as the planes have them.
	function passList(figures) {
		const list = [];
		for (const program of figures.programs)
			for (const pass of program.passes)
				list.push({ file: program.file, figures: pass });
		return list;
	}

	function deepest(cuts) {
		let most = 0;
		for (const cut of cuts)
			for (let i = 0; i < cut.length; i++)
				if (cut[i] > most)
					most = cut[i];
		return most;
	}

	// A model of the figures and unpacked planes.
	function make(figures, drawing, planes) {
		const grid = drawing.planes;
		const blank = planes[0];
		const cuts = planes.slice(2, 2 + grid.pass_count);

		function standingCounts(pass) {
			const out = Int32Array.from(blank);
			for (let p = 0; p <= pass; p++) {
				const cut = cuts[p];
				for (let i = 0; i < out.length; i++)
					out[i] -= cut[i] === NOTHING ? 0 : cut[i];
			}
			for (let i = 0; i < out.length; i++)
				if (blank[i] === NOTHING)
					out[i] = NOTHING;
			return out;
		}

		function within(value, count) {
			return Math.min(Math.max(Math.round(value), 0), count - 1);
		}

		const model = {
			figures, drawing,
			nx: grid.nx, ny: grid.ny, cell_mm: grid.cell_mm,
			x0_mm: grid.x0_mm, y0_mm: grid.y0_mm,
			passCount: grid.pass_count,
			passes: passList(figures),
			finished: inMm(planes[1], grid.unit_mm),
			stock: inMm(planes[planes.length - 1], grid.unit_mm),
			cut: remembering((pass) => inMm(cuts[pass], grid.unit_mm)),
			standing: remembering((pass) => inMm(standingCounts(pass), grid.unit_mm)),
			deepest_mm: deepest(cuts) * grid.unit_mm,
			x: (ix) => grid.x0_mm + ix * grid.cell_mm,
			y: (iy) => grid.y0_mm + iy * grid.cell_mm,
			at: (xMm, yMm) => ({
				ix: within((xMm - grid.x0_mm) / grid.cell_mm, grid.nx),
				iy: within((yMm - grid.y0_mm) / grid.cell_mm, grid.ny)
			})
		};
		model.blank = model.standing(-1);
		model.roughed = model.standing(grid.pass_count - 1);
		model.planes = { blank: model.blank, finished: model.finished,
			stock: model.stock, roughed: model.roughed };
		return model;
	}

	async function load() {
		const figures = read('figures');
		const drawing = read('drawing');
		const grid = drawing.planes;
		const text = document.getElementById('planes').textContent;
		const planes = await neckhew.unpack.unpack(text, grid.nx, grid.ny,
			grid.pass_count + 3);
		return make(figures, drawing, planes);
	}

	neckhew.model = { load };
})(window.neckhew = window.neckhew || {});
