/* SPDX-License-Identifier: GPL-3.0-or-later */
/* neckhew show: what is cut, or left, as a map in characters. */
#include <stdlib.h>

#include "cli/command.h"
#include "cli/load.h"
#include "cli/opt.h"
#include "cli/progress.h"
#include "cli/showing.h"
#include "cli/terminal.h"
#include "report/show_page.h"
#include "report/table.h"

/* More programs than this on one blank are a mistake of the shell's pattern. */
#define PROGRAMS_MOST 64
/* No plan has so many passes; what is more is a slip of the key. */
#define PASSES_MOST 99999

enum { ROW_PASS, ROW_STOCK, ROW_WIDTH, ROW_ASCII, ROW_COUNT };

static const struct opt_row rows[ROW_COUNT] = {
	[ROW_PASS] = { "pass", 'p', OPT_VALUE, "N", "show what pass N cuts, from 1" },
	[ROW_STOCK] = { "stock", 's', OPT_FLAG, NULL, "show the hand-finish stock left" },
	[ROW_WIDTH] = { "width", 'w', OPT_VALUE, "N", "fill N columns, 40 to 400" },
	[ROW_ASCII] = { "ascii", 'a', OPT_FLAG, NULL, "draw with plain letters" },
};

static const struct opt_command command = {
	.name = "show",
	.arguments = "NECK [PROGRAM...]",
	.help = "Shows the neck of the neck file NECK from above, drawn in characters: the "
		"darker, the deeper it is cut. The program is planned and proven in memory, and "
		"nothing is written. All passes are shown together, or the one that --pass names. "
		"With program files, what each of them cuts is shown, proven or not; their passes "
		"are not known. Ends with status 0 only when what is shown is proven.",
	.least = 1,
	.most = PROGRAMS_MOST + 1,
	.row_count = ROW_COUNT,
	.row = rows,
};

static int refuse(const char *why)
{
	(void)fprintf(stderr, "neckhew show: %s\nTry: neckhew show --help\n", why);
	return EXIT_USAGE;
}

/* A whole number in digits alone. */
static bool read_number(size_t *out, const char *text, size_t least, size_t most)
{
	size_t value = 0;

	for (const char *at = text; *at != '\0'; at++) {
		if (*at < '0' || *at > '9' || value > most)
			return false;
		value = 10 * value + (size_t)(*at - '0');
	}
	*out = value;
	return text[0] != '\0' && value >= least && value <= most;
}

/* What the command line asks of the page. Returns EXIT_GOOD or EXIT_USAGE. */
static int read_wishes(struct show_page *page, const struct opt_values *values)
{
	size_t columns;

	*page = (struct show_page){ .passes_known = values->count == 1,
				    .stock = values->given[ROW_STOCK],
				    .columns = terminal_page_columns(stdout),
				    .utf8 = terminal_utf8() && !values->given[ROW_ASCII],
				    .colour = terminal_colour(stdout) };
	if (values->given[ROW_PASS] && page->stock)
		return refuse("stock is what all passes together leave: leave out --pass");
	if (values->given[ROW_PASS] && !page->passes_known)
		return refuse("the passes of a program file are not known: leave out --pass");
	if (values->given[ROW_PASS] &&
	    !read_number(&page->pass, values->text[ROW_PASS], 1, PASSES_MOST))
		return refuse("--pass is the number of a pass, from 1");
	if (!values->given[ROW_WIDTH])
		return EXIT_GOOD;
	if (!read_number(&columns, values->text[ROW_WIDTH], TERMINAL_COLUMNS_LEAST,
			 TERMINAL_COLUMNS_MOST))
		return refuse("--width is a whole number from 40 to 400");
	page->columns = (int)columns;
	return EXIT_GOOD;
}

static enum fault look(struct showing *showing, const char *const *path, size_t count,
		       struct fault_list *faults)
{
	struct progress progress;
	enum fault fault;

	progress_begin(&progress, count == 0 ? SHOWING_PLAN_SHARE : SHOWING_PROGRAMS_SHARE);
	fault = count == 0 ? showing_plan(showing, &progress, faults)
			   : showing_programs(showing, path, count, &progress, faults);
	progress_end(&progress);
	return fault;
}

/* Prints the page, or the verdict alone when nothing could be replayed. A bad
 * verdict is FAULT_PROOF, without a record: it was told. */
static enum fault print(const struct show_page *wishes, const struct showing *showing,
			const char *const *path, size_t count, struct fault_list *faults)
{
	const struct verdict *verdict = &showing->work.judgement.verdict;
	struct show_page page = *wishes;
	enum fault fault;

	page.job = &showing->work.job;
	page.neck = showing->work.neck;
	page.result = &showing->result;
	if (showing->measured)
		fault = show_page_print(stdout, &page, faults);
	else
		fault = table_verdict_print(stdout, verdict, count, path, page.colour, faults);
	return fault || verdict->proven ? fault : FAULT_PROOF;
}

static enum fault show(const struct show_page *wishes, const struct opt_values *values,
		       struct fault_list *faults)
{
	struct showing showing = { 0 };
	const char *path[PROGRAMS_MOST];
	size_t count = values->count - 1;

	for (size_t i = 0; i < count; i++)
		path[i] = values->argument[i + 1];
	enum fault fault =
		load_job(&showing.work.job, &showing.work.neck, values->argument[0], faults);
	if (!fault)
		fault = look(&showing, path, count, faults);
	if (!fault)
		fault = print(wishes, &showing, path, count, faults);
	showing_free(&showing);
	return fault;
}

int cmd_show(int argc, char **argv)
{
	struct opt_values values;
	struct show_page wishes;
	struct fault_list faults = { 0 };
	enum opt_outcome outcome = opt_read(&values, &command, argc, argv, stdout, stderr);

	if (outcome != OPT_GOOD)
		return outcome == OPT_HELP ? EXIT_GOOD : EXIT_USAGE;
	if (read_wishes(&wishes, &values) != EXIT_GOOD)
		return EXIT_USAGE;
	enum fault fault = show(&wishes, &values, &faults);
	load_print_faults(&faults, stderr);
	return fault ? EXIT_FAULT : EXIT_GOOD;
}
