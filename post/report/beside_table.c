/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/beside_table.h"

#include <math.h>

#include "report/columns.h"
#include "report/words.h"

#define CM3_PER_MM3 1e-3

bool beside_is_told(const struct job_result *result)
{
	const struct beside_figures *beside = &result->beside;

	return beside->channel_mm > 0.0 || beside->tab_count > 0 || beside->cove.height_mm > 0.0;
}

static void print_rails(FILE *out, const struct job *job, const struct beside_figures *beside)
{
	if (beside->channel_mm <= 0.0)
		return;
	(void)fputs("  rails behind a channel of", out);
	columns_number(out, 5, 2, beside->channel_mm);
	(void)fputs(" mm, the wood up to", out);
	columns_number(out, 4, 1, beside->rail_top_mm);
	(void)fputs(" mm high\n                 from      to\n"
		    "                   mm      mm\n",
		    out);
	for (int side = 0; side < 2; side++) {
		(void)fputs("  ", out);
		columns_text(out, 11, 1, words_side(&job->neck, (enum neck_side)side));
		columns_number(out, 7, 1, beside->rail_from_mm[side]);
		columns_number(out, 7, 1, beside->rail_to_mm[side]);
		(void)fputc('\n', out);
	}
}

static void print_tabs(FILE *out, const struct job *job, const struct beside_figures *beside)
{
	if (beside->tab_count == 0)
		return;
	(void)fputs("  tabs              x    wide   thick  stand at least, to be sawn off\n"
		    "                   mm      mm      mm   wide   thick\n",
		    out);
	for (size_t i = 0; i < beside->tab_count; i++) {
		const struct tab_figures *tab = &beside->tab[i];
		enum neck_side side = tab->tab.side > 0.0 ? SIDE_PLUS : SIDE_MINUS;
		(void)fputs("  ", out);
		columns_text(out, 11, 1, words_side(&job->neck, side));
		columns_number(out, 7, 1, tab->tab.x_mm);
		columns_number(out, 7, 2, tab->tab.width_mm);
		columns_number(out, 7, 2, tab->tab.height_mm);
		columns_number(out, 6, 2, tab->least_width_mm);
		columns_number(out, 7, 2, tab->least_height_mm);
		(void)fputc('\n', out);
	}
}

static void print_station_coves(FILE *out, const struct job_result *result)
{
	for (size_t i = 0; i < result->station_count; i++) {
		char name[WORDS_FRET_ROOM];
		words_fret(name, result->station[i].fret);
		(void)fputs("  ", out);
		columns_text(out, 11, 1, name);
		for (int side = 0; side < 2; side++) {
			columns_number(out, 7, 2, result->station[i].cove[side].height_mm);
			columns_number(out, 7, 2, result->station[i].cove[side].width_mm);
		}
		(void)fputc('\n', out);
	}
}

static void print_cove(FILE *out, const struct job *job, const struct job_result *result)
{
	const struct beside_figures *beside = &result->beside;
	char line[200];

	if (!(beside->cove.height_mm > 0.0))
		return;
	(void)fprintf(out,
		      "  cove at the edges  %-15s %-15s\n"
		      "                 high    wide    high    wide\n"
		      "                   mm      mm      mm      mm\n",
		      words_side(&job->neck, SIDE_MINUS), words_side(&job->neck, SIDE_PLUS));
	print_station_coves(out, result);
	(void)snprintf(line, sizeof line,
		       "tallest %.2f by %.2f mm at x %.1f mm, %s; %.2f cm3 in all, to be sawn or "
		       "planed off",
		       beside->cove.height_mm, beside->cove.width_mm, beside->cove_x_mm,
		       words_side(&job->neck, (enum neck_side)beside->cove_side),
		       beside->cove_mm3 * CM3_PER_MM3);
	(void)fputs("  ", out);
	columns_paragraph(out, 2, 2, line);
	if (beside->skin_mm > 0.0)
		(void)fprintf(out, "  a skin of %.2f mm stays under the ball beside the neck\n",
			      beside->skin_mm);
}

void beside_table_print(FILE *out, const struct job *job, const struct job_result *result)
{
	print_rails(out, job, &result->beside);
	print_tabs(out, job, &result->beside);
	print_cove(out, job, result);
}
