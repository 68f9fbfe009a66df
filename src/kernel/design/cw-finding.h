/* cw-finding.h: one thing the program has to say about a design.
 *
 * A finding is an ordinary value made by the room that knows the fact (panel, fold, ...) and put into words by the room
 * `check`: `words` and `remedy` are msgids marked with N_() in which {0}, {1}... stand for `args`, so that the report
 * can speak English and the window the maker's language from the same finding.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-design.h"
#include "geometry/cw-vector.h"

G_BEGIN_DECLS

/* The order of this list is the order in which findings of one severity are told. Keys are in
 * cw_finding_code_get_key(). */
typedef enum
{
  CW_FINDING_OFF_SHEET,
  CW_FINDING_PIECE_FALLS_OUT,
  CW_FINDING_SCORE_STOPS_SHORT,
  CW_FINDING_MARKS_DISAGREE,
  CW_FINDING_WILL_NOT_FOLD_FLAT,
  CW_FINDING_CANNOT_MOVE,
  CW_FINDING_PANELS_COLLIDE,
  CW_FINDING_LAYERS_BLOCK,
  CW_FINDING_NOT_FLAT,
  CW_FINDING_GLUED_SHUT,
  CW_FINDING_GLUE_STRAYS,
  CW_FINDING_LAYER_OVER_SCORE,
  CW_FINDING_LAYER_OVER_CUT,
  CW_FINDING_MARKS_OVERLAP,
  CW_FINDING_THIN_STRIP,
  CW_FINDING_SWAYS,
  CW_FINDING_TWO_WAYS,
  CW_FINDING_STICKS_OUT,
  CW_FINDING_TOO_BIG_FOR_ENVELOPE,
  CW_FINDING_TOO_THICK,
  CW_FINDING_TUCK_TOO_WIDE,
  CW_FINDING_LAYER_SHOWS,
  CW_FINDING_LAYER_HIDDEN,
  CW_FINDING_LAYER_OVERHANGS,
  CW_FINDING_WRONG_FACE,
  CW_FINDING_ART_TURNED,
  CW_FINDING_GLUE_NEAR_EDGE,
  CW_FINDING_GLUE_MISSING,
  CW_FINDING_HEAT_AFTER_GLUE,
  CW_FINDING_MAIL_SURCHARGE,
  CW_FINDING_TIGHT_MARGIN,
  CW_FINDING_NEEDS_GIVE,
  CW_FINDING_OFF_SNAP,
  CW_FINDING_NOT_SIMULATED,
  CW_FINDING_NOT_DECIDED,
  CW_FINDING_NOT_CHECKED,
  CW_FINDING_LOOK_ALIKE_NUMBERS,
  CW_FINDING_AGAINST_GRAIN,
  CW_FINDING_N_CODES,
} CwFindingCode;

typedef enum
{
  CW_SEVERITY_ERROR,
  CW_SEVERITY_WARNING,
  CW_SEVERITY_NOTE
} CwSeverity;

typedef enum
{
  CW_AMOUNT_NONE,
  CW_AMOUNT_TICKS,
  CW_AMOUNT_DEGREES,
  CW_AMOUNT_SQ_TICKS,
  CW_AMOUNT_COUNT
} CwAmountUnit;

typedef enum
{
  CW_KNOWN_EXACT,
  CW_KNOWN_BOUNDED,
  CW_KNOWN_NUMERIC,
  CW_KNOWN_NOT_DECIDED
} CwKnown;

typedef struct
{
  char *piece;
  guint panel;
} CwPanelRef;

typedef struct
{
  CwFindingCode code;
  CwSeverity severity; /* the code's own severity unless the maker of the finding says otherwise */
  char *step;          /* id; NULL when it is about the drawing */
  double fraction;     /* of that step, 0 to 1 */
  GPtrArray *pieces;   /* of ids */
  GArray *panels;      /* of CwPanelRef (owning their piece string) */
  GPtrArray *marks;    /* of "piece/mark" */
  gboolean has_at;
  char *at_piece; /* the place is in this piece's flat coordinates; NULL: in the held panel's space */
  CwVec3 at;      /* ticks */
  CwAmountUnit amount_unit;
  double amount;
  CwKnown known;
  gboolean has_would_be;  /* tight-margin */
  CwFindingCode would_be; /* what it would be if a hand misses */
  const char *words;      /* msgid with {0}...; static */
  const char *remedy;     /* msgid with {0}...; static; NULL if none is known */
  GPtrArray *args;        /* of strings: measures, names, numbers, already text */
  GPtrArray *steps;       /* of ids of all steps in which it appears; empty = just `step` */
  char *mend_mark;        /* "piece/mark" of what has to move to mend it; NULL if that is not known */
  double mend_by;         /* by how much: ticks, or degrees if mend_turns; 0 if that is not known */
  gboolean mend_turns;
} CwFinding;

CwFinding *cw_finding_new (CwFindingCode code);
CwFinding *cw_finding_copy (const CwFinding *old);
void cw_finding_free (CwFinding *finding);
void cw_finding_add_piece (CwFinding *finding, const char *piece_id);
void cw_finding_add_panel (CwFinding *finding, const char *piece_id, guint panel);
void cw_finding_add_mark (CwFinding *finding, const char *piece_id, const char *mark_id);
void cw_finding_set_at (CwFinding *finding, const char *piece_id, double x_ticks, double y_ticks);
void cw_finding_set_amount (CwFinding *finding, CwAmountUnit unit, double amount);
void cw_finding_set_mend (CwFinding *finding, const char *piece_id, const char *mark_id, gboolean turns, double by);
void cw_finding_set_words (CwFinding *finding, const char *words, const char *remedy, ...) G_GNUC_NULL_TERMINATED;
/* Before an argument that is a name: put in quotes when it is told. */
#define CW_FINDING_NAME '\x04'
/* Before an argument that is the id of a step without a title: a piece may have the same id. */
#define CW_FINDING_STEP '\x05'
/* An argument that reads differently in English and in the user's language; may stand within another one. */
char *cw_finding_dup_both (const char *english, const char *translated);
char *cw_finding_dup_read (const char *text, gboolean translated);
const char *cw_finding_code_get_key (CwFindingCode code);
CwSeverity cw_finding_code_get_severity (CwFindingCode code);
const char *cw_severity_get_key (CwSeverity severity);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwFinding, cw_finding_free)

G_END_DECLS
