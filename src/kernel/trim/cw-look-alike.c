/* cw-look-alike.c: numbers that a tired eye takes for one another.
 *
 * House rule (tool page, "Finding codes"): the same digits differently placed (5 3/8 and 3 5/8), or the same whole
 * inches with fractions 1/4 inch apart (4 1/4 and 4 1/2). A measure without a fraction has no fraction to mistake: 4
 * and 4 1/4 differ in length, not in a digit.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "trim/cw-look-alike.h"

#include "geometry/cw-house.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

/* Pairs named in one finding; more say no more. */
#define NAMED_MOST 3

/* The digits of a measure as it is written, sorted; FALSE when there are none twice to mix up. */
static void
digits_of (CwLength length, char digits[CW_LENGTH_TEXT_MAX])
{
  g_autofree char *text = cw_length_format (length);
  guint n = 0;

  for (const char *p = text; *p != '\0' && n + 1 < CW_LENGTH_TEXT_MAX; p++)
    if (g_ascii_isdigit (*p))
      {
        guint at = n++;

        for (; at > 0 && digits[at - 1] > *p; at--)
          digits[at] = digits[at - 1];
        digits[at] = *p;
      }
  digits[n] = '\0';
}

/**
 * cw_lengths_look_alike:
 * @a: a measure
 * @b: another
 *
 * Returns: whether they are easily taken for one another
 */
gboolean
cw_lengths_look_alike (CwLength a, CwLength b)
{
  char of_a[CW_LENGTH_TEXT_MAX], of_b[CW_LENGTH_TEXT_MAX];
  gint32 whole_a = a.ticks / CW_TICKS_PER_INCH, whole_b = b.ticks / CW_TICKS_PER_INCH;

  if (a.ticks == b.ticks || a.unit != b.unit)
    return FALSE;
  digits_of (a, of_a);
  digits_of (b, of_b);
  if (strlen (of_a) > 1 && strcmp (of_a, of_b) == 0)
    return TRUE;
  return a.unit == CW_UNIT_INCH && whole_a == whole_b && whole_a > 0 && a.ticks % CW_TICKS_PER_INCH != 0
         && b.ticks % CW_TICKS_PER_INCH != 0 && ABS (a.ticks - b.ticks) == CW_HOUSE_LOOK_ALIKE;
}

/**
 * cw_look_alikes_find:
 * @measures: of #CwLength, smallest first
 *
 * Returns: (transfer full): GArray of #CwLookAlike
 */
GArray *
cw_look_alikes_find (const GArray *measures)
{
  GArray *pairs = g_array_new (FALSE, FALSE, sizeof (CwLookAlike));

  g_return_val_if_fail (measures != NULL, pairs);
  for (guint i = 0; i < measures->len; i++)
    for (guint k = i + 1; k < measures->len; k++)
      {
        CwLookAlike pair = { g_array_index (measures, CwLength, i), g_array_index (measures, CwLength, k) };

        if (cw_lengths_look_alike (pair.a, pair.b))
          g_array_append_val (pairs, pair);
      }
  return pairs;
}

/**
 * cw_look_alikes_tell:
 * @design: a design
 *
 * Returns: (transfer full): GPtrArray of #CwFinding: none or one note that names the first pairs
 */
GPtrArray *
cw_look_alikes_tell (const CwDesign *design)
{
  g_autoptr (CwTrimming) trimming = cw_trimming_new (design, &cw_tools_usual);
  g_autoptr (GArray) measures = cw_trimming_get_measures (trimming, design);
  g_autoptr (GArray) pairs = cw_look_alikes_find (measures);
  GPtrArray *findings = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_finding_free);
  g_autoptr (GString) named = g_string_new (NULL);

  if (pairs->len == 0)
    return findings;
  for (guint i = 0; i < MIN (pairs->len, NAMED_MOST); i++)
    {
      g_autofree char *a = cw_length_format (g_array_index (pairs, CwLookAlike, i).a);
      g_autofree char *b = cw_length_format (g_array_index (pairs, CwLookAlike, i).b);

      g_string_append_printf (named, "%s%s / %s", i > 0 ? ", " : "", a, b);
    }
  CwFinding *finding = cw_finding_new (CW_FINDING_LOOK_ALIKE_NUMBERS);
  cw_finding_set_words (finding, N_ ("Measures that are easily taken for one another: {0}."),
                        N_ ("Read them twice; the step cards set them apart."), named->str, NULL);
  cw_finding_set_amount (finding, CW_AMOUNT_COUNT, pairs->len);
  g_ptr_array_add (findings, finding);
  return findings;
}
