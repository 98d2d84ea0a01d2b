// SPDX-License-Identifier: GPL-3.0-or-later
// Gives the turning view its place and tells it the pass. The page stands
// without it.
(function (neckhew) {
	'use strict';

	function make(app) {
		const host = document.getElementById('turn');
		if (!neckhew.turn) {
			host.closest('section').hidden = true;
			return;
		}
		const view = neckhew.turn.make(host, app.model);
		const show = () => view.show(app.state.pass - 1); // it counts from 0, the blank is -1
		app.state.draw(['pass'], show);
		show();
	}

	neckhew.turnHost = { make };
})(window.neckhew = window.neckhew || {});
