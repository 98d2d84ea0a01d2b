// SPDX-License-Identifier: GPL-3.0-or-later
// The turning view: drawn by WebGL, follows the pass, turns by mouse and keys;
// and a plain picture in its place where there is no WebGL.
'use strict';

const assert = require('assert');
const test = require('node:test');
const { use } = require('./browser');
const { choosePass } = require('./map');
const { page } = require('./pages');
const { countColours, readPng, shareChanged } = require('./png');

const TURN = '#turn canvas';
const PLAIN = '#turn-plain canvas, #turn-plain img, #turn-plain svg';

// A picture of it once it shows this pass and stands still.
async function shot(tab, selector) {
	const element = tab.locator(selector).first();
	await element.scrollIntoViewIfNeeded();
	let last = readPng(await element.screenshot());
	for (let tries = 0; tries < 20; tries++) {
		await tab.waitForTimeout(100);
		const next = readPng(await element.screenshot());
		if (shareChanged(last, next) === 0) {
			return next;
		}
		last = next;
	}
	throw new Error(`${selector} never stands still`);
}

// The blank is a plain block: a few tones. What is cut has many.
function assertDrawn(picture, what) {
	assert.ok(countColours(picture) > 5, `${what}: ${countColours(picture)} colours`);
}

function assertChanged(one, other, least, what) {
	const share = shareChanged(one, other);
	assert.ok(share > least, `${what}: ${(share * 100).toFixed(2)} % of the picture changed`);
}

test('turning view: drawn by WebGL, another picture for each stage', async () => {
	const { address, passes } = page('steel-string');
	await use(address, {}, async (tab) => {
		assert.ok(
			await tab.$eval(TURN, (canvas) =>
				Boolean(canvas.getContext('webgl2') || canvas.getContext('webgl'))
			)
		);
		assert.strictEqual(await tab.locator(PLAIN).count(), 0, 'no plain picture beside it');
		const pictures = [];
		for (const number of [0, Math.floor(passes.length / 2), passes.length - 10, passes.length]) {
			await choosePass(tab, number);
			pictures.push(await shot(tab, TURN));
			assertDrawn(pictures.at(-1), `pass ${number}`);
		}
		for (let i = 1; i < pictures.length; i++) {
			assertChanged(pictures[i - 1], pictures[i], 0.01, `stage ${i}`);
		}
	});
});

test('turning view: mouse, keys and buttons move it, Home brings it back', async () => {
	const { address, passes } = page('small-body');
	await use(address, { reducedMotion: 'reduce' }, async (tab) => {
		await choosePass(tab, passes.length);
		const first = await shot(tab, TURN);
		const box = await tab.locator(TURN).boundingBox();
		const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
		await tab.mouse.move(x, y);
		await tab.mouse.down();
		await tab.mouse.move(x + 120, y + 30, { steps: 4 });
		await tab.mouse.up();
		const dragged = await shot(tab, TURN);
		assertChanged(first, dragged, 0.01, 'dragged');
		await tab.locator(TURN).focus();
		for (let i = 0; i < 4; i++) {
			await tab.keyboard.press('ArrowRight');
		}
		assertChanged(dragged, await shot(tab, TURN), 0.01, 'by arrows');
		await tab.locator('#turn').getByRole('button', { name: 'from below' }).click();
		assertChanged(first, await shot(tab, TURN), 0.01, 'from below');
		await tab.locator(TURN).focus();
		await tab.keyboard.press('Home');
		await tab.locator(TURN).blur();
		const back = await shot(tab, TURN);
		assert.ok(shareChanged(first, back) < 0.002, `${shareChanged(first, back)} differs`);
	});
});

test('turning view: the wheel scrolls the page, not the picture', async () => {
	await use(page('small-body').address, {}, async (tab) => {
		const before = await shot(tab, TURN);
		const box = await tab.locator(TURN).boundingBox();
		await tab.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
		const top = await tab.evaluate(() => window.scrollY);
		await tab.mouse.wheel(0, -60);
		await tab.waitForFunction((was) => window.scrollY !== was, top);
		assert.ok(shareChanged(before, await shot(tab, TURN)) < 0.002);
	});
});

test('without WebGL: the plain picture is there, follows the pass, in silence', async () => {
	const { address, passes } = page('steel-string');
	await use(address, { webgl: false }, async (tab) => {
		assert.strictEqual(
			await tab.evaluate(() => document.createElement('canvas').getContext('webgl')),
			null
		);
		assert.strictEqual(await tab.locator(TURN).count(), 0);
		assert.ok(await tab.locator(PLAIN).first().isVisible());
		const pictures = [];
		for (const number of [0, Math.floor(passes.length / 2), passes.length]) {
			await choosePass(tab, number);
			pictures.push(await shot(tab, PLAIN));
			assertDrawn(pictures.at(-1), `pass ${number}`);
		}
		assertChanged(pictures[0], pictures[1], 0.01, 'half way');
		assertChanged(pictures[1], pictures[2], 0.01, 'at the end');
		assert.match(await tab.locator('#turn-plain').innerText(), /WebGL/, 'it says why');
	});
});

test('WebGL lost on the way: the plain picture steps in', async () => {
	const { address, passes } = page('small-body');
	await use(address, {}, async (tab) => {
		await choosePass(tab, passes.length);
		await shot(tab, TURN);
		await tab.$eval(TURN, (canvas) => {
			const gl = canvas.getContext('webgl2') || canvas.getContext('webgl');
			gl.getExtension('WEBGL_lose_context').loseContext();
		});
		await tab.locator(PLAIN).first().waitFor({ state: 'visible' });
		assertDrawn(await shot(tab, PLAIN), 'plain picture');
		const full = await shot(tab, PLAIN);
		await choosePass(tab, 5);
		assertChanged(full, await shot(tab, PLAIN), 0.01, 'after another choice');
	});
});
