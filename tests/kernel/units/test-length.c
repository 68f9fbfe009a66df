/* test-length.c: reading, printing and snapping.
 *
 * Outside sources: 1 inch = 25.4 mm exactly (international yard and pound agreement, 1 July 1959; NIST SP 811);
 * the Unicode Character Database for the values of fractions written as one character.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "units/cw-size.h"

#include <string.h>

/* Texts of no whole tick are interned for good, and GLib leaves its table of interned strings behind each time it grows
 * (every 2048 strings), which leak checks count. So under them only every 97th text is tried. */
#if defined(__SANITIZE_ADDRESS__)
#define STRIDE 97
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define STRIDE 97
#endif
#endif
#ifndef STRIDE
#define STRIDE 1
#endif

static CwLength
read_length (const char *text, CwUnit bare)
{
  g_autoptr (GError) error = NULL;
  CwLength length = { 0 };

  cw_length_parse (text, bare, &length, &error);
  g_assert_no_error (error);
  return length;
}

static void
assert_refused (const char *text, CwUnit bare, CwLengthError code)
{
  g_autoptr (GError) error = NULL;
  CwLength length;

  g_assert_false (cw_length_parse (text, bare, &length, &error));
  g_assert_error (error, CW_LENGTH_ERROR, (int) code);
  g_assert_cmpuint (strlen (error->message), >, 10);
}

static void
test_forms (void)
{
  /* The forms of the agreed model, each with its ticks worked out by hand from 8128 an inch and 320 a millimetre. */
  static const struct
  {
    const char *text;
    CwUnit bare;
    gint32 ticks;
    CwUnit unit;
  } forms[] = {
    { "4 1/4 in", CW_UNIT_MM, 34544, CW_UNIT_INCH },
    { "4-1/4\"", CW_UNIT_MM, 34544, CW_UNIT_INCH },
    { "4¼", CW_UNIT_INCH, 34544, CW_UNIT_INCH },
    { "4 ¼″", CW_UNIT_MM, 34544, CW_UNIT_INCH },
    { "4.25", CW_UNIT_INCH, 34544, CW_UNIT_INCH },
    { "17/4 in", CW_UNIT_CM, 34544, CW_UNIT_INCH },
    { "108 mm", CW_UNIT_INCH, 34560, CW_UNIT_MM },
    { "10.8 cm", CW_UNIT_INCH, 34560, CW_UNIT_CM },
    { "108", CW_UNIT_MM, 34560, CW_UNIT_MM },
    { "10.8", CW_UNIT_CM, 34560, CW_UNIT_CM },
    { "-1/8 in", CW_UNIT_MM, -1016, CW_UNIT_INCH },
    { "−1 ½", CW_UNIT_INCH, -12192, CW_UNIT_INCH },
    { "4\302\2401/4\342\200\211in", CW_UNIT_MM, 34544, CW_UNIT_INCH }, /* no-break space, thin space */
    { "1\342\201\20464 in", CW_UNIT_MM, 127, CW_UNIT_INCH },           /* fraction slash */
    { "0.1 mm", CW_UNIT_INCH, 32, CW_UNIT_MM },
    { "25.4 mm", CW_UNIT_INCH, 8128, CW_UNIT_MM },
    { "2.54 cm", CW_UNIT_INCH, 8128, CW_UNIT_CM },
    { "1/2 mm", CW_UNIT_INCH, 160, CW_UNIT_MM },
    { "3 Inches", CW_UNIT_MM, 24384, CW_UNIT_INCH },
    { "3 in.", CW_UNIT_MM, 24384, CW_UNIT_INCH },
    { "0", CW_UNIT_INCH, 0, CW_UNIT_INCH },
    { "60 in", CW_UNIT_INCH, 487680, CW_UNIT_INCH },
  };

  for (guint i = 0; i < G_N_ELEMENTS (forms); i++)
    {
      CwLength length = read_length (forms[i].text, forms[i].bare);

      g_test_message ("%s", forms[i].text);
      g_assert_cmpint (length.ticks, ==, forms[i].ticks);
      g_assert_cmpint (length.unit, ==, forms[i].unit);
      g_assert_true (cw_length_is_whole (length));
    }
}

static void
test_vulgar (void)
{
  /* Code point and value from the Unicode Character Database (Number Forms and Latin-1 Supplement, numeric value). */
  static const struct
  {
    gunichar c;
    int n, d;
  } vulgar[] = {
    { 0xBC, 1, 4 },    { 0xBD, 1, 2 },   { 0xBE, 3, 4 },   { 0x2150, 1, 7 }, { 0x2151, 1, 9 },
    { 0x2152, 1, 10 }, { 0x2153, 1, 3 }, { 0x2154, 2, 3 }, { 0x2155, 1, 5 }, { 0x2156, 2, 5 },
    { 0x2157, 3, 5 },  { 0x2158, 4, 5 }, { 0x2159, 1, 6 }, { 0x215A, 5, 6 }, { 0x215B, 1, 8 },
    { 0x215C, 3, 8 },  { 0x215D, 5, 8 }, { 0x215E, 7, 8 }, { 0x2189, 0, 3 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (vulgar); i++)
    {
      char c[7] = { 0 };
      g_unichar_to_utf8 (vulgar[i].c, c);
      g_autofree char *signs = g_strdup_printf ("2%s in", c);
      g_autofree char *digits = g_strdup_printf ("2 %d/%d in", vulgar[i].n, vulgar[i].d);

      g_assert_cmpint (read_length (signs, CW_UNIT_INCH).ticks, ==, read_length (digits, CW_UNIT_INCH).ticks);
    }
}

static void
assert_round_trip (gint32 ticks, CwUnit unit)
{
  g_autofree char *text = cw_length_format_ticks (ticks, unit);
  CwLength back = read_length (text, unit == CW_UNIT_INCH ? CW_UNIT_CM : CW_UNIT_INCH);
  g_autofree char *again = cw_length_format (back);

  g_assert_cmpint (back.ticks, ==, ticks);
  g_assert_cmpint (back.unit, ==, unit);
  g_assert_cmpstr (again, ==, text);
}

static void
test_every_64th (void)
{
  for (gint32 n = -24 * 64; n <= 24 * 64; n++)
    {
      /* Independent of the printer: the unreduced fraction must mean the same. */
      g_autofree char *plain = g_strdup_printf ("%d/64 in", n);
      g_autofree char *text = cw_length_format_ticks (n * 127, CW_UNIT_INCH);
      CwLength length = read_length (text, CW_UNIT_MM);

      g_assert_cmpint (read_length (plain, CW_UNIT_MM).ticks, ==, n * 127);
      g_assert_true (cw_length_is_whole (length));
      g_assert_null (strchr (text, '.'));
      assert_round_trip (n * 127, CW_UNIT_INCH);
      assert_round_trip (n * 127, CW_UNIT_MM);
    }
}

static void
test_every_tenth_mm (void)
{
  for (gint32 n = -6096; n <= 6096; n += STRIDE) /* 24 inches = 609.6 mm */
    {
      g_autofree char *plain = g_strdup_printf ("%d/10 mm", n);

      g_assert_cmpint (read_length (plain, CW_UNIT_INCH).ticks, ==, n * 32);
      assert_round_trip (n * 32, CW_UNIT_MM);
      assert_round_trip (n * 32, CW_UNIT_CM);
      assert_round_trip (n * 32, CW_UNIT_INCH);
    }
}

static void
test_every_tick (void)
{
  for (gint32 ticks = 0; ticks <= CW_TICKS_PER_INCH; ticks += STRIDE)
    for (CwUnit unit = CW_UNIT_INCH; unit <= CW_UNIT_CM; unit++)
      {
        assert_round_trip (ticks, unit);
        assert_round_trip (-59 * CW_TICKS_PER_INCH - ticks, unit);
      }
}

static void
test_printing (void)
{
  static const struct
  {
    gint32 ticks;
    CwUnit unit;
    const char *text;
  } prints[] = {
    { 34544, CW_UNIT_INCH, "4 1/4 in" }, { 0, CW_UNIT_INCH, "0 in" },           { -1016, CW_UNIT_INCH, "-1/8 in" },
    { 8128, CW_UNIT_INCH, "1 in" },      { -12192, CW_UNIT_INCH, "-1 1/2 in" }, { 127, CW_UNIT_INCH, "1/64 in" },
    { 34560, CW_UNIT_MM, "108 mm" },     { 34560, CW_UNIT_CM, "10.8 cm" },      { 34544, CW_UNIT_MM, "107.95 mm" },
    { 1, CW_UNIT_MM, "0.003125 mm" },    { -32, CW_UNIT_MM, "-0.1 mm" },        { 0, CW_UNIT_CM, "0 cm" },
    { 2709, CW_UNIT_INCH, "0.3333 in" }, /* 2709 / 8128 = 0.333292..., and 0.333 in is tick 2707 */
  };

  for (guint i = 0; i < G_N_ELEMENTS (prints); i++)
    {
      g_autofree char *text = cw_length_format_ticks (prints[i].ticks, prints[i].unit);
      g_assert_cmpstr (text, ==, prints[i].text);
    }
}

static void
test_sixteenths (void)
{
  /* Sixteenths of an inch in millimetres, exact: n x 1.5875 (1 in = 25.4 mm exactly, agreement of 1959, NIST SP 811).
   */
  static const char *const mm[]
    = { "1.5875 mm",  "3.175 mm",  "4.7625 mm",  "6.35 mm",  "7.9375 mm",  "9.525 mm",  "11.1125 mm", "12.7 mm",
        "14.2875 mm", "15.875 mm", "17.4625 mm", "19.05 mm", "20.6375 mm", "22.225 mm", "23.8125 mm", "25.4 mm" };

  for (guint i = 0; i < G_N_ELEMENTS (mm); i++)
    {
      g_autofree char *inch = g_strdup_printf ("%u/16 in", i + 1);
      gint32 ticks = read_length (inch, CW_UNIT_MM).ticks;
      g_autofree char *text = cw_length_format_ticks (ticks, CW_UNIT_MM);

      g_assert_cmpstr (text, ==, mm[i]);
      g_assert_cmpint (read_length (mm[i], CW_UNIT_INCH).ticks, ==, ticks);
    }
}

static void
test_no_whole_tick (void)
{
  /* 8.6 in = 69900.8 ticks; 11/3 in = 29802.67; half a tick is 1/16256 in and goes away from zero. */
  static const struct
  {
    const char *text;
    gint32 ticks;
    const char *kept;
  } cases[] = {
    { "8.6 in", 69901, "8.6 in" },        { "8.6", 69901, "8.6 in" },        { "11/3 in", 29803, "11/3 in" },
    { "1/128 in", 64, "1/128 in" },       { "-1/128 in", -64, "-1/128 in" }, { "1/16256 in", 1, "1/16256 in" },
    { "-1/16256 in", -1, "-1/16256 in" }, { "1/16257 in", 0, "1/16257 in" }, { "0.01 mm", 3, "0.01 mm" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      CwLength length = read_length (cases[i].text, CW_UNIT_INCH);
      g_autofree char *text = cw_length_format (length);
      CwLength back = read_length (text, CW_UNIT_MM);

      g_assert_cmpint (length.ticks, ==, cases[i].ticks);
      g_assert_false (cw_length_is_whole (length));
      g_assert_cmpstr (text, ==, cases[i].kept);
      g_assert_true (back.ticks == length.ticks && back.unit == length.unit && back.text == length.text);
    }
}

static void
test_refused (void)
{
  assert_refused ("", CW_UNIT_INCH, CW_LENGTH_ERROR_SYNTAX);
  assert_refused ("1/0", CW_UNIT_INCH, CW_LENGTH_ERROR_SYNTAX);
  assert_refused ("10,8 cm", CW_UNIT_INCH, CW_LENGTH_ERROR_SYNTAX);
  assert_refused ("4 5/4", CW_UNIT_INCH, CW_LENGTH_ERROR_SYNTAX);
  assert_refused ("1 ft", CW_UNIT_INCH, CW_LENGTH_ERROR_SYNTAX);
  assert_refused ("60 1/64", CW_UNIT_INCH, CW_LENGTH_ERROR_TOO_LARGE);
  assert_refused ("-60 1/64", CW_UNIT_INCH, CW_LENGTH_ERROR_TOO_LARGE);
  assert_refused ("1524.1 mm", CW_UNIT_INCH, CW_LENGTH_ERROR_TOO_LARGE);
  assert_refused ("999999", CW_UNIT_CM, CW_LENGTH_ERROR_TOO_LARGE);
  assert_refused ("9999999", CW_UNIT_INCH, CW_LENGTH_ERROR_SYNTAX);
}

/* Whatever is accepted is within bounds and prints to text that reads back to itself. */
static gboolean
try_text (const char *text, CwUnit bare)
{
  g_autoptr (GError) error = NULL;
  CwLength length, back, width, height;

  if (!cw_length_parse (text, bare, &length, &error))
    {
      g_assert_nonnull (error);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      g_clear_error (&error);
      if (!cw_size_parse (text, bare, &width, &height, &error))
        g_assert_true (g_utf8_validate (error->message, -1, NULL));
      return FALSE;
    }
  g_autofree char *printed = cw_length_format (length);
  g_assert_no_error (error);
  g_assert_cmpint (ABS (length.ticks), <=, CW_LENGTH_MAX);
  back = read_length (printed, bare == CW_UNIT_INCH ? CW_UNIT_MM : CW_UNIT_INCH);
  g_autofree char *again = cw_length_format (back);
  g_assert_true (back.ticks == length.ticks && back.unit == length.unit);
  g_assert_cmpstr (again, ==, printed);
  return TRUE;
}

static void
test_corpus (void)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "fuzz", "length", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n_files = 0;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)))
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autofree char *text = NULL;

      g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
      g_test_message ("%s", name);
      g_assert_true (g_str_has_prefix (name, "y_") || g_str_has_prefix (name, "n_"));
      g_assert_true (try_text (text, CW_UNIT_INCH) == g_str_has_prefix (name, "y_"));
      n_files++;
    }
  g_assert_cmpuint (n_files, >, 50);
}

static void
test_random_text (void)
{
  static const char *const bits[]
    = { "0", "1", "4", "16", "64",   "007", "999999", "8128", " ",  "  ", "/",  ".", "-", "−", "+", ",",   "¼",
        "⅞", "⅟", "⁄", "in", "inch", "\"",  "″",      "mm",   "cm", "x",  "by", " ", "'", "é", "e", "\xff" };
  guint n_read = 0;

  for (guint i = 0; i < 200000 / STRIDE; i++)
    {
      g_autoptr (GString) text = g_string_new (NULL);
      gint32 n_bits = g_test_rand_int_range (1, 9);

      for (gint32 k = 0; k < n_bits; k++)
        g_string_append (text, bits[g_test_rand_int_range (0, G_N_ELEMENTS (bits))]);
      n_read += try_text (text->str, (CwUnit) g_test_rand_int_range (0, 3)) ? 1 : 0;
    }
  g_test_message ("%u of 200000 were lengths", n_read);
  g_assert_cmpuint (n_read, >, 1000 / STRIDE);
}

static void
test_random_value (void)
{
  /* Against another arithmetic: 128-bit integers compare the distance to both neighbours. */
  for (guint i = 0; i < 50000 / STRIDE; i++)
    {
      gint64 whole = g_test_rand_int_range (0, 50), n, d = g_test_rand_int_range (2, 1000000);
      n = g_test_rand_int_range (0, (gint32) d);
      g_autofree char *text = g_strdup_printf ("%d %d/%d in", (int) whole, (int) n, (int) d);
      CwLength length = read_length (text, CW_UNIT_MM);
      __extension__ typedef __int128 Wide;
      Wide exact = (Wide) (whole * d + n) * 8128 * 2; /* value x 2 d */
      Wide error = exact - (Wide) length.ticks * 2 * d;

      g_assert_true (error < d && error >= -d); /* within half a tick; exactly half only downwards of the result */
      g_assert_true ((error == 0) == cw_length_is_whole (length));
    }
}

static void
test_snap (void)
{
  /* mm to the nearest 1/16 in (508 ticks): 105 -> 4 2/16, 148 -> 5 13/16, 210 -> 8 4/16, 297 -> 11 11/16, 100 -> 3
   * 15/16; worked by hand from 25.4 mm an inch. */
  static const int cases[][2] = { { 105, 66 }, { 148, 93 }, { 210, 132 }, { 297, 187 }, { 100, 63 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_assert_cmpint (cw_ticks_snap (cases[i][0] * 320, 508), ==, cases[i][1] * 508);
      g_assert_cmpint (cw_ticks_snap (-cases[i][0] * 320, 508), ==, -cases[i][1] * 508);
    }
  g_assert_cmpint (cw_ticks_snap (254, 508), ==, 508);
  g_assert_cmpint (cw_ticks_snap (253, 508), ==, 0);
  g_assert_cmpint (cw_ticks_snap (-254, 508), ==, -508);
  g_assert_cmpint (cw_ticks_snap (-253, 508), ==, 0);
  g_assert_cmpint (cw_ticks_snap (1234, 0), ==, 1234);
  for (gint32 t = -3000; t < 3000; t++) /* never further than half a step, always on a mark */
    {
      gint32 s = cw_ticks_snap (t, 127);
      g_assert_cmpint (s % 127, ==, 0);
      g_assert_cmpint (2 * ABS (s - t), <=, 127);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/units/length/forms-of-the-model", test_forms);
  g_test_add_func ("/units/length/fractions-of-one-character", test_vulgar);
  g_test_add_func ("/units/length/every-64th-inch-round-trips", test_every_64th);
  g_test_add_func ("/units/length/every-tenth-mm-round-trips", test_every_tenth_mm);
  g_test_add_func ("/units/length/every-tick-round-trips", test_every_tick);
  g_test_add_func ("/units/length/printing", test_printing);
  g_test_add_func ("/units/length/sixteenths-in-mm", test_sixteenths);
  g_test_add_func ("/units/length/no-whole-tick-keeps-its-text", test_no_whole_tick);
  g_test_add_func ("/units/length/refused", test_refused);
  g_test_add_func ("/units/length/corpus", test_corpus);
  g_test_add_func ("/units/length/random-text", test_random_text);
  g_test_add_func ("/units/length/random-values-are-nearest", test_random_value);
  g_test_add_func ("/units/length/snap", test_snap);
  return g_test_run ();
}
