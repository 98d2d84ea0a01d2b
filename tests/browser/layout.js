// SPDX-License-Identifier: GPL-3.0-or-later
'use strict';

// Pixels by which the document is wider than the window.
function overflow(page) {
	return page.evaluate(() => {
		const { scrollWidth, clientWidth } = document.scrollingElement;
		return scrollWidth - clientWidth;
	});
}

module.exports = { overflow };
