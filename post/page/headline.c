/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "page/headline.h"

#include <math.h>

#include "report/words.h"

#define STOCK_DECIMALS 2
#define STOCK_PER_MM 100.0
/* A figure this little (mm) off a whole hundredth is that hundredth. */
#define STOCK_SLACK_MM 1e-6

static void broken(struct markup *out, const struct verdict *verdict)
{
	int first = verdict_first_broken(verdict);

	markup_text(out, "NOT PROVEN, do not run it. ");
	if (first < 0) {
		markup_text(out, "Not every promise could be judged.");
		return;
	}
	markup_escaped(out, promise_text((enum promise)first)->sentence);
	markup_text(out, ": ");
	markup_escaped(out, verdict->promise[first].why);
}

void headline_verdict(struct markup *out, const struct job_result *result)
{
	const struct verdict *verdict = &result->verdict;
	int kept = 0;

	for (int i = 0; i < PROMISE_COUNT; i++)
		kept += verdict->promise[i].judged && verdict->promise[i].kept;
	if (!verdict->proven) {
		broken(out, verdict);
		return;
	}
	markup_text(out, "proven: ");
	markup_number(out, kept, 0);
	markup_text(out, " of ");
	markup_number(out, PROMISE_COUNT, 0);
	markup_text(out, " promises kept");
}

static void put_cutter(struct markup *out, const struct cutter *cutter)
{
	markup_escaped(out, cutter->name);
	markup_text(out, ", ball ");
	markup_number(out, cutter->ball_diameter_mm, 2);
	markup_text(out, " mm");
}

void headline_cutters(struct markup *out, const struct job *job)
{
	for (size_t i = 0; i < job->cutter_count; i++) {
		if (i > 0)
			markup_text(out, i + 1 == job->cutter_count ? ", then " : ", ");
		put_cutter(out, &job->cutter[i]);
	}
}

void headline_minutes(struct markup *out, const struct job_result *result)
{
	double minutes = 0.0;

	for (size_t i = 0; i < result->program_count; i++)
		minutes += result->program[i].minutes;
	markup_number(out, minutes, 0);
}

void headline_least_stock(struct markup *out, const struct job_result *result)
{
	double least_mm = NAN; /* fmin and fmax pass over what is NAN */

	for (int i = 0; i < ZONE_COUNT; i++)
		least_mm = fmin(least_mm, result->zone[i].least_mm);
	markup_number(out, floor((least_mm + STOCK_SLACK_MM) * STOCK_PER_MM) / STOCK_PER_MM,
		      STOCK_DECIMALS);
}

void headline_most_stock(struct markup *out, const struct job_result *result)
{
	double most_mm = NAN;

	for (int i = 0; i < ZONE_COUNT; i++)
		most_mm = fmax(most_mm, result->zone[i].most_mm);
	markup_number(out, ceil((most_mm - STOCK_SLACK_MM) * STOCK_PER_MM) / STOCK_PER_MM,
		      STOCK_DECIMALS);
}

void headline_hand(struct markup *out, const struct neck_spec *neck)
{
	markup_text(out, neck->hand == HAND_RIGHT ? "right-handed, " : "left-handed, ");
	markup_text(out, "face down, ");
	markup_text(out, words_side(neck, SIDE_PLUS));
	markup_text(out, " at +y");
}

void headline_blank(struct markup *out, const struct job *job)
{
	char margin[WORDS_MARGIN_ROOM];

	words_margin(margin, job);
	markup_text(out, "as drawn; sawn ");
	markup_text(out, margin);
	markup_text(out, " its outline");
}
