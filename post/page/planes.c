/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/planes.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>

#define ZLIB_CONST /* zlib then promises not to write on what it reads */
#include <zlib.h>

#include "base/mem.h"

#define COUNTS_MOST 32767.0
#define BLOCK 65536
#define HARDEST 9 /* zlib's level: a page is written once and read often */

struct packer {
	size_t nx, ny, area;
	double unit_mm;
	int16_t *counts; /* one plane, as numbers */
	unsigned char *bytes; /* the same, as it goes into the stream */
	int32_t *standing; /* wood after the passes so far, in units */
	double *standing_mm;
	z_stream stream;
	struct markup packed;
};

static bool same_grid(const struct column_map *a, const struct column_map *b)
{
	return a->nx == b->nx && a->ny == b->ny && a->x0_mm == b->x0_mm && a->y0_mm == b->y0_mm &&
	       a->cell_mm == b->cell_mm;
}

static enum fault check_grids(const struct job_result *result, struct fault_list *faults)
{
	const struct column_map *grid = &result->blank_top;
	bool same = grid->nx > 0 && grid->ny > 0 && same_grid(grid, &result->finished) &&
		    same_grid(grid, &result->stock);

	for (size_t i = 0; i < result->cut_count; i++)
		same = same && same_grid(grid, &result->cut[i]);
	return same ? FAULT_NONE
		    : fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
				"The maps of a result do not share one grid.");
}

static double largest(const struct column_map *map)
{
	double most = 0.0;

	for (size_t i = 0; i < map->nx * map->ny; i++) {
		double value = fabs((double)map->value[i]);
		if (isfinite(value) && value > most)
			most = value;
	}
	return most;
}

/* The smallest unit in steps of 1, 2, 5, 10 in which the largest value fits. */
static double choose_unit(const struct job_result *result)
{
	static const double steps[] = { 1.0, 2.0, 5.0 };
	double most = fmax(largest(&result->blank_top), largest(&result->finished));
	double scale = PLANES_UNIT_MM;
	size_t step = 0;

	most = fmax(most, largest(&result->stock));
	for (size_t i = 0; i < result->cut_count; i++)
		most = fmax(most, largest(&result->cut[i]));
	while (most > (COUNTS_MOST - 1.0) * steps[step] * scale) {
		step = (step + 1) % 3;
		if (step == 0)
			scale *= 10.0;
	}
	return steps[step] * scale;
}

static int16_t count_of(double value_mm, double unit_mm)
{
	return isfinite(value_mm) ? (int16_t)lround(value_mm / unit_mm) : PLANES_NOTHING;
}

/* Differences wrap around at 16 bits, and the reader wraps them back. Zigzag
 * puts small numbers of either sign next to each other: 0, -1, 1, -2 ... */
static uint16_t zigzag(int16_t value, int16_t before)
{
	uint16_t step = (uint16_t)((uint32_t)(uint16_t)value - (uint32_t)(uint16_t)before);

	return (uint16_t)((uint32_t)step << 1 ^ (step & 0x8000u ? 0xffffu : 0u));
}

static void code_plane(struct packer *packer)
{
	for (size_t iy = 0; iy < packer->ny; iy++) {
		int16_t before = 0;
		for (size_t ix = 0; ix < packer->nx; ix++) {
			size_t i = iy * packer->nx + ix;
			uint16_t code = zigzag(packer->counts[i], before);
			before = packer->counts[i];
			packer->bytes[i] = (unsigned char)(code & 0xffu);
			packer->bytes[packer->area + i] = (unsigned char)(code >> 8);
		}
	}
}

/* Takes all that zlib has ready. */
static enum fault drain(struct packer *packer, int flush, struct fault_list *faults)
{
	unsigned char room[BLOCK];
	int state = Z_OK;

	do {
		packer->stream.next_out = room;
		packer->stream.avail_out = BLOCK;
		state = deflate(&packer->stream, flush);
		markup_bytes(&packer->packed, (const char *)room, BLOCK - packer->stream.avail_out);
	} while (packer->stream.avail_out == 0);
	if (state != (flush == Z_FINISH ? Z_STREAM_END : Z_OK) && state != Z_BUF_ERROR)
		return fault_add(faults, FAULT_INTERNAL, NULL, 0, NULL,
				 "The page's maps cannot be packed.");
	return markup_fault(&packer->packed, faults);
}

static enum fault deflate_bytes(struct packer *packer, const unsigned char *bytes, size_t size,
				struct fault_list *faults)
{
	enum fault fault = FAULT_NONE;

	for (size_t done = 0; done < size && !fault; done += BLOCK) {
		size_t left = size - done;
		packer->stream.next_in = bytes + done;
		packer->stream.avail_in = (uInt)(left < BLOCK ? left : BLOCK);
		fault = drain(packer, Z_NO_FLUSH, faults);
	}
	return fault;
}

static enum fault pack_plane(struct packer *packer, struct fault_list *faults)
{
	code_plane(packer);
	return deflate_bytes(packer, packer->bytes, 2 * packer->area, faults);
}

static enum fault pack_map(struct packer *packer, const struct column_map *map,
			   struct fault_list *faults)
{
	for (size_t i = 0; i < packer->area; i++)
		packer->counts[i] = count_of((double)map->value[i], packer->unit_mm);
	return pack_plane(packer, faults);
}

static void begin_standing(struct packer *packer, const struct column_map *blank_top)
{
	for (size_t i = 0; i < packer->area; i++) {
		double top_mm = (double)blank_top->value[i];
		packer->standing_mm[i] = isfinite(top_mm) ? top_mm : 0.0;
		packer->standing[i] = count_of(packer->standing_mm[i], packer->unit_mm);
	}
}

/* A cut is told as the step between two roundings of the standing wood. */
static enum fault pack_cut(struct packer *packer, const struct column_map *cut,
			   struct fault_list *faults)
{
	for (size_t i = 0; i < packer->area; i++) {
		double depth_mm = (double)cut->value[i];
		packer->counts[i] = PLANES_NOTHING;
		if (!isfinite(depth_mm))
			continue;
		packer->standing_mm[i] -= depth_mm;
		int32_t now = (int32_t)lround(packer->standing_mm[i] / packer->unit_mm);
		packer->counts[i] = (int16_t)(packer->standing[i] - now);
		packer->standing[i] = now;
	}
	return pack_plane(packer, faults);
}

static enum fault pack_all(struct packer *packer, const struct job_result *result,
			   struct fault_list *faults)
{
	enum fault fault = pack_map(packer, &result->blank_top, faults);

	if (!fault)
		fault = pack_map(packer, &result->finished, faults);
	begin_standing(packer, &result->blank_top);
	for (size_t i = 0; i < result->cut_count && !fault; i++)
		fault = pack_cut(packer, &result->cut[i], faults);
	if (!fault)
		fault = pack_map(packer, &result->stock, faults);
	return fault ? fault : drain(packer, Z_FINISH, faults);
}

/* Source: RFC 4648, section 4. */
static void add_base64(struct markup *out, const unsigned char *bytes, size_t size)
{
	static const char digits[] =
		"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

	for (size_t i = 0; i < size; i += 3) {
		size_t left = size - i;
		uint32_t word = (uint32_t)bytes[i] << 16;
		word |= left > 1 ? (uint32_t)bytes[i + 1] << 8 : 0u;
		word |= left > 2 ? (uint32_t)bytes[i + 2] : 0u;
		char four[4] = { digits[word >> 18], digits[word >> 12 & 63u],
				 left > 1 ? digits[word >> 6 & 63u] : '=',
				 left > 2 ? digits[word & 63u] : '=' };
		markup_bytes(out, four, sizeof four);
	}
}

static enum fault make_room(struct packer *packer, struct fault_list *faults)
{
	packer->counts = mem_array(packer->area, sizeof *packer->counts);
	packer->bytes = mem_array(packer->area, 2);
	packer->standing = mem_array(packer->area, sizeof *packer->standing);
	packer->standing_mm = mem_array(packer->area, sizeof *packer->standing_mm);
	if (!packer->counts || !packer->bytes || !packer->standing || !packer->standing_mm)
		return fault_no_memory(faults, "the page's maps");
	return FAULT_NONE;
}

static void free_room(struct packer *packer)
{
	markup_free(&packer->packed);
	free(packer->standing_mm);
	free(packer->standing);
	free(packer->bytes);
	free(packer->counts);
}

enum fault planes_pack(struct markup *out, double *unit_mm, const struct job_result *result,
		       struct fault_list *faults)
{
	struct packer packer = { .nx = result->blank_top.nx, .ny = result->blank_top.ny };
	enum fault fault = check_grids(result, faults);

	*unit_mm = PLANES_UNIT_MM;
	if (fault)
		return fault;
	packer.area = packer.nx * packer.ny;
	packer.unit_mm = *unit_mm = choose_unit(result);
	fault = make_room(&packer, faults);
	if (!fault && deflateInit(&packer.stream, HARDEST) != Z_OK)
		fault = fault_no_memory(faults, "the page's maps");
	else if (!fault) {
		fault = pack_all(&packer, result, faults);
		(void)deflateEnd(&packer.stream);
	}
	if (!fault) {
		add_base64(out, (const unsigned char *)packer.packed.text, packer.packed.size);
		fault = markup_fault(out, faults);
	}
	free_room(&packer);
	return fault;
}
