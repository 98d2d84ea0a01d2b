// SPDX-License-Identifier: GPL-3.0-or-later
// Everything that axe-core knows to check, asked of a page as it stands.
'use strict';

const fs = require('fs');

const source = fs.readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');

// A sentence for each violation: its rule, and the elements.
async function violations(page) {
	await page.evaluate(source);
	const result = await page.evaluate(() =>
		window.axe.run(document, { resultTypes: ['violations'] })
	);
	return result.violations.map(
		({ id, help, nodes }) =>
			`${id}: ${help}: ${nodes.map((node) => node.target.join(' ')).join(', ')}`
	);
}

module.exports = { violations };
