// SPDX-License-Identifier: GPL-3.0-or-later
// What the pass map shows: the deeper the cut the darker, untouched wood pale,
// and another picture for every pass.
'use strict';

const assert = require('assert');
const test = require('node:test');
const { use } = require('./browser');
const { choosePass, drawn, placeOf } = require('./map');
const { page } = require('./pages');
const { colourAt, parseColour, readPng, shareChanged } = require('./png');

function lightness([r, g, b]) {
	return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

// Columns whose cut is nearly that of all columns two around, so that a pixel's
// edge does not matter: a few for each depth.
function evenColumns(data, cut, reach) {
	const { nx, ny } = data.drawing.planes;
	const found = new Map();
	for (let iy = reach; iy < ny - reach; iy += 2) {
		for (let ix = reach; ix < nx - reach; ix += 2) {
			const depth = cut[iy * nx + ix];
			if (isEven(cut, nx, ix, iy, reach)) {
				const key = Math.round(depth * 4);
				const same = found.get(key) || [];
				found.set(key, same);
				if (same.length < 4) {
					same.push({ ix, iy, depth });
				}
			}
		}
	}
	return [...found.values()].flat();
}

function isEven(cut, nx, ix, iy, reach) {
	const depth = cut[iy * nx + ix];
	for (let dy = -reach; dy <= reach; dy++) {
		for (let dx = -reach; dx <= reach; dx++) {
			if (!(Math.abs(cut[(iy + dy) * nx + ix + dx] - depth) < 0.12)) {
				return false;
			}
		}
	}
	return true;
}

// The mark and the names of places are drawn over the map; a column under one of
// them tells nothing, so columns near y = 0 and near a station are left out.
function undisturbed(data, column) {
	const { x0_mm: x0, y0_mm: y0, cell_mm: cell } = data.drawing.planes;
	const x = x0 + column.ix * cell;
	const y = y0 + column.iy * cell;
	return Math.abs(y) > 3 && data.drawing.stations.every((s) => Math.abs(s.x_mm - x) > 4);
}

async function coloursOf(tab, data, columns) {
	const { x0_mm: x0, y0_mm: y0, cell_mm: cell } = data.drawing.planes;
	await tab.mouse.move(0, 0);
	await placeOf(tab, 0, 0);
	await drawn(tab);
	const picture = readPng(await tab.screenshot());
	const colours = [];
	for (const column of columns) {
		const place = await tab.evaluate(
			([x, y]) => window.neckhew.map.pointAt(x, y),
			[x0 + column.ix * cell, y0 + column.iy * cell]
		);
		colours.push(colourAt(picture, place.x, place.y));
	}
	return colours;
}

// The pass with the most different depths (in steps of 0.25 mm) to be seen.
function mostVaried(data) {
	let best = { depths: 0 };
	data.planes.cut.forEach((cut, i) => {
		const columns = evenColumns(data, cut, 2).filter(
			(column) => column.depth > 0.05 && undisturbed(data, column)
		);
		const depths = new Set(columns.map((column) => Math.round(column.depth * 4))).size;
		if (depths > best.depths) {
			best = { number: i + 1, columns, depths };
		}
	});
	return best;
}

test('map: the deeper the cut, the darker', async () => {
	const data = page('small-body');
	await use(data.address, { viewport: { width: 1280, height: 1400 } }, async (tab) => {
		const { number, columns, depths } = mostVaried(data);
		assert.ok(depths >= 6, `depths to compare: ${depths}`);
		await choosePass(tab, number);
		const colours = await coloursOf(tab, data, columns);
		// A tenth of the points may lie under a contour, a dimension or a letter.
		let wrong = 0;
		let pairs = 0;
		columns.forEach((one, i) =>
			columns.forEach((other, k) => {
				if (one.depth > other.depth + 0.3) {
					pairs++;
					wrong += lightness(colours[i]) >= lightness(colours[k]);
				}
			})
		);
		assert.ok(pairs > 50, `${pairs} pairs`);
		assert.ok(wrong <= pairs / 10, `${wrong} of ${pairs} pairs in the wrong order`);
	});
});

test('map: what the pass leaves alone is pale wood, where nothing is is paper', async () => {
	const data = page('steel-string');
	await use(data.address, { viewport: { width: 1280, height: 1400 } }, async (tab) => {
		const number = data.passes.length;
		const cut = data.planes.cut[number - 1];
		const columns = evenColumns(data, cut, 3)
			.filter((column) => column.depth === 0 && undisturbed(data, column))
			.filter((column) => column.ix % 3 === 0 || column.depth === 0);
		assert.ok(columns.length > 0);
		await choosePass(tab, number);
		const pale = parseColour(data.drawing.colours.pale_wood);
		for (const colour of await coloursOf(tab, data, columns)) {
			const apart = Math.max(...colour.map((part, i) => Math.abs(part - pale[i])));
			assert.ok(apart <= 3, `${colour} is not pale wood`);
		}
	});
});

test('map: every pass is another picture, and comes back the same', async () => {
	const data = page('small-body');
	await use(data.address, {}, async (tab) => {
		const pictures = [];
		await placeOf(tab, 0, 0);
		for (let number = 0; number <= data.passes.length; number++) {
			await choosePass(tab, number);
			await drawn(tab);
			pictures.push(await mapPixels(tab));
		}
		for (let number = 1; number <= data.passes.length; number++) {
			const same = samePlane(data.planes.cut[number - 1], data.planes.cut[number - 2]);
			assert.strictEqual(
				pictures[number] === pictures[number - 1],
				same,
				`pass ${number} after ${number - 1}`
			);
		}
		await choosePass(tab, 3);
		await drawn(tab);
		assert.ok((await mapPixels(tab)) === pictures[3], 'pass 3 looks as it did before');
	});
});

function mapPixels(tab) {
	return tab.$eval('#map', (canvas) => canvas.toDataURL());
}

function samePlane(one, other) {
	const untouched = (depth) => !(depth > 0);
	return one.every((depth, i) =>
		other ? depth === other[i] || Number.isNaN(depth) : untouched(depth)
	);
}

test('map: a pass that takes much changes much of what is seen', async () => {
	const data = page('steel-string');
	await use(data.address, { viewport: { width: 1280, height: 1400 } }, async (tab) => {
		const volumes = data.passes.map((pass) => pass.volume_mm3);
		const shot = async (number) => {
			await choosePass(tab, number);
			await drawn(tab);
			return readPng(await tab.locator('#map').screenshot());
		};
		const blank = await shot(0);
		const most = await shot(volumes.indexOf(Math.max(...volumes)) + 1);
		const share = shareChanged(blank, most);
		assert.ok(share > 0.1, `${share} of the map changed`);
	});
});
