/* cw-page-sheet.c: pictures of a single sheet on the pages of a step card.
 *
 * A sheet on the trimmer lies as the reader has it: the guide beside it, the edge that starts and stops are measured
 * from above it, this step's lines drawn heavy with their numbers, earlier ones thin, later ones not at all: the state
 * after the step. A sheet for glue shows its zones dotted and what must stay free cross-hatched.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-draw-sheet-private.h"
#include "cw-page-private.h"
#include "fold/cw-assembly.h"
#include "panel/cw-path-flatten.h"

/* Letters in pictures of sheets, points in normal type. */
#define LETTERS 11.0
#define PAPER_UNSAID 0xf6f2ea
/* Room for the guide beside the sheet and for the words above and below, in letters; the guide's breadth. */
#define BESIDE 2.2
#define ABOVE 1.7
#define GUIDE 7.0
/* An area for glue narrower than this is marked, points. */
#define SMALL_ZONE 16.0

static const CwId no_id = { CW_ID_NONE, 0, 0, 0 };

typedef struct
{
  CwDrawList *list;
  const CwStepCard *card;
  const CwCardPicture *picture;
  const CwDesign *design;
  const CwPiece *piece;
  CwLying lying;
  double left, top, scale, letters;
  CwFlat flat; /* piece coordinates to the list's */
  CwFace up;
  guint32 paper;
} Sheet;

static void
to_output (const Sheet *sheet, CwPoint p, double *x, double *y)
{
  cw_flat_apply (&sheet->flat, p.x, p.y, x, y);
}

static void
draw_blank (const Sheet *sheet)
{
  const CwPoint corners[4] = { sheet->lying.min,
                               { sheet->lying.max.x, sheet->lying.min.y },
                               sheet->lying.max,
                               { sheet->lying.min.x, sheet->lying.max.y } };
  gboolean cut = sheet->picture->first_move + sheet->picture->n_moves >= sheet->card->trimming->moves->len
                 && !sheet->picture->trimmer;

  for (guint pass = 0; pass < 2; pass++)
    {
      cw_draw_list_set_ground (sheet->list, pass == 0 ? CW_GROUND_TABLE : sheet->paper);
      cw_draw_list_begin (sheet->list, pass == 0 ? CW_PEN_PAPER : CW_PEN_OUTLINE, no_id);
      if (pass == 0)
        cw_draw_list_set_colour (sheet->list, sheet->paper);
      if (cut)
        cw_trace_path (sheet->list, &sheet->flat, &sheet->piece->outline, TRUE);
      else
        cw_trace_points (sheet->list, &sheet->flat, corners, 4);
      cw_draw_list_end (sheet->list);
    }
}

static CwPen
move_pen (const Sheet *sheet, const CwMove *move)
{
  if (move->does == CW_MOVE_SCORE && move->mark != CW_MOVE_OUTLINE)
    return cw_mark_get_pen (g_ptr_array_index (sheet->piece->marks, move->mark), sheet->up);
  return CW_PEN_CUT;
}

static void
draw_cross (const Sheet *sheet, double x, double y)
{
  double half = 0.35 * sheet->letters;

  cw_draw_list_begin (sheet->list, CW_PEN_GUIDE, no_id);
  cw_draw_list_move (sheet->list, x - half, y);
  cw_draw_list_line (sheet->list, x + half, y);
  cw_draw_list_move (sheet->list, x, y - half);
  cw_draw_list_line (sheet->list, x, y + half);
  cw_draw_list_end (sheet->list);
}

/* Lines: those made before this step, thin as they are; then this step's with a halo, then their numbers. */
static void
draw_moves (const Sheet *sheet, guint *pens)
{
  const CwTrimming *trimming = sheet->card->trimming;
  guint first = sheet->picture->first_move, end = first + sheet->picture->n_moves;
  g_autoptr (GArray) badges = g_array_new (FALSE, FALSE, sizeof (CwPageBadge));

  cw_draw_list_set_ground (sheet->list, sheet->paper);
  for (guint pass = 0; pass < 3; pass++)
    for (guint i = 0; i < MIN (end, trimming->moves->len); i++)
      {
        const CwMove *move = &g_array_index (trimming->moves, CwMove, i);
        CwPoint a, b;
        double ax, ay, bx, by;

        if (g_ptr_array_index (sheet->design->pieces, move->piece) != sheet->piece || (pass != 1 && i < first))
          continue;
        cw_trimming_get_ends (trimming, sheet->design, i, &a, &b);
        to_output (sheet, a, &ax, &ay);
        to_output (sheet, b, &bx, &by);
        if (pass == 2)
          {
            double aside = move->does == CW_MOVE_MARK ? sheet->letters : 0;
            CwPageBadge badge = { i, ax + aside, ay, bx + aside, by, 0, 0 };

            g_array_append_val (badges, badge);
            continue;
          }
        if (move->does == CW_MOVE_MARK)
          {
            if (pass == 1 && i >= first)
              draw_cross (sheet, ax, ay);
            continue;
          }
        cw_draw_list_begin (sheet->list, pass == 0 ? CW_PEN_SELECTED : move_pen (sheet, move), no_id);
        cw_draw_list_move (sheet->list, ax, ay);
        cw_draw_list_line (sheet->list, bx, by);
        cw_draw_list_end (sheet->list);
        *pens |= pass == 0 ? 0 : 1u << move_pen (sheet, move);
      }
  const double paper[4] = { sheet->left, sheet->top, sheet->left + sheet->lying.width * sheet->scale,
                            sheet->top + sheet->lying.height * sheet->scale };
  cw_page_badges_draw (sheet->list, badges, paper, sheet->letters);
  cw_draw_list_set_ground (sheet->list, sheet->paper);
}

/* Curves and windows, once the trimmer's lines are done. */
static void
draw_by_hand (const Sheet *sheet, guint *pens)
{
  const CwTrimming *trimming = sheet->card->trimming;

  if (sheet->picture->first_move < trimming->moves->len)
    return;
  for (guint i = 0; i < trimming->by_hand->len; i++)
    {
      const CwByHand *hand = &g_array_index (trimming->by_hand, CwByHand, i);
      const CwMark *mark;
      CwPen pen;

      if (g_ptr_array_index (sheet->design->pieces, hand->piece) != sheet->piece || hand->mark == CW_MOVE_OUTLINE
          || hand->why != CW_BY_HAND_CURVE)
        continue;
      mark = g_ptr_array_index (sheet->piece->marks, hand->mark);
      pen = cw_mark_get_pen (mark, sheet->up);
      for (guint pass = mark->kind == CW_MARK_WINDOW ? 0 : 1; pass < 2; pass++)
        {
          cw_draw_list_begin (sheet->list, pass == 0 ? CW_PEN_WASTE : pen, no_id);
          cw_trace_mark (sheet->list, &sheet->flat, mark);
          cw_draw_list_end (sheet->list);
        }
      *pens |= 1u << pen | (mark->kind == CW_MARK_WINDOW ? 1u << CW_PEN_WASTE : 0);
    }
}

static gboolean
is_put_on (const CwCardPicture *picture, guint zone)
{
  for (guint i = 0; picture->zones != NULL && i < picture->zones->len; i++)
    if (g_array_index (picture->zones, guint, i) == zone)
      return TRUE;
  return picture->zones == NULL;
}

static gboolean
is_small (const Sheet *sheet, const GArray *points)
{
  double low[2] = { G_MAXDOUBLE, G_MAXDOUBLE }, high[2] = { -G_MAXDOUBLE, -G_MAXDOUBLE };

  for (guint i = 0; i < points->len; i++)
    {
      double x, y;

      to_output (sheet, g_array_index (points, CwPoint, i), &x, &y);
      low[0] = MIN (low[0], x);
      low[1] = MIN (low[1], y);
      high[0] = MAX (high[0], x);
      high[1] = MAX (high[1], y);
    }
  return MIN (high[0] - low[0], high[1] - low[1]) < SMALL_ZONE;
}

/* A piece that has been laid on this one: its outline where it lies (model, "stick"), marked as come. */
static void
draw_laid (const Sheet *sheet, guint *pens)
{
  const CwStep *step = sheet->picture->laid;
  const CwPiece *piece = cw_design_get_piece (sheet->design, step->piece);
  CwRigid place = cw_step_get_placement (step);
  CwFlat flat = cw_flat_of_place (&sheet->flat, &place);
  const CwPaper *paper;
  guint32 colour = PAPER_UNSAID;

  if (piece == NULL)
    return;
  paper = cw_design_get_paper (sheet->design, piece->paper);
  if (paper != NULL)
    colour = cw_colour_parse (step->facing == CW_FACE_BACK ? paper->front : paper->back, PAPER_UNSAID);
  for (guint pass = 0; pass < 3; pass++)
    {
      const CwPen laid_pens[] = { CW_PEN_PAPER, CW_PEN_SELECTED, CW_PEN_OUTLINE };

      cw_draw_list_begin (sheet->list, laid_pens[pass], no_id);
      if (pass == 0)
        cw_draw_list_set_colour (sheet->list, colour);
      cw_trace_path (sheet->list, &flat, &piece->outline, TRUE);
      cw_draw_list_end (sheet->list);
    }
  *pens |= 1u << CW_PEN_SELECTED;
}

static void
draw_glue (const Sheet *sheet, guint *pens)
{
  for (guint i = 0; i < sheet->picture->never.n_polygons; i++)
    {
      const CwPolygon *polygon = &sheet->picture->never.polygons[i];

      cw_draw_list_begin (sheet->list, CW_PEN_NEVER, no_id);
      cw_trace_polygon (sheet->list, &sheet->flat, polygon);
      cw_draw_list_end (sheet->list);
      *pens |= 1u << CW_PEN_NEVER;
    }
  for (guint i = 0; i < sheet->design->glue->len; i++)
    {
      const CwGlue *glue = g_ptr_array_index (sheet->design->glue, i);
      g_autoptr (GArray) points = NULL;

      if (g_strcmp0 (glue->piece, sheet->piece->id) != 0 || glue->face != sheet->up || !is_put_on (sheet->picture, i))
        continue;
      points = cw_path_flatten (&glue->area, TRUE);
      /* Its rim is drawn too, and a small area marked, or it would be overlooked. */
      for (guint pass = is_small (sheet, points) ? 0 : 1; pass < 3; pass++)
        {
          const CwPen glue_pens[] = { CW_PEN_SELECTED, CW_PEN_GLUE, CW_PEN_GUIDE };

          cw_draw_list_begin (sheet->list, glue_pens[pass], no_id);
          cw_trace_path (sheet->list, &sheet->flat, &glue->area, TRUE);
          cw_draw_list_end (sheet->list);
        }
      *pens |= 1u << CW_PEN_GLUE;
    }
}

/* Greetings and pictures, with thin lines from the edges they are measured from and an arrow to their top. */
static void
draw_art (const Sheet *sheet, guint *pens)
{
  for (guint i = 0; i < sheet->piece->art->len; i++)
    {
      const CwArt *art = g_ptr_array_index (sheet->piece->art, i);
      double x0, y0, x1, y1;

      if (art->face != sheet->up)
        continue;
      to_output (sheet, cw_place_get_point (&art->box[0]), &x0, &y0);
      to_output (sheet, cw_place_get_point (&art->box[1]), &x1, &y1);
      double left = MIN (x0, x1), top = MIN (y0, y1), wide = fabs (x1 - x0), tall = fabs (y1 - y0);
      double size = sheet->letters, arrow = MIN (1.6 * size, 0.7 * MIN (wide, tall));
      const char *label = art->label != NULL ? art->label : art->id;
      double length = cw_draw_text_width (size, label);
      gboolean both = length <= wide - 4 && tall >= 1.4 * size + arrow + 4;
      gboolean named = both || (length <= wide - 2 * size - 4 && tall >= 1.4 * size);

      cw_page_rule (sheet->list, CW_PEN_GUIDE, sheet->left, top + tall / 2, left, top + tall / 2);
      cw_page_rule (sheet->list, CW_PEN_GUIDE, left + wide / 2, sheet->top, left + wide / 2, top);
      cw_draw_list_begin (sheet->list, CW_PEN_ART, no_id);
      cw_draw_list_move (sheet->list, left, top);
      cw_draw_list_line (sheet->list, left + wide, top);
      cw_draw_list_line (sheet->list, left + wide, top + tall);
      cw_draw_list_line (sheet->list, left, top + tall);
      cw_draw_list_close (sheet->list);
      cw_draw_list_end (sheet->list);
      if (named)
        cw_draw_list_text (sheet->list, CW_PEN_TEXT, no_id, left + (wide - (both ? 0 : 1.2 * size)) / 2,
                           top + tall / 2 + 0.36 * size + (both ? arrow / 2 + 2 : 0), size, CW_ANCHOR_MIDDLE, 0, label);
      if (both || !named)
        cw_draw_arrow (sheet->list, CW_PEN_OUTLINE, no_id, left + wide / 2, top + tall / 2 - (both ? 0.7 * size : 0),
                       art->up, arrow);
      else
        cw_draw_arrow (sheet->list, CW_PEN_OUTLINE, no_id, left + wide - 0.8 * size, top + tall / 2, art->up,
                       MIN (arrow, tall - 4));
      *pens |= 1u << CW_PEN_ART;
    }
}

/* The guide beside the sheet, and which edge starts and stops are measured from. */
static void
draw_trimmer (const Sheet *sheet, gboolean right_to_left, double height)
{
  double x = right_to_left ? sheet->left + sheet->lying.width * sheet->scale + 3 : sheet->left - 3 - GUIDE;
  double bottom = sheet->top + sheet->lying.height * sheet->scale, size = sheet->letters;

  cw_draw_list_set_ground (sheet->list, CW_GROUND_TABLE);
  cw_draw_list_begin (sheet->list, CW_PEN_WASTE, no_id);
  for (guint pass = 0; pass < 2; pass++)
    {
      cw_draw_list_move (sheet->list, x, sheet->top - 4);
      cw_draw_list_line (sheet->list, x + GUIDE, sheet->top - 4);
      cw_draw_list_line (sheet->list, x + GUIDE, bottom + 4);
      cw_draw_list_line (sheet->list, x, bottom + 4);
      cw_draw_list_close (sheet->list);
      cw_draw_list_end (sheet->list);
      if (pass == 0)
        cw_draw_list_begin (sheet->list, CW_PEN_EDGE, no_id);
    }
  cw_draw_list_text (sheet->list, CW_PEN_TEXT, no_id, right_to_left ? x + GUIDE + size : x - 5,
                     (sheet->top + bottom) / 2, size, CW_ANCHOR_MIDDLE, 270, _ ("guide"));
  cw_draw_list_text (sheet->list, CW_PEN_TEXT, no_id, sheet->left + sheet->lying.width * sheet->scale / 2,
                     sheet->top - 0.5 * size, size, CW_ANCHOR_MIDDLE, 0, _ ("upper edge"));
}

/**
 * cw_page_sheet:
 * @list: an empty list, drawn in from 0, 0 on
 * @card: a step card
 * @picture: a picture of a sheet
 * @width: at most so wide, points
 * @height: at most so high
 * @sizes: of the page's letters
 * @pens: (inout): mask of 1 << #CwPen of what its lines mean
 *
 * Returns: how high it is
 */
double
cw_page_sheet (CwDrawList *list, const CwStepCard *card, const CwCardPicture *picture, double width, double height,
               const CwPageSizes *sizes, guint *pens)
{
  Sheet sheet = { .list = list, .card = card, .picture = picture, .design = card->analysis->design };
  const CwPaper *paper;
  double beside, above;

  sheet.piece = g_ptr_array_index (sheet.design->pieces, picture->piece);
  sheet.lying = cw_lying_new (sheet.piece, picture->lie);
  sheet.up = picture->lie.flipped ? CW_FACE_BACK : CW_FACE_FRONT;
  sheet.letters = LETTERS * sizes->picture;
  beside = picture->trimmer ? BESIDE * sheet.letters + GUIDE : 3;
  above = picture->trimmer ? ABOVE * sheet.letters : 3;
  sheet.scale = MIN (CW_PAGE_TRUE_SCALE,
                     MIN ((width - beside - 3) / sheet.lying.width, (height - above - 8) / sheet.lying.height));
  sheet.top = above;
  gboolean right_to_left = card->trimmer.right_to_left && picture->trimmer;
  sheet.left = (width - beside - 3 - sheet.lying.width * sheet.scale) / 2 + (right_to_left ? 3 : beside);
  sheet.flat = cw_flat_from_lying (&sheet.lying, sheet.scale, sheet.left, sheet.top);
  paper = cw_design_get_paper (sheet.design, sheet.piece->paper);
  sheet.paper = PAPER_UNSAID;
  if (paper != NULL)
    sheet.paper = cw_colour_parse (sheet.up == CW_FACE_FRONT ? paper->front : paper->back, PAPER_UNSAID);
  draw_blank (&sheet);
  cw_draw_list_set_ground (list, sheet.paper);
  if (picture->art)
    draw_art (&sheet, pens);
  else if (picture->glue)
    {
      draw_moves (&sheet, pens);
      draw_glue (&sheet, pens);
    }
  else
    {
      draw_moves (&sheet, pens);
      draw_by_hand (&sheet, pens);
    }
  if (picture->laid != NULL)
    draw_laid (&sheet, pens);
  if (picture->trimmer)
    draw_trimmer (&sheet, right_to_left, height);
  cw_draw_list_set_ground (list, CW_GROUND_TABLE);
  return sheet.top + sheet.lying.height * sheet.scale + 6;
}
