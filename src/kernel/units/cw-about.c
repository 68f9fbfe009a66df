/* cw-about.c: computed lengths, areas and angles in words. Exact lengths are cw-length.c's.
 *
 * A length is told to 1/64 inch or 0.1 mm, the finest that the marks of a ruler and the model's ticks share; below
 * that, where rounding would say "nothing" for something, with the digits it takes. Digits and point are the same in
 * every locale, because these texts also go into the report.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "units/cw-about.h"

#include <math.h>

/* A length this little over a mark is that mark, ticks: the rounding of two marks (CW_TOL_EXACT_TICKS). */
#define MARK_SLACK 2.0

/* A number with so many decimals, trailing zeros and a bare point left out. */
static char *
format_trimmed (double number, int decimals)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE], format[] = "%.0f";
  gsize n;

  format[2] = (char) ('0' + decimals);
  g_ascii_formatd (buffer, sizeof buffer, format, number);
  n = strlen (buffer);
  if (strchr (buffer, '.'))
    {
      while (buffer[n - 1] == '0')
        n--;
      if (buffer[n - 1] == '.')
        n--;
      buffer[n] = '\0';
    }
  return g_strdup (g_str_equal (buffer, "-0") ? "0" : buffer);
}

/**
 * cw_about_length:
 * @ticks: a length
 * @unit: the unit to tell it in
 *
 * Returns: (transfer full): the nearest 1/64 inch ("4 1/4 in") or 0.1 mm ("108 mm"); a shorter length in decimals
 * ("0.004 in")
 */
char *
cw_about_length (double ticks, CwUnit unit)
{
  double fine = unit == CW_UNIT_INCH ? CW_TICKS_PER_INCH / 64 : CW_TICKS_PER_MM / 10;
  double per_unit = unit == CW_UNIT_INCH ? CW_TICKS_PER_INCH
                    : unit == CW_UNIT_MM ? CW_TICKS_PER_MM
                                         : 10 * CW_TICKS_PER_MM;
  g_autofree char *number = NULL;

  g_return_val_if_fail (isfinite (ticks) && fabs (ticks) < G_MAXINT32, NULL);

  if (fabs (ticks) >= fine)
    return cw_length_format_ticks ((gint32) (round (ticks / fine) * fine), unit);
  number = format_trimmed (ticks / per_unit, unit == CW_UNIT_MM ? 3 : 4);
  return g_strdup_printf ("%s %s", number, cw_unit_get_suffix (unit));
}

/**
 * cw_about_next_mark:
 * @ticks: a length to be made, 0 or more
 * @unit: the unit to tell it in
 * @snap: the maker's finest mark, ticks; 0: none
 *
 * Returns: (transfer full): the first mark that is no shorter; without marks the next 1/64 inch or 0.1 mm
 */
char *
cw_about_next_mark (double ticks, CwUnit unit, gint32 snap)
{
  gint32 mark = snap > 0 ? snap : unit == CW_UNIT_INCH ? CW_TICKS_PER_INCH / 64 : CW_TICKS_PER_MM / 10;

  g_return_val_if_fail (isfinite (ticks) && ticks >= 0 && ticks < G_MAXINT32 / 2, NULL);
  /* What rounding to ticks makes of a mark is that mark. */
  return cw_length_format_ticks ((gint32) ceil ((ticks - MARK_SLACK) / mark) * mark, unit);
}

/**
 * cw_about_area:
 * @sq_ticks: an area
 * @unit: inches give square inches, metric units square centimetres
 *
 * Returns: (transfer full): the area to two decimals, such as "4.25 sq in"
 */
char *
cw_about_area (double sq_ticks, CwUnit unit)
{
  double side = unit == CW_UNIT_INCH ? CW_TICKS_PER_INCH : 10 * CW_TICKS_PER_MM;
  g_autofree char *number = NULL;

  g_return_val_if_fail (isfinite (sq_ticks), NULL);

  number = format_trimmed (sq_ticks / (side * side), 2);
  return g_strdup_printf ("%s sq %s", number, unit == CW_UNIT_INCH ? "in" : "cm");
}

/**
 * cw_about_degrees:
 * @degrees: an angle
 *
 * Returns: (transfer full): the number of degrees to a tenth, such as "97.2", without a sign for degrees
 */
char *
cw_about_degrees (double degrees)
{
  g_return_val_if_fail (isfinite (degrees), NULL);
  return format_trimmed (degrees, 1);
}
