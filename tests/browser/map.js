// SPDX-License-Identifier: GPL-3.0-or-later
// Handling the pass map as a builder does: choose a pass, point at a place,
// read what it says there.
'use strict';

const FIGURES = ['x', 'y', 'cut', 'standing', 'over', 'stock'];

// The page's figures in mm; NaN where it shows "-".
async function reading(page) {
	const texts = await page.$$eval('#reading [data-figure]', (elements) =>
		elements.map((element) => [element.dataset.figure, element.textContent.trim()])
	);
	const figures = {};
	for (const [name, text] of texts) {
		if (!FIGURES.includes(name) || !/^(-|[-\u2212]?\d+\.\d\d)$/.test(text)) {
			throw new Error(`the reading shows "${text}" for ${name}`);
		}
		figures[name] = Number(text.replace('\u2212', '-'));
	}
	return figures;
}

async function choosePass(page, number) {
	await page.locator('#pass-range').fill(String(number));
	await page.waitForSelector(`body[data-pass="${number}"]`, { state: 'attached' });
}

// Client pixels of a place on the map, brought into the window.
function placeOf(page, xMm, yMm) {
	return page.evaluate(
		([x, y]) => {
			const within = (place, room) => place > 20 && place < room - 20;
			let place = window.neckhew.map.pointAt(x, y);
			if (!within(place.y, window.innerHeight)) {
				window.scrollBy({ top: place.y - window.innerHeight / 2, behavior: 'instant' });
				place = window.neckhew.map.pointAt(x, y);
			}
			return place;
		},
		[xMm, yMm]
	);
}

// Moves the mouse there and waits for the page to have drawn what follows.
async function pointAt(page, xMm, yMm) {
	const place = await placeOf(page, xMm, yMm);
	await page.mouse.move(place.x, place.y);
	await drawn(page);
}

async function drawn(page) {
	await page.evaluate(
		() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))
	);
}

module.exports = { FIGURES, choosePass, drawn, placeOf, pointAt, reading };
