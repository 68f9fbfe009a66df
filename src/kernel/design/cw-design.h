/* cw-design.h: what a design is: papers, pieces with their marks, glue, steps and wants.
 *
 * A CwDesign and everything in it is immutable once shared and reference counted: an edit makes a new design that
 * shares all it did not touch. So a design can be read from any thread, undo keeps old ones cheaply, and nobody copies
 * by hand. To change an item: cw_mark_copy (old), set fields, and hand it to an edit (cw-edit.h), which takes it.
 *
 * Lists are GPtrArrays of such items, in file order. Items are addressed by the ids of the file everywhere; ids hold no
 * '/'. Coordinates are the piece's own front coordinates as typed (CwLength). Keys the program does not know, and the
 * loosely specified keys of later pages, are kept in `extra` and written back.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <json-glib/json-glib.h>

#include "geometry/cw-point.h"
#include "units/cw-length.h"

G_BEGIN_DECLS

typedef enum
{
  CW_FACE_FRONT,
  CW_FACE_BACK
} CwFace;

typedef struct
{
  CwLength x, y;
} CwPlace;

/* One entry of a list of points. A `through` entry makes the circular arc from the point before it to the point after
 * it pass through this place. */
typedef struct
{
  CwPlace at;
  gboolean through;
  JsonObject *extra; /* of a `through` entry */
} CwVertex;

typedef struct
{
  guint n_vertices;
  CwVertex *vertices; /* owned */
} CwPath;

typedef struct
{
  char *id, *name, *weight; /* weight as typed, such as "216 g/m2" or "80 lb cover"; NULL if absent */
  gboolean has_caliper;
  CwLength caliper;                  /* thickness of one sheet */
  char *front, *back;                /* colours "#rrggbb" of the two faces; NULL if absent */
  gboolean patterned, has_patterned; /* printed on the front only */
  char *grain;                       /* "x" or "y": the way the fibres run on the piece; NULL if absent */
  JsonObject *extra;
} CwPaper;

typedef enum
{
  CW_MARK_SCORE,
  CW_MARK_CUT,
  CW_MARK_WINDOW
} CwMarkKind;
typedef enum
{
  CW_SHAPE_LINE,
  CW_SHAPE_RECT,
  CW_SHAPE_CIRCLE
} CwMarkShape;
typedef enum
{
  CW_FOLD_TOWARD,
  CW_FOLD_AWAY,
  CW_FOLD_NONE
} CwFoldWay;
typedef enum
{
  CW_MADE_UNSAID,
  CW_MADE_BOARD,
  CW_MADE_PRESS
} CwMade;

typedef struct
{
  char *id;
  CwMarkKind kind;
  CwMarkShape shape; /* RECT and CIRCLE for windows only */
  CwPath line;       /* LINE: an open polyline, for a window a closed one; RECT: two corners */
  CwPlace centre;    /* CIRCLE */
  CwLength radius;   /* CIRCLE */
  CwFoldWay fold;    /* scores */
  CwMade made;       /* scores */
  JsonObject *circle_extra;
  JsonObject *extra;
} CwMark;

/* A panel's name, and the point of the panel that carries it. */
typedef struct
{
  char *name;
  CwPlace at;
  JsonObject *extra;
} CwName;

/* A greeting or picture area. */
typedef struct
{
  char *id, *label;
  CwFace face;
  CwPlace box[2];
  double up; /* degrees clockwise from the piece's own up, as seen by someone looking at that face */
  JsonObject *extra;
} CwArt;

typedef enum
{
  CW_SHOWS_UNSAID,
  CW_SHOWS_FRONT,
  CW_SHOWS_BACK,
  CW_SHOWS_BOTH
} CwShows;

typedef struct
{
  char *id, *name, *paper;
  gboolean ground;
  CwPath outline;
  gboolean has_hold;
  CwPlace hold;
  CwShows shows;
  gboolean has_rim; /* a layer that keeps to its host panel, less this all round */
  CwLength rim;
  GPtrArray *marks;            /* of CwMark */
  GPtrArray *names;            /* of CwName */
  GPtrArray *art;              /* of CwArt */
  gboolean has_names, has_art; /* written even if empty */
  JsonObject *extra;
} CwPiece;

/* What a zone is meant to hold, or where a layer goes: a piece and, if has_panel, the panel under that point. */
typedef struct
{
  char *piece;
  gboolean has_panel;
  CwPlace panel;
  gboolean spelled_out; /* in `holds`: written as an object even without a panel */
  JsonObject *extra;
} CwTarget;

typedef enum
{
  CW_GLUE_TAPE,
  CW_GLUE_WET,
  CW_GLUE_STRONG,
  CW_GLUE_FOAM,
  CW_GLUE_DOTS
} CwGlueKind;

typedef struct
{
  char *id, *piece;
  CwFace face;
  CwGlueKind kind;
  CwPath area;
  GPtrArray *holds;      /* of CwTarget */
  gboolean holds_listed; /* written as a list even with one entry */
  char *apply;           /* step at whose end it becomes live; NULL if unsaid */
  gboolean has_height;
  CwLength height; /* foam */
  JsonObject *extra;
} CwGlue;

typedef enum
{
  CW_DO_CUT,
  CW_DO_SCORE,
  CW_DO_FOLD,
  CW_DO_STICK,
  CW_DO_TAKE_AWAY,
  CW_DO_GLUE,
  CW_DO_RUB,
  CW_DO_TURN_OVER,
  CW_DO_DECORATE,
} CwDo;

typedef enum
{
  CW_PHASE_UNSAID,
  CW_PHASE_MAKING,
  CW_PHASE_USING
} CwPhase;

typedef struct
{
  char *score; /* "piece/mark" */
  double to;   /* degrees in the score's own direction at the step's end */
  JsonObject *extra;
} CwStepFold;

typedef struct
{
  char *id, *title, *caption, *rest;
  CwDo what;
  CwPhase phase;
  GPtrArray *folds; /* of CwStepFold */
  char *piece;      /* stick, take-away */
  gboolean has_on;
  CwTarget on;     /* stick: the host panel */
  CwFace on_face;  /* stick: the host's face */
  CwFace facing;   /* stick: the face of the piece that meets the host */
  CwPlace at;      /* stick: where the piece's (0, 0) lands, in the host's front coordinates */
  double turn;     /* stick: degrees clockwise about `at`, as seen by someone looking at the host face */
  gboolean tucked; /* laid without glue */
  gboolean overhang_meant;
  GPtrArray *marks;  /* cut, score: of "piece/mark" strings; empty if unsaid */
  GPtrArray *zones;  /* glue: of zone ids */
  GPtrArray *heat;   /* of piece ids that heat is used on */
  JsonObject *extra; /* minutes, who, tools, caution, wait, photo and what else is not known here */
} CwStep;

/* One entry of wants.hidden or wants.shown. */
typedef struct
{
  CwTarget target;
  gboolean has_face;
  CwFace face;
  char *state; /* a step id or a rest label */
  CwFace from; /* FRONT: seen from -z, BACK: seen from +z */
  JsonObject *extra;
} CwSightWant;

typedef struct
{
  gboolean has_size;
  CwLength size[2]; /* width, height */
  gboolean has_envelope;
  CwLength envelope[2];
  char *mail;                               /* name of a letter rule; NULL if absent */
  GPtrArray *flat;                          /* of strings: step ids or rest labels */
  GPtrArray *hidden;                        /* of CwSightWant */
  GPtrArray *shown;                         /* of CwSightWant */
  gboolean has_flat, has_hidden, has_shown; /* written even if empty */
  JsonObject *extra;
} CwWants;

/* Head of a design: all that is not a list of items. Treated as one item by edits. */
typedef struct
{
  char *title, *notes;       /* NULL if absent */
  CwUnit unit;               /* for bare numbers and new measures */
  gint32 snap_ticks;         /* the maker's finest mark; 0 = off */
  CwLength snap, hand, give; /* hand, give: 0 when absent */
  gboolean has_measure, has_snap, has_hand, has_give, has_wants;
  CwWants wants;
  JsonObject *measure_extra;
  JsonObject *extra; /* author, date, changes, supplies, looks, class, trims and unknown keys of the top level */
} CwHead;

typedef struct
{
  CwHead *head;
  GPtrArray *papers; /* of CwPaper */
  GPtrArray *pieces; /* of CwPiece */
  GPtrArray *glue;   /* of CwGlue */
  GPtrArray *steps;  /* of CwStep */
} CwDesign;

/* For every kind of item: new (zeroed, empty lists), copy (a fresh item, not yet shared, with its own copies), ref,
 * unref. */
#define CW_DECLARE_ITEM(Type, prefix)                                                                                  \
  Type *prefix##_new (void);                                                                                           \
  Type *prefix##_copy (const Type *item);                                                                              \
  Type *prefix##_ref (Type *item);                                                                                     \
  void prefix##_unref (Type *item);                                                                                    \
  G_DEFINE_AUTOPTR_CLEANUP_FUNC (Type, prefix##_unref)

CW_DECLARE_ITEM (CwPaper, cw_paper)
CW_DECLARE_ITEM (CwMark, cw_mark)
CW_DECLARE_ITEM (CwName, cw_name)
CW_DECLARE_ITEM (CwArt, cw_art)
CW_DECLARE_ITEM (CwPiece, cw_piece)
CW_DECLARE_ITEM (CwTarget, cw_target)
CW_DECLARE_ITEM (CwGlue, cw_glue)
CW_DECLARE_ITEM (CwStepFold, cw_step_fold)
CW_DECLARE_ITEM (CwStep, cw_step)
CW_DECLARE_ITEM (CwSightWant, cw_sight_want)
CW_DECLARE_ITEM (CwHead, cw_head)
CW_DECLARE_ITEM (CwDesign, cw_design)

/* Borrowed look-ups; NULL or G_MAXUINT when there is none. */
CwPaper *cw_design_get_paper (const CwDesign *design, const char *id);
CwPiece *cw_design_get_piece (const CwDesign *design, const char *id);
CwPiece *cw_design_get_ground (const CwDesign *design);
CwGlue *cw_design_get_glue (const CwDesign *design, const char *id);
CwStep *cw_design_get_step (const CwDesign *design, const char *id);
guint cw_design_find_piece (const CwDesign *design, const char *id);
guint cw_design_find_step (const CwDesign *design, const char *id);
CwMark *cw_piece_get_mark (const CwPiece *piece, const char *id);
guint cw_piece_find_mark (const CwPiece *piece, const char *id);
gboolean cw_design_split_address (const CwDesign *design, const char *address, CwPiece **piece, CwMark **mark);
char *cw_design_dup_free_id (const CwDesign *design, const char *wish);
/* The finest mark the maker measures by, ticks, and the next multiple of it from a length on. */
gint32 cw_head_get_mark_step (const CwHead *head);
gint32 cw_head_round_up (const CwHead *head, double ticks);

CwPath cw_path_copy (const CwPath *path);
void cw_path_clear (CwPath *path);
void cw_path_append (CwPath *path, CwPlace at, gboolean through);
CwPoint cw_place_get_point (const CwPlace *place);
CwPlace cw_place_from_point (CwPoint point, CwUnit unit);

/* A text under a key the design only keeps; NULL if absent, empty or no text. */
const char *cw_extra_get_text (JsonObject *extra, const char *key);

const char *cw_face_get_key (CwFace face);
const char *cw_mark_kind_get_key (CwMarkKind kind);
const char *cw_do_get_key (CwDo what);
const char *cw_glue_kind_get_key (CwGlueKind kind);

gboolean cw_design_validate (const CwDesign *design, GError **error);

G_END_DECLS
