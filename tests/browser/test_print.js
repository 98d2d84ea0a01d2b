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
const {
	linesOf,
	pageCount,
	pageMarginMm,
	pagePicture,
	printed,
	textOf,
	wordBoxes,
	wordsOverEdge,
} = require('./paper');
const { countColour, parseColour, readPng, shareChanged } = require('./png');

// What every program carries, out of the program's own source.
const checklist = [
	...fs
		.readFileSync(path.join(__dirname, '../../post/program/checklist.c'), 'utf8')
		.matchAll(/^\t\t"(.*)",$/gm),
].map((match) => match[1]);

const NAMES = ['small-body', 'steel-string'];
const PAPERS = { A4: 595.28, Letter: 612 }; // points wide

// What both papers of a page hold, printed in the middle of its passes.
const sheets = new Map();

function sheetsOf(name) {
	if (!sheets.has(name)) {
		sheets.set(name, printSheets(name));
	}
	return sheets.get(name);
}

async function printSheets(name) {
	const { address, passes } = page(name);
	const made = {};
	await use(address, {}, async (tab) => {
		await choosePass(tab, passes.length - 15);
		made.marginMm = await tab.evaluate(pageMarginMm);
		for (const paper of Object.keys(PAPERS)) {
			made[paper] = await printed(tab, paper);
		}
	});
	return made;
}

function assertSheets(pdf, { job, passes }) {
	assert.strictEqual(pageCount(pdf), 2);
	const text = textOf(pdf);
	const promises = Object.keys(job.proof.promises).length;
	assert.ok(text.includes(`proven: ${promises} of ${promises}`), 'the verdict');
	assert.ok(text.includes(job.inputs.neck), 'the name of the neck');
	assert.ok(text.includes(job.inputs.digest.slice(0, 12)), 'the digest of the inputs');
	assert.ok(checklist.length >= 10);
	for (const line of checklist) {
		assert.ok(text.includes(line), line);
	}
	const lines = linesOf(pdf);
	passes.forEach((pass, i) => {
		const row = new RegExp(`(^|\\s)${i + 1}\\s+${pass.kind}\\s`);
		assert.ok(lines.some((line) => row.test(line)), `row of pass ${i + 1}`);
	});
}

for (const name of NAMES) {
	for (const [paper, wide] of Object.entries(PAPERS)) {
		test(`${name} on ${paper}: two pages with verdict, passes and checklist`, async () => {
			assertSheets((await sheetsOf(name))[paper], page(name));
		});

		// docs/look.md: nothing is smaller than 7 pt at print size. The box of a word
		// is a tenth or so taller than the size of its letters.
		test(`${name} on ${paper}: no letters under 7 points`, async () => {
			const boxes = wordBoxes((await sheetsOf(name))[paper]);
			assert.ok(boxes.length > 500, `${boxes.length} words`);
			const small = boxes.filter(({ points }) => points < 7);
			assert.deepStrictEqual(small.slice(0, 5), []);
		});

		// Words that a drawing has no room for would be cut off at its edge, and reach
		// into the margin here.
		test(`${name} on ${paper}: no words run over the edge of what is printed`, async () => {
			const { [paper]: pdf, marginMm } = await sheetsOf(name);
			assert.deepStrictEqual(wordsOverEdge(pdf, wide, marginMm), []);
		});
	}
}

test('print: from a telephone it is the same two pages', async () => {
	const data = page('steel-string');
	await use(data.address, { viewport: PHONE }, async (tab) => {
		assertSheets(await printed(tab, 'A4'), data);
	});
});

test('print: the colours of the maps are on both pages', async () => {
	const ramp = page('steel-string').drawing.ramp.map(parseColour);
	const { A4: pdf } = await sheetsOf('steel-string');
	for (const number of [1, 2]) {
		const picture = pagePicture(pdf, number);
		const dots = ramp.reduce((sum, colour) => sum + countColour(picture, colour, 2), 0);
		const share = dots / (picture.width * picture.height);
		assert.ok(share > 0.01, `page ${number}: ${share} of it`);
	}
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
		const shot = async () => {
			const url = await tab.$eval('#map', (canvas) => canvas.toDataURL());
			return readPng(Buffer.from(url.split(',')[1], 'base64'));
		};
		const before = await shot();
		await printed(tab, 'A4');
		await tab.waitForTimeout(200);
		// thin lines may fall a part of a pixel beside where they were
		const changed = shareChanged(before, await shot());
		assert.ok(changed < 0.01, `the map is drawn for the screen again: ${changed} changed`);
	});
});
