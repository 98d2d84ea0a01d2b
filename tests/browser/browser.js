// SPDX-License-Identifier: GPL-3.0-or-later
// Headless Chromium with its software graphics, and pages opened in it.
'use strict';

const assert = require('assert');
const path = require('path');
const { chromium } = require('playwright-core');
const { watch } = require('./watch');

// Nothing that Chromium does of its own accord, and no graphics card.
const SWITCHES = [
	'--headless',
	'--no-sandbox',
	'--disable-gpu',
	'--disable-quic',
	'--no-first-run',
	'--disable-background-networking',
	'--disable-component-update',
	'--disable-sync',
];
const SOFTWARE_WEBGL = ['--use-angle=swiftshader', '--enable-unsafe-swiftshader'];
const NO_WEBGL = ['--disable-3d-apis'];

const DESK = { width: 1280, height: 900 };
const PHONE = { width: 390, height: 844 };

const browsers = new Map();

const WIDE_LETTERS = path.join(__dirname, 'wide-letters.conf');

function browserWith(graphics, wideLetters) {
	const key = [...graphics, wideLetters ? 'wide' : ''].join(' ');
	if (!browsers.has(key)) {
		browsers.set(
			key,
			chromium.launch({
				executablePath: process.env.NECKHEW_CHROMIUM,
				args: [...SWITCHES, ...graphics],
				env: wideLetters ? { ...process.env, FONTCONFIG_FILE: WIDE_LETTERS } : process.env,
			})
		);
	}
	return browsers.get(key);
}

async function closeBrowsers() {
	for (const browser of browsers.values()) {
		await (await browser).close();
	}
	browsers.clear();
}

// The page's scripts unpack their data before anything can be drawn.
async function ready(page) {
	await page.waitForSelector('body[data-ready]', { state: 'attached', timeout: 15000 });
}

// Opens a file in a window of its own without a network, lets body use it, and
// gives what the watch saw. Options: viewport, scripts (false: switched off),
// webgl (false: none), wideLetters (true: no others), touch, reducedMotion, offline (false: with a network), before
// (a function to run in the page before its scripts).
async function visit(address, options, body) {
	const browser = await browserWith(
		options.webgl === false ? NO_WEBGL : SOFTWARE_WEBGL,
		options.wideLetters === true
	);
	const context = await browser.newContext({
		viewport: options.viewport || DESK,
		javaScriptEnabled: options.scripts !== false,
		hasTouch: options.touch === true,
		reducedMotion: options.reducedMotion || 'no-preference',
		offline: options.offline !== false,
	});
	try {
		if (options.before) {
			await context.addInitScript(options.before);
		}
		const page = await context.newPage();
		page.setDefaultTimeout(10000);
		const faults = await watch(context, page, address);
		await page.goto(address);
		await body(page);
		return faults;
	} finally {
		await context.close();
	}
}

// The same for a page of neckhew: waits until it has drawn, and whatever the
// test is about, the watch must have seen nothing.
async function use(address, options, body) {
	const faults = await visit(address, options, async (page) => {
		if (options.scripts !== false) {
			await ready(page);
		}
		await body(page);
		await page.waitForTimeout(50);
	});
	assert.deepStrictEqual(faults, [], 'the page must be silent and ask for nothing');
}

module.exports = { DESK, PHONE, closeBrowsers, ready, use, visit };
