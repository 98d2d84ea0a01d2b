/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The commands. Each gets its own arguments (argv[0] is the command's name),
 * tells faults on standard error, and returns the program's exit status. */
#ifndef NECKHEW_CLI_COMMAND_H
#define NECKHEW_CLI_COMMAND_H

/* Exit statuses, the same for all commands. */
enum {
	EXIT_GOOD = 0,
	EXIT_FAULT = 1, /* refused: a fault in settings, files, plan or proof */
	EXIT_USAGE = 2 /* the command line makes no sense */
};

int cmd_rough(int argc, char **argv);
int cmd_prove(int argc, char **argv);
int cmd_show(int argc, char **argv);
int cmd_check(int argc, char **argv);
int cmd_trace(int argc, char **argv);
int cmd_settings(int argc, char **argv);

#endif
