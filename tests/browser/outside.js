// SPDX-License-Identifier: GPL-3.0-or-later
// Places outside a page that its elements and styles name, whether or not they
// have been asked for yet.
'use strict';

function find() {
	const attributes = ['src', 'srcset', 'href', 'action', 'formaction', 'data', 'poster', 'ping'];
	const found = [];
	const note = (where, value) => {
		if (value && !/^(#|data:|blob:|$)/.test(value.trim())) {
			found.push(`${where}: ${value.slice(0, 80)}`);
		}
	};
	for (const element of document.querySelectorAll('*')) {
		for (const attribute of attributes) {
			note(`${element.localName} ${attribute}`, element.getAttribute(attribute));
		}
		const style = element.getAttribute('style') || '';
		const text = element.localName === 'style' ? element.textContent : style;
		for (const match of text.matchAll(/url\(\s*["']?([^"')]*)|@import\s+["']([^"']*)/g)) {
			note(`${element.localName} style`, match[1] || match[2]);
		}
	}
	return found;
}

function outsideNames(page) {
	return page.evaluate(find);
}

module.exports = { outsideNames };
