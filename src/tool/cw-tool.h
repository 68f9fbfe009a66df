/* cw-tool.h: the commands of the program without a window, one file each, and what they share.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-analysis.h"

G_BEGIN_DECLS

/* Exit statuses. */
#define CW_TOOL_FINE 0   /* no finding of severity error */
#define CW_TOOL_FAULTS 1 /* at least one */
#define CW_TOOL_FAILED 2 /* the file cannot be read or written, or the call is wrong */

/* argv[0] is the command's name. */
typedef int (*CwToolRun) (int argc, char **argv);

int cw_tool_check (int argc, char **argv);
int cw_tool_report (int argc, char **argv);
int cw_tool_show (int argc, char **argv);
int cw_tool_steps (int argc, char **argv);
int cw_tool_template (int argc, char **argv);

/* Reads the command line of one command; FALSE when the command is done, with its exit status. */
gboolean cw_tool_parse (int *argc, char ***argv, const GOptionEntry *entries, const char *arguments,
                        const char *summary, int *status);
CwAnalysis *cw_tool_analyse (const char *path, GError **error);
CwAnalysis *cw_tool_analyse_for_tools (const char *path, const CwTools *tools, GError **error);

/* The option that leaves out what takes longest. */
#define CW_TOOL_QUICK_ENTRY(quick)                                                                                     \
  {                                                                                                                    \
    "quick", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &(quick),                                                       \
      N_ ("Leave out what becomes of a card when a careful hand misses"), NULL                                         \
  }

CwAnalysis *cw_tool_try_hand (CwAnalysis *analysis, gboolean quick);

/* The maker's tools, from a file and from single values of the command line. */
typedef struct
{
  char *file, **values; /* owned; NULL where not given */
} CwToolTools;

#define CW_TOOL_TOOLS_ENTRIES(tools)                                                                                   \
  { "tools",                                                                                                           \
    0,                                                                                                                 \
    G_OPTION_FLAG_NONE,                                                                                                \
    G_OPTION_ARG_FILENAME,                                                                                             \
    &(tools).file,                                                                                                     \
    N_ ("Your tools: a file with lines such as rule=right-to-left"),                                                   \
    N_ ("FILE") },                                                                                                     \
  {                                                                                                                    \
    "tool", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING_ARRAY, &(tools).values,                                         \
      N_ ("One thing about your tools, such as finest=\"1/8 in\"; may be given more than once"), N_ ("KEY=VALUE")      \
  }

void cw_tool_tools_clear (CwToolTools *tools);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CwToolTools, cw_tool_tools_clear)
gboolean cw_tool_tools_read (const CwToolTools *from, CwTools *tools, GError **error);
int cw_tool_get_status (const CwAnalysis *analysis);
int cw_tool_fail (const char *format, ...) G_GNUC_PRINTF (1, 2);
gboolean cw_tool_has_ending (const char *name, const char *ending); /* whatever the case */
char *cw_tool_dup_date (void); /* of SOURCE_DATE_EPOCH, "2031-02-03"; NULL without one */
gboolean cw_tool_print (const char *text);
gboolean cw_tool_print_words (const char *text);

G_END_DECLS
