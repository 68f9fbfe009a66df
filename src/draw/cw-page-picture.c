/* cw-page-picture.c: the pictures of a step card.
 *
 * A sheet on the trimmer lies as the reader has it: the guide beside it, the edge that starts and stops are measured
 * from above it, this step's lines drawn heavy with their numbers, earlier ones thin, later ones not at all: the state
 * after the step. A sheet for glue shows its zones dotted and what must stay free cross-hatched. The card is drawn as
 * the window draws it, what has just moved between two lines. Letters are kept at a size that can be read.
 *
 * Over 500 lines because every kind of picture on a page shares one frame and its measures.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-draw-sheet-private.h"
#include "cw-page-private.h"
#include "panel/cw-path-flatten.h"

#define LETTERS 11.0
#define PAPER_UNSAID 0xf6f2ea
/* Room for the guide beside the sheet and for the words above and below, in letters; the guide's breadth. */
#define BESIDE 2.2
#define ABOVE 1.7
#define GUIDE 7.0
/* Radius of the circle round a number, in letters. */
#define BADGE 0.62
/* Places tried to either side of a line's middle; farther apart than this numbers need not stand, points. */
#define BADGE_PLACES 12
#define ENOUGH_APART 60.0
/* Numbers in circles are not made smaller than for this, points; they are set at nine tenths of it. */
#define NUMBER_LEAST 10.0
/* Up to so many panels are all marked as moved. */
#define MARKED_MOST 3
/* An area for glue narrower than this is marked, points. */
#define SMALL_ZONE 16.0
/* True size is the largest a picture is drawn at. */
#define TRUE_SCALE (72.0 / CW_TICKS_PER_INCH)

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
  CwFace up;
  guint32 paper;
} Sheet;

static void
to_output (const Sheet *sheet, CwPoint p, double *x, double *y)
{
  CwPoint lies = cw_lying_from_piece (&sheet->lying, p);

  *x = sheet->left + lies.x * sheet->scale;
  *y = sheet->top + lies.y * sheet->scale;
}

static void
trace_points (const Sheet *sheet, const CwPoint *points, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      double x, y;

      to_output (sheet, points[i], &x, &y);
      if (i == 0)
        cw_draw_list_move (sheet->list, x, y);
      else
        cw_draw_list_line (sheet->list, x, y);
    }
  cw_draw_list_close (sheet->list);
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
  g_autoptr (GArray) outline = cw_path_flatten (&sheet->piece->outline, TRUE);

  for (guint pass = 0; pass < 2; pass++)
    {
      cw_draw_list_set_ground (sheet->list, pass == 0 ? CW_GROUND_TABLE : sheet->paper);
      cw_draw_list_begin (sheet->list, pass == 0 ? CW_PEN_PAPER : CW_PEN_OUTLINE, no_id);
      if (pass == 0)
        cw_draw_list_set_colour (sheet->list, sheet->paper);
      if (cut)
        trace_points (sheet, (const CwPoint *) (gpointer) outline->data, outline->len);
      else
        trace_points (sheet, corners, 4);
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

/* Where the number of a line stands. */
typedef struct
{
  guint move;
  double ax, ay, bx, by; /* the line */
  double x, y;
} Badge;

static gint
compare_length (gconstpointer a, gconstpointer b)
{
  const Badge *x = a, *y = b;
  double p = hypot (x->bx - x->ax, x->by - x->ay), q = hypot (y->bx - y->ax, y->by - y->ay);

  return p < q ? -1 : p > q ? 1 : (x->move > y->move) - (x->move < y->move);
}

/* A place on each line for its number, as far from the others as may be: short lines, which have the least choice,
 * first. Returns how near the nearest two come. */
static double
place_badges (GArray *badges, const double box[4])
{
  double least = G_MAXDOUBLE;

  g_array_sort (badges, compare_length);
  for (guint i = 0; i < badges->len; i++)
    {
      Badge *badge = &g_array_index (badges, Badge, i);
      double most = -1;

      /* From the middle outwards; the first that is as good stays. */
      for (guint k = 0; k <= 2 * BADGE_PLACES; k++)
        {
          double share = 0.5 + (k % 2 == 0 ? 1 : -1) * 0.45 * ((k + 1) / 2) / BADGE_PLACES;
          double x = badge->ax + (badge->bx - badge->ax) * share, y = badge->ay + (badge->by - badge->ay) * share;
          double nearest = ENOUGH_APART;

          /* On the sheet, not over the words beside it. */
          x = CLAMP (x, box[0], box[2]);
          y = CLAMP (y, box[1], box[3]);

          for (guint n = 0; n < i; n++)
            {
              const Badge *other = &g_array_index (badges, Badge, n);

              nearest = MIN (nearest, hypot (x - other->x, y - other->y));
            }
          if (nearest <= most)
            continue;
          most = nearest;
          badge->x = x;
          badge->y = y;
        }
      least = MIN (least, most);
    }
  return least;
}

static void
draw_number (const Sheet *sheet, const Badge *badge, double letters)
{
  g_autofree char *text = g_strdup_printf ("%u", badge->move + 1);
  double size = letters * 0.9, radius = BADGE * letters + (badge->move > 8 ? 0.18 * letters : 0);

  cw_draw_list_set_ground (sheet->list, 0xffffff);
  cw_draw_list_begin (sheet->list, CW_PEN_PAPER, no_id);
  cw_draw_list_set_colour (sheet->list, 0xffffff);
  cw_draw_list_arc (sheet->list, badge->x, badge->y, radius);
  cw_draw_list_end (sheet->list);
  cw_draw_list_begin (sheet->list, CW_PEN_EDGE, no_id);
  cw_draw_list_arc (sheet->list, badge->x, badge->y, radius);
  cw_draw_list_end (sheet->list);
  cw_draw_list_text (sheet->list, CW_PEN_TITLE, no_id, badge->x, badge->y + size * 0.36, size, CW_ANCHOR_MIDDLE, 0,
                     text);
  cw_draw_list_set_ground (sheet->list, sheet->paper);
}

/* Crowded numbers are made smaller, down to what can still be read. */
static void
draw_badges (const Sheet *sheet, GArray *badges)
{
  double half = (BADGE + 0.18) * sheet->letters, wide = 2 * half + 1;
  double right = sheet->left + sheet->lying.width * sheet->scale,
         foot = sheet->top + sheet->lying.height * sheet->scale;
  const double box[4] = { sheet->left + half, sheet->top + half, MAX (right, sheet->left + 2 * half) - half,
                          MAX (foot, sheet->top + 2 * half) - half };
  double apart = place_badges (badges, box);
  double letters = sheet->letters * CLAMP (apart / wide, 0, 1);

  letters = MAX (letters, MIN (sheet->letters, NUMBER_LEAST * (sheet->letters > 1.2 * LETTERS ? 1.3 : 1)));
  for (guint i = 0; i < badges->len; i++)
    draw_number (sheet, &g_array_index (badges, Badge, i), letters);
}

/* Lines: those made before this step, thin as they are; then this step's with a halo, then their numbers. */
static void
draw_moves (const Sheet *sheet, guint *pens)
{
  const CwTrimming *trimming = sheet->card->trimming;
  guint first = sheet->picture->first_move, end = first + sheet->picture->n_moves;
  g_autoptr (GArray) badges = g_array_new (FALSE, FALSE, sizeof (Badge));

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
            Badge badge = { i, ax + aside, ay, bx + aside, by, 0, 0 };

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
  draw_badges (sheet, badges);
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
      g_autoptr (GArray) points = NULL;
      CwPen pen;

      if (g_ptr_array_index (sheet->design->pieces, hand->piece) != sheet->piece || hand->mark == CW_MOVE_OUTLINE
          || hand->why != CW_BY_HAND_CURVE)
        continue;
      mark = g_ptr_array_index (sheet->piece->marks, hand->mark);
      points = cw_mark_flatten (mark);
      pen = cw_mark_get_pen (mark, sheet->up);
      for (guint pass = mark->kind == CW_MARK_WINDOW ? 0 : 1; pass < 2 && points->len > 1; pass++)
        {
          cw_draw_list_begin (sheet->list, pass == 0 ? CW_PEN_WASTE : pen, no_id);
          for (guint k = 0; k < points->len; k++)
            {
              double x, y;

              to_output (sheet, g_array_index (points, CwPoint, k), &x, &y);
              if (k == 0)
                cw_draw_list_move (sheet->list, x, y);
              else
                cw_draw_list_line (sheet->list, x, y);
            }
          if (mark->kind == CW_MARK_WINDOW)
            cw_draw_list_close (sheet->list);
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
  gboolean mirrored = step->on_face == step->facing;
  double turn = step->turn * G_PI / 180 * (step->on_face == CW_FACE_FRONT ? 1 : -1);
  const CwPaper *paper;
  g_autoptr (GArray) points = NULL;
  guint32 colour = PAPER_UNSAID;

  if (piece == NULL)
    return;
  points = cw_path_flatten (&piece->outline, TRUE);
  for (guint i = 0; i < points->len; i++)
    {
      CwPoint *p = &g_array_index (points, CwPoint, i);
      double u = mirrored ? -p->x : p->x, v = p->y;

      *p = cw_point ((gint32) lround (step->at.x.ticks + u * cos (turn) - v * sin (turn)),
                     (gint32) lround (step->at.y.ticks + u * sin (turn) + v * cos (turn)));
    }
  paper = cw_design_get_paper (sheet->design, piece->paper);
  if (paper != NULL)
    colour = cw_colour_parse (step->facing == CW_FACE_BACK ? paper->front : paper->back, PAPER_UNSAID);
  for (guint pass = 0; pass < 3; pass++)
    {
      const CwPen laid_pens[] = { CW_PEN_PAPER, CW_PEN_SELECTED, CW_PEN_OUTLINE };

      cw_draw_list_begin (sheet->list, laid_pens[pass], no_id);
      if (pass == 0)
        cw_draw_list_set_colour (sheet->list, colour);
      trace_points (sheet, (const CwPoint *) (gpointer) points->data, points->len);
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
      for (guint r = 0; r < polygon->n_rings; r++)
        trace_points (sheet, polygon->rings[r].points, polygon->rings[r].n_points);
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
          trace_points (sheet, (const CwPoint *) (gpointer) points->data, points->len);
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

static double
picture_sheet (CwDrawList *list, const CwStepCard *card, const CwCardPicture *picture, double width, double height,
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
  sheet.scale
    = MIN (TRUE_SCALE, MIN ((width - beside - 3) / sheet.lying.width, (height - above - 8) / sheet.lying.height));
  sheet.top = above;
  gboolean right_to_left = card->trimmer.right_to_left && picture->trimmer;
  sheet.left = (width - beside - 3 - sheet.lying.width * sheet.scale) / 2 + (right_to_left ? 3 : beside);
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

/* What is to be marked as moved. Of many panels that move together only the large ones are, or the picture is all
 * marks. */
static void
find_marked (const CwStepCard *card, const CwCardPicture *picture, GArray *marked)
{
  const CwPanelSet *set = card->analysis->panels;
  gint64 largest = 0;

  if (picture->moved == NULL)
    return;
  for (guint i = 0; i < picture->moved->len; i++)
    largest = MAX (largest, cw_panel_set_get_panel (set, g_array_index (picture->moved, guint, i))->area2);
  for (guint i = 0; i < picture->moved->len; i++)
    {
      guint panel = g_array_index (picture->moved, guint, i);
      CwId id = { CW_ID_PANEL, 0, 0, 0 };

      if (picture->moved->len > MARKED_MOST && cw_panel_set_get_panel (set, panel)->area2 < largest / 2)
        continue;
      cw_panel_set_locate (set, panel, &id.piece, &id.index);
      g_array_append_val (marked, id);
    }
}

static double
picture_card (CwDrawList *list, const CwStepCard *card, CwCardScene *scene, const CwCardPicture *picture, double width,
              double height, const CwPageSizes *sizes, guint *pens)
{
  CwMotion *motion = card->analysis->motion;
  g_autoptr (CwMotionWork) work = cw_motion_work_new (motion);
  g_autoptr (CwPose) pose = cw_pose_new (motion);
  g_autoptr (CwDrawList) drawn = cw_draw_list_new ();
  g_autoptr (GArray) selected = g_array_new (FALSE, FALSE, sizeof (CwId));
  static const char *const from[] = { "front", "back", "table" };
  CwCardLook look = { .lit_panel = G_MAXUINT, .hinge_at = G_MAXUINT, .labels = TRUE };
  CwCamera camera = { 0 };
  double scale = sizes->picture, box[4];
  guint step = picture->step == G_MAXUINT ? cw_motion_get_n_steps (motion) : picture->step;

  find_marked (card, picture, selected);
  look.selected = (const CwId *) (gpointer) selected->data;
  look.n_selected = selected->len;
  look.shadow = picture->from == CW_CARD_FROM_TABLE;
  /* Nine points on the page in normal type, eighteen in large. */
  look.label_least = sizes->small >= 18 ? 18 / scale : 9 / scale;
  if (picture->step == G_MAXUINT)
    cw_motion_get_start (motion, pose);
  else
    cw_motion_get_pose (motion, work, picture->step, picture->fraction, pose);
  if (picture->from == CW_CARD_FROM_TABLE)
    cw_camera_look_into (&camera, motion);
  else
    cw_camera_look_from (&camera, from[picture->from]);
  cw_camera_fit_pose (&camera, motion, pose, 4, 4, width / scale - 8, height / scale - 8);
  camera.scale = MIN (camera.scale, TRUE_SCALE / scale);
  cw_draw_card (drawn, scene, step, picture->step == G_MAXUINT ? 0 : picture->fraction, &camera, &look);
  cw_draw_list_get_extents (drawn, box);
  /* Marks of what has moved are broad lines. */
  double broad = selected->len > 0 ? cw_pen_get_style (CW_PEN_SELECTED)->width_mm * CW_PT_PER_MM / 2 + 1 : 1;
  box[0] -= broad / scale;
  box[1] -= broad / scale;
  box[2] += broad / scale;
  box[3] += broad / scale;
  /* A shadow may reach beyond what was fitted. */
  double fit = MIN (1, MIN ((width - 4) / ((box[2] - box[0]) * scale), (height - 4) / ((box[3] - box[1]) * scale)));
  scale *= fit;
  cw_draw_list_append (list, drawn, scale, (width - (box[2] + box[0]) * scale) / 2, 2 - box[1] * scale);
  if (selected->len > 0)
    *pens |= 1u << CW_PEN_SELECTED;
  return (box[3] - box[1]) * scale + 4;
}

/**
 * cw_page_picture:
 * @list: an empty list, drawn in from 0, 0 on
 * @card: a step card
 * @scene: its card's scene
 * @picture: one of its pictures
 * @width: at most so wide, points
 * @height: at most so high
 * @sizes: of the page's letters
 * @pens: (inout): mask of 1 << #CwPen of what its lines mean
 *
 * Returns: how high it is
 */
double
cw_page_picture (CwDrawList *list, const CwStepCard *card, CwCardScene *scene, const CwCardPicture *picture,
                 double width, double height, const CwPageSizes *sizes, guint *pens)
{
  switch (picture->kind)
    {
    case CW_CARD_PICTURE_SHEET:
      return picture_sheet (list, card, picture, width, height, sizes, pens);
    case CW_CARD_PICTURE_CARD:
      return picture_card (list, card, scene, picture, width, height, sizes, pens);
    case CW_CARD_PICTURE_NONE:
    default:
      return 0;
    }
}
