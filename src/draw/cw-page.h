/* cw-page.h: whole printed pages, each a draw list, and the file they go into.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "cw-draw-play.h"
#include "text/cw-step-card.h"

G_BEGIN_DECLS

typedef enum
{
  CW_PAGE_LETTER,
  CW_PAGE_A4,
  CW_PAGE_HALF_LETTER,
  CW_PAGE_A5,
  CW_N_PAGE_FORMATS
} CwPageFormat;

const char *cw_page_format_get_key (CwPageFormat format); /* "letter", "a4", "half-letter", "a5" */
gboolean cw_page_format_parse (const char *key, CwPageFormat *format);
void cw_page_format_get (CwPageFormat format, double *width, double *height); /* points */

typedef struct
{
  CwPageFormat format;
  gboolean large; /* large type: nothing under 18 points */
} CwPageStyle;

typedef enum
{
  CW_PAGE_WORDS_PLAIN,
  CW_PAGE_WORDS_HEADING,
  CW_PAGE_WORDS_PICTURE, /* what a picture shows */
  CW_PAGE_WORDS_TITLE,   /* of the card */
  CW_PAGE_WORDS_NOTES,   /* of the card */
  CW_PAGE_WORDS_FACTS,   /* author, date */
  CW_PAGE_WORDS_STEP,    /* number and title of a step */
  CW_PAGE_WORDS_CAPTION, /* the maker's own words to a step */
} CwPageWordsKind;

/* A paragraph, and where it stands. */
typedef struct
{
  CwPageWordsKind what;
  char *text;
  guint step;    /* of the design, STEP and CAPTION; G_MAXUINT: the program's own */
  guint page;    /* from 0 */
  double box[4]; /* left, top, right, bottom; points */
} CwPageWords;

/* Reference counted; never changed once made, so any thread may draw them. */
typedef struct
{
  double width, height; /* points */
  GArray *on_side;      /* of gboolean: this page lies on its side, width and height change places; NULL: none does */
  char *title, *author; /* author may be NULL */
  GPtrArray *lists;     /* of CwDrawList, one a page */
  GPtrArray *words;     /* of CwPageWords, in reading order; NULL where pages say nothing of the kind */
  double line_scale;    /* what the pens' widths are multiplied by; 0: 1 */
} CwPages;

CwPages *cw_pages_new_step_card (const CwStepCard *card, const CwPageStyle *style);
CwPages *cw_pages_new (void); /* empty */
CwPages *cw_pages_ref (CwPages *pages);
void cw_pages_unref (CwPages *pages);
gboolean cw_pages_get_on_side (const CwPages *pages, guint page);
void cw_pages_get_size (const CwPages *pages, guint page, double *width, double *height); /* as it is read */
void cw_pages_draw_as_read (const CwPages *pages, guint page, cairo_t *cr);               /* a page on its side lies */
/* Draws one page on a cairo context whose unit is the point, on upright paper. */
void cw_pages_draw (const CwPages *pages, guint page, cairo_t *cr);
gboolean cw_pages_write_pdf (const CwPages *pages, GFile *file, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwPages, cw_pages_unref)

G_END_DECLS
