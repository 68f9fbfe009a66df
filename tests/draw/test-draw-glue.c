/* test-draw-glue.c: the glue map as a picture: the right faces with the right areas, told by patterns and in words.
 *
 * The areas are elementary geometry. That no colour is needed: WCAG 2.2, SC 1.4.1.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <math.h>
#include <string.h>

#include "cw-draw-card.h"
#include "cw-draw-list-private.h"
#include "cw-draw-sheet.h"
#include "cw-pen.h"
#include "drawn-card.h"

#define SCALE (72.0 / CW_TICKS_PER_INCH)

/* A card of 10 x 5 in grey; a corner with legs of 2 flips out of its left leaf and a tile of 2 x 2 is laid over it and
 * the opening it leaves, hand 1/16. */
#define FLIP                                                                                                           \
  CARD_HEAD "'measure': { 'unit': 'in', 'snap': '1/16 in', 'hand': '1/16 in', 'give': '1/32 in' },"                    \
            "'papers': [ { 'id': 'grey', 'front': '#c0c0c0', 'back': '#e0e0e0' } ],"                                   \
            "'pieces': [ { 'id': 'base', 'paper': 'grey', 'ground': true, 'hold': ['9','4'],"                          \
            "  'outline': [['0','0'],['10','0'],['10','5'],['0','5']], 'marks': ["                                     \
            "  { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['5','0'],['5','5']] },"                   \
            "  { 'id': 'slit', 'kind': 'cut', 'line': [['1','3'],['3','3'],['3','1']] },"                              \
            "  { 'id': 'flip', 'kind': 'score', 'fold': 'away', 'line': [['1','3'],['3','1']] } ],"                    \
            "  'names': [ { 'name': 'cover', 'at': ['1/2','1/2'] } ] },"                                               \
            " { 'id': 'tile', 'paper': 'grey', 'outline': [['0','0'],['2','0'],['2','2'],['0','2']] } ],"              \
            "'glue': [ { 'id': 'g', 'piece': 'tile', 'face': 'back', 'kind': 'tape',"                                  \
            "  'area': [['1/2','1/4'],['1 3/4','1/4'],['1 3/4','1 1/2']],"                                             \
            "  'holds': { 'piece': 'base', 'panel': ['2 1/2','2 1/2'] } } ],"                                          \
            "'steps': [ { 'id': 'flip', 'do': 'fold', 'folds': [ { 'score': 'base/flip', 'to': 180 } ] },"             \
            " { 'id': 'stick', 'do': 'stick', 'piece': 'tile', 'on': { 'piece': 'base', 'panel': ['2 1/2','2 1/2'],"   \
            "  'face': 'front' }, 'facing': 'back', 'at': ['3','1'], 'turn': 90 },"                                    \
            " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"   \
            " { 'id': 'open', 'do': 'fold', 'phase': 'using', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } ] }"

/* Square inches of all items of a pen, holes taken off (rings run the other way round). */
static double
drawn_area (const CwDrawList *list, CwPen pen)
{
  double sum = 0;

  for (guint i = 0; i < list->items->len; i++)
    {
      const CwItem *item = &g_array_index (list->items, CwItem, i);
      double x = 0, y = 0, first_x = 0, first_y = 0, twice = 0;

      if (item->pen != pen)
        continue;
      for (guint k = 0; k < item->n_ops; k++)
        {
          const CwOp *op = &g_array_index (list->ops, CwOp, item->first_op + k);
          double to_x = op->kind == CW_OP_CLOSE ? first_x : op->v[0],
                 to_y = op->kind == CW_OP_CLOSE ? first_y : op->v[1];

          if (op->kind == CW_OP_MOVE)
            {
              first_x = to_x;
              first_y = to_y;
            }
          else
            twice += x * to_y - y * to_x;
          x = to_x;
          y = to_y;
        }
      sum += fabs (twice) / 2;
    }
  return sum / (72.0 * 72.0);
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

static CwDrawList *
draw_sheet (CwAnalysis *card, const CwGlueMap *map, const char *piece, gboolean flipped, gboolean legend)
{
  CwDrawList *list = cw_draw_list_new ();
  CwSheetView view = { .lie = { 0, flipped }, .scale = SCALE };
  CwSheetLook look = { .names = TRUE, .legend = legend, .glue = TRUE, .lit_panel = G_MAXUINT, .glue_map = map };

  cw_draw_sheet (list, card, cw_design_find_piece (card->design, piece), &view, &look);
  return list;
}

/* Under the tile: half of it rests on the flipped corner, the other half looks through the opening at the other leaf.
 * A hand that misses by 1/16 shortens the legs along the crease by 1/16 x sqrt 2. */
static void
test_sheet (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (FLIP);
  g_autoptr (CwGlueMap) map = cw_glue_map_new (card->bonds, NULL);
  g_autoptr (CwDrawList) under = draw_sheet (card, map, "tile", TRUE, FALSE);
  g_autoptr (CwDrawList) over = draw_sheet (card, map, "tile", FALSE, FALSE);
  g_autoptr (CwDrawList) plain = draw_sheet (card, NULL, "tile", TRUE, TRUE);
  double leg = 2 - sqrt (2) / 16;

  g_assert_cmpfloat_with_epsilon (drawn_area (under, CW_PEN_NEVER), 2, 1e-3);
  g_assert_cmpfloat_with_epsilon (drawn_area (under, CW_PEN_SAFE), leg * leg / 2, 1e-3);
  g_assert_cmpfloat_with_epsilon (drawn_area (under, CW_PEN_NEAR), 2 - leg * leg / 2, 1e-3);
  /* The corner flips to the outside, and the tile with it: nothing ever lies on it. */
  g_assert_false (cw_draw_list_uses (over, CW_PEN_NEVER) || cw_draw_list_uses (over, CW_PEN_NEAR));
  g_assert_false (cw_draw_list_uses (over, CW_PEN_SAFE));
  g_assert_false (cw_draw_list_uses (plain, CW_PEN_NEVER));

  cw_draw_list_free (g_steal_pointer (&under));
  cw_draw_list_free (g_steal_pointer (&over));
  under = draw_sheet (card, map, "tile", TRUE, TRUE);
  over = draw_sheet (card, map, "tile", FALSE, TRUE);
  g_assert_true (says (under, "glue may go here"));
  g_assert_true (says (under, "too near an edge for glue"));
  g_assert_true (says (under, "no glue here"));
  g_assert_true (
    says (under, "Glue stays 1/16 in away from where other paper, or none, lies behind: a hand may miss."));
  g_assert_false (says (over, "glue may go here"));
  g_assert_false (says (plain, "no glue here"));
  drawn_golden (under, "glue-map-tile");
}

/* The open card from inside: the left leaf but for its opening, the half of the tile that is seen through it, and all
 * of the right leaf, which meets the one or the other. From outside the tile and the corner hide what holds. */
static void
test_card (void)
{
  g_autoptr (CwAnalysis) card = drawn_card (FLIP);
  g_autoptr (CwGlueMap) map = cw_glue_map_new (card->bonds, NULL);
  g_autoptr (CwCardScene) scene = cw_card_scene_new (card);
  g_autoptr (CwDrawList) list = cw_draw_list_new ();
  CwCardLook look = { .lit_panel = G_MAXUINT, .hinge_at = G_MAXUINT, .labels = TRUE, .glue_map = map };
  CwCamera camera = { 0 };

  cw_camera_look_from (&camera, "front");
  camera.scale = SCALE;
  cw_draw_card (list, scene, card->design->steps->len - 1, 1, &camera, &look);
  g_assert_cmpfloat_with_epsilon (drawn_area (list, CW_PEN_NEVER), 23 + 2 + 25, 1e-2);
  cw_draw_list_clear (list);
  cw_camera_look_from (&camera, "back");
  camera.scale = SCALE;
  cw_draw_card (list, scene, card->design->steps->len - 1, 1, &camera, &look);
  /* The outside of the left leaf holds the corner and, by its half, nothing else: 2, less what a hand needs along the
   * opening; the corner's own face holds the tile. Nothing outside is never. */
  g_assert_true (cw_draw_list_uses (list, CW_PEN_SAFE));
  g_assert_false (cw_draw_list_uses (list, CW_PEN_NEVER));
  look.glue_map = NULL;
  cw_draw_list_clear (list);
  cw_draw_card (list, scene, card->design->steps->len - 1, 1, &camera, &look);
  g_assert_false (cw_draw_list_uses (list, CW_PEN_SAFE) || cw_draw_list_uses (list, CW_PEN_NEVER));
}

/* In black and white: on grey paper with the pens for print no pixel has a colour, and what is safe, too near, never,
 * glue and waste are filled each in its own way. */
static void
test_black_and_white (void)
{
  static const CwPen kinds[] = { CW_PEN_SAFE, CW_PEN_NEAR, CW_PEN_NEVER, CW_PEN_GLUE, CW_PEN_WASTE };
  g_autoptr (CwAnalysis) card = drawn_card (FLIP);
  g_autoptr (CwGlueMap) map = cw_glue_map_new (card->bonds, NULL);
  g_autoptr (CwDrawList) list = draw_sheet (card, map, "base", FALSE, TRUE);
  cairo_surface_t *image = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 760, 460);
  cairo_t *cr = cairo_create (image);
  guint n_inked = 0;

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cw_draw_play (list, &cw_palette_paper, cr);
  cairo_destroy (cr);
  cairo_surface_flush (image);
  for (int y = 0; y < 460; y++)
    {
      const guint32 *row = (const guint32 *) (gconstpointer) (cairo_image_surface_get_data (image)
                                                              + y * cairo_image_surface_get_stride (image));

      for (int x = 0; x < 760; x++)
        {
          guint32 r = row[x] >> 16 & 255, g = row[x] >> 8 & 255, b = row[x] & 255;

          n_inked += r < 100;
          /* The softest ink is warm by 8 of 255. Words of the legend may be drawn finer than a pixel, in colours. */
          if (y < 360)
            {
              g_assert_cmpuint (MAX (r, MAX (g, b)) - MIN (r, MIN (g, b)), <=, 9);
            }
        }
    }
  cairo_surface_destroy (image);
  g_assert_cmpuint (n_inked, >, 5000);
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    for (guint k = 0; k < i; k++)
      g_assert_cmpint (cw_pen_get_style (kinds[i])->fill, !=, cw_pen_get_style (kinds[k])->fill);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/glue/sheet", test_sheet);
  g_test_add_func ("/draw/glue/card", test_card);
  g_test_add_func ("/draw/glue/black-and-white", test_black_and_white);
  return g_test_run ();
}
