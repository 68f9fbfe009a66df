/* test-make-rim.c: layers that follow their panel, layers of any shape, loose pieces stuck on.
 *
 * Expected sizes are plain arithmetic of rectangles: a panel less a rim on each of its sides.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "make-test.h"

static const char *const spine[] = { "score 5", NULL };

static CwLength
inches (double n)
{
  return cw_length_from_ticks (IN (n), CW_UNIT_INCH);
}

static void
assert_layer (const CwDesign *design, const char *id, double width, double height, double at_x, double at_y)
{
  const CwPiece *layer = cw_design_get_piece (design, id);
  CwPoint high = cw_point (0, 0);

  g_assert_nonnull (layer);
  for (guint i = 0; i < layer->outline.n_vertices; i++)
    {
      CwPoint p = cw_place_get_point (&layer->outline.vertices[i].at);
      high = cw_point (MAX (high.x, p.x), MAX (high.y, p.y));
    }
  assert_point (high, IN (width), IN (height));
  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = design->steps->pdata[i];
      if (g_strcmp0 (step->piece, id) == 0)
        assert_point (cw_place_get_point (&step->at), IN (at_x), IN (at_y));
    }
}

static void
move_spine (CwDesign **design, double to)
{
  CwMark *copy = cw_mark_copy (mark_at (*design, 0));

  for (guint i = 0; i < 2; i++)
    copy->line.vertices[i].at.x = inches (to);
  do_edit (design, cw_make_replace_mark (*design, "base", copy, NULL));
}

/* All four rims, on the drawn side and on the other one. */
static void
test_follows (void)
{
  const gint32 rims[] = { IN (0.125), IN (0.0625), 2 * CW_TICKS_PER_MM, 3 * CW_TICKS_PER_MM };

  for (guint i = 0; i < G_N_ELEMENTS (rims); i++)
    for (guint face = 0; face < 2; face++)
      {
        g_autoptr (CwDesign) design = sheet (10, 7, spine);
        g_autoptr (GError) error = NULL;

        do_edit (&design,
                 cw_make_add_layer (design, "base", 1, (CwFace) face,
                                    cw_length_from_ticks (rims[i], i < 2 ? CW_UNIT_INCH : CW_UNIT_MM), &error));
        move_spine (&design, 6);
        const CwPiece *layer = cw_design_get_piece (design, "layer");
        const CwStep *stick = cw_design_get_step (design, "stick-layer");
        gint32 x1 = 0;
        for (guint k = 0; k < layer->outline.n_vertices; k++)
          x1 = MAX (x1, layer->outline.vertices[k].at.x.ticks);
        g_assert_cmpint (x1, ==, IN (4) - 2 * rims[i]);
        g_assert_cmpint (stick->at.x.ticks, ==, face == CW_FACE_FRONT ? IN (6) + rims[i] : IN (10) - rims[i]);
      }
}

static void
test_glue_and_layers_on_it_follow (void)
{
  g_autoptr (CwDesign) design = sheet (10, 7, spine);
  g_autoptr (GError) error = NULL;

  do_edit (&design, cw_make_add_layer (design, "base", 1, CW_FACE_FRONT, inches (0.125), &error));
  do_edit (&design, cw_make_add_layer (design, "layer", 0, CW_FACE_FRONT, inches (0.25), &error));
  move_spine (&design, 6);
  assert_layer (design, "layer", 3.75, 6.75, 6.125, 0.125);
  assert_layer (design, "layer-2", 3.25, 6.25, 0.25, 0.25);
  const CwGlue *glue = design->glue->pdata[0];
  gint32 right = 0;
  for (guint i = 0; i < glue->area.n_vertices; i++)
    right = MAX (right, glue->area.vertices[i].at.x.ticks);
  g_assert_cmpint (right, ==, IN (3.75 - 0.125));
  move_spine (&design, 5);
  assert_layer (design, "layer", 4.75, 6.75, 5.125, 0.125);
  assert_layer (design, "layer-2", 4.25, 6.25, 0.25, 0.25);
}

/* An opening drawn in the panel later opens the layer too, wider by the rim on each side. */
static void
test_openings_follow (void)
{
  g_autoptr (CwDesign) design = sheet (10, 7, spine);
  g_autoptr (GError) error = NULL;

  do_edit (&design, cw_make_add_layer (design, "base", 1, CW_FACE_FRONT, inches (0.125), &error));
  draw (&design, "window 1 by 1 at 7, 3");
  const CwPiece *layer = cw_design_get_piece (design, "layer");
  g_assert_cmpuint (layer->marks->len, ==, 1);
  const CwMark *window = layer->marks->pdata[0];
  gint32 low = G_MAXINT32, high = 0;
  for (guint i = 0; i < window->line.n_vertices; i++)
    {
      low = MIN (low, vertex_of (window, i).x);
      high = MAX (high, vertex_of (window, i).x);
    }
  g_assert_cmpint (low, ==, IN (7 - 0.125 - 5.125));
  g_assert_cmpint (high - low, ==, IN (1.25));

  static const char *const ids[] = { "w1", NULL };
  do_edit (&design, cw_make_remove_marks (design, "base", ids, &error));
  g_assert_cmpuint (cw_design_get_piece (design, "layer")->marks->len, ==, 0);
}

/* A layer changed by hand stays as it was made. */
static void
test_changed_by_hand_stays (void)
{
  g_autoptr (CwDesign) design = sheet (10, 7, spine);
  g_autoptr (GError) error = NULL;

  do_edit (&design, cw_make_add_layer (design, "base", 1, CW_FACE_FRONT, inches (0.125), &error));
  CwStep *step = cw_step_copy (cw_design_get_step (design, "stick-layer"));
  step->at.y = inches (0.25);
  do_edit (&design,
           cw_edit_new_replace (design, CW_LIST_STEPS, NULL, cw_design_find_step (design, "stick-layer"), step));
  move_spine (&design, 6);
  assert_layer (design, "layer", 4.75, 6.75, 5.125, 0.25);
}

static void
test_set_rim (void)
{
  g_autoptr (CwDesign) design = sheet (10, 7, spine);
  g_autoptr (CwMark) drawn = rectangle (6, 1, 8, 3);
  g_autoptr (CwMark) off = rectangle (11, 1, 12, 3);
  g_autoptr (GError) error = NULL;

  do_edit (&design, cw_make_lay_shape (design, "base", CW_FACE_FRONT, drawn, &error));
  assert_layer (design, "layer", 2, 2, 6, 1);
  g_assert_cmpstr (cw_design_get_step (design, "stick-layer")->on.piece, ==, "base");
  move_spine (&design, 5.5); /* it has no rim: it stays */
  assert_layer (design, "layer", 2, 2, 6, 1);
  do_edit (&design, cw_make_set_rim (design, "layer", inches (0.25), &error));
  assert_layer (design, "layer", 4, 6.5, 5.75, 0.25);
  move_spine (&design, 5);
  assert_layer (design, "layer", 4.5, 6.5, 5.25, 0.25);

  assert_refused (cw_make_set_rim (design, "layer", inches (3), &error), &error);
  assert_refused (cw_make_set_rim (design, "base", inches (0.25), &error), &error);
  assert_refused (cw_make_lay_shape (design, "base", CW_FACE_FRONT, off, &error), &error);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/make/make-rim/follows-its-panel", test_follows);
  g_test_add_func ("/make/make-rim/glue-and-layers-on-it-follow", test_glue_and_layers_on_it_follow);
  g_test_add_func ("/make/make-rim/openings-follow", test_openings_follow);
  g_test_add_func ("/make/make-rim/changed-by-hand-stays", test_changed_by_hand_stays);
  g_test_add_func ("/make/make-rim/drawn-then-given-a-rim", test_set_rim);
  return g_test_run ();
}
