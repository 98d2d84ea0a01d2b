// SPDX-License-Identifier: GPL-3.0-or-later
// All tests, or those in the files that are named, in one process, so that they
// share browsers. Each has a window of its own; two go on at a time, since a test
// often waits for its page.
'use strict';

const fs = require('fs');
const path = require('path');
const { after, describe } = require('node:test');
const { closeBrowsers } = require('./browser');

const named = process.argv.slice(2);
const files = named.length > 0 ? named : fs.readdirSync(__dirname).sort();
const tests = files.map((file) => path.basename(file)).filter((file) => /^test_.*\.js$/.test(file));

if (tests.length === 0) {
	throw new Error(`no test_*.js among ${named.join(', ')}`);
}
describe('the page', { concurrency: 2 }, () => {
	for (const file of tests) {
		require(path.join(__dirname, file));
	}
	after(closeBrowsers);
});
