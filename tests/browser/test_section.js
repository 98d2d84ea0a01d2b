// SPDX-License-Identifier: GPL-3.0-or-later
// The section at the mark and the side view: drawn, at the pointed place, after
// the chosen pass, with every line that the page promises.
'use strict';

const assert = require('assert');
const test = require('node:test');
const { use } = require('./browser');
const { choosePass, drawn, pointAt } = require('./map');
const { page } = require('./pages');
const { countColour, countColours, parseColour, readPng } = require('./png');

const TALL = { viewport: { width: 1280, height: 1600 } };

async function pictureOf(tab, selector) {
	await drawn(tab);
	return readPng(await tab.locator(selector).screenshot());
}

const pixelsOf = (tab, selector) => tab.$eval(selector, (canvas) => canvas.toDataURL());

test('section: it has wood, finished line, roughed line, blank and ruling', async () => {
	const { address, job, drawing, passes } = page('steel-string');
	await use(address, TALL, async (tab) => {
		await choosePass(tab, passes.length);
		await pointAt(tab, job.stations[1].x_mm, 0);
		const picture = await pictureOf(tab, '#section');
		assert.ok(countColours(picture) > 20);
		for (const [colour, least] of [
			['ink', 60],
			['brown', 40],
			['soft_ink', 60],
			['light_wood', 60],
			['paper', 500],
		]) {
			const count = countColour(picture, parseColour(drawing.colours[colour]), 40);
			assert.ok(count >= least, `${colour}: ${count} pixels`);
		}
	});
});

test('section: it follows the mark and the pass', async () => {
	const { address, job, passes } = page('steel-string');
	await use(address, TALL, async (tab) => {
		await choosePass(tab, passes.length);
		await pointAt(tab, job.stations[0].x_mm, 0);
		const nut = await pixelsOf(tab, '#section');
		const said = await tab.locator('#section').getAttribute('aria-label');
		await pointAt(tab, job.stations[1].x_mm, 0);
		const far = await pixelsOf(tab, '#section');
		assert.notStrictEqual(far, nut, 'another place');
		assert.notStrictEqual(await tab.locator('#section').getAttribute('aria-label'), said);
		await choosePass(tab, passes.length - 14);
		await drawn(tab);
		assert.notStrictEqual(await pixelsOf(tab, '#section'), far, 'another pass');
	});
});

test('section: a small one stands for each station', async () => {
	const { address, job } = page('small-body');
	await use(address, TALL, async (tab) => {
		const drawings = tab.locator('#stations canvas, #stations svg');
		assert.strictEqual(await drawings.count(), job.stations.length);
		for (let i = 0; i < job.stations.length; i++) {
			const picture = readPng(await drawings.nth(i).screenshot());
			assert.ok(countColours(picture) > 10, job.stations[i].name);
		}
		const words = await tab.locator('#stations').innerText();
		for (const station of job.stations) {
			assert.ok(words.includes(station.name), `${station.name} in ${words}`);
		}
	});
});

test('side view: drawn, follows the pass, straight edge on centre and both edges', async () => {
	const { address, passes, drawing } = page('steel-string');
	await use(address, TALL, async (tab) => {
		await choosePass(tab, passes.length);
		const picture = await pictureOf(tab, '#side');
		for (const colour of ['ink', 'brown', 'soft_ink']) {
			const count = countColour(picture, parseColour(drawing.colours[colour]), 40);
			assert.ok(count > 60, `${colour}: ${count} pixels`);
		}
		const seen = new Set();
		const words = new Set();
		for (const choice of await tab.locator('#side-choice input').all()) {
			await choice.check();
			await drawn(tab);
			seen.add(await pixelsOf(tab, '#side'));
			words.add(await tab.locator('#side').getAttribute('aria-label'));
		}
		// an even neck looks alike along both edges, also as roughed
		assert.ok(seen.size >= 2, 'centre line and edges are different pictures');
		assert.strictEqual(words.size, 3, 'three names');
		const light = await tab.$$eval('#side-light tbody tr', (rows) =>
			rows.map((row) => [...row.cells].map((cell) => cell.textContent))
		);
		assert.strictEqual(light.length, 3, 'a row for each line');
		for (const [name, most] of light) {
			// Roughing keeps the line within what stays for the hand to level.
			assert.match(most, /^\d+\.\d\d$/, name);
			assert.ok(Number(most) < 0.5, `${name}: ${most} mm of light after the last pass`);
		}
		await choosePass(tab, passes.length - 14);
		await drawn(tab);
		assert.ok(!seen.has(await pixelsOf(tab, '#side')), 'another pass is another picture');
	});
});

test('stock map: in the colours of the ramp, with contour lines', async () => {
	const { address, drawing } = page('steel-string');
	await use(address, TALL, async (tab) => {
		const picture = await pictureOf(tab, '#stock-map');
		const inRamp = drawing.ramp
			.map(parseColour)
			.reduce((sum, colour) => sum + countColour(picture, colour, 2), 0);
		const share = inRamp / (picture.width * picture.height);
		assert.ok(share > 0.1, `${(share * 100).toFixed(1)} % of it in the colours of the ramp`);
		const ink = countColour(picture, parseColour(drawing.colours.ink), 60);
		assert.ok(ink > 100, `${ink} pixels of ink`);
	});
});
