// SPDX-License-Identifier: GPL-3.0-or-later
// Whatever is written into a drawing can be read: nothing is cut off and no two
// texts lie over each other, wherever the mark stands.
'use strict';

const assert = require('assert');
const test = require('node:test');
const { DESK, PHONE, use } = require('./browser');
const { letterCount, letterFaults, listen } = require('./letters');
const { choosePass, drawn } = require('./map');
const { page } = require('./pages');

for (const name of ['small-body', 'steel-string']) {
	for (const viewport of [DESK, { width: 820, height: 1180 }, PHONE]) {
		test(`${name}: the words in the drawings can be read at ${viewport.width} px`, async () => {
			const { address, passes } = page(name);
			await use(address, { viewport, before: listen }, async (tab) => {
				assert.ok((await letterCount(tab)) > 60, 'words in the drawings');
				const faults = new Set();
				const look = async () => (await letterFaults(tab)).forEach((fault) => faults.add(fault));
				await look();
				for (const number of [0, 5, passes.length]) {
					await choosePass(tab, number);
					for (const key of ['Home', 'End', 'c']) {
						await tab.locator('#map').press(key);
						await drawn(tab);
						await look();
					}
				}
				assert.deepStrictEqual([...faults], []);
			});
		});
	}
}
