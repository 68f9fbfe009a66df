/* cw-tool-report.c: `report FILE`: everything known about a design as JSON.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-tool.h"

#include "check/cw-report.h"

#include <glib/gi18n.h>

/* As many as anyone would read. */
#define REMEDIES 3

/**
 * cw_tool_report:
 *
 * Returns: the exit status
 */
int
cw_tool_report (int argc, char **argv)
{
  g_autoptr (CwAnalysis) analysis = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  gboolean remedies = FALSE, quick = FALSE;
  int status;
  const GOptionEntry entries[] = {
    { "remedies", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &remedies,
      N_ ("Try what would clear each finding and tell it with its changes; takes longer"), NULL },
    CW_TOOL_QUICK_ENTRY (quick),
    { NULL },
  };

  if (!cw_tool_parse (&argc, &argv, entries, _ ("FILE"),
                      _ (
                        "Prints everything known about a design as JSON: pieces, panels, fold lines, how it lies after "
                        "every step, and all findings."),
                      &status))
    return status;
  if (argc != 2)
    return cw_tool_fail (_ ("report takes one file, not %d; see creasewright-cli report --help"), argc - 1);
  analysis = cw_tool_try_hand (cw_tool_analyse (argv[1], &error), quick);
  if (!analysis)
    return cw_tool_fail ("%s", error->message);
  text = cw_report_to_text_with_remedies (analysis, remedies ? REMEDIES : 0);
  if (!cw_tool_print (text))
    return cw_tool_fail (_ ("the report cannot be written to standard output"));
  return cw_tool_get_status (analysis);
}
