/* cw-tool-steps.c: `steps FILE`: the step cards as pages, for the web or as plain text, and every trimmer move as JSON.
 *
 * A date is printed only if the design names one, or SOURCE_DATE_EPOCH does (seconds since 1970, a custom of
 * reproducible builds): the same design gives the same file.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-tool.h"

#include "cw-page.h"
#include "cw-page-html.h"

#include <glib/gi18n.h>

static gboolean
write_pages (const CwStepCard *card, const CwPageStyle *style, const char *path, const char *out, GError **error)
{
  g_autoptr (GFile) file = g_file_new_for_commandline_arg (out);

  if (cw_tool_has_ending (out, ".html"))
    {
      g_autoptr (GFile) design = g_file_new_for_commandline_arg (path);
      g_autoptr (GFile) folder = g_file_get_parent (design);

      return cw_step_card_write_html (card, folder, file, error);
    }

  g_autoptr (CwPages) pages = cw_pages_new_step_card (card, style);
  return cw_pages_write_pdf (pages, file, error);
}

/**
 * cw_tool_steps:
 *
 * Returns: the exit status
 */
int
cw_tool_steps (int argc, char **argv)
{
  gboolean json = FALSE, words = FALSE;
  g_autofree char *out = NULL, *sheet = NULL, *date = NULL, *text = NULL;
  CwPageStyle style = { CW_PAGE_LETTER, FALSE };
  CwStepCardOptions options = cw_step_card_usual;
  g_autoptr (CwAnalysis) analysis = NULL;
  g_autoptr (CwStepCard) card = NULL;
  g_autoptr (GError) error = NULL;
  g_auto (CwToolTools) from = { NULL, NULL };
  CwTools tools;
  int status;
  const GOptionEntry entries[] = {
    { "output", 'o', G_OPTION_FLAG_NONE, G_OPTION_ARG_FILENAME, &out,
      N_ ("The step cards: a .pdf file to print, or an .html file for the web"), N_ ("OUT") },
    { "sheet", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &sheet,
      N_ ("Size of the pages: letter, a4, half-letter or a5; unless said letter for inches, a4 for millimetres"),
      N_ ("SHEET") },
    { "large-type", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &style.large,
      N_ ("Print in large type, 18 points and more"), NULL },
    { "sixteenths", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &options.sixteenths,
      N_ ("Count the small marks beside fractions of an inch"), NULL },
    { "text", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &words, N_ ("Print the step cards as plain text"), NULL },
    { "json", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &json, N_ ("Print every trimmer move as JSON"), NULL },
    CW_TOOL_TOOLS_ENTRIES (from),
    { NULL },
  };

  if (!cw_tool_parse (&argc, &argv, entries, _ ("FILE -o OUT.(pdf|html)"),
                      _ ("Prints the step cards: what the reader holds to make the card."), &status))
    return status;
  if (argc != 2)
    return cw_tool_fail (_ ("steps takes one file, not %d; see creasewright-cli steps --help"), argc - 1);
  if (!json && !words && out == NULL)
    return cw_tool_fail (
      _ ("steps needs -o with a .pdf or .html file, --text or --json; see creasewright-cli steps --help"));
  if (json && words)
    return cw_tool_fail (_ ("--json and --text both go to standard output: choose one"));
  if (sheet != NULL && !cw_page_format_parse (sheet, &style.format))
    return cw_tool_fail (_ ("--sheet “%s”: expected letter, a4, half-letter or a5"), sheet);
  if (out != NULL && !cw_tool_has_ending (out, ".pdf") && !cw_tool_has_ending (out, ".html"))
    return cw_tool_fail (_ ("“%s”: expected a name ending in .pdf or .html"), out);
  if (out != NULL && cw_tool_has_ending (out, ".html") && (sheet != NULL || style.large))
    return cw_tool_fail (_ ("--sheet and --large-type are for printed pages, not for .html"));
  if (!cw_tool_tools_read (&from, &tools, &error))
    return cw_tool_fail ("%s", error->message);
  analysis = cw_tool_analyse_for_tools (argv[1], &tools, &error);
  if (analysis == NULL)
    return cw_tool_fail ("%s", error->message);

  if (sheet == NULL && analysis->design->head->unit != CW_UNIT_INCH)
    style.format = CW_PAGE_A4;
  options.date = date = cw_tool_dup_date ();
  card = cw_step_card_new (analysis, &options);
  if (out != NULL && !write_pages (card, &style, argv[1], out, &error))
    return cw_tool_fail ("%s: %s", out, error->message);
  if (json)
    text = cw_trimming_to_text (card->trimming, analysis->design);
  else if (words)
    text = cw_step_card_to_text (card);
  if (text != NULL && !(json ? cw_tool_print (text) : cw_tool_print_words (text)))
    return cw_tool_fail (_ ("the steps cannot be written to standard output"));
  return cw_tool_get_status (analysis);
}
