/* cw-tool-check.c: `check FILE…`: findings in plain words, worst first, or as JSON.
 *
 * A file that cannot be read is said in one line on standard error and does not keep the others from being checked; the
 * exit status is then 2.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-tool.h"

#include "check/cw-trial.h"
#include "check/cw-report.h"

#include <glib/gi18n.h>

/* A measure is told if a miss shows as more than this many times itself. */
#define SHOWS_MORE 1.25

static const char *
severity_words (CwSeverity severity)
{
  switch (severity)
    {
    case CW_SEVERITY_ERROR:
      return _ ("error");
    case CW_SEVERITY_WARNING:
      return _ ("warning");
    case CW_SEVERITY_NOTE:
    default:
      return _ ("note");
    }
}

/* What to measure most carefully, where a miss shows as more than itself. */
static void
append_measures (GString *text, const CwAnalysis *analysis)
{
  gboolean any = FALSE;

  for (guint i = 0; analysis->levers != NULL && i < analysis->levers->len; i++)
    {
      const CwLever *lever = analysis->levers->pdata[i];
      g_autofree char *words = NULL;

      if (lever->shows < (double) analysis->design->head->hand.ticks * SHOWS_MORE)
        continue;
      words = cw_lever_dup_text (lever, analysis, TRUE);
      if (!any)
        g_string_append_printf (text, "  %s\n", _ ("Measure these most carefully:"));
      any = TRUE;
      g_string_append_printf (text, "    %s\n", words);
    }
}

/* "card.creasecard: 1 error, 2 notes" and a paragraph for each finding. */
static void
append_words (GString *text, const char *path, const CwAnalysis *analysis)
{
  g_autofree char *name = g_filename_display_name (path);
  guint n[3] = { 0, 0, 0 };
  const char *separator = " ";

  for (guint i = 0; i < analysis->findings->len; i++)
    n[((const CwFinding *) g_ptr_array_index (analysis->findings, i))->severity]++;
  g_string_append_printf (text, "%s:", name);
  if (analysis->findings->len == 0)
    g_string_append_printf (text, " %s", _ ("nothing to say"));
  for (guint i = 0; i < G_N_ELEMENTS (n); i++)
    {
      if (n[i] == 0)
        continue;
      g_string_append (text, separator);
      separator = ", ";
      switch ((CwSeverity) i)
        {
        case CW_SEVERITY_ERROR:
          g_string_append_printf (text, ngettext ("%u error", "%u errors", n[i]), n[i]);
          break;
        case CW_SEVERITY_WARNING:
          g_string_append_printf (text, ngettext ("%u warning", "%u warnings", n[i]), n[i]);
          break;
        case CW_SEVERITY_NOTE:
        default:
          g_string_append_printf (text, ngettext ("%u note", "%u notes", n[i]), n[i]);
          break;
        }
    }
  g_string_append_c (text, '\n');
  for (guint i = 0; i < analysis->findings->len; i++)
    {
      const CwFinding *finding = g_ptr_array_index (analysis->findings, i);
      g_autofree char *words = cw_finding_dup_text (finding, TRUE), *remedy = cw_finding_dup_remedy (finding, TRUE);

      g_string_append_printf (text, "  %s: %s\n", severity_words (finding->severity), words);
      if (remedy)
        g_string_append_printf (text, "    %s\n", remedy);
    }
  append_measures (text, analysis);
}

static void
append_indented (GString *text, const char *json)
{
  g_auto (GStrv) lines = g_strsplit (json, "\n", -1);

  for (guint i = 0; lines[i] != NULL && (lines[i][0] != '\0' || lines[i + 1] != NULL); i++)
    g_string_append_printf (text, "%s  %s", i > 0 ? "\n" : "", lines[i]);
}

/**
 * cw_tool_check:
 *
 * Returns: the exit status
 */
int
cw_tool_check (int argc, char **argv)
{
  gboolean json = FALSE, quick = FALSE, failed = FALSE;
  g_auto (CwToolTools) from = { NULL, NULL };
  g_autoptr (GError) wrong = NULL;
  CwTools tools;
  const GOptionEntry entries[] = {
    { "json", 0, G_OPTION_FLAG_NONE, G_OPTION_ARG_NONE, &json, N_ ("Print JSON: a list with an entry for every file"),
      NULL },
    CW_TOOL_QUICK_ENTRY (quick),
    CW_TOOL_TOOLS_ENTRIES (from),
    { NULL },
  };
  g_autoptr (GString) text = g_string_new (NULL);
  int status, worst = CW_TOOL_FINE;
  guint n_told = 0;

  if (!cw_tool_parse (&argc, &argv, entries, _ ("FILE…"),
                      _ ("Prints what there is to say about each design in plain words, worst first."), &status))
    return status;
  if (argc < 2)
    return cw_tool_fail (_ ("check takes at least one file; see creasewright-cli check --help"));

  if (!cw_tool_tools_read (&from, &tools, &wrong))
    return cw_tool_fail ("%s", wrong->message);

  for (int i = 1; i < argc; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CwAnalysis) analysis = cw_tool_try_hand (cw_tool_analyse_for_tools (argv[i], &tools, &error), quick);

      if (!analysis)
        {
          cw_tool_fail ("%s", error->message);
          failed = TRUE;
          continue;
        }
      if (json)
        {
          g_autofree char *name = g_filename_display_name (argv[i]);
          g_autofree char *findings = cw_findings_to_text (analysis, name);

          g_string_append (text, n_told > 0 ? ",\n" : "[\n");
          append_indented (text, findings);
        }
      else
        append_words (text, argv[i], analysis);
      n_told++;
      worst = MAX (worst, cw_tool_get_status (analysis));
    }
  if (json && n_told > 0)
    g_string_append (text, "\n]\n");

  if (json ? !cw_tool_print (text->str) : !cw_tool_print_words (text->str))
    return cw_tool_fail (_ ("the findings cannot be written to standard output"));
  return failed ? CW_TOOL_FAILED : worst;
}
