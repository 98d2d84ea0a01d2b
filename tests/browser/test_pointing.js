// SPDX-License-Identifier: GPL-3.0-or-later
// Pointing at a place of the map: what is read there is what job.json and the
// planes say, for the mouse, a finger and the keys of a pass alike.
'use strict';

const assert = require('assert');
const test = require('node:test');
const { PHONE, use } = require('./browser');
const { choosePass, drawn, placeOf, pointAt, reading } = require('./map');
const { SHOWN_MM, assertNear } = require('./near');
const { page } = require('./pages');
const { standing } = require('./planes');

const NAMES = ['small-body', 'steel-string'];
const POINTS = 24;

// What job.json says of a station's column after so many passes.
function expectedAt(station, passes) {
	const { x_mm: x, y_mm: y, blank_mm, standing_mm, finished_mm } = station.centre_column;
	const stages = [blank_mm, ...standing_mm];
	return {
		x,
		y,
		cut: passes === 0 ? NaN : stages[passes - 1] - stages[passes],
		standing: stages[passes],
		over: stages[passes] - finished_mm,
	};
}

function assertReading(shown, expected, where) {
	for (const [name, value] of Object.entries(expected)) {
		if (Number.isNaN(value)) {
			assert.ok(!(Math.abs(shown[name]) > 0), `${where}, ${name}: ${shown[name]}, not a dash`);
		} else {
			assertNear(shown[name], value, SHOWN_MM, `${where}, ${name}, mm`);
		}
	}
}

// What stays for the hand is no figure of the station; it lies within what the
// zones leave. Square to a surface is never farther than straight up, and on the
// flat of the centre line hardly nearer.
function assertStock(stock, station, job) {
	const zones = Object.values(job.hand_finish_stock);
	const least = Math.min(...zones.map((zone) => zone.least_mm));
	const most = Math.max(...zones.map((zone) => zone.most_mm));
	const where = `${station.name}: ${stock} mm of stock`;
	assert.ok(stock >= least - SHOWN_MM && stock <= most + SHOWN_MM, where);
	const { standing_mm, finished_mm } = station.centre_column;
	const over = standing_mm.at(-1) - finished_mm;
	assert.ok(stock <= over + SHOWN_MM && stock >= over - 0.05, `${where} and ${over} mm over it`);
}

for (const name of NAMES) {
	test(`${name}: at every station the mouse reads what job.json says`, async () => {
		const { address, job, passes } = page(name);
		const count = passes.length;
		assert.ok(job.stations.length >= 2);
		await use(address, {}, async (tab) => {
			for (const number of [0, 1, Math.floor(count / 2), count - 1, count]) {
				await choosePass(tab, number);
				for (const station of job.stations) {
					const { x_mm: x, y_mm: y } = station.centre_column;
					await pointAt(tab, x, y);
					const shown = await reading(tab);
					assertReading(shown, expectedAt(station, number), `${station.name}, ${number}`);
					assertStock(shown.stock, station, job);
				}
			}
		});
	});

	test(`${name}: the planes say what job.json says`, () => {
		const { job, drawing, planes, passes } = page(name);
		const { nx, x0_mm: x0, y0_mm: y0, cell_mm: cell, unit_mm: unit } = drawing.planes;
		for (const station of job.stations) {
			const column = station.centre_column;
			const ix = (column.x_mm - x0) / cell;
			const iy = (column.y_mm - y0) / cell;
			assertNear(ix, Math.round(ix), 0.001, `${station.name}: the column lies on the grid`);
			assertNear(column.x_mm, station.x_mm, cell / 2 + 1e-3, 'it is the nearest along');
			assertNear(column.y_mm, 0, cell / 2 + 1e-3, 'it is the nearest across');
			const index = Math.round(iy) * nx + Math.round(ix);
			assertNear(planes.finished[index], column.finished_mm, unit, 'finished, mm');
			for (let number = 1; number <= passes.length; number++) {
				const was = number === 1 ? column.blank_mm : column.standing_mm[number - 2];
				const taken = was - column.standing_mm[number - 1];
				assertNear(planes.cut[number - 1][index], taken, unit, `pass ${number}, mm`);
				// Rounding to counts must not add up over the passes.
				assertNear(
					standing(planes, index, number),
					column.standing_mm[number - 1],
					unit,
					`standing after pass ${number}, mm`
				);
			}
		}
	});
}

// Numbers that look random and are the same every time (a linear congruence).
function* scattered(seed) {
	for (let state = seed; ; ) {
		state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
		yield state / 2 ** 32;
	}
}

test('anywhere on the neck the mouse reads what the planes hold', async () => {
	const { address, drawing, planes, passes } = page('steel-string');
	const { nx, ny, x0_mm: x0, y0_mm: y0, cell_mm: cell } = drawing.planes;
	const numbers = scattered(20);
	const draw = (count) => Math.floor(numbers.next().value * count);
	await use(address, {}, async (tab) => {
		let compared = 0;
		let touched = 0;
		for (let tries = 0; compared < POINTS && tries < 2000; tries++) {
			const [ix, iy] = [draw(nx), draw(ny)];
			const index = iy * nx + ix;
			if (Number.isNaN(planes.finished[index]) || Number.isNaN(planes.stock[index])) {
				continue;
			}
			// The other half are places that the pass takes something from.
			const number = 1 + draw(passes.length);
			const cut = planes.cut[number - 1][index];
			if (!(cut > 0) && compared - touched > POINTS / 2) {
				continue;
			}
			compared++;
			touched += cut > 0;
			const z = standing(planes, index, number);
			await choosePass(tab, number);
			await pointAt(tab, x0 + ix * cell, y0 + iy * cell);
			assertReading(
				await reading(tab),
				{
					x: x0 + ix * cell,
					y: y0 + iy * cell,
					cut: cut > 0 ? cut : 0,
					standing: z,
					over: z - planes.finished[index],
					stock: planes.stock[index],
				},
				`column ${ix}, ${iy}, pass ${number}`
			);
		}
		assert.strictEqual(compared, POINTS);
		assert.ok(touched >= POINTS / 4, `${touched} places that the pass touches`);
	});
});

test('choosing another pass changes the reading at the mark', async () => {
	const { address, job, passes } = page('small-body');
	const station = job.stations[1];
	await use(address, {}, async (tab) => {
		await pointAt(tab, station.centre_column.x_mm, station.centre_column.y_mm);
		await tab.mouse.down();
		await tab.mouse.up();
		for (let number = 0; number <= passes.length; number += 5) {
			await choosePass(tab, number);
			assertReading(await reading(tab), expectedAt(station, number), `pass ${number}`);
		}
	});
});

test('a click holds the mark, another lets it go', async () => {
	const { address, job } = page('small-body');
	const [one, other] = job.stations.map((station) => station.centre_column);
	await use(address, {}, async (tab) => {
		await pointAt(tab, one.x_mm, one.y_mm);
		await tab.mouse.down();
		await tab.mouse.up();
		await pointAt(tab, other.x_mm, other.y_mm);
		assertNear((await reading(tab)).x, one.x_mm, SHOWN_MM, 'held at, mm');
		await tab.mouse.down();
		await tab.mouse.up();
		await pointAt(tab, other.x_mm, other.y_mm);
		assertNear((await reading(tab)).x, other.x_mm, SHOWN_MM, 'let go, mm');
	});
});

test('a finger on a telephone marks the place it touches', async () => {
	const { address, job, drawing } = page('steel-string');
	const cell = drawing.planes.cell_mm;
	await use(address, { viewport: PHONE, touch: true }, async (tab) => {
		for (const station of job.stations) {
			const place = await placeOf(tab, station.centre_column.x_mm, 0);
			await tab.touchscreen.tap(place.x, place.y);
			await drawn(tab);
			const { x } = await reading(tab);
			assertNear(x, station.x_mm, 1 + cell, `${station.name}: x of the mark, mm`);
		}
	});
});
