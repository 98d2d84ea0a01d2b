// SPDX-License-Identifier: GPL-3.0-or-later
// From the packed planes back to whole numbers. The coding is described in
// post/page/planes.h; it is undone here step by step in the opposite order.
(function (neckhew) {
	'use strict';

	const NOTHING = -32768;

	function bytesOfBase64(text) {
		const raw = atob(text.trim());
		const bytes = new Uint8Array(raw.length);
		for (let i = 0; i < raw.length; i++)
			bytes[i] = raw.charCodeAt(i);
		return bytes;
	}

	async function inflate(bytes) {
		const stream = new Blob([bytes]).stream()
			.pipeThrough(new DecompressionStream('deflate'));
		return new Uint8Array(await new Response(stream).arrayBuffer());
	}

	// One plane that begins at byte `from`: low bytes, then high bytes.
	function plane(bytes, from, nx, ny) {
		const count = nx * ny;
		const out = new Int16Array(count);
		for (let i = 0, ix = 0, before = 0; i < count; i++) {
			const code = bytes[from + i] | bytes[from + count + i] << 8;
			before += code >>> 1 ^ -(code & 1);
			out[i] = before; // the array keeps it modulo 65536
			before = out[i];
			if (++ix === nx)
				ix = before = 0;
		}
		return out;
	}

	// All planes in the order in which they were packed.
	async function unpack(text, nx, ny, planeCount) {
		const bytes = await inflate(bytesOfBase64(text));
		const size = 2 * nx * ny;
		if (bytes.length !== size * planeCount)
			throw new Error('the maps in this page are not whole');
		const planes = [];
		for (let p = 0; p < planeCount; p++)
			planes.push(plane(bytes, p * size, nx, ny));
		return planes;
	}

	neckhew.unpack = { NOTHING, unpack };
})(window.neckhew = window.neckhew || {});
