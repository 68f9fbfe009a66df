/* cw-step-card.h: what the pages for the reader say, before it is known how they look.
 *
 * One plain structure in reading order: pages, plain text, the web and the window all walk it, so that none can say
 * what another does not. Words are in the user's language; pictures are only named (what is seen, from where, what is
 * to be marked on it) and drawn elsewhere.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "check/cw-analysis.h"
#include "text/cw-lie.h"
#include "trim/cw-trimmer.h"

G_BEGIN_DECLS

typedef enum
{
  CW_CARD_PICTURE_NONE,
  CW_CARD_PICTURE_SHEET, /* a piece lying flat */
  CW_CARD_PICTURE_CARD,  /* the card at a moment */
} CwCardPictureKind;

typedef enum
{
  CW_CARD_FROM_FRONT, /* in front of the held panel's drawn side */
  CW_CARD_FROM_BACK,
  CW_CARD_FROM_TABLE,
} CwCardFrom;

typedef struct
{
  CwCardPictureKind kind;
  guint piece;        /* SHEET */
  CwLie lie;          /* SHEET */
  gboolean trimmer;   /* SHEET: with the guide, the edge measures are read from and the moves' numbers */
  gboolean glue;      /* SHEET: the glue of the face */
  GArray *zones;      /* SHEET: of guint, the glue that is put on now, positions in the design; NULL: all of it */
  const CwStep *laid; /* SHEET: the step that has laid a piece on it; borrowed from the design; NULL */
  gboolean art;       /* SHEET: greetings and pictures of the face */
  CwRegion never;     /* SHEET: where glue may never lie, the piece's front coordinates; owned */
  guint first_move, n_moves; /* SHEET: moves of the trimming that are made now; earlier ones are there already */
  guint step;                /* CARD: G_MAXUINT: before the first */
  double fraction;           /* CARD */
  CwCardFrom from;           /* CARD */
  GArray *moved;             /* CARD: of guint, panels through the design that have just moved or come */
  char *words;               /* what is to be seen, for those who cannot see it */
} CwCardPicture;

typedef struct
{
  guint number;        /* in the list of moves, from 1 */
  char *at;            /* "3 1/2 in"; "" for a line from mark to mark */
  char *from, *to;     /* "1 in", "5 in"; "edge" */
  char *what;          /* "score “spine”" */
  gboolean whole;      /* from edge to edge */
  gboolean look_alike; /* one of its numbers is easily mistaken for another on this card */
} CwCardMove;

typedef struct
{
  guint number; /* from 1; making and using steps are counted through */
  char *title;
  char *face;          /* which face is up; NULL where that says nothing */
  GPtrArray *lines;    /* of sentences: what to do, in order */
  GPtrArray *moves;    /* of CwCardMove */
  GPtrArray *cautions; /* of sentences */
  GPtrArray *checks;   /* of sentences: what to see before going on */
  char *caption;       /* the maker's own words */
  char *photo;         /* the maker's own photograph, a path beside the design; NULL */
  double minutes;      /* how long it takes; 0: unsaid */
  guint step;          /* in the design; G_MAXUINT: the program's own */
  CwCardPicture picture;
} CwCardStep;

typedef enum
{
  CW_HAZARD_NONE,
  CW_HAZARD_BLADE,
  CW_HAZARD_HEAT,
  CW_HAZARD_FUMES,
} CwHazard;

typedef struct
{
  char *name;
  CwHazard hazard;
} CwCardTool;

typedef struct
{
  char *letter, *name, *paper, *size, *grain, *purpose;
  guint count;
} CwCardCut;

/* One warning that is known before work begins, with its remedy if there is one. */
typedef struct
{
  char *text, *remedy;
} CwCardRemark;

typedef struct
{
  gboolean sixteenths; /* count the small marks beside fractions */
  const char *date;    /* for designs that name none; NULL: no date */
} CwStepCardOptions;

typedef struct
{
  CwAnalysis *analysis;
  CwTrimming *trimming;
  CwTools trimmer; /* the maker's tools that the moves are for */
  char *title, *author, *date, *version, *notes;
  char *size, *envelope; /* NULL where not known */
  char *time;            /* how long all of it takes; NULL: unsaid */
  char *work;            /* how many lines, how often the sheet is laid and the stop set; NULL: none */
  CwCardPicture closed, open;
  GPtrArray *faults;         /* of CwCardRemark: errors of the design; nobody should cut before they are gone */
  GPtrArray *tools;          /* of CwCardTool */
  GPtrArray *supplies;       /* of char*: what else is needed, the maker's own list */
  GPtrArray *cautions;       /* of sentences */
  GPtrArray *cuts;           /* of CwCardCut */
  GPtrArray *numbers;        /* of sentences: numbers easily mistaken, lines that miss a board's grooves */
  GPtrArray *making, *using; /* of CwCardStep */
  GPtrArray *mistakes;       /* of CwCardRemark: near-misses of the design */
  GPtrArray *changes;        /* of char*: what was changed when */
} CwStepCard;

extern const CwStepCardOptions cw_step_card_usual;

CwStepCard *cw_step_card_new (CwAnalysis *analysis, const CwStepCardOptions *options);
void cw_step_card_free (CwStepCard *card);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwStepCard, cw_step_card_free)

double cw_step_get_minutes (const CwStep *step);
/* One move as a sentence, with its number. */
char *cw_card_move_dup_sentence (const CwCardMove *move);
/* "1 piece", "2 pieces". */
char *cw_card_cut_dup_count (const CwCardCut *cut);
/* The whole as plain text, for reading aloud, the web and golden tests. */
char *cw_step_card_to_text (const CwStepCard *card);

G_END_DECLS
