// SPDX-License-Identifier: GPL-3.0-or-later
// The words that a page draws on its canvases: where each stands, whether it is
// cut off by the canvas's edge, and whether two are drawn over each other.
// `listen` must be in the page before its own scripts.
'use strict';

// Keeps the box of each text of a canvas since it was last cleared, in px.
function listen() {
	const pen = CanvasRenderingContext2D.prototype;
	const { fillText, clearRect } = pen;

	pen.clearRect = function (...box) {
		this.canvas.words = [];
		return clearRect.apply(this, box);
	};
	pen.fillText = function (words, x, y, ...rest) {
		const size = this.measureText(words);
		const corners = [
			[x - size.actualBoundingBoxLeft, y - size.actualBoundingBoxAscent],
			[x + size.actualBoundingBoxRight, y + size.actualBoundingBoxDescent],
		].map(([left, top]) => this.getTransform().transformPoint({ x: left, y: top }));
		const ratio = this.canvas.width / this.canvas.getBoundingClientRect().width || 1;
		const [xs, ys] = [corners.map((c) => c.x / ratio), corners.map((c) => c.y / ratio)];
		this.canvas.words = this.canvas.words || [];
		this.canvas.words.push({
			words: String(words),
			left: Math.min(...xs),
			right: Math.max(...xs),
			top: Math.min(...ys),
			bottom: Math.max(...ys),
		});
		return fillText.call(this, words, x, y, ...rest);
	};
}

function judge(slack) {
	const apart = (one, other) =>
		one.right <= other.left + slack ||
		other.right <= one.left + slack ||
		one.bottom <= other.top + slack ||
		other.bottom <= one.top + slack;
	const faults = [];
	for (const canvas of document.querySelectorAll('canvas')) {
		const { width, height } = canvas.getBoundingClientRect();
		const sheet = { left: 0, top: 0, right: width, bottom: height };
		const texts = (canvas.words || []).filter((text) => !apart(text, sheet));
		const name = canvas.id || canvas.getAttribute('aria-label');
		texts.forEach((one, i) => {
			if (one.left < -slack || one.right > width + slack) {
				faults.push(`${name}: "${one.words}" is cut off at the side`);
			}
			if (one.top < -slack || one.bottom > height + slack) {
				faults.push(`${name}: "${one.words}" is cut off above or below`);
			}
			for (const other of texts.slice(i + 1)) {
				if (!apart(one, other)) {
					faults.push(`${name}: "${one.words}" and "${other.words}" overlap`);
				}
			}
		});
	}
	return faults;
}

const SLACK_PX = 1;

module.exports = {
	listen,
	letterFaults: (page) => page.evaluate(judge, SLACK_PX),
	letterCount: (page) =>
		page.$$eval('canvas', (all) => all.reduce((sum, c) => sum + (c.words || []).length, 0)),
};
