// SPDX-License-Identifier: GPL-3.0-or-later
// The checks themselves are checked: a page with one fault each must be caught
// by what the other tests rely on, and a plain good page must not.
'use strict';

const assert = require('assert');
const fs = require('fs');
const http = require('http');
const path = require('path');
const test = require('node:test');
const { pathToFileURL } = require('url');
const { violations } = require('./axe');
const { DESK, PHONE, use, visit } = require('./browser');
const { LEAST_RING_PX, ringSeen, stops } = require('./focus');
const { overflow } = require('./layout');
const { letterFaults, listen } = require('./letters');
const { colourAt, countColour, countColours, readPng, shareChanged } = require('./png');
const { pageCount, printed } = require('./paper');
const { outsideNames } = require('./outside');
const { unpackPlanes } = require('./planes');

const folder = path.join(process.env.NECKHEW_PAGES, 'self');

let pages = 0;

// A page that is good but for what the test puts into it.
function pageWith(name, body, head = '') {
	fs.mkdirSync(folder, { recursive: true });
	const file = path.join(folder, `${name}-${pages++}.html`);
	fs.writeFileSync(
		file,
		`<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>${name}</title>
		<meta name="viewport" content="width=device-width, initial-scale=1">${head}</head>
		<body data-ready=""><main><h1>${name}</h1>${body}</main></body></html>`
	);
	return pathToFileURL(file).href;
}

const rest = (page) => page.waitForTimeout(150);

test('self: a good page passes every check', async () => {
	const address = pageWith('good', '<p>Words</p><label>Tick <input type="checkbox"></label>');
	await use(address, {}, async (page) => {
		assert.deepStrictEqual(await violations(page), []);
		assert.strictEqual(await overflow(page), 0);
		assert.deepStrictEqual(await outsideNames(page), []);
		assert.strictEqual(pageCount(await printed(page, 'A4')), 1);
	});
});

const NOISES = {
	'an error on the console': ['console.error("spoiled")', /console error: spoiled/],
	'a warning on the console': ['console.warn("spoiled")', /console warning: spoiled/],
	'an error thrown': ['throw new Error("spoiled")', /thrown: spoiled/],
	'an error thrown later': ['setTimeout(() => missing.thing, 20)', /thrown: missing/],
	'a promise that nobody catches': ['Promise.reject(new Error("spoiled"))', /thrown: spoiled/],
	'a dialog': ['alert("spoiled")', /dialog: spoiled/],
	'a new page': ['window.open("about:blank")', /another page/],
};

for (const [what, [script, said]] of Object.entries(NOISES)) {
	test(`self: ${what} is caught`, async () => {
		const address = pageWith('noise', `<script>${script}</script>`);
		const faults = await visit(address, {}, rest);
		assert.match(faults.join('\n'), said);
	});
}

test('self: what is caught makes a test fail', async () => {
	const address = pageWith('noise', '<script>console.error("spoiled")</script>');
	await assert.rejects(use(address, {}, rest), /must be silent/);
});

const REQUESTS = {
	'an image': (at) => [`<img alt="" src="${at}/x.png">`],
	'a style sheet': (at) => ['', `<link rel="stylesheet" href="${at}/x.css">`],
	'a picture in a style': (at) => [`<p style="background: url(${at}/x.png)">words</p>`],
	'a script': (at) => [`<script src="${at}/x.js"></script>`],
	'a frame': (at) => [`<iframe title="x" src="${at}/x.html"></iframe>`],
	'a fetch': (at) => [`<script>fetch("${at}/x").catch(() => {})</script>`],
	'a beacon': (at) => [`<script>navigator.sendBeacon("${at}/x", "y")</script>`],
	'a stream of events': (at) => [`<script>new EventSource("${at}/x")</script>`],
	'a socket': (at) => [`<script>new WebSocket("${at.replace('http', 'ws')}/x")</script>`],
	'a neighbouring file': () => ['<img alt="" src="x.png">'],
};

// Of a server of our own, on a page that is not offline: what gets out arrives.
// (For a frame Chromium opens a connection before it asks whether it may.)
for (const [what, make] of Object.entries(REQUESTS)) {
	test(`self: a request by ${what} is caught and does not get out`, async () => {
		let arrived = 0;
		const server = http.createServer();
		for (const event of ['request', 'upgrade']) {
			server.on(event, (request) => {
				arrived++;
				request.socket.destroy();
			});
		}
		await new Promise((done) => server.listen(0, '127.0.0.1', done));
		try {
			const at = `http://127.0.0.1:${server.address().port}`;
			const address = pageWith('request', ...make(at));
			const faults = await visit(address, { offline: false }, rest);
			assert.match(faults.join('\n'), /(request|socket): (http|ws|file)/);
			assert.strictEqual(arrived, 0, 'requests that got out');
		} finally {
			server.close();
		}
	});
}

const OUTSIDE = {
	'a connection made in advance': ['', '<link rel="preconnect" href="https://example.org">'],
	'a link': ['<a href="https://example.org">words</a>'],
	'a form': ['<form action="https://example.org"></form>'],
	'an import of styles': ['', '<style>@import "https://example.org/x.css";</style>'],
	'a letter': ['<style>@font-face { font-family: x; src: url(x.woff) }</style>'],
	'a picture for finer screens': ['<img alt="" srcset="x.png 2x">'],
	'a style of an element': ["<p style=\"background: url('//example.org/x')\">words</p>"],
};

for (const [what, parts] of Object.entries(OUTSIDE)) {
	test(`self: a place outside in ${what} is found`, async () => {
		await visit(pageWith('outside', ...parts), {}, async (page) => {
			const found = await outsideNames(page);
			assert.strictEqual(found.length, 1, found.join('\n'));
		});
	});
}

const UNFAIR = {
	'a control without a label': ['<input type="range">', /label/],
	'grey on grey': ['<p style="color: #999; background: #bbb">words</p>', /color-contrast/],
	'a table head without scope': ['<table><tr><th scope="sideways">a</th></tr></table>', /scope/],
	'a picture without words': ['<img src="data:,">', /image-alt/],
};

for (const [what, [body, rule]] of Object.entries(UNFAIR)) {
	test(`self: ${what} is found by axe`, async () => {
		await visit(pageWith('unfair', body), {}, async (page) => {
			assert.match((await violations(page)).join('\n'), rule);
		});
	});
}

test('self: a wide element overflows a telephone and not a desk', async () => {
	const address = pageWith('wide', '<p style="width: 800px">words</p>');
	await visit(address, { viewport: PHONE }, async (page) => {
		assert.ok((await overflow(page)) > 400);
	});
	await visit(address, { viewport: DESK }, async (page) => {
		assert.strictEqual(await overflow(page), 0);
	});
});

test('self: a control whose focus is not seen is told from one whose is', async () => {
	const address = pageWith(
		'focus',
		`<button>plain</button> <button style="outline: none">hidden</button>
		<p tabindex="0">words</p>`
	);
	await visit(address, {}, async (page) => {
		const found = await stops(page, () => ringSeen(page));
		assert.deepStrictEqual(
			found.map(({ words, seen }) => [words, seen >= LEAST_RING_PX]),
			[
				['plain', true],
				['hidden', false],
				['words', true],
			]
		);
	});
});

test('self: a third page is counted', async () => {
	const leaf = '<p style="break-after: page">words</p>';
	await visit(pageWith('long', leaf.repeat(2) + '<p>end</p>'), {}, async (page) => {
		assert.strictEqual(pageCount(await printed(page, 'Letter')), 3);
	});
});

test('self: colours of a screenshot are read where they are', async () => {
	const box = 'width: 20px; height: 10px; position: absolute; top: 0;';
	const address = pageWith(
		'colours',
		`<div style="${box} left: 0; background: #102030"></div>
		<div style="${box} left: 20px; background: linear-gradient(to right, red, blue)"></div>`
	);
	await visit(address, {}, async (page) => {
		const clip = { x: 0, y: 0, width: 40, height: 10 };
		const picture = readPng(await page.screenshot({ clip }));
		assert.deepStrictEqual([picture.width, picture.height], [40, 10]);
		assert.deepStrictEqual(colourAt(picture, 19, 9), [16, 32, 48]);
		assert.strictEqual(countColour(picture, [16, 32, 48], 0), 200);
		assert.ok(countColours(picture) > 15, `${countColours(picture)} colours`);
		assert.strictEqual(shareChanged(picture, picture), 0);
		await page.evaluate(() => (document.querySelector('div').style.background = 'white'));
		const changed = readPng(await page.screenshot({ clip }));
		assert.strictEqual(shareChanged(picture, changed), 0.5);
	});
});

test('self: words of a drawing that overlap or are cut off are found', async () => {
	const address = pageWith(
		'letters',
		`<canvas id="x" width="200" height="100"></canvas><script>
		const pen = document.getElementById('x').getContext('2d');
		pen.font = '20px sans-serif';
		pen.clearRect(0, 0, 200, 100);
		pen.fillText('over', 20, 40);
		pen.fillText('lap', 40, 45);
		pen.fillText('cut', 185, 80);
		pen.fillText('alone', 20, 90);
		</script>`
	);
	await visit(address, { before: listen }, async (page) => {
		assert.deepStrictEqual(await letterFaults(page), [
			'x: "over" and "lap" overlap',
			'x: "cut" is cut off at the side',
		]);
	});
});

// Two rows of two columns: 1, -1 and nothing there, 300 (in counts of 0.01).
test('self: planes are unpacked as they are described', () => {
	const zigzag = (difference) => ((difference << 1) ^ (difference >> 15)) & 0xffff;
	const wrapped = (difference) => (difference << 16) >> 16;
	const differences = [1, -2, -32768, wrapped(300 + 32768)];
	const coded = differences.map(zigzag);
	const plane = [...coded.map((word) => word & 255), ...coded.map((word) => word >> 8)];
	const stream = require('zlib').deflateSync(Buffer.from([...plane, ...plane, ...plane]));
	const shape = { nx: 2, ny: 2, unit_mm: 0.01, pass_count: 0 };
	const { stock } = unpackPlanes(stream.toString('base64'), shape);
	assert.deepStrictEqual([...stock], [0.01, -0.01, NaN, 3]);
});

test('self: the lock of packages names no place', () => {
	for (const file of ['package.json', 'package-lock.json']) {
		const text = fs.readFileSync(path.join(__dirname, file), 'utf8');
		assert.doesNotMatch(text, /resolved|:\/\//, file);
	}
});
