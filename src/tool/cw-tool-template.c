/* cw-tool-template.c: `template FILE -o OUT`: cutting and scoring templates at true size.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-tool.h"

#include "cw-template.h"

#include <glib/gi18n.h>

/**
 * cw_tool_template:
 *
 * Returns: the exit status
 */
int
cw_tool_template (int argc, char **argv)
{
  g_autofree char *out = NULL, *sheet = NULL;
  CwPageFormat format = CW_PAGE_LETTER;
  g_autoptr (CwAnalysis) analysis = NULL;
  g_autoptr (GError) error = NULL;
  int status;
  const GOptionEntry entries[] = {
    { "output", 'o', G_OPTION_FLAG_NONE, G_OPTION_ARG_FILENAME, &out, N_ ("The template: a .pdf or .svg file"),
      N_ ("OUT") },
    { "sheet", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_STRING, &sheet,
      N_ ("Size of the pages: letter, a4, half-letter or a5; unless said letter for inches, a4 for millimetres"),
      N_ ("SHEET") },
    { NULL },
  };

  if (!cw_tool_parse (&argc, &argv, entries, _ ("FILE -o OUT.(pdf|svg)"),
                      _ ("Draws all pieces at true size, to cut and score by."), &status))
    return status;
  if (argc != 2)
    return cw_tool_fail (_ ("template takes one file, not %d; see creasewright-cli template --help"), argc - 1);
  if (out == NULL)
    return cw_tool_fail (_ ("template needs -o with the file to write; see creasewright-cli template --help"));
  if (sheet != NULL && !cw_page_format_parse (sheet, &format))
    return cw_tool_fail (_ ("--sheet “%s”: expected letter, a4, half-letter or a5"), sheet);
  gboolean svg = cw_tool_has_ending (out, ".svg");
  if (!svg && !cw_tool_has_ending (out, ".pdf"))
    return cw_tool_fail (_ ("“%s”: expected a name ending in .pdf or .svg"), out);
  if (svg && sheet != NULL)
    return cw_tool_fail (_ ("--sheet is for pages; an .svg file is as large as the pieces"));
  analysis = cw_tool_analyse (argv[1], &error);
  if (analysis == NULL)
    return cw_tool_fail ("%s", error->message);

  g_autoptr (GFile) file = g_file_new_for_commandline_arg (out);
  gboolean written;
  if (sheet == NULL && analysis->design->head->unit != CW_UNIT_INCH)
    format = CW_PAGE_A4;
  if (svg)
    written = cw_template_write_svg (analysis, file, &error);
  else
    {
      g_autoptr (CwPages) pages = cw_pages_new_template (analysis, format);

      written = cw_pages_write_pdf (pages, file, &error);
    }
  if (!written)
    return cw_tool_fail ("%s: %s", out, error->message);
  return cw_tool_get_status (analysis);
}
