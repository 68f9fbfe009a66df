/* cw-tool-steps.c: `steps FILE`: every trimmer move of a design as JSON.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-tool.h"

#include "trim/cw-trimmer.h"

#include <glib/gi18n.h>

/**
 * cw_tool_steps:
 *
 * Returns: the exit status
 */
int
cw_tool_steps (int argc, char **argv)
{
  gboolean json = FALSE;
  g_autoptr (CwAnalysis) analysis = NULL;
  g_autoptr (GError) error = NULL;
  int status;
  const GOptionEntry entries[] = {
    { "json", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &json, N_ ("Print every trimmer move as JSON"), NULL },
    { NULL },
  };

  if (!cw_tool_parse (&argc, &argv, entries, _ ("FILE --json"),
                      _ ("Tells every straight cut, slit and score as a move on a trimmer."), &status))
    return status;
  if (argc != 2)
    return cw_tool_fail (_ ("steps takes one file, not %d; see creasewright-cli steps --help"), argc - 1);
  if (!json)
    return cw_tool_fail (_ ("steps needs --json; see creasewright-cli steps --help"));
  analysis = cw_tool_analyse (argv[1], &error);
  if (analysis == NULL)
    return cw_tool_fail ("%s", error->message);

  g_autoptr (CwTrimming) trimming = cw_trimming_new (analysis->design, &cw_tools_usual);
  g_autofree char *text = cw_trimming_to_text (trimming, analysis->design);
  if (!cw_tool_print (text))
    return cw_tool_fail (_ ("the steps cannot be written to standard output"));
  return cw_tool_get_status (analysis);
}
