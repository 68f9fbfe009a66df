/* cw-report-finding.c: the findings of the report.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-report-private.h"

#include "units/cw-about.h"

/* A finding's measure: text as the maker reads it, the value in inches, degrees, square inches or as a count. */
static JsonObject *
new_amount (const CwFinding *finding, CwUnit unit)
{
  JsonObject *amount = json_object_new ();
  g_autofree char *text = NULL, *number = NULL;

  switch (finding->amount_unit)
    {
    case CW_AMOUNT_TICKS:
      text = cw_about_length (finding->amount, unit);
      json_object_set_string_member (amount, "text", text);
      json_object_set_double_member (amount, "value", cw_report_inches (finding->amount));
      json_object_set_string_member (amount, "unit", "in");
      break;
    case CW_AMOUNT_SQ_TICKS:
      text = cw_about_area (finding->amount, unit);
      json_object_set_string_member (amount, "text", text);
      json_object_set_double_member (amount, "value", cw_report_square_inches (finding->amount));
      json_object_set_string_member (amount, "unit", "sq in");
      break;
    case CW_AMOUNT_DEGREES:
      number = cw_about_degrees (finding->amount);
      text = g_strdup_printf ("%s degrees", number);
      json_object_set_string_member (amount, "text", text);
      cw_report_set (amount, "value", finding->amount);
      json_object_set_string_member (amount, "unit", "deg");
      break;
    case CW_AMOUNT_COUNT:
    case CW_AMOUNT_NONE:
    default:
      number = cw_about_degrees (finding->amount);
      json_object_set_string_member (amount, "text", number);
      cw_report_set (amount, "value", finding->amount);
      json_object_set_string_member (amount, "unit", "count");
      break;
    }
  return amount;
}

static const char *
known_key (CwKnown known)
{
  switch (known)
    {
    case CW_KNOWN_BOUNDED:
      return "bounded";
    case CW_KNOWN_NUMERIC:
      return "numeric";
    case CW_KNOWN_NOT_DECIDED:
      return "not-decided";
    case CW_KNOWN_EXACT:
    default:
      return "exact";
    }
}

static JsonObject *
new_finding (const CwFinding *finding, CwUnit unit)
{
  JsonObject *entry = json_object_new ();
  JsonArray *panels = json_array_new ();
  g_autofree char *text = cw_finding_dup_text (finding, FALSE), *remedy = cw_finding_dup_remedy (finding, FALSE);

  json_object_set_string_member (entry, "code", cw_finding_code_get_key (finding->code));
  json_object_set_string_member (entry, "severity", cw_severity_get_key (finding->severity));
  if (finding->step)
    {
      json_object_set_string_member (entry, "step", finding->step);
      cw_report_set (entry, "fraction", finding->fraction);
      if (finding->steps->len > 0)
        json_object_set_array_member (entry, "steps", cw_report_strings (finding->steps));
    }
  json_object_set_array_member (entry, "pieces", cw_report_strings (finding->pieces));
  for (guint i = 0; i < finding->panels->len; i++)
    {
      const CwPanelRef *ref = &g_array_index (finding->panels, CwPanelRef, i);
      JsonObject *panel = json_object_new ();

      json_object_set_string_member (panel, "piece", ref->piece);
      json_object_set_int_member (panel, "panel", ref->panel);
      json_array_add_object_element (panels, panel);
    }
  json_object_set_array_member (entry, "panels", panels);
  if (finding->marks->len > 0)
    json_object_set_array_member (entry, "marks", cw_report_strings (finding->marks));
  if (finding->has_at)
    {
      JsonArray *at = cw_report_pair (cw_report_inches (finding->at.x), cw_report_inches (finding->at.y));

      if (fpclassify (cw_report_inches (finding->at.z)) != FP_ZERO)
        json_array_add_double_element (at, cw_report_inches (finding->at.z));
      if (finding->at_piece)
        json_object_set_string_member (entry, "at_piece", finding->at_piece);
      json_object_set_array_member (entry, "at_in", at);
    }
  if (finding->amount_unit != CW_AMOUNT_NONE)
    json_object_set_object_member (entry, "amount", new_amount (finding, unit));
  if (finding->has_would_be)
    json_object_set_string_member (entry, "would_be", cw_finding_code_get_key (finding->would_be));
  json_object_set_string_member (entry, "known", known_key (finding->known));
  json_object_set_string_member (entry, "text", text);
  if (remedy)
    json_object_set_string_member (entry, "remedy", remedy);
  return entry;
}

/**
 * cw_report_new_findings:
 * @analysis: an analysis
 * @n_remedies: how many remedies to try to find for each; 0: none is told
 *
 * Returns: (transfer full): all findings, worst first
 */
JsonArray *
cw_report_new_findings (const CwAnalysis *analysis, guint n_remedies)
{
  JsonArray *findings = json_array_sized_new (analysis->findings->len);
  CwUnit unit = analysis->design->head ? analysis->design->head->unit : CW_UNIT_INCH;

  for (guint i = 0; i < analysis->findings->len; i++)
    {
      const CwFinding *finding = g_ptr_array_index (analysis->findings, i);
      JsonObject *entry = new_finding (finding, unit);

      if (n_remedies > 0)
        json_object_set_array_member (entry, "remedies", cw_report_new_remedies (analysis, finding, n_remedies));
      json_array_add_object_element (findings, entry);
    }
  return findings;
}
