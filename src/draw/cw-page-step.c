/* cw-page-step.c: one step of a card on a page.
 *
 * On wide pages a step has its picture at the left and its words beside it; on narrow ones, and in large type, the
 * words stand under the picture. A table of trimmer moves is set only where its columns fit, else each move is a
 * sentence. A step stays in one piece, with a smaller picture if need be, unless it alone is taller than a page.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <glib/gi18n-lib.h>

#include "cw-page-private.h"

/* Tallest picture, as a share of its width and of the page. */
#define PICTURE_TALL 0.85
#define PICTURE_PAGE 0.42
/* One that only shows how it lies now, or an area for glue, need not be as large. */
#define PICTURE_QUIET 0.66
/* More lines than this need a large picture, on which their numbers can be told apart. */
#define MOVES_BESIDE 5
/* A picture is made smaller only down to this share to use up the page it stands on; one full of numbers not below the
 * second. */
#define LEAST_HERE 0.6
#define LEAST_CROWDED 0.75
/* Sums of heights are equal within this, points. */
#define HAIR 0.01
#define COLUMNS 5

/* The texts of a row of moves, in columns. */
static void
row_texts (const CwCardMove *row, const char *texts[COLUMNS], char **number)
{
  *number = g_strdup_printf ("%u", row->number);
  texts[0] = *number;
  texts[1] = row->at;
  texts[2] = row->from;
  texts[3] = row->to;
  texts[4] = row->what;
}

/* Widths of the columns; FALSE when they do not fit. */
static gboolean
find_columns (CwPageLayout *layout, const GPtrArray *moves, const char *const heads[COLUMNS], double room,
              double x[COLUMNS + 1])
{
  double size = layout->flow.sizes.body;

  x[0] = 0;
  for (guint c = 0; c < COLUMNS; c++)
    {
      double wide = cw_page_text_width (&layout->flow, CW_PEN_TEXT, size, heads[c]);

      for (guint i = 0; i < moves->len; i++)
        {
          const char *texts[COLUMNS];
          g_autofree char *number = NULL;
          const CwCardMove *row = g_ptr_array_index (moves, i);

          row_texts (row, texts, &number);
          wide = MAX (wide, cw_page_text_width (&layout->flow, CW_PEN_TITLE, size, texts[c])
                              + (c == 4 && row->look_alike
                                   ? cw_page_text_width (&layout->flow, CW_PEN_TEXT, size, _ (" (read twice)"))
                                   : 0));
        }
      x[c + 1] = x[c] + wide + (c + 1 < COLUMNS ? size : 0);
    }
  return x[COLUMNS] <= room;
}

static void
box_table_row (CwPageBox *box, CwPen pen, const char *const texts[COLUMNS], const double x[COLUMNS + 1], double left)
{
  double size = box->flow->sizes.body, top = box->y;

  for (guint c = 0; c < COLUMNS; c++)
    {
      box->y = top;
      if (*texts[c] != '\0')
        cw_page_box_text (box, pen, size, left + x[c], -1, texts[c]);
    }
  box->y = top + 1.34 * size;
}

/* Rows of moves, each a box that may go to a next page; TRUE when anything is said. */
static GPtrArray *
make_rows (CwPageLayout *layout, const GPtrArray *moves, double left, double room)
{
  const char *const heads[COLUMNS] = { _ ("Line"), _ ("From guide"), _ ("Start"), _ ("End"), _ ("Make") };
  GPtrArray *rows = g_ptr_array_new ();
  double x[COLUMNS + 1], size = layout->flow.sizes.body;
  gboolean table = find_columns (layout, moves, heads, room, x);

  for (guint i = 0; i < moves->len; i++)
    {
      const CwCardMove *row = g_ptr_array_index (moves, i);
      CwPageBox *box = cw_page_box_new (&layout->flow, room);
      g_autofree char *sentence = cw_card_move_dup_sentence (row);

      if (!table)
        {
          cw_page_box_text (box, row->look_alike ? CW_PEN_TITLE : CW_PEN_TEXT, size, left, room, sentence);
          box->y += 0.2 * size;
        }
      else
        {
          const char *texts[COLUMNS];
          g_autofree char *number = NULL, *what = NULL;

          if (i == 0)
            {
              box_table_row (box, CW_PEN_TEXT, heads, x, left);
              cw_page_rule (box->list, CW_PEN_GUIDE, left, box->y, left + x[COLUMNS], box->y);
              box->y += 2;
            }
          row_texts (row, texts, &number);
          what = g_strconcat (row->what, row->look_alike ? _ (" (read twice)") : "", NULL);
          texts[4] = what;
          cw_page_words_begin (&layout->flow, CW_PAGE_WORDS_PLAIN, G_MAXUINT, sentence);
          box_table_row (box, row->look_alike ? CW_PEN_TITLE : CW_PEN_TEXT, texts, x, left);
          cw_page_words_end (&layout->flow);
        }
      g_ptr_array_add (rows, box);
    }
  return rows;
}

/* The words of a step, each paragraph a box. */
static GPtrArray *
make_words (CwPageLayout *layout, const CwCardStep *step, double left, double room)
{
  GPtrArray *boxes = g_ptr_array_new ();
  double size = layout->flow.sizes.body;
  const struct
  {
    const GPtrArray *items;
    CwPageSign sign;
  } parts[] = { { step->lines, CW_PAGE_SIGN_NONE },
                { step->cautions, CW_PAGE_SIGN_WARNING },
                { step->checks, CW_PAGE_SIGN_TICK } };

  for (guint p = 0; p < G_N_ELEMENTS (parts); p++)
    {
      if (p == 1 && step->caption != NULL && *step->caption != '\0')
        {
          CwPageBox *box = cw_page_box_new (&layout->flow, room);

          cw_page_words_begin (&layout->flow, CW_PAGE_WORDS_CAPTION, step->step, NULL);
          cw_page_box_item (box, CW_PAGE_SIGN_NONE, left, room, size, step->caption);
          cw_page_words_end (&layout->flow);
          g_ptr_array_add (boxes, box);
        }
      for (guint i = 0; i < parts[p].items->len; i++)
        {
          CwPageBox *box = cw_page_box_new (&layout->flow, room);

          cw_page_box_item (box, parts[p].sign, left, room, size, g_ptr_array_index (parts[p].items, i));
          g_ptr_array_add (boxes, box);
        }
    }
  return boxes;
}

/* Number, title and the face that is up. */
static void
box_title (CwPageLayout *layout, CwPageBox *box, const CwCardStep *step, double left, double room)
{
  const CwPageSizes *sizes = &layout->flow.sizes;
  g_autofree char *title = g_strdup_printf ("%u. %s", step->number, step->title);

  cw_page_words_begin (&layout->flow, CW_PAGE_WORDS_STEP, step->step, NULL);
  cw_page_box_text (box, CW_PEN_TITLE, sizes->body * 1.1, left, room, title);
  cw_page_words_end (&layout->flow);
  if (step->face != NULL)
    cw_page_box_text (box, CW_PEN_TEXT, sizes->small, left, room, step->face);
  box->y += 0.3 * sizes->body;
}

static double
all_heights (const GPtrArray *boxes)
{
  double sum = 0;

  for (guint i = 0; i < boxes->len; i++)
    sum += ((const CwPageBox *) g_ptr_array_index (boxes, i))->y;
  return sum;
}

static void
take_in (CwPageBox *box, GPtrArray *parts)
{
  for (guint i = 0; i < parts->len; i++)
    {
      CwPageBox *part = g_ptr_array_index (parts, i);

      cw_draw_list_append (box->list, part->list, 1, 0, box->y);
      box->y += part->y;
      cw_page_box_free (part);
    }
  g_ptr_array_set_size (parts, 0);
}

static gboolean
is_quiet (const CwCardPicture *picture)
{
  if (picture->kind == CW_CARD_PICTURE_CARD)
    return picture->moved == NULL || picture->moved->len == 0;
  return !picture->trimmer && picture->never.n_polygons == 0;
}

/* A step laid out with its picture at most so tall: one box, and what would follow it on the next page. */
typedef struct
{
  CwPageBox *box;
  GPtrArray *words, *rows; /* of CwPageBox */
  double tall;             /* down to the picture's foot */
} StepParts;

static StepParts
make_step (CwPageLayout *layout, const CwCardStep *step, double share, gboolean may_beside)
{
  CwPageFlow *flow = &layout->flow;
  gboolean pictured = step->picture.kind != CW_CARD_PICTURE_NONE;
  gboolean beside = may_beside && layout->beside && pictured && step->moves->len <= MOVES_BESIDE;
  double wide = beside ? CW_PAGE_PICTURE_SHARE * flow->width : flow->width;
  double left = beside ? wide + 1.5 * flow->sizes.gap : 0, room = flow->width - left;
  double most = share * MIN (PICTURE_TALL * wide, PICTURE_PAGE * cw_page_flow_room (flow))
                * (is_quiet (&step->picture) ? PICTURE_QUIET : 1);
  StepParts parts = { cw_page_box_new (flow, flow->width), make_words (layout, step, left, room), NULL, 0 };
  CwPageBox *box = parts.box;

  cw_page_rule (box->list, CW_PEN_GUIDE, 0, 0, flow->width, 0);
  box->y = 0.6 * flow->sizes.gap;
  if (!beside)
    {
      box_title (layout, box, step, left, room);
      if (pictured)
        box->y += cw_page_box_picture (layout, box, &step->picture, 0, box->y, wide, most) + 0.3 * flow->sizes.body;
      parts.rows = make_rows (layout, step->moves, left, room);
      return parts;
    }
  parts.tall = box->y + cw_page_box_picture (layout, box, &step->picture, 0, box->y, wide, most);
  box_title (layout, box, step, left, room);
  parts.rows = make_rows (layout, step->moves, left, room);
  /* A long table goes under picture and words, over the whole width. */
  if (parts.rows->len > 0
      && box->y + all_heights (parts.words) + all_heights (parts.rows) > parts.tall + 4 * flow->sizes.body)
    {
      g_ptr_array_set_free_func (parts.rows, (GDestroyNotify) cw_page_box_free);
      g_ptr_array_unref (parts.rows);
      parts.rows = make_rows (layout, step->moves, 0, flow->width);
      take_in (box, parts.words);
      box->y = MAX (box->y, parts.tall) + 0.3 * flow->sizes.body;
    }
  return parts;
}

static void
drop_step (StepParts *parts)
{
  for (guint i = 0; i < parts->words->len; i++)
    cw_page_box_free (g_ptr_array_index (parts->words, i));
  for (guint i = 0; i < parts->rows->len; i++)
    cw_page_box_free (g_ptr_array_index (parts->rows, i));
  g_ptr_array_unref (parts->words);
  g_ptr_array_unref (parts->rows);
  cw_page_box_free (parts->box);
}

/**
 * cw_page_place_step:
 * @layout: the pages in the making
 * @step: a step of the card
 *
 * Puts it on the page, in one piece unless it alone is taller than a page.
 */
void
cw_page_place_step (CwPageLayout *layout, const CwCardStep *step)
{
  static const double shares[] = { 1, 0.8, 0.62, 0.48 };
  CwPageFlow *flow = &layout->flow;
  StepParts parts = { 0 };
  /* A picture full of numbers has to stay large. */
  gboolean whole = FALSE, crowded = step->moves->len > (layout->beside ? MOVES_BESIDE : 0);

  /* Rather a smaller picture than half a page left empty; of those that need a page anyway the largest. */
  for (guint i = 0; i < 2 * G_N_ELEMENTS (shares) && !whole; i++)
    {
      gboolean here = i < G_N_ELEMENTS (shares);
      double room = here ? cw_page_flow_left (flow) - flow->sizes.gap : cw_page_flow_room (flow);

      if (crowded && shares[i % G_N_ELEMENTS (shares)] < LEAST_CROWDED)
        continue;
      if (parts.box != NULL)
        drop_step (&parts);
      if (here && shares[i] < LEAST_HERE)
        i = G_N_ELEMENTS (shares), room = cw_page_flow_room (flow);
      parts = make_step (layout, step, shares[i % G_N_ELEMENTS (shares)], TRUE);
      whole = MAX (parts.box->y + all_heights (parts.words) + all_heights (parts.rows), parts.tall) <= room + HAIR;
    }
  if (!whole)
    {
      /* Words in a narrow column take the most room: then they stand under the picture. */
      drop_step (&parts);
      parts = make_step (layout, step, crowded ? 1 : shares[G_N_ELEMENTS (shares) - 1], FALSE);
      whole = parts.box->y + all_heights (parts.words) + all_heights (parts.rows) <= cw_page_flow_room (flow) + HAIR;
    }
  if (whole)
    {
      take_in (parts.box, parts.words);
      take_in (parts.box, parts.rows);
      parts.box->y = MAX (parts.box->y, parts.tall);
      cw_page_flow_place (flow, parts.box, flow->sizes.gap);
    }
  else
    {
      /* Taller than a page all the same: its parts follow one another, the first of them with the title. */
      cw_page_flow_wait (flow, parts.box, flow->sizes.gap);
      for (guint i = 0; i < parts.words->len; i++)
        cw_page_flow_place (flow, g_ptr_array_index (parts.words, i), 0);
      for (guint i = 0; i < parts.rows->len; i++)
        cw_page_flow_place (flow, g_ptr_array_index (parts.rows, i), 0);
    }
  g_ptr_array_unref (parts.words);
  g_ptr_array_unref (parts.rows);
}
