// SPDX-License-Identifier: GPL-3.0-or-later
// The rows of the pass table choose their pass, by click, Enter or Space. One
// row at a time is in the order of the Tab key; arrows go from row to row.
(function (neckhew) {
	'use strict';

	function make(app, controls) {
		const rows = [...document.querySelectorAll('#pass-table tr[data-pass]')];
		const rowOf = (target) => target.closest('tr[data-pass]');
		const table = document.getElementById('pass-table');

		function reach(row) {
			for (const other of rows)
				other.tabIndex = other === row ? 0 : -1;
		}
		function go(row, by) {
			const next = rows[Math.min(Math.max(rows.indexOf(row) + by, 0), rows.length - 1)];
			reach(next);
			next.focus();
		}
		table.addEventListener('click', (event) => {
			const row = rowOf(event.target);
			if (row)
				controls.choose(Number(row.dataset.pass));
		});
		table.addEventListener('keydown', (event) => {
			const row = rowOf(event.target);
			const by = { ArrowUp: -1, ArrowDown: 1, Home: -rows.length, End: rows.length }[event.key];
			if (!row || !by && event.key !== 'Enter' && event.key !== ' ')
				return;
			event.preventDefault();
			if (by)
				go(row, by);
			else
				controls.choose(Number(row.dataset.pass));
		});
		app.state.write(['pass'], () => {
			for (const row of rows)
				row.removeAttribute('aria-current');
			const row = rows[app.state.pass - 1];
			if (row)
				row.setAttribute('aria-current', 'true');
			if (!table.contains(document.activeElement) || document.activeElement === table)
				reach(row || rows[0]);
		});
	}

	neckhew.passTable = { make };
})(window.neckhew = window.neckhew || {});
