/* referee.h: areas worked out by another geometry library, in C's terms.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#ifdef __cplusplus
extern "C"
{
#endif

  /* A closed ring of n points, x and y in turn. */
  typedef struct
  {
    unsigned n;
    const double *xy;
  } RefereeRing;

  /* Cuts a ring by the lines through chords (x0, y0, x1, y1 each) and takes out the windows. Areas of all parts into
   * `areas`, largest first; returns how many there are, at most `max`. */
  unsigned referee_parts (RefereeRing sheet, unsigned n_chords, const double *chords, unsigned n_windows,
                          const RefereeRing *windows, double *areas, unsigned max);

  /* Area of the common part (0), union (1) or difference (2) of two rings. */
  double referee_overlay (RefereeRing a, RefereeRing b, int what);

#ifdef __cplusplus
}
#endif
