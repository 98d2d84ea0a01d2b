// SPDX-License-Identifier: GPL-3.0-or-later
// The page on paper: printed to PDF by the browser, read by poppler's tools.
'use strict';

const { execFileSync } = require('child_process');
const fs = require('fs');
const os = require('os');
const path = require('path');
const { readPng } = require('./png');

function printed(page, format) {
	return page.pdf({ format });
}

function tool(name, words, pdf) {
	return execFileSync(name, words, { input: pdf, encoding: 'utf8', maxBuffer: 1 << 26 });
}

function pageCount(pdf) {
	return Number(tool('pdfinfo', ['-'], pdf).match(/^Pages:\s+(\d+)$/m)[1]);
}

// Its text with single blanks, so that where lines break does not matter.
function textOf(pdf) {
	return tool('pdftotext', ['-', '-'], pdf).replace(/\s+/g, ' ').trim();
}

// Its lines as they stand on the paper, for tables.
function linesOf(pdf) {
	return tool('pdftotext', ['-layout', '-', '-'], pdf).split('\n');
}

// Where each word begins and ends across the paper, in points, and how tall its
// letters are, by the box round it. Words
// that run upward lie on their side; of short ones the box does not tell, and
// the larger figure is given.
function wordBoxes(pdf) {
	const found = tool('pdftotext', ['-bbox', '-', '-'], pdf).matchAll(
		/<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)<\/word>/g
	);
	return [...found].map(([, left, top, right, bottom, word]) => {
		const sides = [right - left, bottom - top];
		const points = word.length > 3 ? Math.min(...sides) : Math.max(...sides);
		return { word, left: Number(left), right: Number(right), points };
	});
}

// Words that reach into the right margin of a paper so many points wide.
function wordsOverEdge(pdf, wide, marginMm) {
	const edge = wide - (marginMm / 25.4) * 72 + 1; // a point for a letter's own air
	return wordBoxes(pdf)
		.filter(({ right }) => right > edge)
		.map(({ word }) => word);
}

function pageMarginMm() {
	const rules = [...document.styleSheets].flatMap((sheet) => [...sheet.cssRules]);
	const margin = rules.find((rule) => rule instanceof CSSPageRule).style.marginRight;
	return margin.endsWith('mm') ? parseFloat(margin) : NaN;
}

// One page as a picture of 100 dots per inch.
function pagePicture(pdf, number) {
	const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'neckhew-paper-'));
	try {
		const page = String(number);
		const target = path.join(folder, 'page');
		const how = ['-r', '100', '-png', '-singlefile', '-f', page, '-l', page];
		tool('pdftoppm', [...how, '-', target], pdf);
		return readPng(fs.readFileSync(`${target}.png`));
	} finally {
		fs.rmSync(folder, { recursive: true });
	}
}

module.exports = {
	linesOf,
	pageCount,
	pageMarginMm,
	pagePicture,
	printed,
	textOf,
	wordBoxes,
	wordsOverEdge,
};
