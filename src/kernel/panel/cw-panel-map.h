/* cw-panel-map.h: the panels and fold lines of one piece, found from its outline and marks; and those of a whole
 * design.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design.h"
#include "design/cw-finding.h"
#include "geometry/cw-region.h"

G_BEGIN_DECLS

typedef struct
{
  CwPolygon outline; /* ticks, in the piece's flat front coordinates */
  gint64 area2;      /* twice the area, square ticks */
  CwPoint box_min, box_max;
  CwPoint inside; /* a point well inside; lies in the named point's place if the panel is named */
  char *name;     /* NULL if unnamed */
} CwPanel;

/* A straight stretch of a hinge, on ticks. */
typedef struct
{
  CwPoint a, b; /* in the hinge's way from p to q */
} CwStretch;

/* A fold line: all stretches of one straight line between the same two panels. `left` and `right` are as seen with the
 * front up when walking from p to q. */
typedef struct
{
  guint left, right; /* indices into panels */
  CwPoint p, q;      /* its two outermost ends, p the left (then upper) one */
  CwVec3 axis[2];    /* p and q moved onto the score's line as drawn, ticks: free of the rounding of crossings */
  GArray *stretches; /* of CwStretch, from p to q */
  double length;     /* of all stretches, ticks */
  GPtrArray *scores; /* of mark ids, in file order; the first decides `fold` */
  CwFoldWay fold;
} CwHinge;

typedef struct
{
  const CwPiece *piece; /* borrowed from the design the set holds */
  GArray *panels;       /* of CwPanel: by the left edge of the box round them, then its top edge */
  GArray *hinges;       /* of CwHinge: by the first of their scores in file order, then from left to right */
  gint64 area2;         /* of all panels, twice, square ticks */
  CwPoint box_min, box_max;
} CwPanelMap;

/* All pieces of a design. Panels of all pieces are also numbered through: index = first[piece] + panel. Immutable and
 * reference counted; holds a reference to its design. */
typedef struct
{
  CwDesign *design;
  guint n_pieces;
  CwPanelMap *maps;    /* one per piece, in the design's order */
  guint *first_panel;  /* n_pieces + 1 entries */
  guint *first_hinge;  /* n_pieces + 1 entries */
  GPtrArray *findings; /* of CwFinding: faults of the drawing */
  char **step_names;   /* one per step, as findings name it */
} CwPanelSet;

CwPanelSet *cw_panel_set_new (CwDesign *design);
CwPanelSet *cw_panel_set_ref (CwPanelSet *set);
void cw_panel_set_unref (CwPanelSet *set);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwPanelSet, cw_panel_set_unref)

guint cw_panel_set_n_panels (const CwPanelSet *set);
guint cw_panel_set_n_hinges (const CwPanelSet *set);
void cw_panel_set_locate (const CwPanelSet *set, guint index, guint *piece, guint *panel);
/* What a finding calls a step: its title, else its id marked as a step's (CW_FINDING_STEP). */
const char *cw_panel_set_get_step_name (const CwPanelSet *set, guint step);
/* Adds the panel and its piece to what a finding is about, each once. */
void cw_panel_set_tell (const CwPanelSet *set, CwFinding *finding, guint index);
const CwPanel *cw_panel_set_get_panel (const CwPanelSet *set, guint index);
const CwHinge *cw_panel_set_get_hinge (const CwPanelSet *set, guint index, guint *piece);

/* The panel under a point of the piece (a point on an edge: the nearest panel); G_MAXUINT when the piece has none. */
guint cw_panel_map_find (const CwPanelMap *map, CwPoint point);
/* The panel that stays still or lies on the host: under `hold`, else nearest to the origin. */
guint cw_panel_map_find_hold (const CwPanelMap *map);
/* The panel a `stick` step lays down: under `hold`, else with the first live zone, else nearest to the origin. */
guint cw_panel_set_find_laid (const CwPanelSet *set, guint piece);
guint cw_panel_set_find_host (const CwPanelSet *set, const CwStep *step); /* through the design */

G_END_DECLS
