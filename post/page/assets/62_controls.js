// SPDX-License-Identifier: GPL-3.0-or-later
// Slider, steps and play. Who has asked their system for less motion gets no
// play by itself: the button then goes one pass on at a time.
(function (neckhew) {
	'use strict';

	const calm = window.matchMedia('(prefers-reduced-motion: reduce)');

	function player(app, button, pace) {
		let timer = 0;
		const playing = () => timer !== 0;

		function say() {
			button.textContent = playing() ? 'stop' : calm.matches ? 'next pass' : 'play';
			if (calm.matches)
				button.removeAttribute('aria-pressed');
			else
				button.setAttribute('aria-pressed', String(playing()));
		}
		function stop() {
			clearTimeout(timer);
			timer = 0;
			say();
		}
		function on() {
			app.state.set({ pass: app.state.pass + 1 });
			if (app.state.pass < app.model.passCount)
				timer = setTimeout(on, Number(pace.value));
			else
				stop();
		}
		function start() {
			if (app.state.pass >= app.model.passCount)
				app.state.set({ pass: 0 });
			timer = setTimeout(on, Number(pace.value));
			say();
		}
		function toggle() {
			if (calm.matches)
				app.state.set({ pass: (app.state.pass + 1) % (app.model.passCount + 1) });
			else if (playing())
				stop();
			else
				start();
		}
		calm.addEventListener('change', stop);
		say();
		return { toggle, stop, playing };
	}

	function make(app) {
		const range = document.getElementById('pass-range');
		const name = document.getElementById('pass-name');
		const player1 = player(app, document.getElementById('play'), document.getElementById('pace'));
		// by hand: a play in progress would run away with the choice
		const choose = (n) => {
			player1.stop();
			app.state.set({ pass: Math.min(Math.max(n, 0), app.model.passCount) });
		};

		range.max = String(app.model.passCount);
		range.addEventListener('input', () => choose(Number(range.value)));
		document.getElementById('play').addEventListener('click', player1.toggle);
		document.getElementById('pass-back').addEventListener('click', () => choose(app.state.pass - 1));
		document.getElementById('pass-on').addEventListener('click', () => choose(app.state.pass + 1));
		app.state.write(['pass'], () => {
			range.value = String(app.state.pass);
			range.setAttribute('aria-valuetext', neckhew.passes.title(app.model, app.state.pass));
			name.textContent = neckhew.passes.title(app.model, app.state.pass);
			document.body.dataset.pass = String(app.state.pass);
		});
		return { choose, toggle: player1.toggle, playing: player1.playing };
	}

	neckhew.controls = { make };
})(window.neckhew = window.neckhew || {});
