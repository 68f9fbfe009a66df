/* cw-tools.c: the maker's tools as words and lengths.
 *
 * One table of keys serves files, command line and settings. Lengths are written as everywhere ("1/16 in", "0.5 mm");
 * a bare number counts as inches. Refused: unknown keys and words, lengths that are no whole tick, are not above zero,
 * or reach beyond the largest sheet.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "trim/cw-tools.h"

#include "geometry/cw-house.h"

#include <glib/gi18n-lib.h>

G_DEFINE_QUARK (cw - tools - error - quark, cw_tools_error)

#define GROUP "tools"

const CwTools cw_tools_usual = {
  .reach = CW_HOUSE_REACH,
  .has_stops = TRUE,
  .groove = CW_HOUSE_GROOVE,
  .narrowest = CW_HOUSE_HOLD,
};

static const char *const rules[] = { "left-to-right", "right-to-left", NULL };
static const char *const stops[] = { "no", "yes", NULL };
static const char *const pulls[] = { "down", "up", NULL };
static const char *const scores[] = { "dent-outside", "one-face", NULL };

/* A switch: `choices` for FALSE and TRUE. A length: `none` is the word for 0; NULL when there has to be one. */
static const struct
{
  const char *key;
  gsize at;
  const char *const *choices;
  const char *none;
} keys[] = {
  { "rule", G_STRUCT_OFFSET (CwTools, right_to_left), rules, NULL },
  { "reach", G_STRUCT_OFFSET (CwTools, reach), NULL, NULL },
  { "finest", G_STRUCT_OFFSET (CwTools, finest), NULL, "as-drawn" },
  { "stops", G_STRUCT_OFFSET (CwTools, has_stops), stops, NULL },
  { "grooves", G_STRUCT_OFFSET (CwTools, groove), NULL, "none" },
  { "narrowest", G_STRUCT_OFFSET (CwTools, narrowest), NULL, NULL },
  { "pull", G_STRUCT_OFFSET (CwTools, pull_up), pulls, NULL },
  { "scores", G_STRUCT_OFFSET (CwTools, one_face), scores, NULL },
};

/**
 * cw_tools_equal:
 * @a: tools
 * @b: other tools
 *
 * Returns: whether they are the same in everything
 */
gboolean
cw_tools_equal (const CwTools *a, const CwTools *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  /* All members are of one kind, 32 bits wide. */
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (G_STRUCT_MEMBER (gint32, a, keys[i].at) != G_STRUCT_MEMBER (gint32, b, keys[i].at))
      return FALSE;
  return TRUE;
}

static int
find_key (const char *key)
{
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    if (g_strcmp0 (keys[i].key, key) == 0)
      return (int) i;
  return -1;
}

/**
 * cw_tools_get_keys:
 *
 * Returns: (transfer none) (array zero-terminated): what there is to say of tools
 */
const char *const *
cw_tools_get_keys (void)
{
  static const char *const names[]
    = { "rule", "reach", "finest", "stops", "grooves", "narrowest", "pull", "scores", NULL };

  G_STATIC_ASSERT (G_N_ELEMENTS (names) == G_N_ELEMENTS (keys) + 1);
  return names;
}

/**
 * cw_tools_get_choices:
 * @key: one of the keys
 *
 * Returns: (transfer none) (nullable): the words it takes, the usual one first or not; %NULL: it takes a length
 */
const char *const *
cw_tools_get_choices (const char *key)
{
  int i = find_key (key);

  g_return_val_if_fail (i >= 0, NULL);
  return keys[i].choices;
}

static gboolean
refuse_word (const char *key, const char *value, const char *const *choices, GError **error)
{
  g_set_error (error, CW_TOOLS_ERROR, CW_TOOLS_ERROR_VALUE, _ ("“%s” for %s: expected %s or %s"), value, key,
               choices[0], choices[1]);
  return FALSE;
}

static gboolean
read_length (const char *key, const char *value, const char *none, gint32 *ticks, GError **error)
{
  CwLength length;

  if (none != NULL && g_strcmp0 (value, none) == 0)
    {
      *ticks = 0;
      return TRUE;
    }
  if (!cw_length_parse (value, CW_UNIT_INCH, &length, error))
    {
      g_prefix_error (error, _ ("%s: "), key);
      return FALSE;
    }
  if (length.ticks > 0 && cw_length_is_whole (length))
    {
      *ticks = length.ticks;
      return TRUE;
    }
  if (none != NULL)
    g_set_error (error, CW_TOOLS_ERROR, CW_TOOLS_ERROR_VALUE, _ ("“%s” for %s: expected a length or %s"), value, key,
                 none);
  else
    g_set_error (error, CW_TOOLS_ERROR, CW_TOOLS_ERROR_VALUE, _ ("“%s” for %s: expected a length"), value, key);
  return FALSE;
}

/**
 * cw_tools_set:
 * @tools: (inout): the maker's tools
 * @key: what to say of them
 * @value: a word or a length
 * @error: return location for a #GError
 *
 * Returns: %FALSE with %CW_TOOLS_ERROR or %CW_LENGTH_ERROR when there is no such key or it does not take that
 */
gboolean
cw_tools_set (CwTools *tools, const char *key, const char *value, GError **error)
{
  int i = find_key (key);

  g_return_val_if_fail (tools != NULL && value != NULL, FALSE);
  if (i < 0)
    {
      g_autofree char *known = g_strjoinv (", ", (char **) cw_tools_get_keys ());

      g_set_error (error, CW_TOOLS_ERROR, CW_TOOLS_ERROR_KEY, _ ("“%s” is nothing a tool has; known are %s"), key,
                   known);
      return FALSE;
    }
  if (keys[i].choices == NULL)
    return read_length (key, value, keys[i].none, &G_STRUCT_MEMBER (gint32, tools, keys[i].at), error);
  for (int k = 0; k < 2; k++)
    if (g_strcmp0 (value, keys[i].choices[k]) == 0)
      {
        G_STRUCT_MEMBER (gboolean, tools, keys[i].at) = k;
        return TRUE;
      }
  return refuse_word (key, value, keys[i].choices, error);
}

/**
 * cw_tools_dup_value:
 * @tools: the maker's tools
 * @key: one of the keys
 *
 * Returns: (transfer full): what cw_tools_set() would read back
 */
char *
cw_tools_dup_value (const CwTools *tools, const char *key)
{
  int i = find_key (key);
  gint32 ticks;

  g_return_val_if_fail (tools != NULL && i >= 0, NULL);
  if (keys[i].choices != NULL)
    return g_strdup (keys[i].choices[G_STRUCT_MEMBER (gboolean, tools, keys[i].at) ? 1 : 0]);
  ticks = G_STRUCT_MEMBER (gint32, tools, keys[i].at);
  if (ticks == 0 && keys[i].none != NULL)
    return g_strdup (keys[i].none);
  /* Whole tenths of a millimetre are metric tools, unless they are sixty-fourths of an inch too. */
  return cw_length_format_ticks (ticks, ticks % (CW_TICKS_PER_INCH / 64) != 0 && ticks % (CW_TICKS_PER_MM / 10) == 0
                                          ? CW_UNIT_MM
                                          : CW_UNIT_INCH);
}

/**
 * cw_tools_read:
 * @tools: (inout): the maker's tools
 * @text: lines "key=value" after a line "[tools]"
 * @error: return location for a #GError
 *
 * Returns: %FALSE when @text is nothing of the kind; @tools is then as before
 */
gboolean
cw_tools_read (CwTools *tools, const char *text, GError **error)
{
  g_autoptr (GKeyFile) file = g_key_file_new ();
  g_auto (GStrv) found = NULL;
  g_autoptr (GError) cause = NULL;
  CwTools next = *tools;

  if (!g_key_file_load_from_data (file, text, (gsize) -1, G_KEY_FILE_NONE, &cause)
      || (found = g_key_file_get_keys (file, GROUP, NULL, &cause)) == NULL)
    {
      g_set_error (error, CW_TOOLS_ERROR, CW_TOOLS_ERROR_TEXT, _ ("expected a line [%s] and lines key=value: %s"),
                   GROUP, cause->message);
      return FALSE;
    }
  for (guint i = 0; found[i] != NULL; i++)
    {
      g_autofree char *value = g_key_file_get_string (file, GROUP, found[i], NULL);

      if (!cw_tools_set (&next, found[i], value != NULL ? g_strstrip (value) : "", error))
        return FALSE;
    }
  *tools = next;
  return TRUE;
}

/**
 * cw_tools_to_text:
 * @tools: the maker's tools
 *
 * Returns: (transfer full): what cw_tools_read() reads
 */
char *
cw_tools_to_text (const CwTools *tools)
{
  GString *text = g_string_new ("[" GROUP "]\n");

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      g_autofree char *value = cw_tools_dup_value (tools, keys[i].key);

      g_string_append_printf (text, "%s=%s\n", keys[i].key, value);
    }
  return g_string_free (text, FALSE);
}
