// SPDX-License-Identifier: GPL-3.0-or-later
// Watches a page for all that a page made to be opened from disk must not do:
// complain on the console, throw, crash, or ask for anything but itself.
'use strict';

// Chromium's software graphics remarks on its own speed when a WebGL canvas is
// printed or photographed. That is the driver's voice, not the page's.
const DRIVER = /GL Driver Message \(OpenGL, Performance/;

function ownRequest(address, own) {
	return address.split('#')[0] === own || /^(data|blob):/.test(address);
}

// Faults are sentences; the list grows as the page goes on.
async function watch(context, page, own) {
	const faults = [];
	page.on('console', (message) => {
		const type = message.type();
		if (['error', 'warning', 'assert'].includes(type) && !DRIVER.test(message.text())) {
			faults.push(`console ${type}: ${message.text()}`);
		}
	});
	page.on('pageerror', (error) => faults.push(`thrown: ${error.message}`));
	page.on('crash', () => faults.push('the page crashed'));
	page.on('dialog', (dialog) => {
		faults.push(`dialog: ${dialog.message()}`);
		dialog.dismiss().catch(() => {});
	});
	context.on('request', (request) => {
		if (!ownRequest(request.url(), own)) {
			faults.push(`request: ${request.url().slice(0, 200)}`);
		}
	});
	context.on('page', () => faults.push('another page was opened'));
	// A socket that is caught here opens for the page and leads nowhere.
	await context.routeWebSocket(/./, (socket) => faults.push(`socket: ${socket.url()}`));
	await context.route(
		(address) => !ownRequest(address.href, own),
		(route) => route.abort()
	);
	return faults;
}

module.exports = { watch };
