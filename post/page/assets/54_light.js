// SPDX-License-Identifier: GPL-3.0-or-later
// The light under the straight edge, magnified: the edge is the line at the
// top, the wood hangs under it. Widths of light of a few hundredths show here
// that nobody could see in the side view.
(function (neckhew) {
	'use strict';

	const pen = neckhew.pen;
	const HEIGHT_PX = 88, PRINT_HEIGHT_PX = 50, BELOW_PX = 3;
	const LEAST_MM = 0.2; // a finer scale would only magnify the columns' rounding

	function height() {
		return pen.isPrinting() ? PRINT_HEIGHT_PX : HEIGHT_PX;
	}

	// Full of the scale for both lines.
	function fullOf(lays) {
		const most = Math.max(LEAST_MM, ...lays.filter(Boolean).map((l) => l.most.gap));
		return neckhew.scale.ceiling(most, neckhew.scale.step(most, 4));
	}

	function trace(g, laid, x, y) {
		laid.gaps.forEach((p, i) => {
			if (i === 0)
				g.moveTo(x(p.x), y(p.gap));
			else
				g.lineTo(x(p.x), y(p.gap));
		});
	}

	// Below a side view of frame f, its top at `top`. Returns the magnification.
	function draw(g, f, top, now, finished) {
		const full = fullOf([now, finished]);
		const tall = height();
		const y = (gap) => top + gap / full * tall;
		if (now) {
			g.beginPath();
			trace(g, now, f.x, y);
			g.lineTo(f.x(now.to), top + tall);
			g.lineTo(f.x(now.from), top + tall);
			g.closePath();
			pen.fill(g, 'pale_wood');
			g.beginPath();
			trace(g, now, f.x, y);
			pen.stroke(g, 'standing');
			pen.line(g, 'finished', f.x(now.from), top, f.x(now.to), top);
		}
		if (finished) {
			g.beginPath();
			trace(g, finished, f.x, y);
			pen.stroke(g, 'dashes');
		}
		neckhew.scale.axisLeft(g, 0, full, y, f.left, 'light, mm');
		return tall / full / f.scale;
	}

	neckhew.light = { draw, height: () => height() + BELOW_PX };
})(window.neckhew = window.neckhew || {});
