// SPDX-License-Identifier: GPL-3.0-or-later
// On a telephone, 390 px wide, and on what lies between it and a desk: nothing
// runs out of the window, and everything is still there.
'use strict';

const assert = require('assert');
const test = require('node:test');
const { PHONE, use } = require('./browser');
const { choosePass } = require('./map');
const { overflow } = require('./layout');
const { page } = require('./pages');
const { countColours, readPng } = require('./png');

const LEAST_TARGET_PX = 24; // WCAG 2.2, success criterion 2.5.8

for (const name of ['small-body', 'steel-string']) {
	test(`${name}: nothing runs out of a window from 320 to 1600 px`, async () => {
		await use(page(name).address, { viewport: PHONE }, async (tab) => {
			for (const width of [390, 320, 500, 768, 1024, 1280, 1600]) {
				await tab.setViewportSize({ width, height: 844 });
				await tab.waitForTimeout(120);
				assert.strictEqual(await overflow(tab), 0, `at ${width} px`);
			}
		});
	});
}

test('phone: all parts are there, drawn, and fit the window', async () => {
	const { address, passes } = page('steel-string');
	await use(address, { viewport: PHONE }, async (tab) => {
		await choosePass(tab, Math.floor(passes.length / 2));
		const controls = ['pass-range', 'pass-name', 'play', 'reading'];
		const parts = ['verdict', ...controls, 'pass-table', 'checklist'];
		for (const id of parts) {
			assert.ok(await tab.locator(`#${id}`).isVisible(), id);
		}
		for (const drawing of ['#map', '#section', '#side', '#turn canvas', '#stock-map']) {
			const element = tab.locator(drawing).first();
			await element.scrollIntoViewIfNeeded();
			await tab.waitForTimeout(80);
			const box = await element.boundingBox();
			assert.ok(box.width > 200 && box.x >= 0 && box.x + box.width <= 390, drawing);
			const picture = readPng(await element.screenshot());
			assert.ok(countColours(picture) > 8, `${drawing} is drawn`);
		}
	});
});

test('phone: whatever is tapped is large enough for a finger', async () => {
	await use(page('steel-string').address, { viewport: PHONE }, async (tab) => {
		const small = await tab.$$eval(
			'button, select, input, summary',
			(elements, least) =>
				elements
					.map((element) => [element.closest('label') || element, element])
					.filter(([area]) => area.checkVisibility())
					.map(([area, element]) => [area.getBoundingClientRect(), element.outerHTML])
					.filter(([box]) => box.width < least || box.height < least)
					.map(([box, html]) => `${box.width} x ${box.height}: ${html.slice(0, 80)}`),
			LEAST_TARGET_PX
		);
		assert.deepStrictEqual(small, []);
	});
});

test('phone: letters are not smaller than on a desk', async () => {
	await use(page('steel-string').address, { viewport: PHONE }, async (tab) => {
		const small = await tab.$$eval('body *', (elements) =>
			elements
				.filter((element) => element.checkVisibility())
				.filter((element) =>
					[...element.childNodes].some((node) => node.nodeType === 3 && node.data.trim())
				)
				.map((element) => [parseFloat(getComputedStyle(element).fontSize), element.textContent])
				.filter(([size]) => size < 12)
				.map(([size, words]) => `${size} px: ${words.trim().slice(0, 40)}`)
		);
		assert.deepStrictEqual(small, []);
	});
});

test('turning the telephone redraws the map for the new width', async () => {
	await use(page('small-body').address, { viewport: PHONE }, async (tab) => {
		const width = () => tab.$eval('#map', (canvas) => canvas.getBoundingClientRect().width);
		const upright = await width();
		await tab.setViewportSize({ width: 844, height: 390 });
		await tab.waitForTimeout(300);
		assert.ok((await width()) > upright + 200, `${upright} px, then ${await width()} px`);
		const sharp = await tab.$eval(
			'#map',
			(canvas) => canvas.width / canvas.getBoundingClientRect().width / window.devicePixelRatio
		);
		assert.ok(sharp > 0.98, `dots of the canvas for each of the screen: ${sharp}`);
	});
});
