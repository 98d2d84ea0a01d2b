// SPDX-License-Identifier: GPL-3.0-or-later
// On paper: two pages of A4 or Letter, with the verdict, the tables and a
// checklist that can be ticked by hand.
'use strict';

const assert = require('assert');
const fs = require('fs');
const path = require('path');
const test = require('node:test');
const { PHONE, use } = require('./browser');
const { choosePass } = require('./map');
const { page } = require('./pages');
const { pageCount, pagePicture, printed, textOf, wordBoxes, words } = require('./paper');
const { countColour, parseColour } = require('./png');

// What every program carries, out of the program's own source.
const checklist = [
	...fs
		.readFileSync(path.join(__dirname, '../../post/program/checklist.c'), 'utf8')
		.matchAll(/^\t\t"(.*)",$/gm),
].map((match) => match[1]);

const PAPERS = [
	['small-body', 'A4', undefined],
	['small-body', 'Letter', undefined],
	['steel-string', 'A4', undefined],
	['steel-string', 'Letter', undefined],
	['steel-string', 'A4', PHONE],
];

for (const [name, paper, viewport] of PAPERS) {
	const from = viewport ? ' from a telephone' : '';
	test(`${name} on ${paper}${from}: two pages with verdict and checklist`, async () => {
		const { address, job, passes } = page(name);
		assert.ok(checklist.length >= 10);
		await use(address, { viewport }, async (tab) => {
			await choosePass(tab, Math.floor(passes.length / 2));
			const pdf = await printed(tab, paper);
			assert.strictEqual(pageCount(pdf), 2);
			const text = textOf(pdf);
			assert.ok(text.includes(words(await tab.locator('#verdict').textContent())));
			assert.ok(text.includes(job.inputs.neck));
			assert.ok(text.includes(job.inputs.digest.slice(0, 12)), 'digest of the inputs');
			for (const line of checklist) {
				assert.ok(text.includes(line), line);
			}
		});
	});
}

test('print: the pass table is there to its last row', async () => {
	const { address, passes } = page('steel-string');
	await use(address, {}, async (tab) => {
		const text = textOf(await printed(tab, 'A4'));
		passes.forEach((pass, i) => {
			const row = new RegExp(`\\b${i + 1} ${pass.kind} `);
			assert.match(text, row, `pass ${i + 1}`);
		});
	});
});

// docs/look.md: nothing is smaller than 7 pt at print size. The box of a word is
// a tenth or so taller than the size of its letters.
test('print: no letters under 7 points', async () => {
	await use(page('steel-string').address, {}, async (tab) => {
		for (const paper of ['A4', 'Letter']) {
			const heights = wordBoxes(await printed(tab, paper));
			assert.ok(heights.length > 500, `${heights.length} words`);
			const small = heights.filter(({ points }) => points < 7);
			assert.deepStrictEqual(small.slice(0, 5), [], paper);
		}
	});
});

// Words that a drawing has no room for would be cut off at its edge, and reach
// into the margin here.
test('print: no words run over the edge of what is printed', async () => {
	const POINTS_WIDE = { A4: 595.28, Letter: 612 };
	await use(page('steel-string').address, {}, async (tab) => {
		for (const [paper, wide] of Object.entries(POINTS_WIDE)) {
			const boxes = wordBoxes(await printed(tab, paper));
			const margin = await tab.evaluate(pageMarginMm);
			const edge = wide - (margin / 25.4) * 72 + 1; // a point for a letter's own air
			const over = boxes.filter(({ right }) => right > edge);
			assert.deepStrictEqual(over.map(({ word }) => word), [], paper);
		}
	});
});

function pageMarginMm() {
	const rules = [...document.styleSheets].flatMap((sheet) => [...sheet.cssRules]);
	const margin = rules.find((rule) => rule instanceof CSSPageRule).style.marginRight;
	return margin.endsWith('mm') ? parseFloat(margin) : NaN;
}

test('print: map, section, side view and stock map are on the paper', async () => {
	const { address, passes, drawing } = page('steel-string');
	const ramp = drawing.ramp.map(parseColour);
	await use(address, {}, async (tab) => {
		await choosePass(tab, passes.length - 15);
		const pdf = await printed(tab, 'A4');
		const inked = [1, 2].map((number) => {
			const picture = pagePicture(pdf, number);
			const wood = ramp.reduce((sum, colour) => sum + countColour(picture, colour, 2), 0);
			return wood / (picture.width * picture.height);
		});
		for (const share of inked) {
			assert.ok(share > 0.01, `share of each page in the colours of a map: ${inked}`);
		}
	});
});

test('print: each line of the checklist has a box, and a ticked one prints ticked', async () => {
	await use(page('small-body').address, {}, async (tab) => {
		await tab.emulateMedia({ media: 'print' });
		const boxes = await tab.$$eval('#checklist input', (inputs) =>
			inputs.map((input) => input.getBoundingClientRect()).map((box) => [box.width, box.height])
		);
		assert.strictEqual(boxes.length, checklist.length);
		assert.ok(boxes.every(([width, height]) => width >= 9 && height >= 9), `${boxes}`);
		await tab.emulateMedia({ media: null });
		const empty = pagePicture(await printed(tab, 'A4'), 2);
		await tab.locator('#checklist input').first().check();
		const ticked = pagePicture(await printed(tab, 'A4'), 2);
		let changed = 0;
		for (let at = 0; at < empty.pixels.length; at++) {
			changed += Math.abs(empty.pixels[at] - ticked.pixels[at]) > 60;
		}
		assert.ok(changed > 10, `${changed} dots of the paper changed`);
	});
});

test('print: the page on the screen is as before', async () => {
	const { address } = page('small-body');
	await use(address, {}, async (tab) => {
		await choosePass(tab, 30);
		await tab.waitForTimeout(100);
		const shot = () => tab.$eval('#map', (canvas) => canvas.toDataURL());
		const before = await shot();
		await printed(tab, 'A4');
		await tab.waitForTimeout(200);
		assert.ok((await shot()) === before, 'the map is drawn for the screen again');
	});
});
