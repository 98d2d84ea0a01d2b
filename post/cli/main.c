/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program neckhew: finds the command and lets it work. */
#include <gsl/gsl_errno.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "cli/command.h"
#include "config/nearest.h"
#include "config/utf8.h"
#include "version.h"

static int cmd_help(int argc, char **argv);
static int cmd_version(int argc, char **argv);

struct command {
	const char *name;
	int (*run)(int argc, char **argv);
	const char *help;
};

static const struct command commands[] = {
	{ "rough", cmd_rough, "plan and prove the programs that rough a neck" },
	{ "prove", cmd_prove, "judge program files, whoever wrote or edited them" },
	{ "show", cmd_show, "draw in characters what is cut, or left" },
	{ "check", cmd_check, "check a neck file and print its figures" },
	{ "trace", cmd_trace, "make stations of points measured on a neck" },
	{ "settings", cmd_settings, "list every setting with its limits and default" },
	{ "help", cmd_help, "print this, or the help of one command" },
	{ "version", cmd_version, "print name and version" },
};
#define COMMAND_COUNT (sizeof commands / sizeof commands[0])

static const struct command *find_command(const char *name)
{
	for (size_t i = 0; i < COMMAND_COUNT; i++) {
		if (strcmp(commands[i].name, name) == 0)
			return &commands[i];
	}
	return NULL;
}

static const char *command_name(const void *context, size_t i)
{
	const struct command *table = context;

	return table[i].name;
}

static int refuse_command(const char *name)
{
	char plain[48];
	size_t nearest = nearest_word(name, COMMAND_COUNT, command_name, commands);

	utf8_make_plain(plain, sizeof plain, name);
	(void)fprintf(stderr, "neckhew: there is no command \"%s\"; the nearest is \"%s\"\n", plain,
		      commands[nearest].name);
	(void)fprintf(stderr, "Try: neckhew help\n");
	return EXIT_USAGE;
}

static void print_overview(FILE *to)
{
	(void)fprintf(to, "Usage: neckhew COMMAND [OPTION...] [ARGUMENT...]\n\n"
			  "Roughs the back of a guitar neck on a three-axis router: plans the\n"
			  "programs, proves them against the finished neck, shows what is left\n"
			  "to the hand.\n\nCommands:\n");
	for (size_t i = 0; i < COMMAND_COUNT; i++)
		(void)fprintf(to, "  %-10s%s\n", commands[i].name, commands[i].help);
	(void)fprintf(to,
		      "\n\"neckhew COMMAND --help\" tells more about a command.\n"
		      "Exit status: 0 good, 1 refused or not proven, 2 command line unclear.\n");
}

static int cmd_help(int argc, char **argv)
{
	char option[] = "--help";

	if (argc > 2) {
		(void)fprintf(stderr, "neckhew help: one command at a time\n");
		return EXIT_USAGE;
	}
	const struct command *command = argc == 2 ? find_command(argv[1]) : NULL;
	if (argc == 2 && !command && argv[1][0] != '-')
		return refuse_command(argv[1]);
	if (!command || command->run == cmd_help || command->run == cmd_version) {
		print_overview(stdout);
		return EXIT_GOOD;
	}
	char *arguments[] = { argv[1], option, NULL };
	return command->run(2, arguments);
}

static int cmd_version(int argc, char **argv)
{
	(void)argv;
	if (argc > 1) {
		(void)fprintf(stderr, "neckhew version: takes no argument\n");
		return EXIT_USAGE;
	}
	(void)printf("%s %s\n", NECKHEW_NAME, NECKHEW_VERSION);
	return EXIT_GOOD;
}

/* The same as a command, for those who try dashes first. */
static const char *without_dashes(const char *word)
{
	if (strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0)
		return "help";
	return strcmp(word, "--version") == 0 ? "version" : word;
}

int main(int argc, char **argv)
{
	/* every status is checked; the default handler would end the program */
	(void)gsl_set_error_handler_off();
	/* a file that may grow no further is a fault to be told, not a sudden end */
	(void)signal(SIGXFSZ, SIG_IGN);
	if (argc < 2) {
		print_overview(stderr);
		return EXIT_USAGE;
	}
	const struct command *command = find_command(without_dashes(argv[1]));
	if (!command)
		return refuse_command(argv[1]);
	int status = command->run(argc - 1, argv + 1);
	bool told = fflush(stdout) == 0 && !ferror(stdout);
	if (!told)
		(void)fprintf(stderr, "neckhew: the output could not be written\n");
	return told || status ? status : EXIT_FAULT;
}
