/* cw-length.c: reads and prints lengths exactly.
 *
 * Method: the text is read as a ratio of two integers and brought to ticks in 64-bit integers; no floating point
 * anywhere. With at most 6 digits before and 9 after the decimal point a numerator stays under 10^15, so the product
 * with 8128 ticks an inch fits 63 bits. 1 inch = 25.4 mm exactly (international yard and pound agreement, 1959; NIST SP
 * 811). A value between two ticks goes to the nearest, half away from zero, and its text is kept.
 * Over 500 lines because reading and printing are each other's inverse and are best seen together.
 * Refuses, with the reason: what is no length, a decimal comma (it reads as a list), fractions of 1 or more after a
 * whole number, other units, more than 60 inches either way.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "units/cw-length-private.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define DIGITS_WHOLE 6   /* significant digits before the point, and of either part of a fraction */
#define DIGITS_DECIMAL 9 /* after the point: enough for every tick in centimetres, which needs 7 */

typedef struct
{
  gint64 n, d;
} Ratio;

G_DEFINE_QUARK (cw_length_error, cw_length_error)

static gint64
get_ticks_per_unit (CwUnit unit)
{
  switch (unit)
    {
    case CW_UNIT_MM:
      return CW_TICKS_PER_MM;
    case CW_UNIT_CM:
      return 10 * CW_TICKS_PER_MM;
    case CW_UNIT_INCH:
    default:
      return CW_TICKS_PER_INCH;
    }
}

/* n / d rounded to the nearest integer, half away from zero; n >= 0, d > 0. */
static gint64
divide_rounded (gint64 n, gint64 d)
{
  gint64 q = n / d;
  gint64 rest = n % d;

  return rest >= d - rest ? q + 1 : q;
}

/**
 * cw_length_skip_spaces:
 *
 * Returns: the first byte of @p that is no space of any kind. For cw-size.c only.
 */
const char *
cw_length_skip_spaces (const char *p)
{
  while (*p && g_unichar_isspace (g_utf8_get_char (p)))
    p = g_utf8_next_char (p);
  return p;
}

static gboolean
skip_slash (const char **p)
{
  gunichar c = g_utf8_get_char (*p);

  if (c != '/' && c != 0x2044 && c != 0x2215) /* solidus, fraction slash, division slash */
    return FALSE;
  *p = g_utf8_next_char (*p);
  return TRUE;
}

static gboolean
is_hyphen (gunichar c)
{
  return c == '-' || c == 0x2010 || c == 0x2011 || c == 0x2013 || c == 0x2212;
}

/* The fractions that Unicode has as one character. */
static gboolean
read_vulgar (const char **p, Ratio *ratio)
{
  static const struct
  {
    gunichar c;
    int n, d;
  } vulgar[] = {
    { 0x00BC, 1, 4 },  { 0x00BD, 1, 2 }, { 0x00BE, 3, 4 }, { 0x2150, 1, 7 }, { 0x2151, 1, 9 },
    { 0x2152, 1, 10 }, { 0x2153, 1, 3 }, { 0x2154, 2, 3 }, { 0x2155, 1, 5 }, { 0x2156, 2, 5 },
    { 0x2157, 3, 5 },  { 0x2158, 4, 5 }, { 0x2159, 1, 6 }, { 0x215A, 5, 6 }, { 0x215B, 1, 8 },
    { 0x215C, 3, 8 },  { 0x215D, 5, 8 }, { 0x215E, 7, 8 }, { 0x2189, 0, 3 },
  };
  gunichar c = g_utf8_get_char (*p);

  for (guint i = 0; i < G_N_ELEMENTS (vulgar); i++)
    {
      if (vulgar[i].c != c)
        continue;
      *ratio = (Ratio){ vulgar[i].n, vulgar[i].d };
      *p = g_utf8_next_char (*p);
      return TRUE;
    }
  return FALSE;
}

/* Reads digits. FALSE when there are none; *value is -1 when there are more than `digits` significant ones. */
static gboolean
read_digits (const char **p, guint digits, gint64 *value)
{
  const char *start = *p;
  guint n_significant = 0;

  *value = 0;
  for (; g_ascii_isdigit (**p); (*p)++)
    {
      if (n_significant > 0 || **p != '0')
        n_significant++;
      if (n_significant <= digits)
        *value = *value * 10 + (**p - '0');
    }
  if (n_significant > digits)
    *value = -1;
  return *p > start;
}

static gboolean
fail_digits (GError **error)
{
  g_set_error_literal (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX,
                       _ ("this number has more digits than a ruler can show"));
  return FALSE;
}

/* Reads the part of a fraction under the line into ratio->d, ratio->n being read already. */
static gboolean
read_divisor (const char **p, Ratio *ratio, GError **error)
{
  if (!read_digits (p, DIGITS_WHOLE, &ratio->d))
    {
      g_set_error_literal (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX,
                           _ ("a fraction needs a number after its line, as in 1/4"));
      return FALSE;
    }
  if (ratio->n < 0 || ratio->d < 0)
    return fail_digits (error);
  if (ratio->d == 0)
    {
      g_set_error_literal (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX,
                           _ ("a fraction cannot have 0 under its line"));
      return FALSE;
    }
  return TRUE;
}

/* Reads the digits after a decimal point and adds them to the whole number in *ratio. */
static gboolean
read_decimals (const char **p, Ratio *ratio, GError **error)
{
  const char *last = *p;
  guint n_places = 0;

  while (g_ascii_isdigit (*last))
    last++;
  for (const char *end = last; end > *p && n_places == 0; end--)
    if (end[-1] != '0')
      n_places = (guint) (end - *p);
  if (n_places > DIGITS_DECIMAL)
    return fail_digits (error);
  for (guint i = 0; i < n_places; i++)
    {
      ratio->n = ratio->n * 10 + ((*p)[i] - '0');
      ratio->d *= 10;
    }
  *p = last;
  return TRUE;
}

/* Reads a fraction that may follow a whole number: "1/4" or a vulgar fraction, after spaces, one hyphen or nothing.
 * *p moves only if there is one. */
static gboolean
read_tail (const char **p, Ratio *ratio, GError **error)
{
  const char *q = cw_length_skip_spaces (*p);
  gboolean apart = q > *p;
  gint64 whole = ratio->n;
  Ratio tail = { 0, 1 };

  if (!apart && is_hyphen (g_utf8_get_char (q)))
    {
      q = g_utf8_next_char (q);
      apart = TRUE;
    }
  if (!read_vulgar (&q, &tail))
    {
      if (!apart || !read_digits (&q, DIGITS_WHOLE, &tail.n) || !skip_slash (&q))
        return TRUE;
      if (!read_divisor (&q, &tail, error))
        return FALSE;
      if (tail.n >= tail.d)
        {
          g_set_error_literal (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX,
                               _ ("the fraction after a whole number must be less than 1"));
          return FALSE;
        }
    }
  *ratio = (Ratio){ whole * tail.d + tail.n, tail.d };
  *p = q;
  return TRUE;
}

/* Reads a number without sign. FALSE without error when there is none at *p. */
static gboolean
read_number (const char **p, Ratio *ratio, GError **error)
{
  const char *start = *p;
  gboolean plain = FALSE;

  if (g_utf8_get_char (*p) == 0x215F) /* "fraction numerator one" */
    {
      *p = g_utf8_next_char (*p);
      ratio->n = 1;
      return read_divisor (p, ratio, error);
    }
  if (read_vulgar (p, ratio))
    return TRUE;
  *ratio = (Ratio){ 0, 1 };
  if (!read_digits (p, DIGITS_WHOLE, &ratio->n) && !(**p == '.' && g_ascii_isdigit ((*p)[1])))
    return FALSE;
  if (ratio->n < 0)
    return fail_digits (error);
  if (**p == '.' && g_ascii_isdigit ((*p)[1]))
    {
      (*p)++;
      if (!read_decimals (p, ratio, error))
        return FALSE;
    }
  else if (skip_slash (p))
    {
      if (!read_divisor (p, ratio, error))
        return FALSE;
    }
  else
    {
      const char *before = *p;

      if (!read_tail (p, ratio, error))
        return FALSE;
      plain = *p == before;
    }

  /* What stands right behind must not look like more of the same number. */
  if (plain && **p == ',' && g_ascii_isdigit ((*p)[1]))
    {
      g_set_error (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX,
                   _ ("“%.*s%.2s”: write a point for a decimal (10.8), a comma and a space for a list (10, 8)"),
                   (int) (*p - start), start, *p);
      return FALSE;
    }
  const char *more = *p;
  Ratio ignored;
  if (g_ascii_isdigit (*more) || (*more == '.' && g_ascii_isdigit (more[1])) || skip_slash (&more)
      || read_vulgar (&more, &ignored))
    {
      g_set_error (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX,
                   _ ("“%s” is not a length; write it like 4 1/4 in, 4.25 or 108 mm"), start);
      return FALSE;
    }
  return TRUE;
}

/* Reads a unit after a number, if there is one; *p moves only then. No unit holds an x, which parts the two measures
 * of a size. */
static gboolean
read_unit (const char **p, CwUnit *unit)
{
  static const struct
  {
    const char *word;
    CwUnit unit;
  } words[] = {
    { "in", CW_UNIT_INCH },        { "ins", CW_UNIT_INCH },       { "inch", CW_UNIT_INCH },
    { "inches", CW_UNIT_INCH },    { "mm", CW_UNIT_MM },          { "millimetre", CW_UNIT_MM },
    { "millimetres", CW_UNIT_MM }, { "millimeter", CW_UNIT_MM },  { "millimeters", CW_UNIT_MM },
    { "cm", CW_UNIT_CM },          { "centimetre", CW_UNIT_CM },  { "centimetres", CW_UNIT_CM },
    { "centimeter", CW_UNIT_CM },  { "centimeters", CW_UNIT_CM },
  };
  const char *q = cw_length_skip_spaces (*p);
  gunichar c = g_utf8_get_char (q);

  if (c == '"' || c == 0x2033 || c == 0x201D
      || g_str_has_prefix (q, "''")) /* also the quote that word processors make */
    {
      *p = c == '\'' ? q + 2 : g_utf8_next_char (q);
      *unit = CW_UNIT_INCH;
      return TRUE;
    }
  const char *end = q;
  while (g_unichar_isalpha (g_utf8_get_char (end)) && *end != 'x' && *end != 'X')
    end = g_utf8_next_char (end);
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      gsize length = strlen (words[i].word);

      if ((gsize) (end - q) != length || g_ascii_strncasecmp (q, words[i].word, length) != 0)
        continue;
      if (*end == '.' && !g_ascii_isdigit (end[1])) /* "in." */
        end++;
      *p = end;
      *unit = words[i].unit;
      return TRUE;
    }
  return FALSE;
}

/**
 * cw_length_scan:
 * @text: UTF-8 text that begins with a length, after any spaces
 * @bare_unit: the unit of a number that names none
 * @length: (out): the length
 * @unit_said: (out) (optional): whether the text named its unit
 * @end: (out): the first byte after the length
 *
 * Reads one length at the beginning of @text, as far as it goes.
 *
 * Returns: FALSE with CW_LENGTH_ERROR when @text does not begin with a length or it is refused.
 */
gboolean
cw_length_scan (const char *text, CwUnit bare_unit, CwLength *length, gboolean *unit_said, const char **end,
                GError **error)
{
  g_return_val_if_fail (text && length && end, FALSE);

  const char *start = cw_length_skip_spaces (text);
  const char *p = start;
  gboolean negative = is_hyphen (g_utf8_get_char (p));
  GError *why = NULL;
  Ratio ratio;
  CwUnit unit = bare_unit;

  if (negative || *p == '+')
    p = cw_length_skip_spaces (g_utf8_next_char (p));
  if (!read_number (&p, &ratio, &why))
    {
      if (why)
        g_propagate_error (error, why);
      else
        g_set_error (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX,
                     _ ("“%s” is not a length; write it like 4 1/4 in, 4.25 or 108 mm"), start);
      return FALSE;
    }
  gboolean said = read_unit (&p, &unit);
  if (p - start > CW_LENGTH_TEXT_MAX)
    return fail_digits (error);

  gint64 scaled = ratio.n * get_ticks_per_unit (unit);
  gint64 ticks = divide_rounded (scaled, ratio.d);
  if (ticks > CW_LENGTH_MAX)
    {
      g_set_error (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_TOO_LARGE,
                   _ ("“%.*s” is too long; the largest measure is 60 in (1524 mm)"), (int) (p - start), start);
      return FALSE;
    }
  *length = cw_length_from_ticks ((gint32) (negative ? -ticks : ticks), unit);
  if (scaled % ratio.d != 0)
    {
      g_autofree char *kept = said ? g_strndup (start, (gsize) (p - start))
                                   : g_strdup_printf ("%.*s %s", (int) (p - start), start, cw_unit_get_suffix (unit));
      length->text = g_intern_string (kept);
    }
  if (unit_said)
    *unit_said = said;
  *end = p;
  return TRUE;
}

/**
 * cw_length_check_text:
 * @longest: in bytes
 *
 * Returns: whether @text is fit to be read at all. For cw-size.c only.
 */
gboolean
cw_length_check_text (const char *text, gsize longest, GError **error)
{
  if (strlen (text) > longest)
    {
      g_set_error_literal (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX, _ ("this text is too long for a measure"));
      return FALSE;
    }
  if (!g_utf8_validate (text, -1, NULL))
    {
      g_set_error_literal (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX, _ ("this text is not readable (not UTF-8)"));
      return FALSE;
    }
  return TRUE;
}

/**
 * cw_length_fail_rest:
 *
 * Says what is wrong with @text that goes on as @rest after a length. For cw-size.c only.
 *
 * Returns: FALSE
 */
gboolean
cw_length_fail_rest (const char *text, const char *rest, GError **error)
{
  gunichar c = g_utf8_get_char (rest);

  if (g_unichar_isalpha (c) || c == '\'' || c == 0x2032)
    g_set_error (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX, _ ("“%s” is no unit known here; use in, mm or cm"),
                 rest);
  else
    g_set_error (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX,
                 _ ("“%s” is not a length; write it like 4 1/4 in, 4.25 or 108 mm"), text);
  return FALSE;
}

/**
 * cw_length_parse:
 * @text: a length as typed, such as "4 1/4 in", "4-1/4\"", "4¼", "4.25", "17/4 in", "108 mm" or "10.8 cm"
 * @bare_unit: the unit of a number that names none
 * @length: (out): the length: exact, or the nearest tick (half away from zero) with its text kept
 *
 * Returns: FALSE with CW_LENGTH_ERROR when @text is not one length, and nothing else.
 */
gboolean
cw_length_parse (const char *text, CwUnit bare_unit, CwLength *length, GError **error)
{
  g_return_val_if_fail (text && length, FALSE);

  const char *end;
  if (!cw_length_check_text (text, CW_LENGTH_TEXT_MAX, error)
      || !cw_length_scan (text, bare_unit, length, NULL, &end, error))
    return FALSE;
  end = cw_length_skip_spaces (end);
  return *end ? cw_length_fail_rest (text, end, error) : TRUE;
}

/**
 * cw_length_from_ticks:
 *
 * Returns: the length of @ticks, to be written in @unit.
 */
CwLength
cw_length_from_ticks (gint32 ticks, CwUnit unit)
{
  return (CwLength){ .ticks = ticks, .unit = unit };
}

/**
 * cw_length_format:
 *
 * Returns: (transfer full): the length in its own unit: its own text if it is no whole number of ticks, else as
 * cw_length_format_ticks().
 */
char *
cw_length_format (CwLength length)
{
  return length.text ? g_strdup (length.text) : cw_length_format_ticks (length.ticks, length.unit);
}

/* Decimals of n / d, d a power of ten, without trailing zeros. */
static char *
format_decimal (const char *sign, gint64 n, gint64 d, const char *suffix)
{
  g_autoptr (GString) text = g_string_new (sign);
  gint64 rest = n % d;

  g_string_append_printf (text, "%" G_GINT64_FORMAT, n / d);
  if (rest > 0)
    g_string_append_c (text, '.');
  while (rest > 0)
    {
      d /= 10;
      g_string_append_c (text, (char) ('0' + rest / d));
      rest %= d;
    }
  g_string_append_printf (text, " %s", suffix);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static char *
format_inches (const char *sign, gint64 ticks)
{
  const gint64 per_64th = CW_TICKS_PER_INCH / 64;
  gint64 whole = ticks / CW_TICKS_PER_INCH;
  gint64 n = ticks % CW_TICKS_PER_INCH / per_64th;
  gint64 d = 64;

  if (ticks % per_64th == 0)
    {
      if (n == 0)
        return g_strdup_printf ("%s%" G_GINT64_FORMAT " in", sign, whole);
      while (n % 2 == 0)
        {
          n /= 2;
          d /= 2;
        }
      return whole ? g_strdup_printf ("%s%" G_GINT64_FORMAT " %" G_GINT64_FORMAT "/%" G_GINT64_FORMAT " in", sign,
                                      whole, n, d)
                   : g_strdup_printf ("%s%" G_GINT64_FORMAT "/%" G_GINT64_FORMAT " in", sign, n, d);
    }

  /* The shortest decimal that reads back to this tick. Four places always do: 0.0001 in is 0.81 tick. */
  for (d = 10;; d *= 10)
    {
      n = divide_rounded (ticks * d, CW_TICKS_PER_INCH);
      if (divide_rounded (n * CW_TICKS_PER_INCH, d) == ticks)
        return format_decimal (sign, n, d, cw_unit_get_suffix (CW_UNIT_INCH));
    }
}

/**
 * cw_length_format_ticks:
 *
 * Inches as whole number and reduced fraction where that is exact ("4 1/4 in", "-1/8 in"), else as the shortest decimal
 * that reads back to the same tick ("4.2537 in"); metric as the exact decimal ("107.95 mm").
 *
 * Returns: (transfer full): text that cw_length_parse() reads back to @ticks and @unit.
 */
char *
cw_length_format_ticks (gint32 ticks, CwUnit unit)
{
  const char *sign = ticks < 0 ? "-" : "";
  gint64 size = ABS ((gint64) ticks);

  switch (unit)
    {
    case CW_UNIT_MM: /* 1/320 = 0.003125 */
      return format_decimal (sign, size * 3125, 1000000, cw_unit_get_suffix (unit));
    case CW_UNIT_CM:
      return format_decimal (sign, size * 3125, 10000000, cw_unit_get_suffix (unit));
    case CW_UNIT_INCH:
    default:
      return format_inches (sign, size);
    }
}

/**
 * cw_length_is_whole:
 *
 * Returns: whether the length as typed is a whole number of ticks.
 */
gboolean
cw_length_is_whole (CwLength length)
{
  return length.text == NULL;
}

/**
 * cw_unit_get_suffix:
 *
 * Returns: the unit as it is written after a number: "in", "mm" or "cm".
 */
const char *
cw_unit_get_suffix (CwUnit unit)
{
  switch (unit)
    {
    case CW_UNIT_MM:
      return "mm";
    case CW_UNIT_CM:
      return "cm";
    case CW_UNIT_INCH:
    default:
      return "in";
    }
}

/**
 * cw_ticks_snap:
 * @step: the distance of the maker's marks, in ticks; 0 or less leaves @ticks as it is
 *
 * Returns: the multiple of @step nearest to @ticks, half away from zero.
 */
gint32
cw_ticks_snap (gint32 ticks, gint32 step)
{
  if (step <= 0)
    return ticks;
  gint64 size = divide_rounded (ABS ((gint64) ticks), step) * step;
  return (gint32) (ticks < 0 ? -size : size);
}
