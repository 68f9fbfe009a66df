/* cw-draw-list.h: a neutral list of things to draw, with ids, made from the kernel's results.
 *
 * One player puts it on screen, paper, PDF, SVG or PNG (cw-draw-play.h); picking what lies under the pointer reads the
 * same list. Coordinates are in output units (logical pixels or points), y down. Items lie in drawing order, last on
 * top.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What an item is a picture of. `piece` and `index` are positions in the design (panel: index in its piece's map; mark,
 * name, art: index in the piece's list; zone: index in the design's glue, piece G_MAXUINT). */
typedef enum
{
  CW_ID_NONE,
  CW_ID_SHEET, /* the piece's outline and face */
  CW_ID_PANEL,
  CW_ID_MARK,
  CW_ID_MARK_END, /* part: which vertex of the mark */
  CW_ID_HINGE,
  CW_ID_NAME,
  CW_ID_ZONE,
  CW_ID_ART,
  CW_ID_HOLD,
  CW_ID_MEASURE, /* a measure written on the drawing; part tells which */
  CW_ID_FINDING, /* index: position in the analysis' findings */
  CW_ID_RULER,
  CW_ID_WORDS,    /* index: a paragraph of a printed page */
  CW_ID_ZONE_END, /* part: which handle, as of a mark's outline */
  CW_ID_ART_END,
  CW_ID_LAYER, /* all of a panel that is stuck on the sheet; part: the face of it that is seen */
} CwIdKind;

typedef struct
{
  CwIdKind kind;
  guint piece, index, part;
} CwId;

/* What a line or area means; cw-pen.c says how it looks (ISO 128-2 line types; black and white carries everything). */
typedef enum
{
  CW_PEN_OUTLINE,
  CW_PEN_CUT,          /* solid, heavy */
  CW_PEN_SCORE_TOWARD, /* dashed */
  CW_PEN_SCORE_AWAY,   /* dash-dot */
  CW_PEN_SCORE_NONE,   /* dotted: scored, not folded here */
  CW_PEN_EDGE,         /* an edge of the folded card */
  CW_PEN_HIDDEN,
  CW_PEN_PAPER, /* a face of paper: fill colour given by the item */
  CW_PEN_WASTE, /* hatched */
  CW_PEN_GLUE,  /* dotted area */
  CW_PEN_NEVER, /* cross-hatched area: no glue here */
  CW_PEN_SAFE,  /* open dots: glue may go here */
  CW_PEN_NEAR,  /* level lines: it holds here, but creep or a hand that misses would carry glue beyond */
  CW_PEN_ART,
  CW_PEN_GUIDE, /* rulers, measures, witness lines */
  CW_PEN_GRID,
  CW_PEN_SELECTED, /* halo under what is selected */
  CW_PEN_PREVIEW,  /* what Enter or release would make */
  CW_PEN_TROUBLE,  /* a finding's place */
  CW_PEN_HANDLE,   /* the end of a mark that can be pulled */
  CW_PEN_HOLD,     /* the panel that stays still */
  CW_PEN_TEXT,
  CW_PEN_TITLE,   /* words set heavier */
  CW_PEN_FIGURE,  /* a measure's figures: clears the ground behind them */
  CW_PEN_PATTERN, /* printed paper: fine lines that tell its face without colour */
  CW_PEN_CREASE,  /* a fold line on the folded card */
  CW_PEN_SHADOW,
  CW_PEN_PICK, /* nothing is drawn; only answers what lies here */
  CW_PEN_CLIP, /* items up to cw_draw_list_unclip () show inside this path only */
  CW_PEN_UNCLIP,
  CW_N_PENS,
} CwPen;

typedef struct CwDrawList CwDrawList;

CwDrawList *cw_draw_list_new (void);
void cw_draw_list_free (CwDrawList *list);
guint cw_draw_list_get_n_items (const CwDrawList *list);
void cw_draw_list_clear (CwDrawList *list); /* keeps its memory: refilling a list of the same size allocates nothing */

/* Colour of what the following items lie on, so that their ink keeps its contrast there; G_MAXUINT32: the table. */
#define CW_GROUND_TABLE G_MAXUINT32
void cw_draw_list_set_ground (CwDrawList *list, guint32 rgb);
void cw_draw_list_unclip (CwDrawList *list);

/* A path is begun, drawn and ended; it belongs to one item. */
void cw_draw_list_begin (CwDrawList *list, CwPen pen, CwId id);
void cw_draw_list_set_colour (CwDrawList *list, guint32 rgb); /* of this item, instead of its pen's */
void cw_draw_list_set_shade (CwDrawList *list, double shade); /* 0 dark .. 1 as it is; papers turned from the light */
void cw_draw_list_move (CwDrawList *list, double x, double y);
void cw_draw_list_line (CwDrawList *list, double x, double y);
void cw_draw_list_arc (CwDrawList *list, double x, double y, double radius); /* a whole circle */
/* The circular arc from where the path stands through one place to another; a line if the three lie on one. */
void cw_draw_list_arc_to (CwDrawList *list, double through_x, double through_y, double x, double y);
void cw_draw_list_close (CwDrawList *list);
void cw_draw_list_end (CwDrawList *list);

typedef enum
{
  CW_ANCHOR_START,
  CW_ANCHOR_MIDDLE,
  CW_ANCHOR_END
} CwAnchor;
/* x, y: where the baseline starts, has its middle or ends. */
void cw_draw_list_text (CwDrawList *list, CwPen pen, CwId id, double x, double y, double size, CwAnchor anchor,
                        double angle_deg, const char *text);

/* Adds all of another list, scaled, then shifted; line widths keep their own. */
void cw_draw_list_append_part (CwDrawList *list, const CwDrawList *other, guint first, guint n, double scale, double dx,
                               double dy);
void cw_draw_list_append (CwDrawList *list, const CwDrawList *other, double scale, double dx, double dy);

/* A width that the text will not exceed in the usual sans fonts. */
guint cw_draw_words (CwDrawList *list, double x, double y, double size, double leading, double room, const char *text);
double cw_draw_text_width (double size, const char *text);

/* Topmost pickable item within `reach` of a point: handles first, then the nearest line above
 * the topmost area, then that area. FALSE if there is none. kinds is
 * a mask of 1 << CwIdKind. */
gboolean cw_draw_list_pick (const CwDrawList *list, double x, double y, double reach, guint kinds, CwId *id);
void cw_draw_list_get_extents (const CwDrawList *list, double box[4]);
gboolean cw_draw_list_get_box (const CwDrawList *list, CwId id, double box[4]);
/* Whether any item has this pen: what a legend must explain. */
gboolean cw_draw_list_uses (const CwDrawList *list, CwPen pen);
/* The list as lines of text, for golden tests. */
char *cw_draw_list_to_text (const CwDrawList *list);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwDrawList, cw_draw_list_free)

G_END_DECLS
