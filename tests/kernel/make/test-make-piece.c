/* test-make-piece.c: pieces sized and rounded, papers, wishes; pictures, greetings, glue and names on a face.
 *
 * Outside source: the middle of a quarter circle of radius r lies r (1 - sqrt 1/2) from both sides it touches
 * (Pythagoras); the rest is plain arithmetic.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "make-test.h"
#include "make/cw-make-area.h"
#include "make/cw-make-piece.h"

#include <math.h>

static const char *const spine[] = { "score 5", NULL };

static CwMakeSize
size_of (double width, double height, double radius)
{
  return (CwMakeSize){ cw_length_from_ticks (IN (width), CW_UNIT_INCH),
                       cw_length_from_ticks (IN (height), CW_UNIT_INCH),
                       cw_length_from_ticks (IN (radius), CW_UNIT_INCH) };
}

static void
test_size (void)
{
  g_autoptr (CwDesign) design = sheet (10, 7, spine);
  g_autoptr (GError) error = NULL;
  CwMakeSize size, wanted = size_of (11, 8, 0.5);

  g_assert_true (cw_make_get_size (cw_design_get_piece (design, "base"), &size));
  g_assert_cmpint (size.width.ticks, ==, IN (10));
  g_assert_cmpint (size.radius.ticks, ==, 0);
  do_edit (&design, cw_make_set_size (design, "base", &wanted, &error));
  g_assert_no_error (error);
  const CwPiece *base = cw_design_get_piece (design, "base");
  g_assert_true (cw_make_get_size (base, &size));
  g_assert_cmpint (size.width.ticks, ==, IN (11));
  g_assert_cmpint (size.height.ticks, ==, IN (8));
  g_assert_cmpint (size.radius.ticks, ==, IN (0.5));
  g_assert_true (base->outline.vertices[1].through);
  CwPoint on = cw_place_get_point (&base->outline.vertices[1].at);
  g_assert_cmpfloat (fabs (hypot (IN (0.5) - on.x, IN (0.5) - on.y) - IN (0.5)), <=, 1);
  /* The spine ended on the bottom edge and still does; it stays 5 inches from the left. */
  assert_point (vertex_of (mark_at (design, 0), 0), IN (5), 0);
  assert_point (vertex_of (mark_at (design, 0), 1), IN (5), IN (8));

  wanted = size_of (4, 2, 1.25);
  assert_refused (cw_make_set_size (design, "base", &wanted, &error), &error);
  wanted = size_of (0, 2, 0);
  assert_refused (cw_make_set_size (design, "base", &wanted, &error), &error);
  wanted = size_of (4, 2, 1); /* both ends half round */
  do_edit (&design, cw_make_add_piece (design, &wanted, &error));
  g_assert_cmpuint (design->pieces->len, ==, 2);
  g_assert_true (cw_make_get_size (design->pieces->pdata[1], &size));
  g_assert_cmpint (size.radius.ticks, ==, IN (1));
}

static void
test_add_and_stick (void)
{
  g_autoptr (CwDesign) design = sheet (10, 7, spine);
  g_autoptr (GError) error = NULL;
  CwMakeSize size = cw_make_usual_size (design);

  /* Half of 10 and of 7. */
  g_assert_cmpint (size.width.ticks, ==, IN (5));
  g_assert_cmpint (size.height.ticks, ==, IN (3.5));
  g_assert_cmpint (size.radius.ticks, ==, 0);
  size = size_of (2, 1, 0);
  do_edit (&design, cw_make_add_piece (design, &size, &error));
  g_assert_true (cw_make_is_loose (design, "piece"));
  g_assert_false (cw_make_is_loose (design, "base"));
  do_edit (&design, cw_make_stick_piece (design, "piece", "base", 1, CW_FACE_FRONT, &error));
  g_assert_false (cw_make_is_loose (design, "piece"));
  /* In the middle of the right half: 7 1/2 - 1 across, 3 1/2 - 1/2 down. */
  assert_point (cw_place_get_point (&cw_design_get_step (design, "stick-piece")->at), IN (6.5), IN (3));
  g_assert_cmpuint (design->glue->len, ==, 1);
  assert_refused (cw_make_stick_piece (design, "piece", "base", 0, CW_FACE_FRONT, &error), &error);
  do_edit (&design, cw_make_rename_piece (design, "piece", "Harbour sign"));
  g_assert_cmpstr (cw_design_get_piece (design, "piece")->name, ==, "Harbour sign");
  do_edit (&design, cw_make_set_shows (design, "piece", CW_SHOWS_BACK));
  g_assert_cmpint (cw_design_get_piece (design, "piece")->shows, ==, CW_SHOWS_BACK);
}

static void
test_papers (void)
{
  g_autoptr (CwDesign) design = sheet (10, 7, spine);

  do_edit (&design, cw_make_add_paper (design, "base"));
  g_assert_cmpuint (design->papers->len, ==, 2);
  g_assert_cmpstr (cw_design_get_piece (design, "base")->paper, ==, "paper");
  CwPaper *paper = cw_paper_copy (cw_design_get_paper (design, "paper"));
  g_free (paper->weight);
  paper->weight = g_strdup ("160 g/m2");
  do_edit (&design, cw_make_change_paper (design, paper));
  g_assert_cmpstr (cw_design_get_paper (design, "paper")->weight, ==, "160 g/m2");
  g_assert_null (cw_design_get_paper (design, "card")->weight);
  do_edit (&design, cw_make_set_paper (design, "base", "card"));
  g_assert_cmpstr (cw_design_get_piece (design, "base")->paper, ==, "card");
}

static void
test_wishes (void)
{
  g_autoptr (CwDesign) design = sheet (10, 7, spine);
  g_autoptr (GError) error = NULL;
  CwLength w = cw_length_from_ticks (IN (5), CW_UNIT_INCH), h = cw_length_from_ticks (IN (7), CW_UNIT_INCH);

  g_assert_cmpint (cw_make_get_wish (design, "base", 0, "closed"), ==, CW_WISH_NOTHING);
  for (guint wish = CW_WISH_SHOWN_BACK + 1; wish-- > 0;)
    {
      do_edit (&design, cw_make_set_wish (design, "base", 0, "closed", (CwMakeWish) wish, &error));
      g_assert_cmpint (cw_make_get_wish (design, "base", 0, "closed"), ==, wish);
      g_assert_cmpint (cw_make_get_wish (design, "base", 1, "closed"), ==, CW_WISH_NOTHING);
      g_assert_cmpint (cw_make_get_wish (design, "base", 0, "open"), ==, CW_WISH_NOTHING);
      /* Hidden is wanted from both sides; a wish replaces the one before. */
      g_assert_cmpuint (design->head->wants.hidden->len, ==, wish == CW_WISH_HIDDEN ? 2 : 0);
      g_assert_cmpuint (design->head->wants.shown->len, ==, wish >= CW_WISH_SHOWN_FRONT ? 1 : 0);
    }
  assert_refused (cw_make_set_wish (design, "base", 0, "standing", CW_WISH_HIDDEN, &error), &error);
  do_edit (&design, cw_make_set_closed_size (design, &w, &h));
  g_assert_true (design->head->wants.has_size);
  do_edit (&design, cw_make_set_envelope (design, &w, &h));
  g_assert_cmpint (design->head->wants.envelope[1].ticks, ==, IN (7));
  do_edit (&design, cw_make_set_envelope (design, NULL, NULL));
  g_assert_false (design->head->wants.has_envelope);
}

static void
test_areas (void)
{
  g_autoptr (CwDesign) design = sheet (10, 7, spine);
  g_autoptr (CwMark) drawn = rectangle (6, 1, 8, 3);
  g_autoptr (CwMark) moved = rectangle (7, 1, 9, 3);
  g_autoptr (CwMark) off = rectangle (9, 1, 11, 3);
  g_autoptr (CwMark) flat = rectangle (6, 1, 8, 1);
  g_autoptr (GError) error = NULL;

  do_edit (&design, cw_make_add_art (design, "base", CW_FACE_FRONT, drawn, "Good tidings", &error));
  const CwArt *art = cw_design_get_piece (design, "base")->art->pdata[0];
  g_assert_cmpstr (art->label, ==, "Good tidings");
  assert_point (cw_place_get_point (&art->box[1]), IN (8), IN (3));
  g_autoptr (CwMark) outline = cw_make_outline_of_art (art);
  assert_point (vertex_of (outline, 0), IN (6), IN (1));
  do_edit (&design, cw_make_redraw_art (design, "base", 0, moved, &error));
  do_edit (&design, cw_make_change_art (design, "base", 0, "", 450));
  art = cw_design_get_piece (design, "base")->art->pdata[0];
  g_assert_null (art->label);
  g_assert_cmpfloat (fabs (art->up - 90), <, 1e-9);
  assert_point (cw_place_get_point (&art->box[0]), IN (7), IN (1));

  do_edit (&design, cw_make_draw_glue (design, "base", CW_FACE_BACK, CW_GLUE_TAPE, drawn, &error));
  const CwGlue *glue = design->glue->pdata[0];
  g_assert_cmpint (glue->face, ==, CW_FACE_BACK);
  g_assert_cmpuint (glue->area.n_vertices, ==, 4);
  do_edit (&design, cw_make_change_glue (design, 0, CW_GLUE_FOAM));
  glue = design->glue->pdata[0];
  g_assert_true (glue->has_height && glue->height.ticks > 0);
  do_edit (&design, cw_make_redraw_glue (design, 0, moved, &error));
  do_edit (&design, cw_make_change_glue (design, 0, CW_GLUE_WET));
  glue = design->glue->pdata[0];
  g_assert_false (glue->has_height);
  g_autoptr (CwMark) zone = cw_make_outline_of_glue (glue);
  assert_point (vertex_of (zone, 0), IN (7), IN (1));

  assert_refused (cw_make_add_art (design, "base", CW_FACE_FRONT, off, NULL, &error), &error);
  assert_refused (cw_make_add_art (design, "base", CW_FACE_FRONT, flat, NULL, &error), &error);
  assert_refused (cw_make_draw_glue (design, "base", CW_FACE_FRONT, CW_GLUE_WET, off, &error), &error);
  assert_refused (cw_make_redraw_glue (design, 0, flat, &error), &error);
}

static void
test_names (void)
{
  g_autoptr (CwDesign) design = sheet (10, 7, spine);

  do_edit (&design, cw_make_name_panel (design, "base", 1, "inside back"));
  do_edit (&design, cw_make_name_panel (design, "base", 1, "writing side"));
  const CwPiece *base = cw_design_get_piece (design, "base");
  g_assert_cmpuint (base->names->len, ==, 1);
  g_assert_cmpstr (((const CwName *) base->names->pdata[0])->name, ==, "writing side");
  g_assert_null (cw_make_name_panel (design, "base", 0, NULL));
  do_edit (&design, cw_make_name_panel (design, "base", 1, ""));
  g_assert_cmpuint (cw_design_get_piece (design, "base")->names->len, ==, 0);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/make/make-piece/size-and-corners", test_size);
  g_test_add_func ("/make/make-piece/added-and-stuck-on", test_add_and_stick);
  g_test_add_func ("/make/make-piece/papers", test_papers);
  g_test_add_func ("/make/make-piece/wishes", test_wishes);
  g_test_add_func ("/make/make-piece/areas-on-a-face", test_areas);
  g_test_add_func ("/make/make-piece/names", test_names);
  return g_test_run ();
}
