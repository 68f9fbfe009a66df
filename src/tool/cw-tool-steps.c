/* cw-tool-steps.c: `steps FILE`: every trimmer move of a design as JSON.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-tool.h"

#include "text/cw-step-card.h"

#include <glib/gi18n.h>

/**
 * cw_tool_steps:
 *
 * Returns: the exit status
 */
int
cw_tool_steps (int argc, char **argv)
{
  gboolean json = FALSE, words = FALSE, sixteenths = FALSE;
  g_autoptr (CwAnalysis) analysis = NULL;
  g_autoptr (GError) error = NULL;
  int status;
  const GOptionEntry entries[] = {
    { "json", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &json, N_ ("Print every trimmer move as JSON"), NULL },
    { "text", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &words, N_ ("Print the step cards as plain text"), NULL },
    { "sixteenths", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &sixteenths,
      N_ ("Count the small marks beside fractions of an inch"), NULL },
    { NULL },
  };

  if (!cw_tool_parse (&argc, &argv, entries, _ ("FILE --json"),
                      _ ("Tells every straight cut, slit and score as a move on a trimmer."), &status))
    return status;
  if (argc != 2)
    return cw_tool_fail (_ ("steps takes one file, not %d; see creasewright-cli steps --help"), argc - 1);
  if (!json && !words)
    return cw_tool_fail (_ ("steps needs --json; see creasewright-cli steps --help"));
  analysis = cw_tool_analyse (argv[1], &error);
  if (analysis == NULL)
    return cw_tool_fail ("%s", error->message);

  CwStepCardOptions options = cw_step_card_usual;
  options.sixteenths = sixteenths;
  g_autoptr (CwStepCard) card = cw_step_card_new (analysis, &options);
  g_autofree char *text = json ? cw_trimming_to_text (card->trimming, analysis->design) : cw_step_card_to_text (card);
  if (!(json ? cw_tool_print (text) : cw_tool_print_words (text)))
    return cw_tool_fail (_ ("the steps cannot be written to standard output"));
  return cw_tool_get_status (analysis);
}
