// SPDX-License-Identifier: GPL-3.0-or-later
// The pages under test: their files, the job.json beside each, and what the
// text of the page carries. Read without a browser.
'use strict';

const fs = require('fs');
const path = require('path');
const { pathToFileURL } = require('url');
const { unpackPlanes } = require('./planes');

// The text of the script element with this id.
function carried(html, id) {
	const match = html.match(new RegExp(`<script[^>]*\\bid="${id}"[^>]*>([^]*?)</script>`));
	if (!match) {
		throw new Error(`the page has no data "${id}"`);
	}
	return match[1];
}

function readPage(name) {
	const folder = path.join(process.env.NECKHEW_PAGES, name);
	const file = path.join(folder, 'page.html');
	const job = JSON.parse(fs.readFileSync(path.join(folder, 'job.json'), 'utf8'));
	const html = fs.readFileSync(file, 'utf8');
	const drawing = JSON.parse(carried(html, 'drawing'));
	return {
		name,
		file,
		address: pathToFileURL(file).href,
		html,
		job,
		drawing,
		figures: JSON.parse(carried(html, 'figures')),
		planes: unpackPlanes(carried(html, 'planes'), drawing.planes),
		passes: job.programs.flatMap((program) => program.passes),
	};
}

const read = new Map();

function page(name) {
	if (!read.has(name)) {
		read.set(name, readPage(name));
	}
	return read.get(name);
}

module.exports = { page };
