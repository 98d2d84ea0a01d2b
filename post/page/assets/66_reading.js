// SPDX-License-Identifier: GPL-3.0-or-later
// What holds at the mark, in figures, and in a sentence for those who listen.
// The sentence waits until the mark has come to rest: a voice that starts anew
// with every column says nothing at all.
(function (neckhew) {
	'use strict';

	const REST_MS = 700;

	function at(app) {
		const { model, state } = app;
		const i = state.iy * model.nx + state.ix;
		const standing = model.standing(state.pass - 1)[i];
		return {
			x: model.x(state.ix), y: model.y(state.iy),
			cut: state.pass > 0 && standing === standing ? model.cut(state.pass - 1)[i]
				: standing === standing ? 0 : NaN,
			standing,
			over: standing - model.finished[i],
			stock: model.stock[i]
		};
	}

	function sentence(app, r) {
		const n = (v) => neckhew.words.number(v, 2);
		const begin = neckhew.passes.title(app.model, app.state.pass) + '. x ' + n(r.x) + ', y ' +
			n(r.y) + ' mm, ' + neckhew.words.side(app.model.drawing, r.y) + ': ';
		if (Number.isNaN(r.standing))
			return begin + 'no wood here.';
		const rest = [['over the finished line', r.over], ['stock left at the end', r.stock]]
			.filter(([, v]) => Number.isFinite(v)).map(([words, v]) => ', ' + words + ' ' + n(v));
		return begin + 'cut here ' + n(r.cut) + ', wood standing ' + n(r.standing) +
			rest.join('') + ' mm.';
	}

	function make(app, controls) {
		const spots = {};
		for (const spot of document.querySelectorAll('#reading [data-figure]'))
			spots[spot.dataset.figure] = spot;
		const side = document.getElementById('reading-side');
		const spoken = document.getElementById('spoken');
		const hold = document.getElementById('hold-note');
		let waiting = 0, begun = false;

		function speakLater(r) {
			clearTimeout(waiting);
			if (begun && !controls.playing())
				waiting = setTimeout(() => { spoken.textContent = sentence(app, r); }, REST_MS);
			begun = true;
		}
		app.state.write(['pass', 'ix', 'iy'], () => {
			const r = at(app);
			for (const key of Object.keys(spots))
				spots[key].textContent = neckhew.words.plain(r[key], 2);
			side.textContent = neckhew.words.side(app.model.drawing, r.y);
			speakLater(r);
		});
		app.state.write(['held'], () => {
			hold.textContent = app.state.held ? 'The mark is held here. Click the map to let it go.'
				: 'The mark follows the mouse. Click the map to hold it.';
		});
	}

	neckhew.reading = { make };
})(window.neckhew = window.neckhew || {});
