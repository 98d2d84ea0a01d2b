// SPDX-License-Identifier: GPL-3.0-or-later
// The page as a file: opens from disk, alone, and says at the top what counts.
'use strict';

const assert = require('assert');
const fs = require('fs');
const test = require('node:test');
const { use } = require('./browser');
const { choosePass, pointAt } = require('./map');
const { assertNear } = require('./near');
const { outsideNames } = require('./outside');
const { page } = require('./pages');

const MEGABYTE = 1e6;
const NAMES = ['small-body', 'steel-string'];

for (const name of NAMES) {
	// A place outside would be asked only later, or while a builder is online.
	test(`${name}: opens from disk in silence, draws, and names no place outside`, async () => {
		await use(page(name).address, {}, async (tab) => {
			const passes = await tab.locator('#pass-range').getAttribute('max');
			assert.strictEqual(Number(passes), page(name).passes.length);
			assert.deepStrictEqual(await outsideNames(tab), []);
		});
	});

	test(`${name}: the file is under 3 MB`, () => {
		const size = fs.statSync(page(name).file).size;
		assert.ok(size < 3 * MEGABYTE, `${size} bytes`);
	});

	test(`${name}: carries the very figures of job.json`, () => {
		assert.deepStrictEqual(page(name).figures, page(name).job);
	});

	test(`${name}: the top says verdict, minutes, cutter, least and most stock`, async () => {
		const { job } = page(name);
		const promises = Object.values(job.proof.promises);
		const zones = Object.values(job.hand_finish_stock);
		const minutes = job.programs.reduce((sum, program) => sum + program.minutes, 0);
		await use(page(name).address, {}, async (tab) => {
			const verdict = await tab.locator('#verdict').innerText();
			assert.ok(job.proof.proven);
			assert.match(verdict, new RegExp(`proven: ${promises.length} of ${promises.length}\\b`));
			const height = (await tab.locator('#verdict').boundingBox()).height;
			const line = await lineHeight(tab, '#verdict');
			assert.ok(height < 2 * line, `the verdict takes one line, not ${height} px of ${line}`);
			const figures = await topFigures(tab);
			assertNear(parseFloat(figures.time), minutes, 0.5, 'minutes');
			assert.match(figures.cutter, new RegExp(`\\b${job.inputs.ball_diameter_mm}\\b`));
			const least = Math.min(...zones.map((zone) => zone.least_mm));
			const most = Math.max(...zones.map((zone) => zone.most_mm));
			assertShownBelow(figures['least stock for the hand'], least, 1);
			assertShownBelow(figures['most stock for the hand'], most, -1);
		});
	});
}

// Two decimals, rounded so that the page never promises better than it is: the
// least down (sign 1), the most up (-1). job.json has four.
function assertShownBelow(text, value, sign) {
	assert.match(text, /^\d+\.\d\d mm$/);
	const spare = sign * (value - parseFloat(text));
	assert.ok(spare > -1e-4 && spare < 0.0101, `${text} for ${value}`);
}

function lineHeight(tab, selector) {
	return tab.$eval(selector, (element) => {
		const style = getComputedStyle(element);
		const frame = ['paddingTop', 'paddingBottom', 'borderTopWidth', 'borderBottomWidth'];
		const around = frame.reduce((sum, side) => sum + parseFloat(style[side]), 0);
		return around + (parseFloat(style.lineHeight) || 1.2 * parseFloat(style.fontSize));
	});
}

async function topFigures(tab) {
	return Object.fromEntries(
		await tab.$$eval('header dl div', (rows) =>
			rows.map((row) => [
				row.querySelector('dt').textContent.trim(),
				row.querySelector('dd').textContent.trim(),
			])
		)
	);
}

// The watch that `use` keeps would tell; here everything is used that might ask.
test('nothing leaves the page while everything is used', async () => {
	const { address, passes, drawing } = page('steel-string');
	await use(address, {}, async (tab) => {
		for (const button of await tab.getByRole('button').all()) {
			await button.click();
		}
		await tab.locator('#play').click();
		for (const choice of await tab.locator('input[type=radio], input[type=checkbox]').all()) {
			await choice.click();
		}
		for (const fold of await tab.locator('summary').all()) {
			await fold.click();
		}
		await choosePass(tab, passes.length);
		await pointAt(tab, drawing.stations[0].x_mm, 0);
		await tab.mouse.down();
		await tab.mouse.up();
		await tab.locator('#turn').scrollIntoViewIfNeeded();
		await tab.waitForTimeout(200);
	});
});

test('a hostile name of a neck is only text', async () => {
	const { address, job } = page('hostile');
	assert.ok(job.inputs.neck.includes('onerror='), job.inputs.neck);
	await use(address, {}, async (tab) => {
		assert.strictEqual(await tab.locator('h1').innerText(), job.inputs.neck);
		assert.ok((await tab.title()).includes(job.inputs.neck), await tab.title());
		assert.strictEqual(await tab.locator('img[src=x]').count(), 0, 'images that the name made');
		assert.strictEqual(await tab.locator('body').getAttribute('data-taken'), null);
	});
});

test('the page forbids itself what it does not need', () => {
	const [, policy] = page('small-body').html.match(
		/<meta http-equiv="Content-Security-Policy" content="([^"]*)"/
	);
	assert.match(policy, /default-src 'none'/);
	assert.doesNotMatch(policy, /https?:|\*|unsafe-eval|connect-src/);
});
