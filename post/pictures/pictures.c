/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "pictures/pictures.h"

#include <stdio.h>

#include "pictures/canvas.h"
#include "pictures/cut_sheet.h"
#include "pictures/gather.h"
#include "pictures/plan_view.h"
#include "pictures/sections.h"
#include "pictures/side_view.h"
#include "pictures/stock_map.h"

#define PATH_LENGTH_MAX 4096

/* Everything any picture draws. */
struct album {
	struct cut_sheet cut_sheet;
	struct stock_map stock_map;
	struct side_view side_view;
	struct plan_view plan_view;
	struct sections sections;
};

static double cut_height(const struct album *album)
{
	return cut_sheet_height_mm(&album->cut_sheet);
}

static double stock_height(const struct album *album)
{
	return stock_map_height_mm(&album->stock_map);
}

static double side_height(const struct album *album)
{
	return side_view_height_mm(&album->side_view);
}

static double plan_height(const struct album *album)
{
	return plan_view_height_mm(&album->plan_view);
}

static double sections_height(const struct album *album)
{
	return sections_height_mm(&album->sections);
}

static enum fault cut_draw(struct canvas *canvas, const struct album *album,
			   struct fault_list *faults)
{
	return cut_sheet_draw(canvas, &album->cut_sheet, faults);
}

static enum fault stock_draw(struct canvas *canvas, const struct album *album,
			     struct fault_list *faults)
{
	return stock_map_draw(canvas, &album->stock_map, faults);
}

static enum fault side_draw(struct canvas *canvas, const struct album *album,
			    struct fault_list *faults)
{
	return side_view_draw(canvas, &album->side_view, faults);
}

static enum fault plan_drawn(struct canvas *canvas, const struct album *album,
			     struct fault_list *faults)
{
	plan_view_draw(canvas, &album->plan_view);
	(void)faults;
	return FAULT_NONE;
}

static enum fault sections_drawn(struct canvas *canvas, const struct album *album,
				 struct fault_list *faults)
{
	sections_draw(canvas, &album->sections);
	(void)faults;
	return FAULT_NONE;
}

struct picture {
	double (*height_mm)(const struct album *album);
	enum fault (*draw)(struct canvas *canvas, const struct album *album,
			   struct fault_list *faults);
};

/* In the order of pictures_names. */
static const struct picture pictures[] = {
	{ cut_height, cut_draw },
	{ stock_height, stock_draw },
	{ side_height, side_draw },
	{ plan_height, plan_drawn },
	{ sections_height, sections_drawn },
};

const char *const *pictures_names(void)
{
	static const char *const names[] = { "cut-depth", "hand-finish-stock", "side-view",
					     "plan-view", "sections",	       NULL };

	return names;
}

static struct lanes lanes_of(const struct job_result *result, const struct gathered *extra,
			     const struct neck *neck, const struct job *job)
{
	return (struct lanes){ &job->carve,	  &job->fixture,    &job->neck.channel,
			       &extra->marks,	  &extra->straight, neck_to_mm(neck),
			       extra->minus_side, extra->plus_side, &result->beside };
}

static struct side_view side_view_of(const struct job_result *result, const struct gathered *extra,
				     const struct neck *neck, const struct job *job)
{
	const struct neck_spec *spec = neck_spec_of(neck);

	return (struct side_view){
		.finished = &result->finished_side,
		.roughed = &result->roughed_side,
		.blank_top = &result->blank_side,
		.underside = &extra->underside,
		.blank_bottom = &extra->blank_bottom,
		.fretboard_thickness_mm = spec->fretboard_thickness_mm,
		.fret_count = extra->fret_count,
		.fret_x_mm = extra->fret_x_mm,
		.station_count = result->station_count,
		.station = result->station,
		.over_fretboard = spec->over_fretboard,
		.job = job,
		.lanes = lanes_of(result, extra, neck, job),
	};
}

static struct plan_view plan_view_of(const struct job_result *result, const struct gathered *extra,
				     const struct neck *neck, const struct job *job)
{
	double end = extra->fret_x_mm[extra->fret_count];

	return (struct plan_view){
		.job = job,
		.lines = &extra->lines,
		.lanes = lanes_of(result, extra, neck, job),
		.fret_count = extra->fret_count,
		.fret_x_mm = extra->fret_x_mm,
		.board_nut_mm = neck_fretboard_width_mm(neck, 0.0),
		.board_end_mm = neck_fretboard_width_mm(neck, end),
		.station_count = result->station_count,
		.station = result->station,
		.chisel = &result->chisel,
		.row_count = extra->row_count,
		.row = extra->row,
	};
}

static struct album album_of(const struct job_result *result, const struct gathered *extra,
			     const struct neck *neck, const struct job *job)
{
	struct sheet_words words = { neck_spec_of(neck)->name, job->digest };
	struct album album = {
		.cut_sheet = { words, result->program_count, result->program, result->cut_count,
			       result->cut, extra->touched, &result->blank_top, &extra->lines,
			       extra->marks.heel_proper_mm },
		.stock_map = { words, &result->stock, &extra->allowance, result->zone,
			       result->station_count, result->station, extra->plus_side,
			       &result->chisel, &extra->lines, extra->marks.heel_proper_mm },
		.side_view = side_view_of(result, extra, neck, job),
		.plan_view = plan_view_of(result, extra, neck, job),
		.sections = { words, extra->panel_count, extra->panel, extra->minus_side,
			      extra->plus_side },
	};

	album.side_view.words = album.plan_view.words = words;
	return album;
}

static enum fault write_picture(const char *folder, const char *name, const struct picture *picture,
				enum canvas_kind kind, const struct album *album,
				struct fault_list *faults)
{
	char path[PATH_LENGTH_MAX];
	struct canvas canvas;
	int length = snprintf(path, sizeof path, "%s/%s.%s", folder, name,
			      kind == CANVAS_PNG ? "png" : "svg");

	if (length < 0 || (size_t)length >= sizeof path)
		return fault_add(faults, FAULT_FILE, folder, 0, NULL,
				 "The folder's name is too long for a picture in it.");
	enum fault code = canvas_open(&canvas, kind, picture->height_mm(album), faults);
	if (code == FAULT_NONE)
		code = picture->draw(&canvas, album, faults);
	if (code == FAULT_NONE)
		code = canvas_save(&canvas, path, faults);
	canvas_close(&canvas);
	return code;
}

static enum fault write_album(const char *folder, const struct album *album,
			      struct fault_list *faults)
{
	const char *const *names = pictures_names();

	for (size_t i = 0; names[i]; i++) {
		enum fault code =
			write_picture(folder, names[i], &pictures[i], CANVAS_PNG, album, faults);
		if (code == FAULT_NONE)
			code = write_picture(folder, names[i], &pictures[i], CANVAS_SVG, album,
					     faults);
		if (code != FAULT_NONE)
			return code;
	}
	return FAULT_NONE;
}

enum fault pictures_write(const char *folder, const struct job_result *result,
			  const struct neck *neck, const struct job *job, struct fault_list *faults)
{
	struct gathered extra;
	enum fault code = gather(&extra, result, neck, job, faults);

	if (code == FAULT_NONE) {
		struct album album = album_of(result, &extra, neck, job);
		code = write_album(folder, &album, faults);
	}
	gathered_free(&extra);
	return code;
}
