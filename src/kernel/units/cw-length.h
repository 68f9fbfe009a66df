/* cw-length.h: exact lengths and their text.
 *
 * A tick is 1/320 mm = 1/8128 inch: the largest unit in which both 1/64 inch (127) and 0.1 mm (32) are whole, because
 * 1 inch = 25.4 mm exactly (international yard and pound agreement, 1959).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define CW_TICKS_PER_INCH 8128
#define CW_TICKS_PER_MM 320
#define CW_LENGTH_MAX (60 * CW_TICKS_PER_INCH) /* longest length read, either sign, in ticks */
#define CW_LENGTH_TEXT_MAX 64                  /* longest text of one length, in bytes */

typedef enum
{
  CW_UNIT_INCH,
  CW_UNIT_MM,
  CW_UNIT_CM,
} CwUnit;

/* A length as typed: the nearest tick, the unit it was typed in and, only when it is no whole number of ticks, its own
 * text (interned, never freed), so that nothing the maker wrote is lost. */
typedef struct
{
  gint32 ticks;
  CwUnit unit;
  const char *text; /* interned; NULL when ticks says it all */
} CwLength;

typedef enum
{
  CW_LENGTH_ERROR_SYNTAX,    /* not a length */
  CW_LENGTH_ERROR_TOO_LARGE, /* outside +-60 inches */
} CwLengthError;

#define CW_LENGTH_ERROR (cw_length_error_quark ())
GQuark cw_length_error_quark (void);

CwLength cw_length_from_ticks (gint32 ticks, CwUnit unit);
gboolean cw_length_parse (const char *text, CwUnit bare_unit, CwLength *length, GError **error);
gboolean cw_length_scan (const char *text, CwUnit bare_unit, CwLength *length, gboolean *unit_said, const char **end,
                         GError **error);
char *cw_length_format (CwLength length);
char *cw_length_format_ticks (gint32 ticks, CwUnit unit);
gboolean cw_length_is_whole (CwLength length);
const char *cw_unit_get_suffix (CwUnit unit);
gint32 cw_ticks_snap (gint32 ticks, gint32 step);

static inline double
cw_ticks_to_inch (double ticks)
{
  return ticks / CW_TICKS_PER_INCH;
}

G_END_DECLS
