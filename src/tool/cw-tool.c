/* cw-tool.c: what the commands share: their command lines, reading a design, saying that something failed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-tool.h"

#include "check/cw-trial.h"

#include "design/cw-design-json.h"

#include <glib/gi18n.h>
#include <stdio.h>

/**
 * cw_tool_fail:
 * @format: what failed and where, like printf()
 *
 * Says it in one line on standard error.
 *
 * Returns: the exit status of a failure
 */
int
cw_tool_fail (const char *format, ...)
{
  g_autofree char *words = NULL;
  va_list args;

  va_start (args, format);
  words = g_strdup_vprintf (format, args);
  va_end (args);
  g_strdelimit (words, "\n\r", ' ');
  g_printerr ("creasewright-cli: %s\n", words);
  return CW_TOOL_FAILED;
}

/**
 * cw_tool_parse:
 * @argc: (inout): number of words
 * @argv: (inout): the command's name and what follows it; gets what is left, without the options
 * @entries: the command's options, ended by an empty one
 * @arguments: what it takes, such as "FILE"
 * @summary: what it does
 * @status: (out): the exit status when the command is done
 *
 * Returns: %TRUE to go on; %FALSE when help was printed or the call is wrong
 */
gboolean
cw_tool_parse (int *argc, char ***argv, const GOptionEntry *entries, const char *arguments, const char *summary,
               int *status)
{
  gboolean help = FALSE;
  const GOptionEntry common[] = {
    { "help", 'h', G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &help, N_ ("Show this help"), NULL },
    { NULL },
  };
  g_autoptr (GOptionContext) context = g_option_context_new (arguments);
  g_autofree char *program = g_strdup_printf ("creasewright-cli %s", (*argv)[0]);
  g_autoptr (GError) error = NULL;

  g_option_context_set_translation_domain (context, GETTEXT_PACKAGE);
  g_option_context_set_summary (context, summary);
  g_option_context_set_help_enabled (context, FALSE);
  if (entries)
    g_option_context_add_main_entries (context, entries, GETTEXT_PACKAGE);
  g_option_context_add_main_entries (context, common, GETTEXT_PACKAGE);
  g_set_prgname (program);

  if (!g_option_context_parse (context, argc, argv, &error))
    {
      *status = cw_tool_fail (_ ("%s; see %s --help"), error->message, program);
      return FALSE;
    }
  if (help)
    {
      g_autofree char *text = g_option_context_get_help (context, TRUE, NULL);

      g_print ("%s", text);
      *status = CW_TOOL_FINE;
      return FALSE;
    }
  /* A lone "--" only ends the options. */
  if (*argc > 1 && g_str_equal ((*argv)[1], "--"))
    {
      (*argv)[1] = (*argv)[0];
      (*argv)++;
      (*argc)--;
    }
  return TRUE;
}

/**
 * cw_tool_analyse:
 * @path: a file
 * @error: return location for a #GError: what is wrong with the file, and where
 *
 * Returns: (transfer full) (nullable): all that is known about the design in it
 */
CwAnalysis *
cw_tool_analyse (const char *path, GError **error)
{
  return cw_tool_analyse_for_tools (path, &cw_tools_usual, error);
}

/**
 * cw_tool_analyse_for_tools:
 * @path: a file
 * @tools: the maker's tools
 * @error: return location for a #GError: what is wrong with the file, and where
 *
 * Returns: (transfer full) (nullable): all that is known about the design in it
 */
CwAnalysis *
cw_tool_analyse_for_tools (const char *path, const CwTools *tools, GError **error)
{
  g_autoptr (GFile) file = g_file_new_for_commandline_arg (path);
  g_autoptr (CwDesign) design = cw_design_load (file, error);

  return design ? cw_analysis_new_for_tools (design, tools, NULL) : NULL;
}

/**
 * cw_tool_try_hand:
 * @analysis: (nullable) (transfer full): an analysis
 * @quick: whether to leave that out
 *
 * Returns: (transfer full) (nullable): @analysis with what becomes of it when a hand misses
 */
CwAnalysis *
cw_tool_try_hand (CwAnalysis *analysis, gboolean quick)
{
  g_autoptr (CwAnalysis) own = analysis;

  return own == NULL || quick ? g_steal_pointer (&own) : cw_analysis_try_hand (own, NULL);
}

/**
 * cw_tool_tools_clear:
 * @tools: what the command line said of tools
 */
void
cw_tool_tools_clear (CwToolTools *tools)
{
  g_clear_pointer (&tools->file, g_free);
  g_clear_pointer (&tools->values, g_strfreev);
}

/**
 * cw_tool_tools_read:
 * @from: what the command line said of tools
 * @tools: (out): the usual ones, changed by the file, then by the single values
 * @error: return location for a #GError: what is wrong, and where
 *
 * Returns: %FALSE when the file cannot be read or a value is none
 */
gboolean
cw_tool_tools_read (const CwToolTools *from, CwTools *tools, GError **error)
{
  g_autofree char *text = NULL;

  *tools = cw_tools_usual;
  if (from->file != NULL && !g_file_get_contents (from->file, &text, NULL, error))
    return FALSE;
  if (text != NULL && !cw_tools_read (tools, text, error))
    {
      g_prefix_error (error, "%s: ", from->file);
      return FALSE;
    }
  for (guint i = 0; from->values != NULL && from->values[i] != NULL; i++)
    {
      g_auto (GStrv) two = g_strsplit (from->values[i], "=", 2);

      if (two[0] == NULL || two[1] == NULL)
        {
          g_set_error (error, CW_TOOLS_ERROR, CW_TOOLS_ERROR_VALUE, _ ("“%s”: expected KEY=VALUE"), from->values[i]);
          return FALSE;
        }
      if (!cw_tools_set (tools, g_strstrip (two[0]), g_strstrip (two[1]), error))
        {
          g_prefix_error (error, "--tool: ");
          return FALSE;
        }
    }
  return TRUE;
}

/**
 * cw_tool_get_status:
 *
 * Returns: the exit status that @analysis asks for
 */
int
cw_tool_get_status (const CwAnalysis *analysis)
{
  return cw_analysis_get_verdict (analysis) == CW_VERDICT_ERRORS ? CW_TOOL_FAULTS : CW_TOOL_FINE;
}

/**
 * cw_tool_has_ending:
 * @name: a file's name
 * @ending: such as ".pdf", lower case
 *
 * Returns: whether @name ends so, whatever the case
 */
gboolean
cw_tool_has_ending (const char *name, const char *ending)
{
  g_autofree char *lower = g_ascii_strdown (name, -1);

  return g_str_has_suffix (lower, ending);
}

/**
 * cw_tool_dup_date:
 *
 * Returns: (transfer full) (nullable): the day that SOURCE_DATE_EPOCH names, in UTC
 */
char *
cw_tool_dup_date (void)
{
  const char *epoch = g_getenv ("SOURCE_DATE_EPOCH");
  g_autoptr (GDateTime) day = NULL;
  gint64 seconds;

  if (epoch == NULL || !g_ascii_string_to_signed (epoch, 10, 0, G_GINT64_CONSTANT (253402300799), &seconds, NULL))
    return NULL;
  day = g_date_time_new_from_unix_utc (seconds);
  return day != NULL ? g_date_time_format (day, "%Y-%m-%d") : NULL;
}

/**
 * cw_tool_print:
 * @text: UTF-8
 *
 * Writes @text to standard output byte for byte, whatever the locale.
 *
 * Returns: %FALSE if it cannot be written
 */
gboolean
cw_tool_print (const char *text)
{
  return fputs (text, stdout) != EOF && fflush (stdout) == 0;
}

/**
 * cw_tool_print_words:
 * @text: UTF-8
 *
 * Writes @text to standard output for a reader, in the locale's character set.
 *
 * Returns: %FALSE if it cannot be written
 */
gboolean
cw_tool_print_words (const char *text)
{
  g_print ("%s", text);
  return fflush (stdout) == 0 && !ferror (stdout);
}
