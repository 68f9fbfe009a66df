/* cw-page-private.h: how pages are filled: boxes of words and pictures, flowing from page to page.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <pango/pangocairo.h>

#include "cw-draw-card.h"
#include "cw-page.h"
#include "cw-pen.h"

G_BEGIN_DECLS

typedef struct
{
  double body, small, heading, title; /* letters, points */
  double margin, gap;
  double picture; /* what letters inside pictures are multiplied by */
} CwPageSizes;

/* Pages in the making. */
typedef struct
{
  CwPages *pages;
  CwPageSizes sizes;
  double left, top, width, bottom; /* of what may be printed on, footer left out */
  double y;                        /* where the next box goes */
  GPtrArray *waiting;              /* of CwPageBox: headings that must not stand alone at a page's end */
  GPtrArray *words;                /* of CwPageWords, as they were laid out */
  guint open_words;                /* what is laid out now belongs to this one; G_MAXUINT: each for itself */
  PangoContext *context;
  PangoFontDescription *font;
} CwPageFlow;

/* Something that stays in one piece if a page holds it, else is cut between its lines: its own list, from 0, 0 down. */
typedef struct
{
  CwPageFlow *flow;
  CwDrawList *list;
  double width, y; /* y: how far it is filled */
  GArray *ends;    /* of lines of words that have nothing beside them */
} CwPageBox;

void cw_page_flow_init (CwPageFlow *flow, CwPages *pages, const CwPageStyle *style);
void cw_page_flow_finish (CwPageFlow *flow); /* places what waits, writes the feet of the pages */
CwPageBox *cw_page_box_new (CwPageFlow *flow, double width);
/* Wraps words from x on, `width` wide; moves on below them. */
void cw_page_box_text (CwPageBox *box, CwPen pen, double size, double x, double width, const char *text);
double cw_page_text_height (CwPageFlow *flow, CwPen pen, double size, double width, const char *text);
double cw_page_text_width (CwPageFlow *flow, CwPen pen, double size, const char *text);
/* Puts a box on the page, on a new one if it does not fit; takes it. */
void cw_page_flow_place (CwPageFlow *flow, CwPageBox *box, double gap_before);
/* Keeps a box for the one that comes next. */
void cw_page_flow_wait (CwPageFlow *flow, CwPageBox *box, double gap_before);
void cw_page_flow_heading (CwPageFlow *flow, const char *text);
double cw_page_flow_room (const CwPageFlow *flow); /* height of an empty page, less what waits */
double cw_page_flow_left (const CwPageFlow *flow); /* height left on this one, below what waits */
void cw_page_box_free (CwPageBox *box);

/* What is said where: paragraphs count for themselves, or as one between begin and end. */
void cw_page_words_init (CwPageFlow *flow);
void cw_page_words_begin (CwPageFlow *flow, CwPageWordsKind what, guint step, const char *text);
void cw_page_words_end (CwPageFlow *flow);
CwId cw_page_words_id (CwPageFlow *flow, const char *text);
void cw_page_words_take (CwPageFlow *flow, CwDrawList *list);
void cw_page_words_settle (CwPageFlow *flow);
void cw_pages_read_words (CwPages *pages);

/* Draws a picture at 0, 0 in a list of its own, at most so wide and high. Returns its height. pens (inout): what its
 * lines mean, for the legend. */
double cw_page_picture (CwDrawList *list, const CwStepCard *card, CwCardScene *scene, const CwCardPicture *picture,
                        double width, double height, const CwPageSizes *sizes, guint *pens);

/* The same for a picture of a single sheet. */
double cw_page_sheet (CwDrawList *list, const CwStepCard *card, const CwCardPicture *picture, double width,
                      double height, const CwPageSizes *sizes, guint *pens);

/* True size is the largest a picture is drawn at. */
#define CW_PAGE_TRUE_SCALE (72.0 / CW_TICKS_PER_INCH)

/* Where the number of a trimmer move stands. */
typedef struct
{
  guint move;
  double ax, ay, bx, by; /* its line */
  double x, y;
} CwPageBadge;

void cw_page_badges_draw (CwDrawList *list, GArray *badges, const double paper[4], double letters);

/* A step card's pages in the making. */
typedef struct
{
  CwPageFlow flow;
  const CwStepCard *card;
  CwCardScene *scene;
  gboolean beside; /* words stand beside pictures */
  guint pens;      /* what the pictures' lines mean */
} CwPageLayout;

/* Where words stand beside a picture, it takes this share of the width. */
#define CW_PAGE_PICTURE_SHARE 0.44

typedef enum
{
  CW_PAGE_SIGN_NONE,
  CW_PAGE_SIGN_WARNING,
  CW_PAGE_SIGN_TICK,
  CW_PAGE_SIGN_DOT,
} CwPageSign;

void cw_page_rule (CwDrawList *list, CwPen pen, double x0, double y0, double x1, double y1);
void cw_page_box_item (CwPageBox *box, CwPageSign sign, double x, double width, double size, const char *text);
double cw_page_box_picture (CwPageLayout *layout, CwPageBox *box, const CwCardPicture *picture, double x, double y,
                            double width, double height);
void cw_page_place_step (CwPageLayout *layout, const CwCardStep *step);

G_END_DECLS
