// SPDX-License-Identifier: GPL-3.0-or-later
// What there is to say about the chosen pass.
(function (neckhew) {
	'use strict';

	const number = neckhew.words.number;

	// n counts from 1; 0 is the blank.
	function title(model, n) {
		if (n === 0)
			return 'the blank, before the first pass';
		const p = model.passes[n - 1].figures;
		return 'pass ' + n + ' of ' + model.passCount + ': ' + p.kind + ', z ' +
			number(p.level_mm, 2) + ' mm';
	}

	function minutesUpTo(model, n) {
		return model.passes.slice(0, n).reduce((sum, pass) => sum + pass.figures.minutes, 0);
	}

	// Pairs of term and figure.
	function rows(model, n) {
		const all = minutesUpTo(model, model.passCount);
		if (n === 0)
			return [['passes to come', String(model.passCount)],
				['time for all of them', number(all, 1) + ' min']];
		const pass = model.passes[n - 1], p = pass.figures;
		return [
			['program', pass.file],
			['deepest bite', number(p.deepest_bite_mm, 2) + ' mm'],
			['feed', number(p.feed_mm_per_min, 0) + ' mm/min'],
			['held back by', p.feed_cap],
			['cutting length', number(p.length_mm / 1000, 2) + ' m'],
			['of it idle', number(p.idle_mm / 1000, 2) + ' m'],
			['volume', number(p.volume_mm3 / 1000, 2) + ' cm\u00b3'],
			['time', number(p.minutes, 1) + ' min'],
			['up to its end', number(minutesUpTo(model, n), 1) + ' of ' + number(all, 1) + ' min']
		];
	}

	// The pass that takes off most: a telling one to begin with.
	function telling(model) {
		const volumes = model.passes.map((pass) => pass.figures.volume_mm3);
		return volumes.indexOf(Math.max(...volumes)) + 1;
	}

	function make(app) {
		const list = document.getElementById('pass-figures');
		app.state.write(['pass'], () => {
			list.replaceChildren(...rows(app.model, app.state.pass).map(([term, figure]) => {
				const row = neckhew.sectionViews.element('div');
				row.append(neckhew.sectionViews.element('dt', '', term),
					neckhew.sectionViews.element('dd', '', figure));
				return row;
			}));
		});
	}

	neckhew.passes = { title, telling, make };
})(window.neckhew = window.neckhew || {});
