// SPDX-License-Identifier: GPL-3.0-or-later
// Turning by hand: mouse, fingers and keys move the eye of one canvas. Nothing
// glides on after the hand lets go. Named views are swung to briefly, or taken
// at once for who asked their system for less motion.
(function (neckhew) {
	'use strict';

	const DEG_PER_PX = 0.4;
	const DEG_PER_KEY = 5;
	const MM_PER_KEY = 10;
	const NEARER = 1.2;
	const WHEEL = 0.004; // exponent of nearness for each px of a wheel
	const SWING_MS = 260;
	const BEYOND = 2.5; // farther off than the whole side asks for

	const still = () => window.matchMedia('(prefers-reduced-motion: reduce)').matches;

	// Brings the eye from where it is to a place, within SWING_MS.
	function swinging(self, changed) {
		let frame = 0;

		return {
			halt: function () {
				cancelAnimationFrame(frame);
				frame = 0;
			},
			to: function (goal) {
				const from = self.place, begin = performance.now();
				const step = function (now) {
					const t = Math.min(Math.max((now - begin) / SWING_MS, 0), 1);
					const part = t * t * (3 - 2 * t);
					frame = t < 1 ? requestAnimationFrame(step) : 0;
					self.place = t < 1 ? neckhew.turnCamera.between(from, goal, part) : goal;
					changed();
				};
				frame = requestAnimationFrame(step);
			}
		};
	}

	// The named views. Moved by hand, the eye is at none of them.
	function eye(bodies, shape, changed) {
		const view = (name) => neckhew.turnCamera.view(name, bodies, shape());
		const self = { place: view('whole'), name: 'whole' };
		const swing = swinging(self, changed);

		self.halt = swing.halt;
		self.go = function (name) {
			swing.halt();
			self.name = name;
			if (!still()) {
				swing.to(view(name));
				return;
			}
			self.place = view(name);
			changed();
		};
		// The picture has another shape: a named view is fitted to it anew.
		self.refit = function () {
			if (self.name) {
				swing.halt();
				self.place = view(self.name);
			}
			changed();
		};
		return self;
	}

	// Turning, sliding and coming nearer by steps, and by drags in px.
	function addMoves(self, canvas, bodies, shape, changed) {
		const camera = neckhew.turnCamera, box = camera.bounds(bodies.all);
		const farthest = () => BEYOND * camera.view('side', bodies, shape()).off;
		const moving = (move) => function (...how) {
			move(...how);
			self.halt();
			self.name = '';
			changed();
		};

		self.nearer = moving((factor) => camera.approach(self.place, factor, farthest()));
		self.turn = moving((around, over) => camera.turn(self.place, around, over));
		self.slide = moving((right, up) => camera.slide(self.place, box, right, up));
		self.drag = function (dx, dy, sliding) {
			const mm = camera.grain(self.place, canvas.clientHeight);
			if (sliding)
				self.slide(-dx * mm, dy * mm);
			else
				self.turn(-dx * DEG_PER_PX, dy * DEG_PER_PX);
		};
	}

	// One finger or the mouse turns, with Shift it slides. Two fingers slide by
	// their middle and come nearer by their distance.
	function pointers(canvas, self, how) {
		const fingers = new Map();
		const spread = function () {
			const [a, b] = fingers.values();
			return Math.max(Math.hypot(a.x - b.x, a.y - b.y), 1);
		};
		const up = (event) => fingers.delete(event.pointerId);

		canvas.addEventListener('pointerdown', function (event) {
			if (event.button !== 0)
				return;
			self.halt();
			fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
			canvas.setPointerCapture(event.pointerId);
		}, how);
		canvas.addEventListener('pointermove', function (event) {
			const finger = fingers.get(event.pointerId);
			if (!finger)
				return;
			const before = fingers.size === 2 ? spread() : 0;
			const dx = event.clientX - finger.x, dy = event.clientY - finger.y;
			finger.x = event.clientX;
			finger.y = event.clientY;
			if (before > 0) {
				self.nearer(spread() / before);
				self.drag(dx / 2, dy / 2, true);
			} else if (fingers.size === 1) {
				self.drag(dx, dy, event.shiftKey);
			}
		}, how);
		for (const name of ['pointerup', 'pointercancel'])
			canvas.addEventListener(name, up, how);
	}

	function arrow(self, event, x, y) {
		if (event.shiftKey)
			self.slide(x * MM_PER_KEY, y * MM_PER_KEY);
		else
			self.turn(-x * DEG_PER_KEY, -y * DEG_PER_KEY);
	}

	function keys(canvas, self, how) {
		const table = {
			ArrowLeft: (event) => arrow(self, event, -1, 0),
			ArrowRight: (event) => arrow(self, event, 1, 0),
			ArrowUp: (event) => arrow(self, event, 0, 1),
			ArrowDown: (event) => arrow(self, event, 0, -1),
			'+': () => self.nearer(NEARER),
			'=': () => self.nearer(NEARER),
			'-': () => self.nearer(1 / NEARER),
			_: () => self.nearer(1 / NEARER),
			Home: () => self.go('whole')
		};

		canvas.addEventListener('keydown', function (event) {
			if (event.ctrlKey || event.altKey || event.metaKey || !table[event.key])
				return;
			event.preventDefault();
			table[event.key](event);
		}, how);
	}

	// A plain wheel belongs to the page. With Ctrl, as two fingers on a pad send
	// it too, it belongs to the view.
	function wheel(canvas, self, signal) {
		canvas.addEventListener('wheel', function (event) {
			if (!event.ctrlKey)
				return;
			event.preventDefault();
			self.nearer(Math.exp(-event.deltaY * WHEEL));
		}, { signal, passive: false });
	}

	// The eye of one canvas. bodies: see turn_camera.js; shape() is the picture's
	// width over its height; changed() asks for a new picture.
	// -> { place, go(name), nearer(factor), refit(), free() }
	function make(canvas, bodies, shape, changed) {
		const gone = new AbortController();
		const self = eye(bodies, shape, changed);

		addMoves(self, canvas, bodies, shape, changed);
		pointers(canvas, self, { signal: gone.signal });
		keys(canvas, self, { signal: gone.signal });
		wheel(canvas, self, gone.signal);
		self.free = function () {
			self.halt();
			gone.abort();
		};
		return self;
	}

	neckhew.turnHand = { make, NEARER };
})(window.neckhew = window.neckhew || {});
