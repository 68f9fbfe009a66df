/* cw-miss.h: the ways in which a careful hand may miss when it makes a design: a line scored beside its place, a layer
 * stuck beside it, a window cut beside it, glue laid a little too far.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design.h"

G_BEGIN_DECLS

typedef enum
{
  CW_MISS_SCORE,  /* one straight line of scores, set on the ruler once */
  CW_MISS_LAYER,  /* a piece stuck on another */
  CW_MISS_WINDOW, /* a window cut into a piece */
  CW_MISS_GLUE    /* a zone */
} CwMissKind;

/* One thing that is put in its place once. It may miss in several ways: a line to either side, a layer or window to
 * any of four, glue all round. */
typedef struct
{
  CwMissKind kind;
  char *piece;   /* id of the piece that carries the line or window, that is stuck, or that carries the glue */
  char *item;    /* id of the first score of the line, of the stick step, of the window, of the zone */
  GArray *marks; /* of guint, places in the piece's list: all scores of the line; the window; else empty */
  guint n_ways;
} CwMiss;

GPtrArray *cw_misses_new (const CwDesign *design); /* of CwMiss, owned */
void cw_miss_free (CwMiss *miss);
/* The design as it comes out when the hand misses by so much (ticks) in one of the ways; NULL if it cannot. */
CwDesign *cw_miss_apply (const CwMiss *miss, const CwDesign *design, guint way, gint32 by);
CwMark *cw_miss_get_mark (const CwMiss *miss, const CwDesign *design, guint index); /* borrowed */
const char *cw_miss_kind_get_key (CwMissKind kind);
char *cw_miss_dup_name (const CwMiss *miss, const CwDesign *design, gboolean translated); /* "The score “spine”" */

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwMiss, cw_miss_free)

G_END_DECLS
