/* cw-size.c: reads and prints sizes: a width and a height.
 *
 * Two lengths with x, the multiplication sign or "by" between them. A unit said once holds for both. Refuses what is
 * not greater than 0.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "units/cw-length-private.h"
#include "units/cw-size.h"

#include <glib/gi18n-lib.h>

/* Reads the sign between the two measures of a size: x, X, the multiplication sign or "by". */
static gboolean
skip_times (const char **p)
{
  gunichar c = g_utf8_get_char (*p);

  if (c == 'x' || c == 'X' || c == 0x00D7)
    *p = g_utf8_next_char (*p);
  else if (g_ascii_strncasecmp (*p, "by", 2) == 0)
    *p += 2;
  else
    return FALSE;
  return TRUE;
}

/**
 * cw_size_parse:
 * @text: a width and a height, such as "5 in x 7 in", "8 1/2 x 11 in" or "100 mm × 150 mm"
 * @bare_unit: the unit when @text names none; a unit said once holds for both
 * @width: (out): greater than 0
 * @height: (out): greater than 0
 *
 * Returns: FALSE with CW_LENGTH_ERROR when @text is not a size.
 */
gboolean
cw_size_parse (const char *text, CwUnit bare_unit, CwLength *width, CwLength *height, GError **error)
{
  g_return_val_if_fail (text && width && height, FALSE);

  const char *p, *end;
  gboolean said[2];

  /* First as millimetres, the smallest unit, so that "841 x 1189 mm" is not taken for 841 inches. */
  if (!cw_length_check_text (text, 2 * CW_LENGTH_TEXT_MAX, error)
      || !cw_length_scan (text, CW_UNIT_MM, width, &said[0], &p, error))
    return FALSE;
  p = cw_length_skip_spaces (p);
  if (!skip_times (&p))
    {
      g_set_error (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX, _ ("“%s” is not a size; write it like 5 in x 7 in"),
                   text);
      return FALSE;
    }
  if (!cw_length_scan (p, said[0] ? width->unit : bare_unit, height, &said[1], &end, error)
      || !cw_length_scan (text, said[1] ? height->unit : bare_unit, width, NULL, &p, error))
    return FALSE;
  end = cw_length_skip_spaces (end);
  if (*end)
    return cw_length_fail_rest (text, end, error);
  if (width->ticks <= 0 || height->ticks <= 0)
    {
      g_set_error (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX,
                   _ ("“%s” is not a size; both measures must be more than 0"), text);
      return FALSE;
    }
  return TRUE;
}

/**
 * cw_size_format:
 *
 * Returns: (transfer full): the size as "5 in x 7 in", each measure in its own unit.
 */
char *
cw_size_format (CwLength width, CwLength height)
{
  g_autofree char *w = cw_length_format (width);
  g_autofree char *h = cw_length_format (height);

  return g_strdup_printf ("%s x %s", w, h);
}
