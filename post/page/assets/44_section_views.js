// SPDX-License-Identifier: GPL-3.0-or-later
// The section at the mark with its legend and heights, and a small section for
// each station, which is also a way to put the mark there.
(function (neckhew) {
	'use strict';

	const pen = neckhew.pen;
	const SHARE = 0.56; // height of the drawing for its width
	const PRINT_SHARE = 0.53;

	function element(name, className, text) {
		const e = document.createElement(name);
		if (className)
			e.className = className;
		if (text !== undefined)
			e.textContent = text;
		return e;
	}

	// A patch of a legend: a line of its kind, or wood, or hatching.
	function sample(kind, colour) {
		const canvas = element('canvas', 'sample');
		const ratio = 3;
		canvas.width = 36 * ratio;
		canvas.height = 14 * ratio;
		canvas.setAttribute('aria-hidden', 'true');
		const g = canvas.getContext('2d');
		g.scale(ratio, ratio);
		g.beginPath();
		g.rect(0, kind ? 7 : 0, 36, 14);
		if (colour === 'hatch')
			neckhew.hatch.rectangle(g, 0, 0, 36, 14);
		else if (colour)
			pen.fill(g, colour);
		if (kind)
			pen.line(g, kind, 0, 7, 36, 7);
		return canvas;
	}

	const ROWS = [
		['blank', 'blank', null],
		['standing', 'standing after this pass', 'pale_wood', 'standing'],
		['taken', 'this pass takes it off', 'hatch'],
		['roughed', 'roughed in the end', 'light_wood', 'roughed'],
		['allowance', 'allowance asked for', null, 'allowance'],
		['finished', 'finished', 'wood', 'finished'],
		['channel', 'channel; wood over it', null, 'channel'],
		['board', 'fretboard', null, 'board']
	];

	// Rows of the legend with a place for each figure.
	function legend(host) {
		const figures = {};
		const list = element('dl', 'legend-list');
		for (const [key, words, colour, kind] of ROWS) {
			const row = element('div');
			const term = element('dt');
			term.append(sample(key === 'blank' ? 'blank' : kind, colour), element('span', '', words));
			figures[key] = element('dd', 'number', '');
			row.append(term, figures[key]);
			list.append(row);
		}
		host.append(element('p', 'note', 'Heights over the gluing face at the mark, mm'), list);
		return figures;
	}

	// What the legend says at the mark.
	function heights(app, profile) {
		const { model, state, along } = app;
		const i = state.iy * model.nx + state.ix;
		const drawing = model.drawing;
		const z = model.finished[i];
		return {
			blank: model.blank[i],
			standing: model.standing(state.pass - 1)[i],
			taken: state.pass > 0 ? model.cut(state.pass - 1)[i] : 0,
			roughed: model.roughed[i],
			allowance: z === z ? neckhew.profile.allowance(drawing, profile.x, z) : NaN,
			finished: z,
			channel: along.at('crest_mm', profile.x) - profile.channelFloor,
			board: Number.isNaN(profile.boardHalf) ? NaN : profile.boardThickness
		};
	}

	function spoken(app, h) {
		const n = (v) => neckhew.words.number(v, 2);
		return 'Section across the neck, x ' + n(app.model.x(app.state.ix)) +
			' mm. At the mark: blank ' + n(h.blank) + ', standing ' + n(h.standing) +
			', roughed ' + n(h.roughed) + ', finished ' + n(h.finished) + ' mm.';
	}

	function main(app) {
		const canvas = document.getElementById('section');
		const title = document.getElementById('section-title');
		const figures = legend(document.getElementById('section-legend'));
		function draw() {
			const share = pen.isPrinting() ? PRINT_SHARE : SHARE;
			const sheet = pen.ground(canvas, (width) => Math.min(width * share, 460));
			const profile = neckhew.section.draw(sheet.pen, app, app.state.ix,
				{ x: 0, y: 0, width: sheet.width, height: sheet.height },
				{ pass: app.state.pass, y: app.model.y(app.state.iy) });
			const h = heights(app, profile);
			for (const key of Object.keys(figures))
				figures[key].textContent = neckhew.words.number(h[key], 2);
			title.textContent = 'Section A\u2013A at x ' +
				neckhew.words.number(app.model.x(app.state.ix), 2) + ' mm';
			canvas.setAttribute('aria-label', spoken(app, h));
		}
		app.state.draw(['pass', 'ix', 'iy'], draw);
	}

	function station(app, host, place, share) {
		const item = element('li');
		const button = element('button', '', place.name);
		const canvas = element('canvas');
		const at = app.model.at(place.x_mm, 0);
		button.type = 'button';
		button.setAttribute('aria-label', 'Put the mark at ' + place.name);
		button.addEventListener('click', () => app.state.set(Object.assign({ held: true }, at)));
		canvas.setAttribute('role', 'img');
		canvas.dataset.paperShare = String(share);
		item.append(button, element('span', 'note', ' x ' +
			neckhew.words.number(place.x_mm, 1) + ' mm'), canvas);
		host.append(item);
		app.state.draw(['pass'], () => {
			const sheet = pen.ground(canvas, (width) => width * (pen.isPrinting() ? 0.62 : 0.6));
			neckhew.section.draw(sheet.pen, app, at.ix,
				{ x: 0, y: 0, width: sheet.width, height: sheet.height },
				{ pass: app.state.pass, crop: true });
			canvas.setAttribute('aria-label', 'Section at ' + place.name);
		});
	}

	function make(app) {
		main(app);
		const host = document.getElementById('stations');
		const places = app.model.drawing.stations;
		// on paper beside the section at the mark, in one row or two
		const share = places.length <= 2 ? 0.27 : 0.18;
		host.classList.toggle('many', places.length > 2);
		for (const place of places)
			station(app, host, place, share);
	}

	neckhew.sectionViews = { make, element };
})(window.neckhew = window.neckhew || {});
