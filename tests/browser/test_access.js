// SPDX-License-Identifier: GPL-3.0-or-later
// Nothing that axe-core knows to find, on a desk and on a telephone, at the
// beginning and in use; no rule is switched off.
'use strict';

const assert = require('assert');
const test = require('node:test');
const { violations } = require('./axe');
const { DESK, PHONE, use } = require('./browser');
const { choosePass, pointAt } = require('./map');
const { page } = require('./pages');

for (const name of ['small-body', 'steel-string']) {
	for (const viewport of [DESK, PHONE]) {
		test(`${name}: axe finds nothing at ${viewport.width} px`, async () => {
			const { address, passes } = page(name);
			await use(address, { viewport }, async (tab) => {
				assert.deepStrictEqual(await violations(tab), [], 'at the beginning');
				for (const fold of await tab.locator('details').all()) {
					await fold.evaluate((details) => (details.open = true));
				}
				await choosePass(tab, passes.length);
				await pointAt(tab, 100, 0);
				await tab.locator('#checklist input').first().check();
				assert.deepStrictEqual(await violations(tab), [], 'in use');
			});
		});
	}
}

test('axe finds nothing without WebGL', async () => {
	await use(page('small-body').address, { webgl: false }, async (tab) => {
		assert.deepStrictEqual(await violations(tab), []);
	});
});

// What axe cannot judge: canvases have words, and the words tell something.
test('every drawing has a name that says what it shows', async () => {
	const { address, job } = page('small-body');
	await use(address, {}, async (tab) => {
		const names = await tab.$$eval('canvas', (drawings) =>
			drawings
				.filter((drawing) => drawing.checkVisibility())
				.filter((drawing) => !drawing.closest('[aria-hidden=true]'))
				.map((drawing) => [
					drawing.getAttribute('role'),
					drawing.getAttribute('aria-label') || '',
				])
		);
		assert.ok(names.length >= 5 + job.stations.length, `${names.length} drawings`);
		for (const [role, name] of names) {
			assert.ok(['img', 'application'].includes(role), `${role}: ${name}`);
			assert.ok(name.length > 8, `"${name}"`);
		}
		assert.strictEqual(new Set(names.map(String)).size, names.length, 'no two alike');
	});
});
