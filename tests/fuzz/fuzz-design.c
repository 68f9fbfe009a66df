/* fuzz-design.c: any bytes as a design file.
 *
 * Promised for all of them: an error that is one line and names the source, or a design that validates, writes itself,
 * reads that back and writes the same bytes again.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fuzz.h"

#include "design/cw-design-json.h"

#include <string.h>

gboolean
cw_fuzz_one (const guint8 *data, gsize size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CwDesign) design = cw_design_from_text ((const char *) data, (gssize) size, "fuzz", &error);
  gsize length, length_again;

  if (!design)
    {
      g_assert_true (error && error->domain == CW_DESIGN_ERROR);
      g_assert_true (g_str_has_prefix (error->message, "fuzz: "));
      g_assert_null (strpbrk (error->message, "\r\n"));
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      return FALSE;
    }
  g_assert_no_error (error);
  g_autofree char *text = cw_design_to_text (design, &length);
  g_autoptr (CwDesign) back = cw_design_from_text (text, (gssize) length, "fuzz", &error);
  if (!back && length > CW_DESIGN_BYTES_MAX) /* the layout may make a file of the largest size larger */
    return TRUE;
  g_assert_no_error (error);
  g_autofree char *again = cw_design_to_text (back, &length_again);
  g_assert_cmpuint (length, ==, length_again);
  g_assert_cmpint (memcmp (text, again, length), ==, 0);
  return TRUE;
}
