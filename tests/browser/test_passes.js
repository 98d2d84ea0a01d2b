// SPDX-License-Identifier: GPL-3.0-or-later
// Sliding, stepping and playing through the passes, and the figures of each.
'use strict';

const assert = require('assert');
const test = require('node:test');
const { use } = require('./browser');
const { choosePass } = require('./map');
const { page } = require('./pages');

const NAMES = ['small-body', 'steel-string'];
const passOf = async (tab) => Number(await tab.locator('body').getAttribute('data-pass'));

// Is this number, as shown, the value rounded to the decimals it shows?
function shows(text, value) {
	const match = text.replace('\u2212', '-').match(/-?\d+(?:\.(\d+))?/);
	if (!match) {
		return false;
	}
	const slack = 0.5 * 10 ** -(match[1] || '').length + 1e-4;
	return Math.abs(Number(match[0]) - value) <= slack;
}

async function passFigures(tab) {
	return tab.$$eval('#pass-figures dt', (terms) =>
		terms.map((term) => [term.textContent.trim(), term.nextElementSibling.textContent.trim()])
	);
}

// What the list of a pass must hold: words of its name, and the figure there.
function expectedFigures(pass) {
	return [
		[/deepest/, pass.deepest_bite_mm],
		[/feed/, pass.feed_mm_per_min],
		[/time|minutes/, pass.minutes],
		[/volume|taken|removed/, pass.volume_mm3 / 1000],
	];
}

function assertFigures(shown, pass) {
	for (const [term, value] of expectedFigures(pass)) {
		const found = shown.find(([words]) => term.test(words));
		assert.ok(found, `pass ${pass.number}: nothing about ${term}`);
		assert.ok(shows(found[1], value), `pass ${pass.number}, ${found}: not ${value}`);
	}
}

for (const name of NAMES) {
	test(`${name}: the slider goes through all passes, with the figures of each`, async () => {
		const { address, passes } = page(name);
		await use(address, {}, async (tab) => {
			const slider = tab.locator('#pass-range');
			await slider.focus();
			await tab.keyboard.press('Home');
			assert.strictEqual(await passOf(tab), 0);
			assert.match(await tab.locator('#pass-name').innerText(), /blank/i);
			for (let number = 1; number <= passes.length; number++) {
				await tab.keyboard.press('ArrowRight');
				assert.strictEqual(await passOf(tab), number);
				const said = await tab.locator('#pass-name').innerText();
				assert.match(said, new RegExp(`\\b${number}\\b`), said);
				assert.ok(said.includes(passes[number - 1].kind), `${number}: ${said}`);
				const level = said.match(/z (.*) mm/);
				assert.ok(level && shows(level[1], passes[number - 1].level_mm), said);
				const aloud = await slider.getAttribute('aria-valuetext');
				assert.ok(aloud.includes(passes[number - 1].kind), `said aloud: ${aloud}`);
				assertFigures(await passFigures(tab), passes[number - 1]);
			}
			await tab.keyboard.press('ArrowRight');
			assert.strictEqual(await passOf(tab), passes.length, 'it stops at the last');
		});
	});

	test(`${name}: the rows of the pass table are those of job.json`, async () => {
		const { address, passes } = page(name);
		await use(address, { scripts: false }, async (tab) => {
			const rows = await tab.$$eval('#pass-table tr[data-pass]', (found) =>
				found.map((row) => [...row.cells].map((cell) => cell.textContent.trim()))
			);
			assert.strictEqual(rows.length, passes.length);
			rows.forEach((cells, i) => {
				const pass = passes[i];
				assert.strictEqual(Number(cells[0]), i + 1);
				assert.strictEqual(cells[1], pass.kind);
				const values = [
					[2, pass.level_mm],
					[3, pass.deepest_bite_mm],
					[4, pass.stepover_mm],
					[5, pass.feed_mm_per_min],
					[7, pass.length_mm / 1000],
					[8, pass.idle_mm / 1000],
					[9, pass.minutes],
					[10, pass.volume_mm3 / 1000],
				];
				for (const [column, value] of values) {
					assert.ok(shows(cells[column], value), `${cells.join(' | ')}: not ${value}`);
				}
			});
		});
	});
}

test('the slider can be dragged with the mouse', async () => {
	const { address, passes } = page('small-body');
	await use(address, {}, async (tab) => {
		const box = await tab.locator('#pass-range').boundingBox();
		const height = box.y + box.height / 2;
		await tab.mouse.move(box.x + 8, height);
		await tab.mouse.down();
		await tab.mouse.move(box.x + box.width / 2, height, { steps: 8 });
		const middle = await passOf(tab);
		assert.ok(Math.abs(middle - passes.length / 2) <= 2, `in the middle: pass ${middle}`);
		await tab.mouse.move(box.x + box.width - 1, height, { steps: 4 });
		await tab.mouse.up();
		assert.strictEqual(await passOf(tab), passes.length);
	});
});

test('back and on go one pass and stop at the ends', async () => {
	const { address, passes } = page('small-body');
	await use(address, {}, async (tab) => {
		const on = tab.getByRole('button', { name: 'One pass on' });
		const back = tab.getByRole('button', { name: 'One pass back' });
		await choosePass(tab, 5);
		await on.click();
		assert.strictEqual(await passOf(tab), 6);
		await back.click();
		await back.click();
		assert.strictEqual(await passOf(tab), 4);
		assert.strictEqual(await tab.locator('#pass-range').inputValue(), '4', 'the slider follows');
		await choosePass(tab, passes.length);
		await on.click({ force: true });
		assert.strictEqual(await passOf(tab), passes.length);
		await choosePass(tab, 0);
		await back.click({ force: true });
		assert.strictEqual(await passOf(tab), 0);
	});
});

test('play goes on by itself from the blank, and stops when asked', async () => {
	const { address } = page('small-body');
	await use(address, {}, async (tab) => {
		const play = tab.locator('#play');
		await choosePass(tab, 2);
		await tab.locator('#pace').selectOption({ label: 'quick' });
		await play.click();
		assert.strictEqual(await play.getAttribute('aria-pressed'), 'true');
		await tab.waitForFunction(() => Number(document.body.dataset.pass) >= 4, null, {
			timeout: 3000,
		});
		await play.click();
		assert.strictEqual(await play.getAttribute('aria-pressed'), 'false');
		const stopped = await passOf(tab);
		await tab.waitForTimeout(800);
		assert.strictEqual(await passOf(tab), stopped);
	});
});

test('play ends at the last pass and can begin again', async () => {
	const { address, passes } = page('small-body');
	await use(address, {}, async (tab) => {
		const play = tab.locator('#play');
		await tab.locator('#pace').selectOption({ label: 'quick' });
		await choosePass(tab, passes.length - 1);
		await play.click();
		await tab.waitForSelector('#play[aria-pressed=false]', { timeout: 3000 });
		assert.strictEqual(await passOf(tab), passes.length);
		await play.click();
		await tab.waitForFunction((last) => Number(document.body.dataset.pass) < last, passes.length);
		await play.click();
	});
});

test('who asked for less motion gets no play by itself, but a step each time', async () => {
	const { address } = page('small-body');
	await use(address, { reducedMotion: 'reduce' }, async (tab) => {
		await choosePass(tab, 2);
		await tab.locator('#play').click();
		assert.strictEqual(await passOf(tab), 3);
		await tab.waitForTimeout(1800);
		assert.strictEqual(await passOf(tab), 3);
	});
});

test('a row of the pass table chooses its pass', async () => {
	const { address } = page('small-body');
	await use(address, {}, async (tab) => {
		await tab.locator('#pass-table tr[data-pass="7"]').click();
		assert.strictEqual(await passOf(tab), 7);
		const marked = await tab.$$eval('#pass-table tr[data-pass]', (rows) =>
			rows
				.filter((row) => row.matches('[aria-current], [aria-selected=true], .chosen'))
				.map((row) => row.dataset.pass)
		);
		assert.deepStrictEqual(marked, ['7'], 'the row of the pass shown is marked');
	});
});
