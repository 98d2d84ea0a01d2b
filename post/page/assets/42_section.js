// SPDX-License-Identifier: GPL-3.0-or-later
// Draws a section into a box: ruling in mm, wood, lines, axes. Seen from the
// body toward the nut, so that +y lies on the right, as in the pictures.
(function (neckhew) {
	'use strict';

	const pen = neckhew.pen;
	const AIR_MM = 2;
	const RULE_EVERY = 10;
	const LEFT_PX = 44, BELOW_PX = 36, ABOVE_PX = 6, RIGHT_PX = 10;
	// px for each mm: steps, so that the scale stays while the mark wanders
	const SCALES = [20, 16, 14, 12, 10, 9, 8, 7, 6, 5, 4.5, 4, 3.5, 3, 2.5, 2, 1.75, 1.5, 1.25, 1];
	const FINE_RULING_PX = 3; // no single mm lines closer than this

	// Where the section goes in a box { x, y, width, height }.
	// Cropped, it ends above the wood that stands, however tall the blank was.
	function frame(profile, box, crop) {
		const half = Math.max(profile.minus || 0, profile.plus || 0, profile.boardHalf || 0, 10) +
			AIR_MM;
		const low = Math.min(profile.bottom || 0, -profile.boardThickness) - AIR_MM;
		const tops = profile.before.flatMap((run) => run.map((p) => p.z));
		const high = (crop ? Math.max(...tops, 10) : profile.top || 10) + AIR_MM;
		const room = box.width - LEFT_PX - RIGHT_PX, tall = box.height - BELOW_PX - ABOVE_PX;
		const most = Math.min(room / (2 * half), tall / (high - low));
		const scale = pen.isPrinting() ? most : SCALES.find((s) => s <= most) || most;
		const left = box.x + LEFT_PX + (room - 2 * half * scale) / 2;
		const top = box.y + ABOVE_PX, bottom = top + (high - low) * scale;
		return { half, low, high, scale, left, top, bottom, right: left + 2 * half * scale,
			y: (mm) => left + (mm + half) * scale,
			z: (mm) => bottom - (mm - low) * scale };
	}

	function ruling(g, f) {
		for (const by of f.scale >= FINE_RULING_PX ? [1, RULE_EVERY] : [RULE_EVERY]) {
			g.beginPath();
			for (const y of neckhew.scale.multiples(-f.half, f.half, by)) {
				g.moveTo(f.y(y), f.top);
				g.lineTo(f.y(y), f.bottom);
			}
			for (const z of neckhew.scale.multiples(f.low, f.high, by)) {
				g.moveTo(f.left, f.z(z));
				g.lineTo(f.right, f.z(z));
			}
			pen.stroke(g, by === 1 ? 'grid' : 'rule');
		}
	}

	// An open line, or with `floor` an area down to that z.
	function trace(g, f, points, floor) {
		points.forEach((p, i) => {
			if (i > 0)
				g.lineTo(f.y(p.y), f.z(p.z));
			else if (floor === undefined)
				g.moveTo(f.y(p.y), f.z(p.z));
			else {
				g.moveTo(f.y(p.y), f.z(floor));
				g.lineTo(f.y(p.y), f.z(p.z));
			}
		});
		if (floor !== undefined && points.length > 0)
			g.lineTo(f.y(points[points.length - 1].y), f.z(floor));
	}

	function wood(g, f, runs, floor, colour) {
		g.beginPath();
		for (const run of runs)
			trace(g, f, run, floor);
		pen.fill(g, colour);
	}

	function woodLine(g, f, runs, floor, kind) {
		g.beginPath();
		for (const run of runs)
			trace(g, f, run, floor);
		pen.stroke(g, kind);
	}

	// Hatched: what stood before the pass; the wood drawn over it leaves what the
	// pass has taken.
	function taken(g, f, profile) {
		neckhew.hatch.inside(g, () => {
			for (const run of profile.before)
				trace(g, f, run, profile.bottom);
		}, { x: f.left, y: f.top, width: f.right - f.left, height: f.bottom - f.top });
	}

	function channel(g, f, profile, width) {
		if (Number.isNaN(profile.channelFloor))
			return;
		g.beginPath();
		g.rect(f.y(-width / 2), f.z(profile.channelFloor), width * f.scale,
			(profile.channelFloor - profile.base) * f.scale);
		pen.fill(g, 'paper');
		pen.stroke(g, 'channel');
	}

	function board(g, f, profile) {
		if (Number.isNaN(profile.boardHalf))
			return;
		g.beginPath();
		g.rect(f.y(-profile.boardHalf), f.z(profile.base), 2 * profile.boardHalf * f.scale,
			profile.boardThickness * f.scale);
		pen.stroke(g, 'board');
	}

	function blank(g, f, profile) {
		if (Number.isNaN(profile.plus))
			return;
		g.save();
		g.beginPath();
		g.rect(f.left, f.top, f.right - f.left, f.bottom - f.top);
		g.clip();
		g.beginPath();
		g.rect(f.y(-profile.minus), f.z(profile.top), (profile.minus + profile.plus) * f.scale,
			(profile.top - profile.bottom) * f.scale);
		pen.stroke(g, 'blank');
		g.restore();
	}

	function axes(g, f, drawing, side) {
		const minus = drawing.neck.minus_side, plus = drawing.neck.plus_side;
		neckhew.scale.axisBelow(g, -f.half, f.half, f.y, f.bottom,
			side ? 'y, mm (' + minus + ' left, ' + plus + ' right)' : 'y, mm');
		neckhew.scale.axisLeft(g, f.low, f.high, f.z, f.left, 'z, mm');
	}

	// options: { pass, y, crop } where y, if given, is the marked place across.
	function draw(g, app, ix, box, options) {
		const drawing = app.model.drawing;
		const p = neckhew.profile.make(app, ix, options.pass);
		const f = frame(p, box, options.crop);
		ruling(g, f);
		if (options.pass > 0)
			taken(g, f, p);
		wood(g, f, p.standing, p.bottom, 'pale_wood');
		wood(g, f, p.roughed, p.bottom, 'light_wood');
		wood(g, f, [p.finished], undefined, 'wood');
		channel(g, f, p, drawing.channel ? drawing.channel.width_mm : 0);
		board(g, f, p);
		blank(g, f, p);
		woodLine(g, f, p.standing, p.bottom, 'standing');
		woodLine(g, f, p.roughed, p.bottom, 'roughed');
		woodLine(g, f, [p.allowance], undefined, 'allowance');
		g.beginPath();
		trace(g, f, p.finished);
		g.closePath();
		pen.stroke(g, 'finished');
		if (options.y >= -f.half && options.y <= f.half)
			pen.line(g, 'station', f.y(options.y), f.top, f.y(options.y), f.bottom + 3);
		axes(g, f, drawing, f.right - f.left > 180);
		return p;
	}

	neckhew.section = { draw };
})(window.neckhew = window.neckhew || {});
