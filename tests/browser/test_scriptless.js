// SPDX-License-Identifier: GPL-3.0-or-later
// Where scripts are switched off, or the browser is too old for them, all that is
// words and figures is still there.
'use strict';

const assert = require('assert');
const test = require('node:test');
const { violations } = require('./axe');
const { PHONE, use, visit } = require('./browser');
const { page } = require('./pages');
const { pageCount, printed } = require('./paper');

test('without scripts: verdict, passes, checklist can be read', async () => {
	const { address, job, passes } = page('steel-string');
	await use(address, { scripts: false }, async (tab) => {
		assert.match(await tab.locator('#verdict').innerText(), /^proven: /);
		assert.ok(await tab.locator('#verdict').isVisible());
		assert.strictEqual(await tab.locator('#pass-table tbody tr[data-pass]').count(), passes.length);
		assert.ok(await tab.locator('#pass-table tr[data-pass]').last().isVisible());
		const lines = await tab.locator('#checklist li').all();
		assert.ok(lines.length >= 10);
		for (const line of lines) {
			assert.ok(await line.isVisible());
			const box = line.locator('input[type=checkbox]');
			await box.check();
			assert.ok(await box.isChecked());
		}
		const body = await tab.locator('body').innerText();
		for (const promise of Object.values(job.proof.promises)) {
			assert.ok(body.includes(promise.sentence), promise.sentence);
		}
		assert.match(body, /JavaScript/, 'it says why nothing is drawn');
	});
});

test('without scripts: nothing runs out of a telephone, and it can be printed', async () => {
	await use(page('small-body').address, { scripts: false, viewport: PHONE }, async (tab) => {
		const box = await tab.locator('#checklist').boundingBox();
		assert.ok(box.width <= PHONE.width);
		assert.ok(pageCount(await printed(tab, 'A4')) <= 3);
	});
});

test('without scripts: nothing that needs them is offered', async () => {
	await use(page('small-body').address, { scripts: false }, async (tab) => {
		for (const id of ['pass-range', 'play', 'map', 'section', 'side', 'stock-map']) {
			assert.ok(!(await tab.locator(`#${id}`).isVisible()), `${id} stands there without use`);
		}
	});
});

test('a browser that cannot unpack the maps says so, and keeps the rest', async () => {
	const { address, passes } = page('steel-string');
	const old = () => delete window.DecompressionStream;
	const faults = await visit(address, { before: old }, async (tab) => {
		const notice = tab.locator('#no-drawing');
		await notice.waitFor({ state: 'visible' });
		assert.match(await notice.innerText(), /too old/);
		assert.ok(await tab.locator('#verdict').isVisible());
		assert.strictEqual(await tab.locator('#pass-table tr[data-pass]').count(), passes.length);
		assert.ok(await tab.locator('#checklist li').first().isVisible());
		assert.ok(!(await tab.locator('#map').isVisible()), 'no empty map');
		assert.deepStrictEqual(await violations(tab), []);
	});
	assert.deepStrictEqual(faults, []);
});
