// SPDX-License-Identifier: GPL-3.0-or-later
// Puts the page together once everything is there. If the maps cannot be
// unpacked the page says so; its tables and the checklist hold good without.
(function (neckhew) {
	'use strict';

	function giveUp(fault) {
		const notice = document.getElementById('no-drawing');
		const old = typeof DecompressionStream === 'undefined';
		notice.textContent = old
			? 'This browser cannot unpack the maps in this page: it is too old. The tables and the ' +
				'checklist below hold good; the pictures are in the folder beside this page.'
			: 'The maps in this page could not be drawn (' + fault.message + '). The tables and the ' +
				'checklist below hold good; the pictures are in the folder beside this page.';
		notice.hidden = false;
		document.body.classList.add('undrawn');
	}

	function begin(model) {
		const neck = model.drawing.neck;
		const middle = model.at((neck.straight_from_mm + neck.straight_to_mm) / 2, 0);
		const app = {
			model,
			along: neckhew.along.make(model.drawing.along),
			part: neckhew.plan.worthDrawing(model),
			state: neckhew.state.make({ pass: neckhew.passes.telling(model), ix: middle.ix,
				iy: middle.iy })
		};
		neckhew.pen.setColours(model.drawing.colours);
		const controls = neckhew.controls.make(app);
		neckhew.passes.make(app);
		const map = neckhew.map.make(app), stockMap = neckhew.stockMap.make(app);
		neckhew.sectionViews.make(app);
		neckhew.sideView.make(app);
		neckhew.reading.make(app, controls);
		neckhew.passTable.make(app, controls);
		neckhew.pointing.pointer(app, map);
		neckhew.pointing.pointer(app, stockMap);
		neckhew.pointing.keys(app, map, controls);
		neckhew.paper.make(app);
		app.state.redraw();
		neckhew.turnHost.make(app);
		document.body.dataset.ready = '';
	}

	document.addEventListener('DOMContentLoaded', () => {
		neckhew.model.load().then(begin).catch(giveUp);
	});
})(window.neckhew = window.neckhew || {});
