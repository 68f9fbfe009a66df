/* cw-mark-measures.h: the measures of one mark as a maker reads them from the lying sheet, and the mark with one of
 * them changed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "text/cw-lie.h"

G_BEGIN_DECLS

#define CW_MARK_MEASURES_MAX 4

/* One number that says where a mark lies. */
typedef struct
{
  const char *word; /* msgid, short: "At", "From" */
  const char *help; /* msgid: what it is and from which edge it is read */
  gint32 ticks;     /* as lying; from the guide (left) or the ruler (top) edge, or a radius */
  CwLength length;  /* the same in the unit it was typed in */
  guint axis;       /* 0 across, 1 down, 2 radius */
  guint vertices;   /* bits: which of the mark's vertices it moves */
  gboolean far;     /* read from the right or the bottom edge instead */
} CwMarkMeasure;

guint cw_mark_measures (const CwPiece *piece, CwLie lie, gboolean far, const CwMark *mark,
                        CwMarkMeasure measures[CW_MARK_MEASURES_MAX]);
CwMark *cw_mark_with_measure (const CwPiece *piece, CwLie lie, const CwMark *mark, const CwMarkMeasure *measure,
                              CwLength value);

G_END_DECLS
