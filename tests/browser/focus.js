// SPDX-License-Identifier: GPL-3.0-or-later
// Going through a page by Tab: where the focus stops, and whether it is seen.
'use strict';

const { readPng, shareChanged } = require('./png');

// Pixels that must change round or in what has the focus: a thin line along one
// side of a small control.
const LEAST_RING_PX = 30;
const MOST_STOPS = 200;

// Goes once round by Tab. Each stop: how to find it, and whether it looks other
// than without the focus.
async function stops(tab, look = async () => undefined) {
	const found = [];
	await tab.evaluate(() => {
		document.activeElement.blur();
		window.scrollTo(0, 0);
	});
	for (let i = 0; i < MOST_STOPS; i++) {
		await tab.keyboard.press('Tab');
		const stop = await tab.evaluate(describeFocus);
		if (!stop || found.some((before) => before.path === stop.path)) {
			return found;
		}
		found.push({ ...stop, seen: await look(stop) });
	}
	throw new Error(`no end after ${MOST_STOPS} stops: ${found.at(-1).path}`);
}

function describeFocus() {
	const element = document.activeElement;
	if (!element || element === document.body) {
		return null;
	}
	const path = [];
	for (let at = element; at.parentElement; at = at.parentElement) {
		path.unshift(`${at.localName}:nth-child(${[...at.parentElement.children].indexOf(at) + 1})`);
	}
	const within = ['map', 'pass-range', 'play', 'turn', 'pass-table', 'checklist', 'side-choice'];
	return {
		path: path.join(' > '),
		id: element.id,
		kind: element.localName,
		within: within.filter((id) => element.closest(`#${id}`)),
		words: (element.getAttribute('aria-label') || element.textContent).trim().slice(0, 30),
	};
}

// How many pixels the focus changes: the place is photographed with and without.
async function ringSeen(tab) {
	const box = await tab.evaluate(() => {
		const element = document.activeElement;
		element.scrollIntoView({ block: 'nearest' });
		const { x, y, width, height } = element.getBoundingClientRect();
		return { x, y, width, height };
	});
	const size = tab.viewportSize();
	const left = Math.max(box.x - 6, 0);
	const top = Math.max(box.y - 6, 0);
	const clip = {
		x: left,
		y: top,
		width: Math.min(box.x + box.width + 6, size.width) - left,
		height: Math.min(box.y + box.height + 6, size.height) - top,
	};
	const shoot = async () => readPng(await tab.screenshot({ clip, animations: 'disabled' }));
	const ringed = await shoot();
	const focused = await tab.evaluateHandle(() => document.activeElement);
	await focused.evaluate((element) => element.blur());
	const plain = await shoot();
	await focused.evaluate((element) => element.focus({ preventScroll: true }));
	return Math.round(shareChanged(ringed, plain) * ringed.width * ringed.height);
}

module.exports = { LEAST_RING_PX, ringSeen, stops };
