// SPDX-License-Identifier: GPL-3.0-or-later
// Without a mouse: everything is reached by Tab, seen to be reached, and works.
'use strict';

const assert = require('assert');
const test = require('node:test');
const { use } = require('./browser');
const { LEAST_RING_PX, ringSeen, stops } = require('./focus');
const { choosePass, drawn, reading } = require('./map');
const { SHOWN_MM, assertNear } = require('./near');
const { page } = require('./pages');

test('keys: Tab reaches everything that can be used, and comes out again', async () => {
	await use(page('steel-string').address, {}, async (tab) => {
		const found = await stops(tab);
		const reached = (test) => found.filter(test).length;
		const list = found.map((stop) => `${stop.kind} ${stop.words}`).join('\n');
		for (const id of ['pass-range', 'play', 'map', 'pass-back', 'pass-on', 'pace']) {
			assert.strictEqual(reached((stop) => stop.id === id), 1, `${id} among\n${list}`);
		}
		assert.ok(reached((s) => s.within.includes('turn') && s.kind === 'canvas') === 1, list);
		assert.ok(reached((s) => s.within.includes('turn') && s.kind === 'button') >= 3, list);
		assert.ok(reached((s) => s.within.includes('side-choice')) >= 1, list);
		const boxes = await tab.locator('#checklist input[type=checkbox]').count();
		assert.ok(boxes >= 10);
		assert.strictEqual(reached((s) => s.within.includes('checklist')), boxes, list);
		const scrolling = await tab.$$eval('[role=region]', (regions) =>
			regions.map((region) => region.getAttribute('aria-label'))
		);
		for (const label of scrolling) {
			assert.ok(reached((s) => label.startsWith(s.words)) >= 1, `${label} among\n${list}`);
		}
		// Nothing with a tabindex above 0: the order is that of the page.
		const outOfTurn = tab.locator('[tabindex]:not([tabindex="0"], [tabindex="-1"])');
		assert.strictEqual(await outOfTurn.count(), 0);
	});
});

test('keys: wherever the focus is, it is seen', async () => {
	await use(page('small-body').address, {}, async (tab) => {
		const found = await stops(tab, () => ringSeen(tab));
		const hidden = found.filter((stop) => stop.seen < LEAST_RING_PX);
		assert.deepStrictEqual(
			hidden.map((stop) => `${stop.kind} ${stop.words}: ${stop.seen} pixels`),
			[]
		);
	});
});

test('keys: the first Tab offers a way past the top to the map', async () => {
	await use(page('small-body').address, {}, async (tab) => {
		await tab.keyboard.press('Tab');
		await tab.keyboard.press('Enter');
		await tab.keyboard.press('Tab');
		const near = await tab.evaluate(
			() => !!document.activeElement.closest('#map, #keys, #reading, #controls')
		);
		const on = await tab.evaluate(() => document.activeElement.outerHTML.slice(0, 80));
		assert.ok(near, `after the skip link the focus is on ${on}`);
	});
});

test('keys: arrows move the mark column by column and 10 mm by 10 mm', async () => {
	const { address, drawing } = page('small-body');
	const cell = drawing.planes.cell_mm;
	await use(address, {}, async (tab) => {
		await choosePass(tab, 28);
		await tab.locator('#map').focus();
		const moved = async (key) => {
			const before = await reading(tab);
			await tab.keyboard.press(key);
			await drawn(tab);
			const after = await reading(tab);
			return [after.x - before.x, after.y - before.y];
		};
		const steps = [
			['ArrowRight', cell, 0],
			['ArrowRight', cell, 0],
			['ArrowLeft', -cell, 0],
			['ArrowUp', 0, cell],
			['ArrowUp', 0, cell],
			['ArrowDown', 0, -cell],
			['Shift+ArrowRight', 10, 0],
			['Shift+ArrowLeft', -10, 0],
			['Shift+ArrowUp', 0, 10],
			['Shift+ArrowDown', 0, -10],
		];
		for (const [key, x, y] of steps) {
			const [dx, dy] = await moved(key);
			// Far steps end on a column; shown places are rounded.
			const slack = key.startsWith('Shift') ? cell / 2 + 0.02 : 0.02;
			assertNear(dx, x, slack, `${key}: along, mm`);
			assertNear(dy, y, slack, `${key}: across, mm`);
		}
	});
});

test('keys: at the mark the reading is what the planes hold', async () => {
	const { address, job, passes } = page('small-body');
	const column = job.stations[0].centre_column;
	await use(address, {}, async (tab) => {
		await choosePass(tab, passes.length);
		await tab.locator('#map').focus();
		await tab.keyboard.press('c');
		for (let i = 0; i < 2000 && Math.abs((await reading(tab)).x - column.x_mm) > 0.01; i++) {
			const apart = column.x_mm - (await reading(tab)).x;
			const far = Math.abs(apart) > 11 ? 'Shift+' : '';
			await tab.keyboard.press(`${far}Arrow${apart > 0 ? 'Right' : 'Left'}`);
		}
		const shown = await reading(tab);
		assertNear(shown.x, column.x_mm, SHOWN_MM, 'x, mm');
		assertNear(shown.y, column.y_mm, SHOWN_MM, 'y on the centre line, mm');
		assertNear(shown.standing, column.standing_mm.at(-1), SHOWN_MM, 'standing, mm');
	});
});

test('keys: the mark stays on the plan', async () => {
	const { address, drawing } = page('small-body');
	const { nx, ny, x0_mm: x0, y0_mm: y0, cell_mm: cell } = drawing.planes;
	await use(address, {}, async (tab) => {
		await tab.locator('#map').focus();
		for (const key of ['End', 'Shift+ArrowRight', 'ArrowRight']) {
			await tab.keyboard.press(key);
		}
		const end = await reading(tab);
		assert.ok(end.x <= x0 + (nx - 1) * cell + 0.01, `x ${end.x}`);
		assert.ok(end.x > drawing.neck.to_mm - 5, `End goes to the body's end: ${end.x}`);
		for (let i = 0; i < 30; i++) {
			await tab.keyboard.press('Shift+ArrowUp');
		}
		const side = await reading(tab);
		assert.ok(side.y <= y0 + (ny - 1) * cell + 0.01, `y ${side.y}`);
		await tab.keyboard.press('Home');
		assert.ok((await reading(tab)).x < drawing.neck.from_mm + 5, 'Home goes to the peghead');
	});
});

test('keys: passes and play from the map', async () => {
	await use(page('small-body').address, {}, async (tab) => {
		const passOf = async () => Number(await tab.locator('body').getAttribute('data-pass'));
		await choosePass(tab, 10);
		await tab.locator('#map').focus();
		await tab.keyboard.press('PageDown');
		assert.strictEqual(await passOf(), 11);
		await tab.keyboard.press('PageUp');
		await tab.keyboard.press('PageUp');
		assert.strictEqual(await passOf(), 9);
		await tab.keyboard.press('Space');
		assert.strictEqual(await tab.locator('#play').getAttribute('aria-pressed'), 'true');
		await tab.keyboard.press('Space');
		assert.strictEqual(await tab.locator('#play').getAttribute('aria-pressed'), 'false');
	});
});

test('keys: Space ticks each box of the checklist and unticks it', async () => {
	await use(page('small-body').address, {}, async (tab) => {
		const boxes = await tab.locator('#checklist input[type=checkbox]').all();
		for (const box of boxes) {
			await box.focus();
			assert.strictEqual(await box.isChecked(), false);
			await tab.keyboard.press('Space');
			assert.strictEqual(await box.isChecked(), true);
			await tab.keyboard.press('Space');
			assert.strictEqual(await box.isChecked(), false);
		}
	});
});

test('keys: a row of the pass table is chosen by Enter', async () => {
	await use(page('small-body').address, {}, async (tab) => {
		await tab.locator('#pass-table tr[data-pass="9"]').focus();
		await tab.keyboard.press('Enter');
		assert.strictEqual(await tab.locator('body').getAttribute('data-pass'), '9');
	});
});

test('keys: the straight edge is chosen by arrows', async () => {
	await use(page('small-body').address, {}, async (tab) => {
		const shot = () => tab.$eval('#side', (canvas) => canvas.toDataURL());
		await tab.locator('#side-choice input').first().focus();
		const centre = await shot();
		await tab.keyboard.press('ArrowDown');
		await drawn(tab);
		assert.notStrictEqual(await shot(), centre, 'the side view follows');
		assert.strictEqual(await tab.locator('#side-choice input').nth(1).isChecked(), true);
	});
});

test('keys: what changes at the mark is said aloud', async () => {
	await use(page('small-body').address, {}, async (tab) => {
		const spoken = () => tab.locator('[role=status], [aria-live=polite]').allTextContents();
		await choosePass(tab, 30);
		await tab.locator('#map').focus();
		await tab.keyboard.press('Shift+ArrowRight');
		await tab.waitForTimeout(1200);
		const before = (await spoken()).join(' ');
		const { standing } = await reading(tab);
		assert.ok(before.includes(standing.toFixed(2)), `"${before}" tells ${standing}`);
		await tab.keyboard.press('Shift+ArrowRight');
		await tab.waitForTimeout(1200);
		assert.notStrictEqual((await spoken()).join(' '), before);
	});
});
