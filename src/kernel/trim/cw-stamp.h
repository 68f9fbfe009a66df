/* cw-stamp.h: where on the flat piece greetings and pictures go, before it is cut and scored.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design.h"

G_BEGIN_DECLS

/* One of several stampings of an area. */
typedef struct
{
  guint print;         /* how many times since it was inked: 1 the first; 0: unsaid */
  char *place;         /* the maker's words; NULL */
  gboolean has_middle; /* the middle of the stamp is given, on the piece as it lies: */
  CwLength left, top;
  gboolean stamp_off; /* after inking once on scrap paper */
  gboolean mask;      /* what is there already is covered first */
  char *words;        /* the maker's own; NULL */
} CwPrint;

/* A greeting or picture area on the piece as it lies with that face up, turned over like a page. */
typedef struct
{
  guint piece, art; /* positions in the design */
  CwFace face;
  CwLength left, top; /* from the edges of the box round the piece */
  CwLength width, height;
  double up;         /* degrees clockwise from upright, as it lies */
  GArray *over;      /* of guint: marks that run through it */
  GPtrArray *prints; /* of CwPrint, in order */
  char *wait;        /* how long it dries or cools, the maker's words; NULL */
  gboolean heat;     /* heat is used on it */
} CwStamp;

/* All greetings and pictures of a design, pieces and areas in its order. Returns: (transfer full): of CwStamp. */
GPtrArray *cw_stamps_find (const CwDesign *design);

G_END_DECLS
