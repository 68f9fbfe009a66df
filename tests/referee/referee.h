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

  /* A sheet as it lies behind the asking one: its outline and windows, in the asking sheet's own coordinates by
   * (x, y) -> (sx x + tx, y). */
  typedef struct
  {
    RefereeRing outline;
    unsigned n_windows;
    const RefereeRing *windows;
    double sx, tx;
    int host;
  } RefereeLaid;

  /* Where glue may lie on the face of a sheet that is to hold its host: in every state (n_laid sheets each, nearest
   * first, all states in one list) the face is looked away from, through windows and past edges. areas: [0] where the
   * host lies in every state, [1] where anything else does in one; [2], [3] what is left of the first when everything
   * else is kept away from by `hand`, measured round corners and with mitres. */
  void referee_safe (const RefereeLaid *own, unsigned n_states, const unsigned *n_laid, const RefereeLaid *laid,
                     double hand, double areas[4]);

#ifdef __cplusplus
}
#endif
