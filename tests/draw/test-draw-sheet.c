/* The flat sheet as a list: what it says, that figures keep clear of what they measure, and lists looked at.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <math.h>
#include <string.h>

#include "cw-draw-list-private.h"
#include "cw-draw-sheet-private.h"
#include "drawn-card.h"

#define IN CW_TICKS_PER_INCH

static const CwItem *
find (const CwDrawList *list, CwPen pen, CwIdKind kind, guint index, guint nth)
{
  for (guint i = 0; i < list->items->len; i++)
    {
      const CwItem *item = &g_array_index (list->items, CwItem, i);
      if (item->pen == pen && item->id.kind == kind && (kind == CW_ID_NONE || item->id.index == index) && nth-- == 0)
        return item;
    }
  return NULL;
}

static gboolean
says (const CwDrawList *list, const char *words)
{
  for (guint i = 0; i < list->items->len; i++)
    {
      const CwItem *item = &g_array_index (list->items, CwItem, i);
      if (item->text != G_MAXUINT && strcmp (list->words->str + item->text, words) == 0)
        return TRUE;
    }
  return FALSE;
}

static void
test_words (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (DRAWN_BOX);
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwSheetView view = { .scale = 72.0 / IN };
  CwSheetLook look = { .names = TRUE, .legend = TRUE, .rulers = TRUE, .lit_panel = G_MAXUINT };

  cw_draw_sheet (list, card, 0, &view, &look);
  g_assert_true (says (list, "cut"));
  g_assert_true (says (list, "score: fold toward you"));
  g_assert_true (says (list, "score: fold away from you"));
  g_assert_true (says (list, "stays still"));
  g_assert_true (says (list, "This side up: drawn side (inside when closed)"));
  g_assert_true (says (list, "riser"));
  g_assert_false (says (list, "glue"));
  g_assert_false (says (list, "cut out and thrown away"));
}

/* Seen from behind, fronts that meet fold away from the viewer. */
static void
test_other_side_up (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (DRAWN_BOX);
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwSheetView view = { .lie = { 0, TRUE }, .scale = 72.0 / IN };
  CwSheetLook look = { .legend = TRUE, .lit_panel = G_MAXUINT };
  guint ridge = cw_piece_find_mark (card->panels->maps[0].piece, "ridge");

  cw_draw_sheet (list, card, 0, &view, &look);
  g_assert_nonnull (find (list, CW_PEN_SCORE_AWAY, CW_ID_MARK, 0, 0));
  g_assert_nonnull (find (list, CW_PEN_SCORE_TOWARD, CW_ID_MARK, ridge, 0));
  g_assert_true (says (list, "This side up: other side (outside when closed)"));
  /* The back's colour lies up. */
  const CwItem *sheet = find (list, CW_PEN_PAPER, CW_ID_SHEET, 0, 0);
  g_assert_cmphex (sheet->colour, ==, 0xd8cbb0);
}

/* Inside and outside follow the closed card: fronts meet in a toward fold, backs in an away fold; a layer on the inside
 * shows its own face inside; a card that never closes says neither. */
static void
test_sides (void)
{
  g_autoptr (CwAnalysis) toward = drawn_card (DRAWN_HALF ("toward", "front", "back"));
  g_autoptr (CwAnalysis) away = drawn_card (DRAWN_HALF ("away", "back", "front"));
  g_autoptr (CwAnalysis) never = drawn_card (DRAWN_MARKS);

  g_assert_cmpint (cw_side_find (toward, 0, CW_FACE_FRONT), ==, CW_SIDE_INSIDE);
  g_assert_cmpint (cw_side_find (toward, 0, CW_FACE_BACK), ==, CW_SIDE_OUTSIDE);
  g_assert_cmpint (cw_side_find (toward, 1, CW_FACE_FRONT), ==, CW_SIDE_INSIDE);
  g_assert_cmpint (cw_side_find (away, 0, CW_FACE_FRONT), ==, CW_SIDE_OUTSIDE);
  /* On the back, which is inside; its front meets the host, so its back is what is seen there. */
  g_assert_cmpint (cw_side_find (away, 1, CW_FACE_BACK), ==, CW_SIDE_INSIDE);
  g_assert_cmpint (cw_side_find (never, 0, CW_FACE_FRONT), ==, CW_SIDE_UNKNOWN);
}

/* No figure and no witness line lies on the mark it measures, at any zoom, however the sheet lies. */
static void
test_figures_keep_clear (void)
{
  static const char *const cards[] = { DRAWN_BOX, DRAWN_MARKS };

  for (guint c = 0; c < G_N_ELEMENTS (cards); c++)
    {
      g_autoptr (CwAnalysis) card = drawn_card (cards[c]);
      const CwPanelMap *map = &card->panels->maps[0];
      for (guint turns = 0; turns < 4; turns++)
        for (double scale = 40.0 / IN; scale < 400.0 / IN; scale *= 2)
          for (guint m = 0; m < map->piece->marks->len; m++)
            {
              g_autoptr (CwDrawList) list = cw_draw_list_new ();
              CwId selected = { CW_ID_MARK, 0, m, 0 }, id;
              CwSheetView view = { { turns, FALSE }, scale, 100, 100 };
              CwSheetLook look = { .selected = &selected, .n_selected = 1, .measures = TRUE, .lit_panel = G_MAXUINT };
              gboolean any = FALSE;

              cw_draw_sheet (list, card, 0, &view, &look);
              for (guint i = 0; i < list->items->len; i++)
                {
                  const CwItem *item = &g_array_index (list->items, CwItem, i);
                  if (item->pen != CW_PEN_FIGURE)
                    continue;
                  any = TRUE;
                  double width = cw_draw_text_width (item->size, list->words->str + item->text);
                  double left = item->anchor == CW_ANCHOR_START    ? item->x
                                : item->anchor == CW_ANCHOR_MIDDLE ? item->x - width / 2
                                                                   : item->x - width;
                  /* Along the words' middle line: nothing of this mark within half their height. */
                  for (double t = 0; t <= 1; t += 0.1)
                    if (cw_draw_list_pick (list, left + t * width, item->y - item->size * 0.36, item->size * 0.4,
                                           1u << CW_ID_MARK, &id))
                      g_assert_cmpuint (id.index, !=, m);
                }
              g_assert_true (any);
            }
    }
}

/* Whole way from the guide edge: the arrow stands where the mark does, by the scale alone. */
static void
test_arrow_is_true (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (DRAWN_HALF ("toward", "front", "back"));
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwId selected = { CW_ID_MARK, 0, 0, 0 };
  CwSheetView view = { .scale = 72.0 / IN, .left = 50, .top = 60 };
  CwSheetLook look = { .selected = &selected, .n_selected = 1, .measures = TRUE, .lit_panel = G_MAXUINT };

  cw_draw_sheet (list, card, 0, &view, &look);
  const CwItem *run = find (list, CW_PEN_GUIDE, CW_ID_MEASURE, 0, 0);
  g_assert_nonnull (run);
  const CwOp *from = &g_array_index (list->ops, CwOp, run->first_op), *to = from + 1;
  g_assert_cmpfloat_with_epsilon (from->v[0], 50, 1e-9);
  g_assert_cmpfloat_with_epsilon (to->v[0], 50 + 5 * 72, 1e-9);
  g_assert_true (says (list, "5 in"));
}

/* Ticks on the ruler stand one snap step apart where there is room, never nearer than 4 units, at any zoom; figures
 * never run into each other. */
static void
test_rulers (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (DRAWN_BOX);

  for (double scale = 3.0 / IN; scale < 4000.0 / IN; scale *= 1.37)
    {
      g_autoptr (CwDrawList) list = cw_draw_list_new ();
      CwSheetView view = { .scale = scale, .left = 100, .top = 100 };
      CwSheetLook look = { .rulers = TRUE, .lit_panel = G_MAXUINT };
      double last = -G_MAXDOUBLE, end = -G_MAXDOUBLE, apart = G_MAXDOUBLE;

      cw_draw_sheet (list, card, 0, &view, &look);
      const CwItem *ruler = find (list, CW_PEN_GUIDE, CW_ID_RULER, 0, 0);
      for (guint i = 2; i < ruler->n_ops; i += 2)
        {
          const CwOp *op = &g_array_index (list->ops, CwOp, ruler->first_op + i);
          apart = MIN (apart, op->v[0] - last);
          last = op->v[0];
        }
      g_assert_cmpfloat (apart, >=, 4 - 1e-9);
      for (guint n = 0;; n++)
        {
          const CwItem *figure = find (list, CW_PEN_TEXT, CW_ID_RULER, 0, n);
          if (figure == NULL)
            break;
          double half = cw_draw_text_width (figure->size, list->words->str + figure->text) / 2;
          g_assert_cmpfloat (figure->x - half, >, end);
          end = figure->x + half;
        }
    }
}

/* The pin of what stays still stands on its panel, "floor" from 6 to 10 in, off the name it was set on. */
static void
test_pin_keeps_clear (void)
{
  for (int zoom = 30; zoom <= 90; zoom += 15)
    {
      g_autoptr (CwAnalysis) card = drawn_card (DRAWN_BOX);
      g_autoptr (CwDrawList) list = cw_draw_list_new ();
      CwSheetView view = { .scale = (double) zoom / IN };
      CwSheetLook look = { .names = TRUE, .lit_panel = G_MAXUINT };
      double pin[4], name[4];

      cw_draw_sheet (list, card, 0, &view, &look);
      g_assert_true (cw_draw_list_get_box (list, (CwId){ CW_ID_HOLD, 0, 0, 0 }, pin));
      g_assert_true (cw_draw_list_get_box (
        list, (CwId){ CW_ID_NAME, 0, cw_panel_map_find (&card->panels->maps[0], cw_point (9 * IN, 5 * IN)), 0 }, name));
      g_assert_true (pin[2] < name[0] || pin[0] > name[2] || pin[3] < name[1] || pin[1] > name[3]);
      g_assert_cmpfloat (pin[0], >, 5 * zoom);
      g_assert_cmpfloat (pin[2], <, 10 * zoom);
      g_assert_cmpfloat (pin[1], >, 0);
      g_assert_cmpfloat (pin[3], <, 6 * zoom);
    }
}

static void
draw_golden (const char *text, CwLie lie, guint selected, const char *name)
{
  g_autoptr (CwAnalysis) card = drawn_card (text);
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwId id = { CW_ID_MARK, 0, selected, 0 };
  CwSheetView view = { .lie = lie };
  CwSheetLook look = { .selected = &id,
                       .n_selected = selected == G_MAXUINT ? 0 : 1,
                       .rulers = TRUE,
                       .names = TRUE,
                       .legend = TRUE,
                       .glue = TRUE,
                       .measures = TRUE,
                       .handles = TRUE,
                       .lit_panel = G_MAXUINT };

  cw_sheet_view_fit (&view, &card->panels->maps[0], 0, 0, 600, 440);
  cw_draw_sheet (list, card, 0, &view, &look);
  drawn_golden (list, name);
}

static void
test_golden (void)
{
  draw_golden (DRAWN_MARKS, (CwLie){ 0, FALSE }, 4, "sheet-marks");
  draw_golden (DRAWN_MARKS, (CwLie){ 1, TRUE }, 3, "sheet-marks-turned");
  draw_golden (DRAWN_BOX, (CwLie){ 0, FALSE }, G_MAXUINT, "sheet-box");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/sheet/words", test_words);
  g_test_add_func ("/draw/sheet/other-side-up", test_other_side_up);
  g_test_add_func ("/draw/sheet/sides", test_sides);
  g_test_add_func ("/draw/sheet/figures-keep-clear", test_figures_keep_clear);
  g_test_add_func ("/draw/sheet/arrow-is-true", test_arrow_is_true);
  g_test_add_func ("/draw/sheet/rulers", test_rulers);
  g_test_add_func ("/draw/sheet/pin-keeps-clear", test_pin_keeps_clear);
  g_test_add_func ("/draw/sheet/golden", test_golden);
  return g_test_run ();
}
