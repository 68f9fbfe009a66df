/* test-mark-measures.c: the numbers under the measure entries.
 *
 * Checked against hand arithmetic on a 10 x 7 inch sheet: turned a quarter clockwise, the old bottom edge lies on the
 * left, so "from the left" is 7 in less the old distance from the top; other side up, left and right change places (the
 * sheet is turned about its upright). Law: changing a measure to what it is already changes nothing, in every lie.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-design-json.h"
#include "text/cw-mark-measures.h"

#define IN CW_TICKS_PER_INCH

static CwPlace
place (double x, double y)
{
  return cw_place_from_point (cw_point ((gint32) (x * IN), (gint32) (y * IN)), CW_UNIT_INCH);
}

static CwPiece *
sheet (void)
{
  CwPiece *piece = cw_piece_new ();

  piece->id = g_strdup ("base");
  cw_path_append (&piece->outline, place (0, 0), FALSE);
  cw_path_append (&piece->outline, place (10, 0), FALSE);
  cw_path_append (&piece->outline, place (10, 7), FALSE);
  cw_path_append (&piece->outline, place (0, 7), FALSE);
  return piece;
}

static CwMark *
line (double x0, double y0, double x1, double y1)
{
  CwMark *mark = cw_mark_new ();

  mark->id = g_strdup ("m");
  cw_path_append (&mark->line, place (x0, y0), FALSE);
  cw_path_append (&mark->line, place (x1, y1), FALSE);
  return mark;
}

static void
assert_measures (CwLie lie, const CwMark *mark, guint n, const double *inches)
{
  g_autoptr (CwPiece) piece = sheet ();
  CwMarkMeasure m[CW_MARK_MEASURES_MAX];

  g_assert_cmpuint (cw_mark_measures (piece, lie, FALSE, mark, m), ==, n);
  for (guint i = 0; i < n; i++)
    g_assert_cmpint (m[i].ticks, ==, (gint32) (inches[i] * IN));
}

static void
test_upright (void)
{
  g_autoptr (CwMark) mark = line (3, 6, 3, 1);

  assert_measures ((CwLie){ 0, FALSE }, mark, 3, (double[]){ 3, 1, 6 });
  /* a quarter clockwise: the top edge goes to the right, so the mark is level, 3 in below the new top */
  assert_measures ((CwLie){ 1, FALSE }, mark, 3, (double[]){ 3, 1, 6 });
  assert_measures ((CwLie){ 2, FALSE }, mark, 3, (double[]){ 7, 1, 6 });
  assert_measures ((CwLie){ 0, TRUE }, mark, 3, (double[]){ 7, 1, 6 });
}

static void
test_other_shapes (void)
{
  g_autoptr (CwMark) slanted = line (1, 2, 3.5, 4.25), circle = cw_mark_new (), bent = line (1, 1, 2, 1);
  g_autoptr (CwMark) rect = line (8, 5, 6, 4);

  assert_measures ((CwLie){ 0, FALSE }, slanted, 4, (double[]){ 1, 2, 3.5, 4.25 });
  rect->kind = CW_MARK_WINDOW;
  rect->shape = CW_SHAPE_RECT;
  assert_measures ((CwLie){ 0, FALSE }, rect, 4, (double[]){ 6, 8, 4, 5 });
  circle->kind = CW_MARK_WINDOW;
  circle->shape = CW_SHAPE_CIRCLE;
  circle->centre = place (4, 3);
  circle->radius = cw_length_from_ticks (IN / 2, CW_UNIT_INCH);
  assert_measures ((CwLie){ 0, FALSE }, circle, 3, (double[]){ 4, 3, 0.5 });
  cw_path_append (&bent->line, place (2, 3), FALSE);
  assert_measures ((CwLie){ 0, FALSE }, bent, 0, NULL);
}

/* From the right and the bottom edge of a sheet 10 in wide and 7 in high. */
static void
test_other_edge (void)
{
  g_autoptr (CwPiece) piece = sheet ();
  g_autoptr (CwMark) upright = line (3, 6, 3, 1), rect = line (8, 5, 6, 4);
  CwMarkMeasure m[CW_MARK_MEASURES_MAX];
  const double of_line[] = { 7, 1, 6 }, of_rect[] = { 4, 2, 3, 2 };

  g_assert_cmpuint (cw_mark_measures (piece, (CwLie){ 0 }, TRUE, upright, m), ==, 3);
  for (guint i = 0; i < 3; i++)
    g_assert_cmpint (m[i].ticks, ==, (gint32) (of_line[i] * IN));
  g_autoptr (CwMark) moved
    = cw_mark_with_measure (piece, (CwLie){ 0 }, upright, &m[0], cw_length_from_ticks (13 * IN / 2, CW_UNIT_INCH));
  g_assert_cmpint (moved->line.vertices[0].at.x.ticks, ==, 7 * IN / 2);
  g_assert_cmpint (moved->line.vertices[1].at.x.ticks, ==, 7 * IN / 2);
  rect->kind = CW_MARK_WINDOW;
  rect->shape = CW_SHAPE_RECT;
  g_assert_cmpuint (cw_mark_measures (piece, (CwLie){ 0 }, TRUE, rect, m), ==, 4);
  for (guint i = 0; i < 4; i++)
    g_assert_cmpint (m[i].ticks, ==, (gint32) (of_rect[i] * IN));
}

static gboolean
same_place (const CwPlace *a, const CwPlace *b)
{
  return a->x.ticks == b->x.ticks && a->y.ticks == b->y.ticks && a->x.unit == b->x.unit && a->y.unit == b->y.unit
         && g_strcmp0 (a->x.text, b->x.text) == 0 && g_strcmp0 (a->y.text, b->y.text) == 0;
}

static void
test_change (void)
{
  g_autoptr (CwPiece) piece = sheet ();
  const CwMark *marks[] = { line (3, 1, 3, 6), line (1, 2, 5, 2), line (1, 2, 3.5, 4.25) };

  for (guint k = 0; k < G_N_ELEMENTS (marks); k++)
    for (guint turn = 0; turn < 16; turn++)
      {
        gboolean far = turn >= 8;
        CwLie lie = { turn % 4, turn % 8 >= 4 };
        CwMarkMeasure m[CW_MARK_MEASURES_MAX];
        guint n = cw_mark_measures (piece, lie, far, marks[k], m);

        for (guint i = 0; i < n; i++)
          {
            g_autoptr (CwMark) same = cw_mark_with_measure (piece, lie, marks[k], &m[i], m[i].length);
            CwLength value = cw_length_from_ticks (m[i].ticks + IN / 16, CW_UNIT_INCH);
            g_autoptr (CwMark) moved = cw_mark_with_measure (piece, lie, marks[k], &m[i], value);
            CwMarkMeasure after[CW_MARK_MEASURES_MAX];

            for (guint v = 0; v < 2; v++)
              g_assert_true (same_place (&same->line.vertices[v].at, &marks[k]->line.vertices[v].at));
            g_assert_cmpuint (cw_mark_measures (piece, lie, far, moved, after), ==, n);
            for (guint j = 0; j < n; j++)
              g_assert_cmpint (after[j].ticks, ==, m[j].ticks + (j == i ? IN / 16 : 0));
          }
      }
  for (guint k = 0; k < G_N_ELEMENTS (marks); k++)
    cw_mark_unref ((CwMark *) marks[k]);
}

/* A length that is no whole tick keeps what the maker wrote where it is read from the piece's own edge. */
static void
test_keeps_text (void)
{
  g_autoptr (CwPiece) piece = sheet ();
  g_autoptr (CwMark) mark = line (3, 0, 3, 7), made = NULL;
  CwMarkMeasure m[CW_MARK_MEASURES_MAX];
  CwLength third;

  g_assert_true (cw_length_parse ("11/3 in", CW_UNIT_INCH, &third, NULL));
  cw_mark_measures (piece, (CwLie){ 0, FALSE }, FALSE, mark, m);
  made = cw_mark_with_measure (piece, (CwLie){ 0, FALSE }, mark, &m[0], third);
  g_assert_cmpstr (made->line.vertices[0].at.x.text, ==, third.text);
  g_assert_nonnull (third.text);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/text/mark-measures/other-edge", test_other_edge);
  g_test_add_func ("/text/mark-measures/upright-line-in-every-lie", test_upright);
  g_test_add_func ("/text/mark-measures/slanted-rectangle-circle-bent", test_other_shapes);
  g_test_add_func ("/text/mark-measures/change-one-and-no-other", test_change);
  g_test_add_func ("/text/mark-measures/keeps-the-text-as-typed", test_keeps_text);
  return g_test_run ();
}
