// SPDX-License-Identifier: GPL-3.0-or-later
// What the tests say: a line for each, the reason under those that failed, and
// the line "N passed, N failed" that tests/house/tally reads.
'use strict';

function reason(error) {
	const cause = error && error.cause instanceof Error ? error.cause : error;
	const text = (cause && (cause.stack || cause.message)) || String(cause);
	return text
		.split('\n')
		.filter((line) => !/\(?node:|node_modules/.test(line))
		.map((line) => `    ${line}`)
		.join('\n');
}

module.exports = async function* report(events) {
	let passed = 0;
	let failed = 0;
	for await (const { type, data } of events) {
		const suite = data.details && data.details.type === 'suite';
		if (type === 'test:pass' && !suite) {
			passed++;
			yield `ok      ${data.name} (${Math.round(data.details.duration_ms)} ms)\n`;
		} else if (type === 'test:fail' && !(suite && failed > 0)) {
			// A suite fails with its tests; without one, for a reason of its own.
			failed++;
			yield `FAILED  ${data.name}\n${reason(data.details.error)}\n`;
		}
	}
	yield `${passed} passed, ${failed} failed\n`;
};
