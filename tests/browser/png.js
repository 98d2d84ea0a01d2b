// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures of the screen as pixels: reads the PNG that a browser writes (8 bits
// a channel, RGB or RGBA, not interlaced; ISO/IEC 15948).
'use strict';

const zlib = require('zlib');

function chunks(file) {
	const found = { data: [] };
	for (let at = 8; at < file.length; ) {
		const length = file.readUInt32BE(at);
		const type = file.toString('latin1', at + 4, at + 8);
		const body = file.subarray(at + 8, at + 8 + length);
		if (type === 'IHDR') {
			found.head = body;
		} else if (type === 'IDAT') {
			found.data.push(body);
		}
		at += length + 12;
	}
	return found;
}

function paeth(left, up, corner) {
	const sum = left + up - corner;
	const a = Math.abs(sum - left);
	const b = Math.abs(sum - up);
	const c = Math.abs(sum - corner);
	return a <= b && a <= c ? left : b <= c ? up : corner;
}

function guess(kind, left, up, corner) {
	switch (kind) {
		case 1:
			return left;
		case 2:
			return up;
		case 3:
			return (left + up) >> 1;
		case 4:
			return paeth(left, up, corner);
		default:
			return 0;
	}
}

function readPng(file) {
	const { head, data } = chunks(file);
	const [width, height] = [head.readUInt32BE(0), head.readUInt32BE(4)];
	const bytes = { 2: 3, 6: 4 }[head[9]];
	if (head[8] !== 8 || !bytes || head[12] !== 0) {
		throw new Error('not a PNG of the kind that a browser writes');
	}
	const raw = zlib.inflateSync(Buffer.concat(data));
	const row = width * bytes;
	const pixels = Buffer.alloc(row * height);
	for (let y = 0; y < height; y++) {
		const kind = raw[y * (row + 1)];
		for (let i = 0; i < row; i++) {
			const at = y * row + i;
			const left = i < bytes ? 0 : pixels[at - bytes];
			const up = y === 0 ? 0 : pixels[at - row];
			const corner = i < bytes || y === 0 ? 0 : pixels[at - row - bytes];
			pixels[at] = raw[y * (row + 1) + 1 + i] + guess(kind, left, up, corner);
		}
	}
	return { width, height, bytes, pixels };
}

function colourAt(picture, x, y) {
	const at = (Math.round(y) * picture.width + Math.round(x)) * picture.bytes;
	return [...picture.pixels.subarray(at, at + 3)];
}

// How many pixels have this colour, each channel within a tolerance.
function countColour(picture, [r, g, b], tolerance) {
	const { pixels, bytes } = picture;
	let count = 0;
	for (let at = 0; at < pixels.length; at += bytes) {
		count +=
			Math.abs(pixels[at] - r) <= tolerance &&
			Math.abs(pixels[at + 1] - g) <= tolerance &&
			Math.abs(pixels[at + 2] - b) <= tolerance;
	}
	return count;
}

function countColours(picture) {
	const { pixels, bytes } = picture;
	const seen = new Set();
	for (let at = 0; at < pixels.length; at += bytes) {
		seen.add((pixels[at] << 16) | (pixels[at + 1] << 8) | pixels[at + 2]);
	}
	return seen.size;
}

// Share of pixels that differ visibly (by more than 8 of 255 in a channel).
function shareChanged(one, other) {
	if (one.width !== other.width || one.height !== other.height) {
		return 1;
	}
	let count = 0;
	for (let at = 0; at < one.pixels.length; at += one.bytes) {
		let most = 0;
		for (let i = 0; i < 3; i++) {
			most = Math.max(most, Math.abs(one.pixels[at + i] - other.pixels[at + i]));
		}
		count += most > 8;
	}
	return count / (one.width * one.height);
}

// "#rrggbb" as [r, g, b].
function parseColour(text) {
	const value = parseInt(text.slice(1), 16);
	return [value >> 16, (value >> 8) & 255, value & 255];
}

module.exports = { readPng, colourAt, countColour, countColours, shareChanged, parseColour };
