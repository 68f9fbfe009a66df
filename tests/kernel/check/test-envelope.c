/* test-envelope.c: the smallest envelope that can be bought for a card.
 *
 * Pairs of card and envelope as the trade prints them (United States announcement sizes), and ISO 216 sheets with the
 * ISO 269:1985 envelopes made for them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-envelope.h"

#define SIXTEENTH (CW_TICKS_PER_INCH / 16)

static void
test_pairs (void)
{
  static const struct
  {
    gint32 width, height; /* sixteenths of an inch, or mm */
    CwUnit unit;
    const char *name;
  } pairs[] = {
    { 68, 88, CW_UNIT_INCH, "A2" },   { 88, 68, CW_UNIT_INCH, "A2" },    { 72, 100, CW_UNIT_INCH, "A6" },
    { 80, 112, CW_UNIT_INCH, "A7" },  { 84, 126, CW_UNIT_INCH, "A8" },   { 88, 136, CW_UNIT_INCH, "A9" },
    { 92, 148, CW_UNIT_INCH, "A10" }, { 58, 138, CW_UNIT_INCH, "slim" }, { 92, 92, CW_UNIT_INCH, "6 in square" },
    { 160, 160, CW_UNIT_INCH, NULL }, { 105, 148, CW_UNIT_MM, "C6" },    { 148, 210, CW_UNIT_MM, "C5" },
    { 210, 297, CW_UNIT_MM, "C4" },   { 99, 210, CW_UNIT_MM, "DL" },     { 74, 105, CW_UNIT_MM, "C7/C6" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      gint32 unit = pairs[i].unit == CW_UNIT_INCH ? SIXTEENTH : CW_TICKS_PER_MM;
      const CwEnvelope *found
        = cw_envelope_find (pairs[i].width * unit, pairs[i].height * unit, CW_TICKS_PER_INCH / 8, pairs[i].unit);

      g_assert_cmpstr (found != NULL ? found->name : NULL, ==, pairs[i].name);
    }
}

/* A6 is half an A5 sheet; its envelope is the C of the same number, which lies between A and B (ISO 269). */
static void
test_sizes (void)
{
  const CwEnvelope *c6 = cw_envelope_find (105 * CW_TICKS_PER_MM, 148 * CW_TICKS_PER_MM, 0, CW_UNIT_MM);
  const CwEnvelope *a7 = cw_envelope_find (5 * CW_TICKS_PER_INCH, 7 * CW_TICKS_PER_INCH, 0, CW_UNIT_INCH);

  g_assert_cmpint (c6->size[0], ==, 114 * CW_TICKS_PER_MM);
  g_assert_cmpint (c6->size[1], ==, 162 * CW_TICKS_PER_MM);
  g_assert_cmpint (a7->size[0], ==, 84 * SIXTEENTH);
  g_assert_cmpint (a7->size[1], ==, 116 * SIXTEENTH);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check/envelope/pairs-of-the-trade", test_pairs);
  g_test_add_func ("/check/envelope/sizes", test_sizes);
  return g_test_run ();
}
