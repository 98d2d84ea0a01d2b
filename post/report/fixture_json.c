/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/fixture_json.h"

#include "model/fretboard.h"
#include "model/joint.h"
#include "report/json_value.h"

/* A keep-out has a top, a holding place has none to speak of. */
static json_t *place_json(const struct place *place, bool keep_out)
{
	bool round = place->shape == PLACE_CYLINDER;

	return json_pack("{s:o, s:s, s:o, s:o, s:o, s:o, s:o, s:o}", "name", json_text(place->name),
			 "shape", round ? "cylinder" : "box", "x_from_mm",
			 json_mm(place->x_from_mm), "x_to_mm", json_mm(place->x_to_mm), "y_from_mm",
			 json_mm(place->y_from_mm), "y_to_mm", json_mm(place->y_to_mm),
			 "diameter_mm",
			 round ? json_mm(place->x_to_mm - place->x_from_mm) : json_null(), "top_mm",
			 keep_out ? json_mm(place->top_mm) : json_null());
}

static json_t *places_json(size_t count, const struct place *place, bool keep_out)
{
	json_t *places = json_array();

	for (size_t i = 0; places && i < count; i++) {
		if (json_array_append_new(places, place_json(&place[i], keep_out)) == 0)
			continue;
		json_decref(places);
		places = NULL;
	}
	return places;
}

static json_t *riser_json(const struct fixture *fixture)
{
	if (!(fixture->riser_height_mm > 0.0))
		return json_null();
	return json_pack("{s:o, s:o, s:o, s:o}", "height_mm", json_mm(fixture->riser_height_mm),
			 "width_mm", json_mm(fixture->riser_width_mm), "from_mm",
			 json_mm(fixture->riser_from_mm), "to_mm", json_mm(fixture->riser_to_mm));
}

static json_t *fretboard_json(const struct job *job)
{
	const struct glued_fretboard *glued = &job->fixture.fretboard;
	struct fretboard board = fretboard_of(&job->neck, glued->overhang_mm);

	if (!glued->glued)
		return json_null();
	return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "from_mm", json_mm(board.x_from_mm),
			 "to_mm", json_mm(board.x_to_mm), "width_from_mm",
			 json_mm(2.0 * board.half_from_mm), "width_to_mm",
			 json_mm(2.0 * board.half_to_mm), "face_mm", json_mm(board.face_mm),
			 "shim_mm", json_mm(glued->shim_mm), "clearance_mm",
			 json_mm(glued->clearance_mm));
}

static json_t *joint_json(const struct neck_spec *neck)
{
	struct joint_box box;

	if (!joint_keep_out(&box, neck))
		return json_null();
	return json_pack("{s:s, s:o, s:o, s:o, s:o, s:o}", "name",
			 joint_name(neck->heel.joint.kind), "x_from_mm", json_mm(box.x_from_mm),
			 "x_to_mm", json_mm(box.x_to_mm), "y_from_mm", json_mm(box.y_from_mm),
			 "y_to_mm", json_mm(box.y_to_mm), "top_mm", json_mm(box.z_to_mm));
}

json_t *fixture_json(const struct job *job)
{
	const struct fixture *fixture = &job->fixture;

	return json_pack("{s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o, s:o}", "bed_mm",
			 json_mm(job_bed_mm(job)), "rest_mm", json_mm(job_rest_mm(job)),
			 "bed_clearance_mm", json_mm(fixture->bed_clearance_mm),
			 "keep_out_clearance_mm", json_mm(fixture->keep_out_clearance_mm), "riser",
			 riser_json(fixture), "fretboard", fretboard_json(job), "joint",
			 joint_json(&job->neck), "keep_out",
			 places_json(fixture->keep_out_count, fixture->keep_out, true), "hold",
			 places_json(fixture->hold_count, fixture->hold, false));
}
