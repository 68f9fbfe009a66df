/* cw-readable.c: numbers as they are printed for a reader with a ruler.
 *
 * Inches stand as a whole number and a reduced fraction; on request the small marks are counted, because that is how
 * many find 13/16 on a ruler. The other unit is printed only where it is the same length, not about the same: makers
 * who meet two numbers use both (1 in = 25.4 mm exactly, international yard and pound agreement, 1959).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-readable.h"

#include <glib/gi18n-lib.h>

/* The finest true marks: 1/64 inch and 0.1 mm. */
#define FINEST_INCH (CW_TICKS_PER_INCH / 64)
#define FINEST_MM (CW_TICKS_PER_MM / 10)

/* "13 sixteenths past 4", NULL where there is no fraction or none of these. */
static char *
count_marks (gint32 ticks)
{
  gint32 whole = ticks / CW_TICKS_PER_INCH, rest = ticks % CW_TICKS_PER_INCH;
  const gint32 sixteenth = CW_TICKS_PER_INCH / 16, thirty_second = CW_TICKS_PER_INCH / 32;
  guint n = (guint) (rest / (rest % sixteenth == 0 ? sixteenth : thirty_second));
  g_autofree char *marks = NULL;

  if (rest <= 0 || rest % thirty_second != 0)
    return NULL;
  if (rest % sixteenth == 0)
    marks = g_strdup_printf (dngettext (GETTEXT_PACKAGE, "%u sixteenth", "%u sixteenths", n), n);
  else
    marks = g_strdup_printf (dngettext (GETTEXT_PACKAGE, "%u thirty-second", "%u thirty-seconds", n), n);
  if (whole == 0)
    return g_steal_pointer (&marks);
  /* Translators: "13 sixteenths past 4": where a measure is found on a ruler. */
  return g_strdup_printf (_ ("%s past %d"), marks, whole);
}

/**
 * cw_length_dup_readable:
 * @length: a length
 * @sixteenths: whether to count the small marks too
 *
 * Returns: (transfer full): its text
 */
char *
cw_length_dup_readable (CwLength length, gboolean sixteenths)
{
  g_autofree char *text = cw_length_format (length);
  g_autofree char *marks = NULL;

  if (sixteenths && length.unit == CW_UNIT_INCH && length.text == NULL)
    marks = count_marks (length.ticks);
  return marks != NULL ? g_strdup_printf ("%s (= %s)", text, marks) : g_steal_pointer (&text);
}

/**
 * cw_length_dup_other_unit:
 * @length: a length
 *
 * Returns: (transfer full) (nullable): the same length in millimetres, or in inches if it is metric; %NULL where the
 * other ruler has no mark for it
 */
char *
cw_length_dup_other_unit (CwLength length)
{
  gboolean inch = length.unit == CW_UNIT_INCH;

  if (length.text != NULL || length.ticks % (inch ? FINEST_MM : FINEST_INCH) != 0)
    return NULL;
  return cw_length_format_ticks (length.ticks, inch ? CW_UNIT_MM : CW_UNIT_INCH);
}

/**
 * cw_size_dup_words:
 * @width: how wide
 * @height: how high
 *
 * Returns: (transfer full): the size with its two measures named
 */
char *
cw_size_dup_words (CwLength width, CwLength height)
{
  g_autofree char *w = cw_length_format (width), *h = cw_length_format (height);
  g_autofree char *other_w = cw_length_dup_other_unit (width), *other_h = cw_length_dup_other_unit (height);

  if (other_w == NULL || other_h == NULL)
    return g_strdup_printf (_ ("%s wide by %s high"), w, h);
  return g_strdup_printf (_ ("%s wide by %s high (%s by %s)"), w, h, other_w, other_h);
}
