/* collision-referee.h: do two sheets meet? Asked of a general collision library, in C's terms.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#ifdef __cplusplus
extern "C"
{
#endif

  typedef struct RefereeSheet RefereeSheet;

  /* A flat sheet of n triangles, x and y of three corners each. */
  RefereeSheet *referee_sheet_new (unsigned n, const double *corners);
  /* A flat sheet by its outline and holes (x and y in turn), every edge drawn in by so much; slits (x0, y0, x1, y1) are
   * then opened by as much to either side, else they stay shut. */
  RefereeSheet *referee_sheet_drawn_in (unsigned n, const double *outline, unsigned n_holes, const unsigned *hole_sizes,
                                        const double *holes, unsigned n_slits, const double *slits, double by);
  void referee_sheet_free (RefereeSheet *sheet);

  /* Placements: rotation by rows, then the shift. */
  int referee_sheets_meet (const RefereeSheet *a, const double *place_a, const RefereeSheet *b, const double *place_b);
  double referee_sheets_apart (const RefereeSheet *a, const double *place_a, const RefereeSheet *b,
                               const double *place_b);

#ifdef __cplusplus
}
#endif
