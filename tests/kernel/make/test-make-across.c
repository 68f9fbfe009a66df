/* test-make-across.c: what is laid over the folded card comes back to the flat faces under it.
 *
 * Expected places are worked by hand: folding by 180 degrees is the reflection across the crease (x = 5: x goes to
 * 10 - x; y = x - 4: x and y + 4 change places), and the side that then shows is the other one.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "check/cw-analysis.h"
#include "design/cw-design-json.h"
#include "make/cw-make-across.h"

#define IN(n) ((gint32) ((n) *64) * 127) /* n in whole 64ths of an inch */

static const char card_text[]
  = "{\"format\":\"creasewright design\",\"version\":1,\"measure\":{\"unit\":\"in\",\"snap\":\"1/16 in\"},"
    "\"papers\":[],\"pieces\":[{\"id\":\"base\",\"ground\":true,\"hold\":[\"6 in\",\"6 in\"],"
    "\"outline\":[[\"0 in\",\"0 in\"],[\"10 in\",\"0 in\"],[\"10 in\",\"7 in\"],[\"0 in\",\"7 in\"]],\"marks\":["
    "{\"id\":\"spine\",\"kind\":\"score\",\"fold\":\"toward\",\"line\":[[\"5 in\",\"0 in\"],[\"5 in\",\"7 in\"]]},"
    "{\"id\":\"slit\",\"kind\":\"cut\",\"line\":[[\"6 in\",\"2 in\"],[\"8 in\",\"2 in\"],[\"8 in\",\"4 in\"]]},"
    "{\"id\":\"flip\",\"kind\":\"score\",\"fold\":\"toward\",\"line\":[[\"6 in\",\"2 in\"],[\"8 in\",\"4 in\"]]}]}],"
    "\"glue\":[],\"steps\":["
    "{\"id\":\"flip\",\"do\":\"fold\",\"folds\":[{\"score\":\"base/flip\",\"to\":180}]},"
    "{\"id\":\"close\",\"do\":\"fold\",\"rest\":\"closed\",\"folds\":[{\"score\":\"base/spine\",\"to\":180}]}]}";

/* What the maker sees: x right, y down, z away. */
static const CwRigid from_front = { { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } }, { 0, 0, 0 } };
static const CwRigid from_back = { { { -1, 0, 0 }, { 0, 1, 0 }, { 0, 0, -1 } }, { 0, 0, 0 } };
static const CwRigid head_to_the_right = { { { 0, 1, 0 }, { -1, 0, 0 }, { 0, 0, 1 } }, { 0, 0, 0 } };

/* The places that a picture gets, as "face x0,y0 x1,y1 up" in 64ths of an inch; in the order they are made. */
static char *
lay (guint step, const CwRigid *eye, double left, double top, double right, double bottom)
{
  const double box[4]
    = { left * CW_TICKS_PER_INCH, top * CW_TICKS_PER_INCH, right * CW_TICKS_PER_INCH, bottom * CW_TICKS_PER_INCH };
  g_autoptr (GError) error = NULL;
  g_autoptr (CwDesign) design = cw_design_from_text (card_text, -1, "test", &error);
  g_assert_no_error (error);
  g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
  g_autoptr (CwMotionWork) work = cw_motion_work_new (analysis->motion);
  g_autoptr (CwPose) pose = cw_pose_new (analysis->motion);
  g_autoptr (GString) text = g_string_new (NULL);

  if (step == G_MAXUINT)
    cw_motion_get_start (analysis->motion, pose);
  else
    cw_motion_get_pose (analysis->motion, work, step, 1, pose);
  g_autoptr (GArray) parts = cw_make_find_across (analysis->motion, analysis->flat_states, step, pose, eye, box);
  g_autoptr (CwEdit) edit = cw_make_add_art_across (design, parts, "Kite", &error);
  if (edit == NULL)
    return g_strdup (error->message);
  g_autoptr (CwDesign) after = cw_edit_apply (edit, design);
  const CwPiece *base = cw_design_get_piece (after, "base");
  for (guint i = 0; i < base->art->len; i++)
    {
      const CwArt *art = base->art->pdata[i];

      g_assert_cmpstr (art->label, ==, "Kite");
      g_string_append_printf (text, "%s%s %d,%d %d,%d up %g", i ? "; " : "", art->face ? "other" : "drawn",
                              art->box[0].x.ticks / 127, art->box[0].y.ticks / 127, art->box[1].x.ticks / 127,
                              art->box[1].y.ticks / 127, art->up);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
assert_lies (const char *expected, guint step, const CwRigid *eye, double left, double top, double right, double bottom)
{
  g_autofree char *got = lay (step, eye, left, top, right, bottom);

  g_assert_cmpstr (got, ==, expected);
}

static void
test_flat (void)
{
  /* Across the spine: cut there, and nothing turned. */
  assert_lies ("drawn 256,320 320,384 up 0; drawn 320,320 384,384 up 0", G_MAXUINT, &from_front, 4, 5, 6, 6);
  /* Off the maker's marks by a little: brought to them, but for the spine. */
  assert_lies ("drawn 256,320 320,384 up 0; drawn 320,320 384,384 up 0", G_MAXUINT, &from_front, 4.01, 4.99, 6.02,
               6.01);
  /* The maker's up is the sheet's right: a quarter clockwise. x seen is y of the sheet, y seen is -x. */
  assert_lies ("drawn 288,320 320,384 up 90; drawn 320,320 352,384 up 90", G_MAXUINT, &head_to_the_right, 5, -5.5, 6,
               -4.5);
  assert_lies ("There is no face of the card under it.", G_MAXUINT, &from_front, 11, 1, 12, 2);
}

static void
test_flipped_corner (void)
{
  /* All on the flipped corner: its other side, a quarter turned. */
  assert_lies ("other 464,144 496,192 up 90", 0, &from_front, 6.25, 3.25, 7, 3.75);
  /* Through the opening that the corner left there is nothing. */
  assert_lies ("There is no face of the card under it.", 0, &from_front, 7.25, 2.25, 7.75, 2.75);
  /* Over the corner's upper part, the crease and the paper left of it: the corner's fold line runs slanting. */
  assert_lies ("drawn 352,192 384,240 up 0; other 448,128 496,160 up 90", 0, &from_front, 5.5, 3, 6.5, 3.75);
}

static void
test_closed (void)
{
  /* The left leaf lies over the right one, its other side up. */
  assert_lies ("other 192,320 256,384 up 0", 1, &from_front, 6, 5, 7, 6);
  /* From behind one sees the right leaf's other side; what is seen to the right is the sheet's left. */
  assert_lies ("other 384,320 448,384 up 0", 1, &from_back, -7, 5, -6, 6);
}

/* Glue is put on just what is seen of each face. */
static void
test_glue (void)
{
  const double box[4] = { 4 * CW_TICKS_PER_INCH, 5 * CW_TICKS_PER_INCH, 6 * CW_TICKS_PER_INCH, 6 * CW_TICKS_PER_INCH };
  g_autoptr (GError) error = NULL;
  g_autoptr (CwDesign) design = cw_design_from_text (card_text, -1, "test", &error);
  g_autoptr (CwAnalysis) analysis = cw_analysis_new (design);
  g_autoptr (CwPose) pose = cw_pose_new (analysis->motion);

  cw_motion_get_start (analysis->motion, pose);
  g_autoptr (GArray) parts
    = cw_make_find_across (analysis->motion, analysis->flat_states, G_MAXUINT, pose, &from_front, box);
  g_autoptr (CwEdit) edit = cw_make_draw_glue_across (design, parts, CW_GLUE_WET, &error);
  g_assert_no_error (error);
  g_autoptr (CwDesign) after = cw_edit_apply (edit, design);
  g_assert_cmpuint (after->glue->len, ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      const CwGlue *glue = after->glue->pdata[i];
      gint32 most = 0;

      g_assert_cmpint (glue->kind, ==, CW_GLUE_WET);
      g_assert_cmpint (glue->face, ==, CW_FACE_FRONT);
      for (guint k = 0; k < glue->area.n_vertices; k++)
        most = MAX (most, glue->area.vertices[k].at.x.ticks);
      g_assert_cmpint (most, ==, IN (5 + i));
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/make/make-across/flat", test_flat);
  g_test_add_func ("/make/make-across/flipped-corner", test_flipped_corner);
  g_test_add_func ("/make/make-across/closed", test_closed);
  g_test_add_func ("/make/make-across/glue", test_glue);
  return g_test_run ();
}
