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
  void referee_sheet_free (RefereeSheet *sheet);

  /* Placements: rotation by rows, then the shift. */
  int referee_sheets_meet (const RefereeSheet *a, const double *place_a, const RefereeSheet *b, const double *place_b);
  double referee_sheets_apart (const RefereeSheet *a, const double *place_a, const RefereeSheet *b,
                               const double *place_b);

#ifdef __cplusplus
}
#endif
