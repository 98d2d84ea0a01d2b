// SPDX-License-Identifier: GPL-3.0-or-later
// Where the turning view is looked at from: sums only, no page, no WebGL.
//
// A place of the eye is { around, over, off, target }. The eye stands on a ball
// of radius `off` mm round the point `target` of the stock. `around` is its way
// round in degrees: 0 behind the body's end (+x), 90 on the plus side (+y);
// `over` is its height in degrees, 90 straight above.
(function (neckhew) {
	'use strict';

	const OPENING_DEG = 20; // of the lens: long, so that lengths can be compared
	const MARGIN = 1.06; // of paper round the stock
	const NEAREST_MM = 60;

	// Peghead to the left and body to the right, as on the maps. `part` names the
	// box that is looked at.
	const VIEWS = {
		whole: { around: -66, over: 32, part: 'all' },
		above: { around: -90, over: 90, part: 'all' },
		side: { around: -90, over: 0, part: 'all' },
		heel: { around: -22, over: 24, part: 'all' },
		cheek: { around: -132, over: 30, part: 'heel' },
		below: { around: -66, over: -38, part: 'all' }
	};

	const radians = (deg) => deg * Math.PI / 180;
	const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
	const clamp = (v, least, most) => Math.min(Math.max(v, least), most);

	// Unit vectors: from the stock to the eye, to the right in the picture, up in
	// it. They hold straight above and below too.
	function axes(place) {
		const a = radians(place.around), o = radians(place.over);

		return {
			out: [Math.cos(o) * Math.cos(a), Math.cos(o) * Math.sin(a), Math.sin(o)],
			right: [-Math.sin(a), Math.cos(a), 0],
			up: [-Math.sin(o) * Math.cos(a), -Math.sin(o) * Math.sin(a), Math.cos(o)]
		};
	}

	// Middle of what the points span along a direction.
	function middle(points, direction) {
		const along = points.map((v) => dot(v, direction));

		return (Math.min(...along) + Math.max(...along)) / 2;
	}

	// So far must the eye stand off to see all points. aspect: width of the
	// picture over its height.
	function fit(place, points, aspect) {
		const { out, right, up } = axes(place);
		const tall = Math.tan(radians(OPENING_DEG) / 2), wide = tall * aspect;
		let off = NEAREST_MM;

		for (const point of points) {
			const v = point.map((at, i) => at - place.target[i]);
			off = Math.max(off, dot(v, out) +
				MARGIN * Math.max(Math.abs(dot(v, right)) / wide, Math.abs(dot(v, up)) / tall));
		}
		return off;
	}

	// The place of a named view; bodies has for each `part` above the points of
	// its outline.
	function view(name, bodies, aspect) {
		const { around, over, part } = VIEWS[name], points = bodies[part];
		const place = { around, over, target: [0, 0, 0], off: 0 };

		for (const direction of Object.values(axes(place))) {
			const m = middle(points, direction);
			place.target = place.target.map((v, i) => v + m * direction[i]);
		}
		place.off = fit(place, points, aspect);
		return place;
	}

	// Least and most of the points along x, y and z.
	function bounds(points) {
		const of = (pick) => [0, 1, 2].map((i) => pick(...points.map((v) => v[i])));

		return { least: of(Math.min), most: of(Math.max) };
	}

	function turn(place, around, over) {
		place.around = (place.around + around + 540) % 360 - 180;
		place.over = clamp(place.over + over, -90, 90);
	}

	// Looks at a point further right and up in the picture, but within a box.
	function slide(place, box, rightMm, upMm) {
		const { right, up } = axes(place);

		place.target = place.target.map((v, i) =>
			clamp(v + right[i] * rightMm + up[i] * upMm, box.least[i], box.most[i]));
	}

	function approach(place, factor, farthestMm) {
		place.off = clamp(place.off / factor, NEAREST_MM, farthestMm);
	}

	// From a to b, the shorter way round; t from 0 to 1.
	function between(a, b, t) {
		const mix = (u, v) => u + (v - u) * t;

		return {
			around: a.around + ((b.around - a.around + 540) % 360 - 180) * t,
			over: mix(a.over, b.over),
			off: mix(a.off, b.off),
			target: a.target.map((v, i) => mix(v, b.target[i]))
		};
	}

	// What faces the eye: 'above, the treble side and the body end'.
	function words(place, neck) {
		const out = axes(place).out;
		const list = [];

		if (Math.abs(out[2]) > 0.3)
			list.push(out[2] > 0 ? 'above' : 'below');
		if (Math.abs(out[1]) > 0.3)
			list.push('the ' + (out[1] > 0 ? neck.plus_side : neck.minus_side) + ' side');
		if (Math.abs(out[0]) > 0.3)
			list.push(out[0] > 0 ? 'the body end' : 'the peghead end');
		const last = list.pop();
		return list.length > 0 ? list.join(', ') + ' and ' + last : last;
	}

	// mm of the stock for each px of a picture so many px tall.
	function grain(place, heightPx) {
		return 2 * place.off * Math.tan(radians(OPENING_DEG) / 2) / Math.max(heightPx, 1);
	}

	neckhew.turnCamera = {
		OPENING_DEG, axes, view, bounds, turn, slide, approach, between, words, grain
	};
})(window.neckhew = window.neckhew || {});
