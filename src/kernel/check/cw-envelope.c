/* cw-envelope.c: envelopes that can be bought, and the smallest one a card goes into.
 *
 * Metric sizes are those of ISO 269:1985 and DIN 678. The others are trade sizes of the United States, as printed with
 * envelopes: announcement sizes A1 to A10, slim, number 10, number 9, and squares; no standard fixes them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-envelope.h"

#define MM(n) ((n) *CW_TICKS_PER_MM)
#define SIXTEENTHS(n) ((n) *CW_TICKS_PER_INCH / 16)
#define METRIC(name, w, h)                                                                                             \
  {                                                                                                                    \
    name, CW_UNIT_MM,                                                                                                  \
    {                                                                                                                  \
      MM (w), MM (h)                                                                                                   \
    }                                                                                                                  \
  }
#define INCH(name, w, h)                                                                                               \
  {                                                                                                                    \
    name, CW_UNIT_INCH,                                                                                                \
    {                                                                                                                  \
      SIXTEENTHS (w), SIXTEENTHS (h)                                                                                   \
    }                                                                                                                  \
  }

static const CwEnvelope envelopes[] = {
  METRIC ("C7/C6", 81, 162),    METRIC ("DL", 110, 220),
  METRIC ("C6", 114, 162),      METRIC ("C6/C5", 114, 229),
  METRIC ("B6", 125, 176),      METRIC ("C5", 162, 229),
  METRIC ("B5", 176, 250),      METRIC ("C4", 229, 324),
  METRIC ("B4", 250, 353),      INCH ("A1", 58, 82),
  INCH ("A2", 70, 92),          INCH ("A6", 76, 104),
  INCH ("A7", 84, 116),         INCH ("A8", 88, 130),
  INCH ("A9", 92, 140),         INCH ("A10", 96, 152),
  INCH ("slim", 62, 142),       INCH ("No. 6 3/4", 58, 104),
  INCH ("No. 10", 66, 152),     INCH ("5 in square", 80, 80),
  INCH ("6 in square", 96, 96), INCH ("6 1/2 in square", 104, 104),
};

/**
 * cw_envelope_find:
 * @width: of the closed card, ticks
 * @height: of it
 * @room: how much larger the envelope has to be in each direction, ticks
 * @unit: the unit the maker works in
 *
 * Returns: (transfer none) (nullable): the envelope of least area, of those given in inches or of the metric ones
 */
const CwEnvelope *
cw_envelope_find (gint32 width, gint32 height, gint32 room, CwUnit unit)
{
  const CwEnvelope *best = NULL;
  gint64 least = G_MAXINT64;

  for (guint i = 0; i < G_N_ELEMENTS (envelopes); i++)
    {
      const CwEnvelope *own = &envelopes[i];
      gint64 area = (gint64) own->size[0] * own->size[1];

      if ((own->unit == CW_UNIT_INCH) != (unit == CW_UNIT_INCH) || area >= least
          || own->size[0] < MIN (width, height) + room || own->size[1] < MAX (width, height) + room)
        continue;
      best = own;
      least = area;
    }
  return best;
}
