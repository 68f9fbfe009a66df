/* test-measure-line.c: what a maker writes becomes marks, and marks are said in words that read back.
 *
 * The expected places are worked by hand from the measures in the line; no outside source exists for a language of our
 * own. Turning by quarters is checked against four quarter turns being none, and flipping twice being none.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "text/cw-measure-line.h"

#include <string.h>

/* As in test-length.c: GLib's table of interned strings counts as a leak when it grows. */
#if defined(__SANITIZE_ADDRESS__)
#define STRIDE 16
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define STRIDE 16
#endif
#endif
#ifndef STRIDE
#define STRIDE 1
#endif

#define IN(n) ((gint32) ((n) *64) * 127) /* n in whole 64ths of an inch */

static CwDesign *
make_design (CwUnit unit)
{
  CwDesign *design = cw_design_new ();

  if (!design->head)
    design->head = cw_head_new ();
  design->head->unit = unit;
  return design;
}

static CwPiece *
make_piece (const CwPoint *corners, guint n_corners)
{
  CwPiece *piece = cw_piece_new ();

  for (guint i = 0; i < n_corners; i++)
    cw_path_append (&piece->outline, cw_place_from_point (corners[i], CW_UNIT_INCH), FALSE);
  return piece;
}

/* 8 1/2 wide, 5 1/2 high */
static CwPiece *
make_sheet (void)
{
  const CwPoint corners[] = { { 0, 0 }, { IN (8.5), 0 }, { IN (8.5), IN (5.5) }, { 0, IN (5.5) } };

  return make_piece (corners, 4);
}

/* Marks in a form that is easy to compare: "score toward 0,0 1,1; ..." in 64ths of an inch. */
static char *
say (GPtrArray *marks)
{
  static const char *const ways[] = { "toward", "away", "none" };
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < marks->len; i++)
    {
      const CwMark *mark = marks->pdata[i];

      g_string_append_printf (text, "%s%s", i ? "; " : "", cw_mark_kind_get_key (mark->kind));
      if (mark->kind == CW_MARK_SCORE)
        g_string_append_printf (text, " %s%s", ways[mark->fold], mark->made == CW_MADE_PRESS ? " press" : "");
      if (mark->shape == CW_SHAPE_CIRCLE)
        g_string_append_printf (text, " round %d,%d %d", mark->centre.x.ticks / 127, mark->centre.y.ticks / 127,
                                mark->radius.ticks / 127);
      for (guint k = 0; mark->shape != CW_SHAPE_CIRCLE && k < mark->line.n_vertices; k++)
        g_string_append_printf (text, " %d,%d", mark->line.vertices[k].at.x.ticks / 127,
                                mark->line.vertices[k].at.y.ticks / 127);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

typedef struct
{
  const char *line;
  const char *marks;
} Case;

static void
run_cases (const Case *cases, guint n_cases, const CwPiece *piece, CwUnit unit, CwLie lie)
{
  g_autoptr (CwDesign) design = make_design (unit);

  for (guint i = 0; i < n_cases; i++)
    {
      g_autoptr (GError) error = NULL;

      g_test_message ("%s", cases[i].line);
      g_autoptr (GPtrArray) marks = cw_measure_line_parse (cases[i].line, design, piece, lie, &error);
      g_assert_no_error (error);
      g_autofree char *text = say (marks);
      g_assert_cmpstr (text, ==, cases[i].marks);
    }
}

static void
test_forms (void)
{
  /* 8 1/2 in = 544, 5 1/2 in = 352, 3 1/2 in = 224 sixty-fourths. */
  static const Case cases[] = {
    { "score 3 1/2", "score toward 224,0 224,352" },
    { "Scores 3½\"", "score toward 224,0 224,352" },
    { "fold at 3 1/2 in.", "score toward 224,0 224,352" },
    { "score 3 1/2 across", "score toward 224,0 224,352" },
    { "score 3 1/2 along", "score toward 0,224 544,224" },
    { "score the middle", "score toward 272,0 272,352" },
    { "cut 2 from 1 3/4 to 5 1/8", "cut 128,112 128,328" },
    { "slit @ 2 between 1 3/4 and 5 1/8", "cut 128,112 128,328" },
    { "cut 2 from 1 3/4", "cut 128,112 128,352" },
    { "cut 2 to 1 3/4", "cut 128,0 128,112" },
    { "cut 2 from 5 1/8 to 1 3/4", "cut 128,328 128,112" },
    { "cut 2 along from 1 3/4 to 5 1/8", "cut 112,128 328,128" },
    { "CUT ALONG 2 FROM 1 3/4 TO 5 1/8", "cut 112,128 328,128" },
    { "score 2 1/8, 6 3/8", "score toward 136,0 136,352; score toward 408,0 408,352" },
    { "score 2 1/8,6 3/8", "score toward 136,0 136,352; score toward 408,0 408,352" },
    { "score 2 1/8 and 6 3/8", "score toward 136,0 136,352; score toward 408,0 408,352" },
    { "score 2 1/8, 4, and 5 3/8 along the long side",
      "score toward 0,136 544,136; score toward 0,256 544,256; score toward 0,344 544,344" },
    { "score 2 1/8, 6 3/8 along the short side", "score toward 136,0 136,352; score toward 408,0 408,352" },
    { "score 2 lengthwise", "score toward 0,128 544,128" },
    { "score from 1, 2 to 3 1/2, 5", "score toward 64,128 224,320" },
    { "score from (1, 2) to (3 1/2, 5)", "score toward 64,128 224,320" },
    { "cut from 1 1/4, 1 to 3 1/4, 1 to 3 1/4, 3", "cut 80,64 208,64 208,192" },
    { "score away 3 1/2", "score away 224,0 224,352" },
    { "score 3 1/2 toward", "score toward 224,0 224,352" },
    { "score 3 1/2 away from me", "score away 224,0 224,352" },
    { "score 3 1/2, not folded", "score none 224,0 224,352" },
    { "press from 1, 2 to 3, 4 away", "score away press 64,128 192,256" },
    { "score 2 by hand", "score toward press 128,0 128,352" },
    { "score 2 from the right", "score toward 416,0 416,352" },
    { "score 2 from the left edge", "score toward 128,0 128,352" },
    { "score 2 from the bottom", "score toward 0,224 544,224" },
    { "cut 2 from the right from 1 to 4", "cut 416,64 416,256" },
    { "window 1 by 2 at 3, 3", "window 192,192 256,320" },
    { "window 1 x 2 at 3,  3", "window 192,192 256,320" },
    { "window 1 × 2 centred at 3, 3", "window 160,128 224,256" },
    { "window square 1 at 3, 3", "window 192,192 256,256" },
    { "window 1 by 2 at 3, 3 from the right", "window 288,192 352,320" },
    { "window round 3/4 at 2, 2", "window round 128,128 24" },
    { "round window radius 3/4 at 2, 2", "window round 128,128 48" },
    { "cut a hole 1 by 1 at 2, 2", "window 128,128 192,192" },
    { "score 1/64", "score toward 1,0 1,352" },
  };
  g_autoptr (CwPiece) piece = make_sheet ();

  run_cases (cases, G_N_ELEMENTS (cases), piece, CW_UNIT_INCH, (CwLie){ 0 });
}

static void
test_units (void)
{
  /* 50.8 mm = 2 in = 128 sixty-fourths; 25.4 mm = 1 in */
  static const Case inch[] = { { "score 50.8, 101.6 mm", "score toward 128,0 128,352; score toward 256,0 256,352" },
                               { "cut 2 from 25.4 mm to 5.08 cm", "cut 128,64 128,128" } };
  static const Case mm[]
    = { { "score 50.8", "score toward 128,0 128,352" }, { "score 2 in", "score toward 128,0 128,352" } };
  g_autoptr (CwPiece) piece = make_sheet ();

  run_cases (inch, G_N_ELEMENTS (inch), piece, CW_UNIT_INCH, (CwLie){ 0 });
  run_cases (mm, G_N_ELEMENTS (mm), piece, CW_UNIT_MM, (CwLie){ 0 });
}

static void
test_lies (void)
{
  g_autoptr (CwPiece) piece = make_sheet ();
  /* One quarter clockwise: the piece is 5 1/2 wide and 8 1/2 high, its left edge lies on top. So a line across, at x =
   * 1 from the guide, is at y = 5 1/2 - 1 of the piece and runs from its left to its right. */
  static const Case quarter[] = { { "score 1", "score toward 0,288 544,288" },
                                  { "score 1 along", "score toward 64,352 64,0" },
                                  { "score from 1, 2 to 3, 5", "score toward 128,288 320,160" } };
  static const Case half[] = { { "score 1", "score toward 480,352 480,0" } };
  static const Case three[] = { { "score 1", "score toward 544,64 0,64" } };
  /* Turned over like a page: left is right; toward the maker is away as seen with the front up. */
  static const Case over[] = { { "score 1 toward", "score away 480,0 480,352" },
                               { "score 1 away", "score toward 480,0 480,352" },
                               { "window 1 by 2 at 3, 3", "window 352,192 288,320" } };
  static const Case over_quarter[] = { { "score 1", "score toward 544,288 0,288" } };

  run_cases (quarter, G_N_ELEMENTS (quarter), piece, CW_UNIT_INCH, (CwLie){ 1, FALSE });
  run_cases (half, G_N_ELEMENTS (half), piece, CW_UNIT_INCH, (CwLie){ 2, FALSE });
  run_cases (three, G_N_ELEMENTS (three), piece, CW_UNIT_INCH, (CwLie){ 3, FALSE });
  run_cases (over, G_N_ELEMENTS (over), piece, CW_UNIT_INCH, (CwLie){ 0, TRUE });
  run_cases (over_quarter, G_N_ELEMENTS (over_quarter), piece, CW_UNIT_INCH, (CwLie){ 1, TRUE });
}

static void
test_outline (void)
{
  /* A sheet with a notch from the top, 2 to 4 wide and 3 deep, and a slanted right side from (8, 0) to (6, 4). */
  const CwPoint corners[] = { { 0, 0 },      { IN (2), 0 }, { IN (2), IN (3) }, { IN (4), IN (3) },
                              { IN (4), 0 }, { IN (8), 0 }, { IN (6), IN (4) }, { 0, IN (4) } };
  static const Case cases[] = {
    { "score 3", "score toward 192,192 192,256" },
    { "score 1", "score toward 64,0 64,256" },
    { "score 2 along", "score toward 0,128 128,128; score toward 256,128 448,128" },
    { "score 7", "score toward 448,0 448,128" },
  };
  g_autoptr (CwPiece) piece = make_piece (corners, G_N_ELEMENTS (corners));

  run_cases (cases, G_N_ELEMENTS (cases), piece, CW_UNIT_INCH, (CwLie){ 0 });

  /* The same piece away from its origin: measures are read from its own edges. */
  for (guint i = 0; i < piece->outline.n_vertices; i++)
    {
      CwVertex *v = &piece->outline.vertices[i];
      v->at = cw_place_from_point (cw_point (v->at.x.ticks + 64 * 127, v->at.y.ticks - 32 * 127), CW_UNIT_INCH);
    }
  static const Case moved[] = { { "score 3", "score toward 256,160 256,224" } };
  run_cases (moved, 1, piece, CW_UNIT_INCH, (CwLie){ 0 });
}

static void
test_refused (void)
{
  /* What is wrong, and a bit of the sentence that must be in the answer. */
  static const struct
  {
    const char *line, *says;
    int code;
  } cases[] = {
    { "", "score", CW_MEASURE_ERROR_SYNTAX },
    { "3 1/2", "say first what to do", CW_MEASURE_ERROR_SYNTAX },
    { "score", "say where", CW_MEASURE_ERROR_SYNTAX },
    { "score three", "three", CW_MEASURE_ERROR_SYNTAX },
    { "score 9", "9 in is off the piece: it is 8 1/2 in wide", CW_MEASURE_ERROR_RANGE },
    { "score 6 along", "6 in is off the piece: it is 5 1/2 in high", CW_MEASURE_ERROR_RANGE },
    { "score from 1, 2 to 3 1/2, 9", "9 in is off the piece: it is 5 1/2 in high", CW_MEASURE_ERROR_RANGE },
    { "score -1", "-1 in is off the piece", CW_MEASURE_ERROR_RANGE },
    { "score 0", "edge", CW_MEASURE_ERROR_RANGE },
    { "score 8 1/2", "edge", CW_MEASURE_ERROR_RANGE },
    { "cut 2 from 3 to 3", "no length", CW_MEASURE_ERROR_RANGE },
    { "cut 2 from 3 to 6", "6 in is off the piece", CW_MEASURE_ERROR_RANGE },
    { "score from 1, 2 to 1, 2", "same place", CW_MEASURE_ERROR_RANGE },
    { "score from 1 2 to 3 1/2 5", "1, 2", CW_MEASURE_ERROR_SYNTAX },
    { "score 2 3", "comma", CW_MEASURE_ERROR_SYNTAX },
    { "score from 1, 2", "ends", CW_MEASURE_ERROR_SYNTAX },
    { "score to 1, 2", "starts", CW_MEASURE_ERROR_SYNTAX },
    { "score from 1 to 2, 3", "slanted", CW_MEASURE_ERROR_SYNTAX },
    { "score 2 from 1, 2 to 3, 4", "slanted", CW_MEASURE_ERROR_SYNTAX },
    { "score 2 across along", "either across or along", CW_MEASURE_ERROR_SYNTAX },
    { "score 2 toward away", "either toward or away", CW_MEASURE_ERROR_SYNTAX },
    { "cut 2 toward", "only a score", CW_MEASURE_ERROR_SYNTAX },
    { "score 2 valley", "toward", CW_MEASURE_ERROR_SYNTAX }, /* refused word */
    { "Mountain fold 2", "away", CW_MEASURE_ERROR_SYNTAX },  /* refused word */
    { "score 2 across from the top", "left", CW_MEASURE_ERROR_RANGE },
    { "window 1 by 2", "at 3, 4", CW_MEASURE_ERROR_SYNTAX },
    { "window at 3, 4", "window 1 by 2", CW_MEASURE_ERROR_SYNTAX },
    { "window 1 by 3 at 3, 4", "off the piece", CW_MEASURE_ERROR_RANGE },
    { "window round 3 at 1, 2", "off the piece", CW_MEASURE_ERROR_RANGE },
    { "score 2 %", "%", CW_MEASURE_ERROR_SYNTAX },
    { "score 2 from", "too soon", CW_MEASURE_ERROR_SYNTAX },
  };
  g_autoptr (CwDesign) design = make_design (CW_UNIT_INCH);
  g_autoptr (CwPiece) piece = make_sheet ();

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;

      g_test_message ("%s", cases[i].line);
      g_assert_null (cw_measure_line_parse (cases[i].line, design, piece, (CwLie){ 0 }, &error));
      g_assert_error (error, CW_MEASURE_ERROR, cases[i].code);
      g_test_message ("%s", error->message);
      g_assert_nonnull (strstr (error->message, cases[i].says));
    }

  /* A list or a decimal? The reader of lengths asks. */
  g_autoptr (GError) error = NULL;
  g_assert_null (cw_measure_line_parse ("score 2,6", design, piece, (CwLie){ 0 }, &error));
  g_assert_error (error, CW_LENGTH_ERROR, CW_LENGTH_ERROR_SYNTAX);
  g_clear_error (&error);

  /* A square piece has no long side. */
  const CwPoint corners[] = { { 0, 0 }, { IN (5), 0 }, { IN (5), IN (5) }, { 0, IN (5) } };
  g_autoptr (CwPiece) square = make_piece (corners, 4);
  g_assert_null (cw_measure_line_parse ("score 2 along the long side", design, square, (CwLie){ 0 }, &error));
  g_assert_error (error, CW_MEASURE_ERROR, CW_MEASURE_ERROR_RANGE);
}

static void
test_says_way (void)
{
  g_assert_true (cw_measure_line_says_way ("score 2 toward"));
  g_assert_true (cw_measure_line_says_way ("score away 2"));
  g_assert_true (cw_measure_line_says_way ("score 2, not folded"));
  g_assert_false (cw_measure_line_says_way ("score 2"));
  g_assert_false (cw_measure_line_says_way ("nonsense away"));
}

static CwLength
random_length (gint32 low, gint32 high)
{
  static const gint32 steps[] = { 508, 127, 32, 1 };
  gint32 step = steps[g_test_rand_int_range (0, 4)];
  gint32 ticks = g_test_rand_int_range (low, high) / step * step;

  return cw_length_from_ticks (CLAMP (ticks, low, high - 1), (CwUnit) g_test_rand_int_range (0, 3));
}

static CwMark *
random_mark (gint32 w, gint32 h)
{
  CwMark *mark = cw_mark_new ();

  mark->kind = (CwMarkKind) g_test_rand_int_range (0, 3);
  if (mark->kind == CW_MARK_SCORE)
    {
      mark->fold = (CwFoldWay) g_test_rand_int_range (0, 3);
      mark->made = (CwMade) g_test_rand_int_range (0, 2) * CW_MADE_PRESS;
    }
  if (mark->kind == CW_MARK_WINDOW && g_test_rand_bit ())
    {
      gint32 radius = g_test_rand_int_range (1, h / 4);
      mark->shape = CW_SHAPE_CIRCLE;
      mark->centre = (CwPlace){ random_length (radius, w - radius), random_length (radius, h - radius) };
      mark->radius = cw_length_from_ticks (radius, CW_UNIT_INCH);
      return mark;
    }
  if (mark->kind == CW_MARK_WINDOW)
    mark->shape = CW_SHAPE_RECT;
  guint n = mark->kind == CW_MARK_WINDOW ? 2 : (guint) g_test_rand_int_range (2, 5);
  for (guint i = 0; i < n; i++)
    cw_path_append (&mark->line, (CwPlace){ random_length (1, w), random_length (1, h) }, FALSE);
  CwVertex *v = mark->line.vertices;
  if (mark->kind != CW_MARK_WINDOW && n == 2 && g_test_rand_int_range (0, 3) > 0)
    {
      if (g_test_rand_bit ())
        v[1].at.x = v[0].at.x;
      else
        v[1].at.y = v[0].at.y;
    }
  if (n == 2 && v[0].at.x.ticks == v[1].at.x.ticks) /* one measure is said once, in one unit */
    v[1].at.x.unit = v[0].at.x.unit;
  for (guint i = 1; i < n; i++) /* corners on one place, and rectangles of no width, are no marks */
    {
      gboolean same_x = v[i].at.x.ticks == v[i - 1].at.x.ticks, same_y = v[i].at.y.ticks == v[i - 1].at.y.ticks;
      if ((same_x && same_y) || (mark->kind == CW_MARK_WINDOW && (same_x || same_y)))
        {
          cw_mark_unref (mark);
          return NULL;
        }
    }
  return mark;
}

static void
assert_same_mark (const CwMark *a, const CwMark *b)
{
  g_assert_cmpint (a->kind, ==, b->kind);
  g_assert_cmpint (a->shape, ==, b->shape);
  g_assert_cmpint (a->fold, ==, b->fold);
  g_assert_cmpint (a->made, ==, b->made);
  if (a->shape == CW_SHAPE_CIRCLE)
    {
      g_assert_true (cw_point_equal (cw_place_get_point (&a->centre), cw_place_get_point (&b->centre)));
      g_assert_cmpint (a->radius.ticks, ==, b->radius.ticks);
      return;
    }
  g_assert_cmpuint (a->line.n_vertices, ==, b->line.n_vertices);
  CwPoint p[2], q[2];
  for (guint i = 0; i < a->line.n_vertices; i++)
    {
      p[i % 2] = cw_place_get_point (&a->line.vertices[i].at);
      q[i % 2] = cw_place_get_point (&b->line.vertices[i].at);
      if (a->shape == CW_SHAPE_LINE)
        {
          g_assert_true (cw_point_equal (p[i % 2], q[i % 2]));
          g_assert_cmpint (a->line.vertices[i].at.x.unit, ==, b->line.vertices[i].at.x.unit);
        }
    }
  if (a->shape == CW_SHAPE_RECT) /* either pair of opposite corners says the same rectangle */
    {
      g_assert_cmpint (MIN (p[0].x, p[1].x), ==, MIN (q[0].x, q[1].x));
      g_assert_cmpint (MAX (p[0].x, p[1].x), ==, MAX (q[0].x, q[1].x));
      g_assert_cmpint (MIN (p[0].y, p[1].y), ==, MIN (q[0].y, q[1].y));
      g_assert_cmpint (MAX (p[0].y, p[1].y), ==, MAX (q[0].y, q[1].y));
    }
}

static void
test_law (void)
{
  g_autoptr (CwPiece) piece = make_sheet ();
  guint n_tried = 0;

  for (guint i = 0; i < 6000 / STRIDE; i++)
    {
      g_autoptr (CwDesign) design = make_design ((CwUnit) g_test_rand_int_range (0, 3));
      g_autoptr (CwMark) mark = random_mark (IN (8.5), IN (5.5));
      CwLie lie = { (guint) g_test_rand_int_range (0, 4), g_test_rand_bit () };
      g_autoptr (GError) error = NULL;

      if (!mark)
        continue;
      g_autofree char *text = cw_measure_line_describe (design, piece, mark, lie);
      g_autoptr (GPtrArray) back = cw_measure_line_parse (text, design, piece, lie, &error);
      if (error)
        g_test_message ("%s", text);
      g_assert_no_error (error);
      g_assert_cmpuint (back->len, ==, 1);
      assert_same_mark (mark, back->pdata[0]);
      n_tried++;
    }
  g_assert_cmpuint (n_tried, >, 4000 / STRIDE);
}

static void
test_describe (void)
{
  g_autoptr (CwDesign) design = make_design (CW_UNIT_INCH);
  g_autoptr (CwPiece) piece = make_sheet ();
  static const char *const lines[] = { "score 3 1/2 in across, from 0 in to 5 1/2 in, toward",
                                       "cut 2 in along, from 1 3/4 in to 5 1/8 in",
                                       "press from 1 in, 2 in to 3 1/2 in, 5 in, away",
                                       "score 8.3 in across, from 1/3 in to 5 1/2 in, not folded",
                                       "window 1 in by 2 in at 3 in, 3 in",
                                       "window round radius 3/8 in at 2 in, 2 in" };

  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (GPtrArray) marks = cw_measure_line_parse (lines[i], design, piece, (CwLie){ 0 }, &error);
      g_assert_no_error (error);
      g_autofree char *text = cw_measure_line_describe (design, piece, marks->pdata[0], (CwLie){ 0 });
      g_assert_cmpstr (text, ==, lines[i]);
    }
}

static void
test_turns (void)
{
  g_autoptr (CwPiece) piece = make_sheet ();

  for (guint i = 0; i < 200; i++)
    {
      CwPoint p = cw_point (g_test_rand_int_range (-99999, 99999), g_test_rand_int_range (-99999, 99999));

      for (guint turns = 0; turns < 4; turns++)
        for (guint flipped = 0; flipped < 2; flipped++)
          {
            CwLying lying = cw_lying_new (piece, (CwLie){ turns, flipped > 0 });
            g_assert_true (cw_point_equal (cw_lying_to_piece (&lying, cw_lying_from_piece (&lying, p)), p));
          }
      /* Two half turns, and a half turn by two quarters: point reflection in the middle of the box. */
      CwLying half = cw_lying_new (piece, (CwLie){ 2, FALSE });
      CwPoint q = cw_lying_from_piece (&half, p);
      g_assert_true (cw_point_equal (q, cw_point (IN (8.5) - p.x, IN (5.5) - p.y)));
    }
}

static void
test_random_text (void)
{
  static const char *const bits[]
    = { "score",          "cut",    "press",  "window", "round", "1",    "2 1/2", "3,4", ",",  "and",
        "from",           "to",     "across", "along",  "the",   "long", "side",  "at",  "by", "away",
        "from the right", "middle", "not",    "folded", "é",     "%",    "mm",    "(",   "-",  "between",
        "9999999" };
  g_autoptr (CwDesign) design = make_design (CW_UNIT_INCH);
  g_autoptr (CwPiece) piece = make_sheet ();
  guint n_read = 0;

  for (guint i = 0; i < 30000; i++)
    {
      g_autoptr (GString) text = g_string_new (i % 2 ? "score 2" : NULL);
      g_autoptr (GError) error = NULL;
      gint32 n_bits = g_test_rand_int_range (0, 9);

      for (gint32 k = 0; k < n_bits; k++)
        g_string_append_printf (text, " %s", bits[g_test_rand_int_range (0, G_N_ELEMENTS (bits))]);
      g_autoptr (GPtrArray) marks = cw_measure_line_parse (text->str, design, piece, (CwLie){ 1, TRUE }, &error);
      g_assert_true ((marks == NULL) == (error != NULL));
      n_read += marks ? 1 : 0;
    }
  g_assert_cmpuint (n_read, >, 100);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/text/measure-line/forms", test_forms);
  g_test_add_func ("/text/measure-line/units", test_units);
  g_test_add_func ("/text/measure-line/lies", test_lies);
  g_test_add_func ("/text/measure-line/outline", test_outline);
  g_test_add_func ("/text/measure-line/refused", test_refused);
  g_test_add_func ("/text/measure-line/says-way", test_says_way);
  g_test_add_func ("/text/measure-line/describe", test_describe);
  g_test_add_func ("/text/measure-line/describing-and-reading-are-inverse", test_law);
  g_test_add_func ("/text/measure-line/turning-and-back", test_turns);
  g_test_add_func ("/text/measure-line/random-text", test_random_text);
  return g_test_run ();
}
