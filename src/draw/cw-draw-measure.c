/* cw-draw-measure.c: the measures of a selected mark, written on the sheet as on an engineering drawing.
 *
 * Running dimensions from one origin (ISO 129-1:2018, superimposed running dimensioning; from memory): a small circle
 * on the guide or ruler edge, one thin line, an arrow at every measured place and its figures beside the arrow. That is
 * how the maker reads a ruler laid at the edge. Witness lines join vertex and arrow; the line runs beside the mark, so
 * that nothing covers what it measures.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-draw-sheet-private.h"

#define OFFSET 20.0  /* of the line from the mark */
#define BEYOND 4.0   /* a witness line goes on past it */
#define STACKED 26.0 /* between the lines of two marks */
#define HEAD 6.0
#define FIGURE CW_SHEET_FIGURE
#define CLEAR 2.0 /* bare paper beside the figures */
#define MEASURES_MAX 64

/* Works in one frame for both directions: `along` is the direction measured, `beside` the other. */
typedef struct
{
  const CwSheetPlay *play;
  guint axis, mark;
  double origin; /* output place of the edge it is measured from */
  double sign;   /* -1: that edge is the right or the bottom one */
  double level;  /* output place of the dimension line, beside */
} Run;

static void
at (const Run *run, double along, double beside, double *x, double *y)
{
  *x = run->axis == 0 ? along : beside;
  *y = run->axis == 0 ? beside : along;
}

static void
stroke (const Run *run, double a0, double b0, double a1, double b1)
{
  double x, y;

  at (run, a0, b0, &x, &y);
  cw_draw_list_move (run->play->list, x, y);
  at (run, a1, b1, &x, &y);
  cw_draw_list_line (run->play->list, x, y);
}

/* What lies under a place: the paper or the table. */
static void
set_ground_at (const CwSheetPlay *play, double x, double y)
{
  gboolean on = x >= play->box[0] && x <= play->box[2] && y >= play->box[1] && y <= play->box[3];
  cw_draw_list_set_ground (play->list, on ? play->paper : CW_GROUND_TABLE);
}

static void
figures (const CwSheetPlay *play, CwId id, double x, double y, CwAnchor anchor, const char *text)
{
  double width = cw_draw_text_width (FIGURE, text);
  double middle = anchor == CW_ANCHOR_START ? x + width / 2 : anchor == CW_ANCHOR_END ? x - width / 2 : x;

  set_ground_at (play, middle, y - FIGURE / 2);
  if (middle >= play->box[0] && middle <= play->box[2] && y >= play->box[1] && y <= play->box[3])
    {
      /* Bare paper under the figures, so that they never lie on a line or a name. */
      double left = middle - width / 2 - CLEAR, right = middle + width / 2 + CLEAR;

      cw_draw_list_begin (play->list, CW_PEN_PAPER, cw_id (CW_ID_NONE, 0, 0, 0));
      cw_draw_list_set_colour (play->list, play->paper);
      cw_draw_list_move (play->list, left, y - FIGURE * 0.85);
      cw_draw_list_line (play->list, right, y - FIGURE * 0.85);
      cw_draw_list_line (play->list, right, y + FIGURE * 0.25);
      cw_draw_list_line (play->list, left, y + FIGURE * 0.25);
      cw_draw_list_close (play->list);
      cw_draw_list_end (play->list);
    }
  cw_draw_list_text (play->list, CW_PEN_FIGURE, id, x, y, FIGURE, anchor, 0, text);
}

/* Output place along the run, so many units from its edge. */
static double
from_edge (const Run *run, double units)
{
  return run->origin + run->sign * units;
}

static CwAnchor
other_anchor (const Run *run, CwAnchor anchor)
{
  if (run->sign > 0 || anchor == CW_ANCHOR_MIDDLE)
    return anchor;
  return anchor == CW_ANCHOR_START ? CW_ANCHOR_END : CW_ANCHOR_START;
}

/* Figures beside an upright line, just above the arrow, where a mark that ends there does not run; pushed on where the
 * one before stands too near. */
static void
draw_upright_figures (const Run *run, const CwSheetMeasure *measures, guint n, gboolean touches, double clear)
{
  double taken = run->sign > 0 ? -G_MAXDOUBLE : G_MAXDOUBLE;

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *text = cw_length_format_ticks (measures[i].ticks, run->play->design->head->unit);
      CwId id = cw_id (CW_ID_MEASURE, run->play->piece, run->mark, measures[i].part);
      double tip = from_edge (run, run->play->view->scale * measures[i].ticks);
      double base = tip - (touches ? 10 : 4);

      base = run->sign > 0 ? MAX (base, taken + FIGURE * 1.25) : MIN (base, taken - FIGURE * 1.25);
      double side = clear >= 0 ? run->level + BEYOND + 4 : run->level - BEYOND - 4;

      figures (run->play, id, side, base, clear >= 0 ? CW_ANCHOR_START : CW_ANCHOR_END, text);
      taken = base;
    }
}

static void
draw_level_figures (const Run *run, const CwSheetMeasure *measures, guint n, double clear)
{
  double taken = -G_MAXDOUBLE;
  guint row = 0;

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *text = cw_length_format_ticks (measures[i].ticks, run->play->design->head->unit);
      CwId id = cw_id (CW_ID_MEASURE, run->play->piece, run->mark, measures[i].part);
      double tip = run->play->view->scale * measures[i].ticks, width = cw_draw_text_width (FIGURE, text);
      double end = tip - HEAD - 2;

      if (n == 1 && end - width < 4)
        {
          /* No room between edge and mark: beyond the mark. */
          figures (run->play, id, from_edge (run, tip + 6 + MAX (clear, 0)), run->level + FIGURE * 0.36,
                   other_anchor (run, CW_ANCHOR_START), text);
          continue;
        }
      row = end - width < taken + 6 ? row + 1 : 0;
      double base = row == 0 ? run->level - 4 : run->level + BEYOND + FIGURE * (0.1 + 1.2 * row);
      figures (run->play, id, from_edge (run, row == 0 ? end : tip), base,
               other_anchor (run, row == 0 ? CW_ANCHOR_END : CW_ANCHOR_MIDDLE), text);
      taken = row == 0 ? end : MAX (taken, tip + width / 2);
    }
}

static void
draw_run (const Run *run, const CwSheetMeasure *measures, guint n, const double *tips, gboolean touches, double clear)
{
  const CwSheetPlay *play = run->play;
  CwDrawList *list = play->list;
  double last = 0, x, y;

  for (guint i = 0; i < n; i++)
    last = MAX (last, play->view->scale * measures[i].ticks);

  at (run, from_edge (run, last / 2), run->level, &x, &y);
  set_ground_at (play, x, y);
  cw_draw_list_begin (list, CW_PEN_GUIDE, cw_id (CW_ID_MEASURE, play->piece, run->mark, measures[0].part));
  stroke (run, run->origin, run->level, from_edge (run, last), run->level);
  for (guint i = 0; i < n; i++)
    {
      double tip = play->view->scale * measures[i].ticks, size = MIN (HEAD, tip / 2);

      stroke (run, from_edge (run, tip - size), run->level - size * 0.4, from_edge (run, tip), run->level);
      stroke (run, from_edge (run, tip - size), run->level + size * 0.4, from_edge (run, tip), run->level);
      if (!touches)
        {
          double way = run->level > tips[i] ? 1 : -1;
          stroke (run, from_edge (run, tip), tips[i] + way * 3, from_edge (run, tip), run->level + way * BEYOND);
        }
    }
  at (run, run->origin, run->level, &x, &y);
  cw_draw_list_arc (list, x, y, 2.5);
  cw_draw_list_end (list);
  if (run->axis == 1)
    draw_upright_figures (run, measures, n, touches, clear);
  else
    draw_level_figures (run, measures, n, clear);
}

static void
grow (const CwSheetPlay *play, CwPoint p, double box[4])
{
  double x, y;

  cw_flat_apply (&play->flat, p.x, p.y, &x, &y);
  box[0] = MIN (box[0], x);
  box[1] = MIN (box[1], y);
  box[2] = MAX (box[2], x);
  box[3] = MAX (box[3], y);
}

static void
mark_box (const CwSheetPlay *play, const CwMark *mark, double box[4])
{
  box[0] = box[1] = G_MAXDOUBLE;
  box[2] = box[3] = -G_MAXDOUBLE;
  if (mark->shape == CW_SHAPE_CIRCLE)
    {
      CwPoint c = cw_place_get_point (&mark->centre);
      gint32 r = mark->radius.ticks;
      grow (play, cw_point (c.x - r, c.y - r), box);
      grow (play, cw_point (c.x + r, c.y + r), box);
    }
  else
    for (guint i = 0; i < mark->line.n_vertices; i++)
      grow (play, cw_place_get_point (&mark->line.vertices[i].at), box);
}

/* On which side of the mark the line goes: after it, unless only before it there is room on the paper. */
static double
choose_level (const double box[4], const double paper[4], int axis, double room)
{
  int beside = axis == 0 ? 1 : 0;
  double after = box[beside + 2] + OFFSET, before = box[beside] - OFFSET;

  if (after + room > paper[beside + 2] && before - room > paper[beside])
    return before;
  return after;
}

static int
compare_ticks (const void *a, const void *b)
{
  const CwSheetMeasure *x = a, *y = b;
  return (x->ticks > y->ticks) - (x->ticks < y->ticks);
}

/**
 * cw_sheet_draw_measures:
 * @play: the drawing in the making
 * @item: a mark, or what stands for the outline of an area
 * @mark: its index in its list
 * @n_before: how many marks have been measured already; their lines are kept clear of
 */
void
cw_sheet_draw_measures (const CwSheetPlay *play, const CwMark *item, guint mark, guint n_before)
{
  CwSheetMeasure measures[MEASURES_MAX];
  guint n = cw_sheet_view_measures (play->view, play->map, item, measures, MEASURES_MAX);
  double box[4], tips[MEASURES_MAX];
  gboolean beside_used = FALSE;

  if (n == 0)
    return;
  if (play->look->far_edges)
    {
      gint32 size[2];

      cw_sheet_view_size (play->view, play->map, &size[0], &size[1]);
      for (guint i = 0; i < n; i++)
        if (measures[i].axis < 2)
          measures[i].ticks = size[measures[i].axis] - measures[i].ticks;
    }
  qsort (measures, n, sizeof *measures, compare_ticks);
  mark_box (play, item, box);

  /* Upright line first: the other one may have to keep clear of its figures. */
  for (int axis = 1; axis >= 0; axis--)
    {
      CwSheetMeasure own[MEASURES_MAX];
      guint n_own = 0;
      double extent = axis == 0 ? box[2] - box[0] : box[3] - box[1];
      for (guint i = 0; i < n; i++)
        if ((int) measures[i].axis == axis)
          own[n_own++] = measures[i];
      if (n_own == 0)
        continue;

      Run run = { play, (guint) axis, mark, axis == 0 ? play->view->left : play->view->top, 1, 0 };
      if (play->look->far_edges)
        {
          run.origin = play->box[axis + 2];
          run.sign = -1;
        }
      /* A straight mark square to the direction is touched by the arrow itself. */
      gboolean touches = n_own == 1 && extent < 0.5 && item->shape == CW_SHAPE_LINE;
      double clear = beside_used ? OFFSET + cw_draw_text_width (FIGURE, "10 15/16 in") : 0;
      if (touches)
        run.level = axis == 0 ? MIN ((box[1] + box[3]) / 2 + n_before * STACKED, box[3])
                              : MIN ((box[0] + box[2]) / 2 + n_before * STACKED * 3, box[2]);
      else
        {
          run.level = choose_level (box, play->box, axis, axis == 0 ? FIGURE : cw_draw_text_width (FIGURE, "10 15/16"));
          beside_used = axis == 1 && run.level > box[2];
          if (axis == 1)
            clear = run.level > box[2] ? 0 : -1;
        }
      for (guint i = 0; i < n_own; i++)
        {
          tips[i] = axis == 0 ? (run.level > box[3] ? box[3] : box[1]) : (run.level > box[2] ? box[2] : box[0]);
          /* From the nearest vertex that has this measure, so that no witness line runs along the mark. */
          double nearest = G_MAXDOUBLE;
          for (guint k = 0; item->shape == CW_SHAPE_LINE && k < item->line.n_vertices; k++)
            {
              CwPoint p = cw_place_get_point (&item->line.vertices[k].at);
              double x, y;
              cw_flat_apply (&play->flat, p.x, p.y, &x, &y);
              double value = axis == 0 ? x : y, beside = axis == 0 ? y : x;
              double wanted = from_edge (&run, own[i].ticks * play->view->scale);
              if (item->line.vertices[k].through || fabs (value - wanted) > 0.01
                  || fabs (beside - run.level) >= nearest)
                continue;
              nearest = fabs (beside - run.level);
              tips[i] = beside;
            }
        }
      draw_run (&run, own, n_own, tips, touches, clear);
    }

  if (item->shape == CW_SHAPE_CIRCLE)
    {
      g_autofree char *length = cw_length_format_ticks (item->radius.ticks, play->design->head->unit);
      g_autofree char *text = g_strdup_printf (_ ("radius %s"), length);
      double cx = (box[0] + box[2]) / 2, cy = (box[1] + box[3]) / 2, r = (box[2] - box[0]) / 2 * G_SQRT2 / 2;
      CwId id = cw_id (CW_ID_MEASURE, play->piece, mark, CW_MEASURE_RADIUS);

      /* To the right and up, unless the words would leave the paper there. */
      double way = cx + r + 10 + cw_draw_text_width (FIGURE, text) > play->box[2] ? -1 : 1;

      set_ground_at (play, cx, cy);
      cw_draw_list_begin (play->list, CW_PEN_GUIDE, id);
      cw_draw_list_move (play->list, cx, cy);
      cw_draw_list_line (play->list, cx + way * r, cy - r);
      cw_draw_list_line (play->list, cx + way * (r + 8), cy - r - 8);
      cw_draw_list_end (play->list);
      figures (play, id, cx + way * (r + 10), cy - r - 10, way > 0 ? CW_ANCHOR_START : CW_ANCHOR_END, text);
    }
}
