// SPDX-License-Identifier: GPL-3.0-or-later
// On a machine whose letters are wider than most browsers': still nothing is cut
// off, on the screen and on paper.
'use strict';

const assert = require('assert');
const fs = require('fs');
const test = require('node:test');
const { DESK, PHONE, use } = require('./browser');
const { letterCount, letterFaults, listen } = require('./letters');
const { page } = require('./pages');
const { pageCount, pageMarginMm, printed, wordsOverEdge } = require('./paper');

const A4_POINTS = 595.28;
const skip = fs.existsSync('/usr/share/fonts/truetype/dejavu')
	? false
	: 'there are no such letters here';

async function wordWidth(tab) {
	return tab.evaluate(() => {
		const pen = document.createElement('canvas').getContext('2d');
		pen.font = '100px sans-serif';
		return pen.measureText('stock left for the hand').width;
	});
}

test('wide letters: they are wider', { skip }, async () => {
	const { address } = page('small-body');
	const width = [];
	for (const wideLetters of [false, true]) {
		await use(address, { wideLetters }, async (tab) => width.push(await wordWidth(tab)));
	}
	assert.ok(width[1] > 1.05 * width[0], `${width[1]} against ${width[0]}`);
});

for (const name of ['small-body', 'steel-string']) {
	for (const viewport of [DESK, PHONE]) {
		const what = `wide letters: the drawings of ${name} can be read at ${viewport.width} px`;
		test(what, { skip }, async () => {
			await use(page(name).address, { viewport, wideLetters: true, before: listen }, async (tab) => {
				assert.ok((await letterCount(tab)) > 60, 'words in the drawings');
				assert.deepStrictEqual([...new Set(await letterFaults(tab))], []);
				const wide = await tab.evaluate(() => document.documentElement.scrollWidth);
				assert.ok(wide <= viewport.width, `${wide} px wide`);
			});
		});
	}

	test(`wide letters: ${name} on two sheets of paper, no words over the edge`, { skip }, async () => {
		await use(page(name).address, { wideLetters: true }, async (tab) => {
			const pdf = await printed(tab, 'A4');
			assert.strictEqual(pageCount(pdf), 2);
			const marginMm = await tab.evaluate(pageMarginMm);
			assert.deepStrictEqual(wordsOverEdge(pdf, A4_POINTS, marginMm), []);
		});
	});
}
