/* cw-preferences.c: what the maker has chosen once for all cards, kept in GSettings.
 *
 * Tools are kept under the keys of trim/cw-tools.h, "tool-" before them, in the same words as in files. A value that no
 * longer means anything counts as the usual one.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-preferences.h"

#define TOOL "tool-"

/**
 * cw_preferences_new:
 *
 * Returns: (transfer full) (nullable): the settings; %NULL when their schema is not installed
 */
GSettings *
cw_preferences_new (void)
{
  GSettingsSchemaSource *source = g_settings_schema_source_get_default ();
  g_autoptr (GSettingsSchema) schema
    = source != NULL ? g_settings_schema_source_lookup (source, CW_APP_ID, TRUE) : NULL;

  return schema != NULL ? g_settings_new (CW_APP_ID) : NULL;
}

/**
 * cw_preferences_read_tools:
 * @settings: (nullable): the settings
 * @tools: (out): the maker's tools
 */
void
cw_preferences_read_tools (GSettings *settings, CwTools *tools)
{
  g_return_if_fail (tools != NULL);

  *tools = cw_tools_usual;
  for (const char *const *key = cw_tools_get_keys (); settings != NULL && *key != NULL; key++)
    {
      g_autofree char *name = g_strconcat (TOOL, *key, NULL), *value = g_settings_get_string (settings, name);

      cw_tools_set (tools, *key, value, NULL);
    }
}

/**
 * cw_preferences_write_tools:
 * @settings: (nullable): the settings
 * @tools: the maker's tools
 */
void
cw_preferences_write_tools (GSettings *settings, const CwTools *tools)
{
  g_return_if_fail (tools != NULL);

  for (const char *const *key = cw_tools_get_keys (); settings != NULL && *key != NULL; key++)
    {
      g_autofree char *name = g_strconcat (TOOL, *key, NULL), *value = cw_tools_dup_value (tools, *key);
      g_autofree char *old = g_settings_get_string (settings, name);

      if (g_strcmp0 (old, value) != 0)
        g_settings_set_string (settings, name, value);
    }
}

/**
 * cw_preferences_read_format:
 * @settings: (nullable): the settings
 * @unit: the unit a card is measured in
 *
 * Returns: the sheet to print on
 */
CwPageFormat
cw_preferences_read_format (GSettings *settings, CwUnit unit)
{
  g_autofree char *key = settings != NULL ? g_settings_get_string (settings, "page-sheet") : NULL;
  CwPageFormat format = unit == CW_UNIT_INCH ? CW_PAGE_LETTER : CW_PAGE_A4;

  if (key != NULL)
    cw_page_format_parse (key, &format);
  return format;
}
