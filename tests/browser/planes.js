// SPDX-License-Identifier: GPL-3.0-or-later
// Unpacks the maps of columns that a page carries, on its own account: the
// page's scripts are judged by what comes out here.
//
// One zlib stream of planes. A plane is nx * ny values; along each row the
// differences to the value before (the first to 0), zigzag in 16 bits; all low
// bytes, then all high bytes. -32768 means nothing there.
'use strict';

const zlib = require('zlib');

const NOTHING = -32768;

function unpackPlane(bytes, start, nx, ny, unitMm) {
	const count = nx * ny;
	const plane = new Float64Array(count);
	let value = 0;
	for (let i = 0; i < count; i++) {
		const coded = bytes[start + i] | (bytes[start + count + i] << 8);
		const difference = (coded >>> 1) ^ -(coded & 1);
		value = (((i % nx === 0 ? 0 : value) + difference) << 16) >> 16;
		plane[i] = value === NOTHING ? NaN : value * unitMm;
	}
	return plane;
}

function unpackPlanes(base64, shape) {
	const bytes = zlib.inflateSync(Buffer.from(base64, 'base64'));
	const { nx, ny, unit_mm: unitMm, pass_count: passCount } = shape;
	const planes = [];
	for (let start = 0; start < bytes.length; start += 2 * nx * ny) {
		planes.push(unpackPlane(bytes, start, nx, ny, unitMm));
	}
	if (planes.length !== passCount + 3 || bytes.length !== planes.length * 2 * nx * ny) {
		throw new Error(`${bytes.length} bytes for ${passCount} passes of ${nx} x ${ny}`);
	}
	return {
		blankTop: planes[0],
		finished: planes[1],
		cut: planes.slice(2, 2 + passCount),
		stock: planes[2 + passCount],
	};
}

// Wood standing at a column after so many passes, mm over the gluing face.
function standing(planes, index, passes) {
	let z = planes.blankTop[index];
	for (let p = 0; p < passes; p++) {
		z -= planes.cut[p][index];
	}
	return z;
}

module.exports = { unpackPlanes, standing };
