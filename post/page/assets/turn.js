// SPDX-License-Identifier: GPL-3.0-or-later
// The stock after a pass, to turn about. Where WebGL is missing or fails later
// the plain picture of turn_plain.js takes its place.
(function (neckhew) {
	'use strict';

	const TALL = 0.48; // height of the picture as a share of its width
	const TALL_LEAST_PX = 260, TALL_MOST_PX = 560;
	const HEEL_MM = 30; // shown in front of it, when the heel alone is looked at
	const RATIO_MOST = 2; // finer dots than these cost more than they show

	const HINT = 'The darker the wood, the more this pass took off there, as on the pass map; pale ' +
		'wood it left alone. Drag to turn, with Shift to slide along. With the picture in focus: ' +
		'arrows turn, Shift and arrows slide, + and \u2212 bring nearer and farther, Home shows ' +
		'the whole again. On a touch screen two fingers slide and bring nearer.';

	const BUTTONS = [
		['the whole', (eye) => eye.go('whole')],
		['from above', (eye) => eye.go('above')],
		['from the side', (eye) => eye.go('side')],
		['from the heel', (eye) => eye.go('heel')],
		['from below', (eye) => eye.go('below')],
		['the heel alone', (eye) => eye.go('cheek')],
		['nearer', (eye) => eye.nearer(neckhew.turnHand.NEARER)],
		['farther', (eye) => eye.nearer(1 / neckhew.turnHand.NEARER)]
	];

	// Corners of the blank's outline, and those of its end round the heel.
	function bodies(model, plan) {
		const row = (model.ny >> 1) * model.nx, heel = model.drawing.neck.heel_start_mm - HEEL_MM;
		const all = [];

		for (let i = 0; i < plan.nx; i++) {
			const top = model.blank[row + plan.column[i]];
			for (const y of [-plan.minus[i], plan.plus[i]])
				all.push([plan.x[i], y, plan.bottom[i]], [plan.x[i], y, top]);
		}
		const end = all.filter((v) => v[0] >= heel);
		return { all, heel: end.length > 0 ? end : all };
	}

	function lay(host) {
		const { element } = neckhew.turnLook;
		const canvas = element('canvas', 'turn-canvas');
		const buttons = element('div', 'turn-buttons');
		const label = element('label', 'turn-choice');
		const choice = document.createElement('input');
		const hint = element('p', 'note', HINT);

		canvas.tabIndex = 0;
		canvas.setAttribute('role', 'img');
		canvas.setAttribute('aria-describedby', 'turn-hint');
		hint.id = 'turn-hint';
		buttons.setAttribute('role', 'group');
		buttons.setAttribute('aria-label', 'Where to look from');
		choice.type = 'checkbox';
		label.append(choice, ' ', element('span', '', 'show the finished neck inside'));
		host.append(canvas, buttons, hint);
		return { canvas, buttons, label, choice, hint };
	}

	function addButtons(parts, eye) {
		for (const [text, press] of BUTTONS) {
			const button = neckhew.turnLook.element('button', '', text);
			button.type = 'button';
			button.addEventListener('click', () => press(eye));
			parts.buttons.append(button);
		}
		parts.buttons.append(parts.label);
	}

	// Calls draw() once before the next frame, however often it is asked, and
	// only while the picture is near the window.
	function painter(canvas, draw) {
		let asked = 0, wanted = false, seen = false;

		function ask() {
			wanted = true;
			if (seen && !asked)
				asked = requestAnimationFrame(function () {
					asked = 0;
					wanted = false;
					draw();
				});
		}
		const watch = new IntersectionObserver(function (entries) {
			seen = entries[entries.length - 1].isIntersecting;
			if (seen && wanted)
				ask();
		}, { rootMargin: '150px' });
		watch.observe(canvas);
		return {
			ask,
			free: function () {
				cancelAnimationFrame(asked);
				watch.disconnect();
			}
		};
	}

	// Keeps the picture as wide as its host.
	function sizing(host, canvas, scene, eye) {
		function fit() {
			const width = host.clientWidth;
			if (width === 0)
				return;
			const height = Math.round(Math.min(Math.max(width * TALL, TALL_LEAST_PX), TALL_MOST_PX));
			const ratio = Math.min(window.devicePixelRatio || 1, RATIO_MOST);
			const key = [width, height, ratio].join(' ');
			if (canvas.dataset.size === key)
				return;
			canvas.dataset.size = key;
			canvas.style.height = height + 'px';
			scene.size(width, height, ratio);
			eye.refit();
		}
		const watch = new ResizeObserver(fit);
		watch.observe(host);
		window.addEventListener('resize', fit); // also when only the ratio changes
		fit();
		return {
			free: function () {
				watch.disconnect();
				window.removeEventListener('resize', fit);
			}
		};
	}

	function sentence(model, pass, place) {
		return neckhew.turnLook.stock(model, pass) + ', seen from ' +
			neckhew.turnCamera.words(place, model.drawing.neck) + '.' +
			(pass < 0 ? '' : ' The darker the wood, the more this pass took off there.');
	}

	// The view in a host; null where WebGL is not to be had. lost() is called if
	// it goes away later.
	function view(host, model, lost) {
		const parts = lay(host), { canvas } = parts;
		const gl = window.THREE ? neckhew.turnScene.context(canvas) : null;

		if (!gl) {
			host.replaceChildren();
			return null;
		}
		const plan = neckhew.turnLayout.make(model.drawing.planes, model.drawing.along, model.blank);
		const solid = neckhew.turnMesh.make(plan), body = bodies(model, plan);
		const box = neckhew.turnCamera.bounds(body.all);
		const reach = Math.hypot(...box.most.map((v, i) => v - box.least[i]));
		const scene = neckhew.turnScene.make(canvas, gl, model, solid, reach);
		const paint = neckhew.turnLook.painter(model);
		let pass = -1, filled = null;

		function draw() {
			if (filled !== pass) {
				neckhew.turnMesh.fill(solid, model.standing(pass),
					pass < 0 ? null : model.cut(pass), paint);
				scene.refresh();
				filled = pass;
			}
			scene.draw(eye.place);
			canvas.dataset.drawn = pass + 1;
			name();
		}
		function name() {
			canvas.setAttribute('aria-label', sentence(model, pass, eye.place));
		}
		const painting = painter(canvas, draw);
		const shape = () => canvas.clientWidth / Math.max(canvas.clientHeight, 1) || 1;
		const eye = neckhew.turnHand.make(canvas, body, shape, painting.ask);
		const size = sizing(host, canvas, scene, eye);

		function neckInside() {
			scene.neck(parts.choice.checked);
			painting.ask();
		}
		parts.choice.addEventListener('change', neckInside);
		canvas.addEventListener('webglcontextlost', lost);
		addButtons(parts, eye);
		neckInside();
		return {
			show: function (index) {
				pass = index;
				name();
				painting.ask();
			},
			free: function () {
				canvas.removeEventListener('webglcontextlost', lost);
				for (const part of [painting, size, eye, scene])
					part.free();
				host.replaceChildren();
			}
		};
	}

	function plain(host, model, why) {
		return neckhew.turnPlain.make(document.getElementById('turn-plain') || host, model, why);
	}

	// host: an empty element. -> { show(passIndex), free() }; -1 is the blank.
	function make(host, model) {
		let pass = -1;
		let shown = view(host, model, function () {
			shown.free();
			shown = plain(host, model, 'The graphics of this computer gave up the turning view.');
			shown.show(pass);
		});

		if (!shown)
			shown = plain(host, model, 'This browser offers no WebGL, which the turning view needs.');
		shown.show(pass);
		return {
			show: function (index) {
				pass = index;
				shown.show(index);
			},
			free: () => shown.free()
		};
	}

	neckhew.turn = { make };
})(window.neckhew = window.neckhew || {});
