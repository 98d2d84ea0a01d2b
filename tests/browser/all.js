// SPDX-License-Identifier: GPL-3.0-or-later
// All tests in one process, so that they share browsers; or those that are named.
'use strict';

const fs = require('fs');
const path = require('path');
const { after } = require('node:test');
const { closeBrowsers } = require('./browser');

const named = process.argv.slice(2);
const files = named.length > 0 ? named : fs.readdirSync(__dirname).sort();
const tests = files.map((file) => path.basename(file)).filter((file) => /^test_.*\.js$/.test(file));

for (const file of tests) {
	require(path.join(__dirname, file));
}
after(closeBrowsers);
