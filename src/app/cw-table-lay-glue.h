/* cw-table-lay-glue.h: ways of laying glue, and what is meant by them; for the slip that asks (cw-table-ask-glue.c).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-table-private.h"
#include "make/cw-make-glue.h"

G_BEGIN_DECLS

/* How it can lie: "safe" is no shape of its own. */
typedef enum
{
  CW_GLUE_WAY_SAFE,
  CW_GLUE_WAY_ALL,
  CW_GLUE_WAY_RIM,
  CW_GLUE_WAY_CORNERS,
  CW_GLUE_WAY_STRIP,
  CW_GLUE_WAY_DOTS,
  CW_N_GLUE_WAYS
} CwGlueWay;

typedef struct
{
  const char *key;
  CwGlueShape shape;
  const char *words, *undo;
  const char *size_words; /* NULL: it has no size */
  const char *inches[3];  /* size, distance between dots, distance from the edge; common practice, no source */
  const char *millimetres[3];
} CwGlueWayWords;

extern const CwGlueWayWords cw_glue_ways[CW_N_GLUE_WAYS];

typedef struct
{
  guint piece, panel; /* place in the design, and index in its map */
  guint zone;         /* place in the design's list; G_MAXUINT: the whole face */
  CwFace face;
} CwGlueMeant;

gboolean cw_table_find_glue_meant (CwTable *self, CwGlueMeant *meant);
const CwGlue *cw_table_find_glue (CwTable *self, const CwGlueMeant *meant); /* NULL: there is none */
CwPoint cw_table_find_glue_edge (CwTable *self, const CwGlueMeant *meant, guint side);
void cw_table_lay_glue (CwTable *self, const CwGlueMeant *meant, CwGlueWay way, CwGlueKind kind,
                        const CwGluePlan *plan);

/* cw-table-ask-glue.c */
void cw_table_ask_glue (GSimpleAction *action, GVariant *parameter, gpointer data);

G_END_DECLS
