/* test-trimmer.c: the moves of a design, made again on a blank sheet.
 *
 * The referee lays a sheet of paper on a table of its own: the edge named is put against a guide at the left (or the
 * right), the face named up; the line is drawn at the stop from start to stop; then the sheet is lifted and its lines
 * are read off in its own coordinates. It knows nothing of how the moves were found: the sheet is carried about as
 * four corner points.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "panel/cw-path-flatten.h"
#include "trim/cw-trimmer.h"

#include <math.h>

#define SEED 0x74726d32u

typedef struct
{
  gint64 x0, y0, x1, y1;
} Segment;

/* --- The referee. --- */

/* A place on the table, x right and y down from where guide and upper edge meet, to the sheet's own front coordinates.
 * Turn the sheet by quarters until the edge named lies where it should: a rotation is found by trying. */
static CwPoint
lift (const CwPiece *piece, const CwTools *tools, const CwMove *move, gint32 tx, gint32 ty)
{
  CwPoint low, high;

  cw_piece_get_box (piece, &low, &high);
  gint64 w = high.x - low.x, h = high.y - low.y;
  for (guint turn = 0; turn < 4; turn++)
    {
      /* Corners of the sheet as it lies: start with left top, right top, right bottom, left bottom of the face up. */
      gint64 cx[4] = { 0, w, w, 0 }, cy[4] = { 0, 0, h, h };
      gint64 px[4], py[4], least_x = G_MAXINT64, least_y = G_MAXINT64, most_x = G_MININT64;
      /* Which of the piece's sides runs from corner i to i + 1: front up left-top to right-top is the top. */
      static const CwSheetSide sides[2][4]
        = { { CW_SIDE_OF_SHEET_TOP, CW_SIDE_OF_SHEET_RIGHT, CW_SIDE_OF_SHEET_BOTTOM, CW_SIDE_OF_SHEET_LEFT },
            { CW_SIDE_OF_SHEET_TOP, CW_SIDE_OF_SHEET_LEFT, CW_SIDE_OF_SHEET_BOTTOM, CW_SIDE_OF_SHEET_RIGHT } };

      for (guint i = 0; i < 4; i++)
        {
          px[i] = cx[i];
          py[i] = cy[i];
          for (guint q = 0; q < turn; q++) /* clockwise, y down: (x, y) -> (-y, x) */
            {
              gint64 old = px[i];
              px[i] = -py[i];
              py[i] = old;
            }
          least_x = MIN (least_x, px[i]);
          least_y = MIN (least_y, py[i]);
          most_x = MAX (most_x, px[i]);
        }
      gint64 guide = tools->right_to_left ? most_x : least_x;
      gboolean laid = FALSE, topped = FALSE;
      for (guint i = 0; i < 4; i++)
        {
          guint k = (i + 1) % 4;
          if (px[i] == guide && px[k] == guide && sides[move->face_up][i] == move->against)
            laid = TRUE;
          if (py[i] == least_y && py[k] == least_y && sides[move->face_up][i] == move->read_from)
            topped = TRUE;
        }
      if (!laid)
        continue;
      g_assert_true (topped); /* the edge it says the blade's rule is read from is the one at its upper end */
      /* From the table back to the face: undo shift, undo turn, undo turning over. */
      gint64 x = tools->right_to_left ? most_x - tx : least_x + tx, y = least_y + ty;
      for (guint q = 0; q < turn; q++)
        {
          gint64 old = x;
          x = y;
          y = -old;
        }
      if (move->face_up == CW_FACE_BACK)
        x = w - x;
      return cw_point ((gint32) x + low.x, (gint32) y + low.y);
    }
  g_assert_not_reached ();
}

static Segment
segment (CwPoint a, CwPoint b)
{
  if (a.x > b.x || (a.x == b.x && a.y > b.y))
    {
      CwPoint swap = a;
      a = b;
      b = swap;
    }
  return (Segment){ a.x, a.y, b.x, b.y };
}

static Segment
replay (const CwDesign *design, const CwTools *tools, const CwTrimming *trimming, const CwMove *move)
{
  const CwPiece *piece = g_ptr_array_index (design->pieces, move->piece);
  CwPoint ends[2];

  for (guint k = 0; k < 2; k++)
    if (move->joins)
      {
        const CwMove *mark = &g_array_index (trimming->moves, CwMove, move->marks[k]);

        g_assert_cmpint (mark->does, ==, CW_MOVE_MARK);
        g_assert_true (mark < move); /* it is there before it is joined */
        g_assert_cmpuint (mark->piece, ==, move->piece);
        g_assert_cmpint (mark->face_up, ==, move->face_up);
        ends[k] = lift (piece, tools, mark, mark->at.ticks, mark->from.ticks);
      }
    else
      ends[k] = lift (piece, tools, move, move->at.ticks, k == 0 ? move->from.ticks : move->to.ticks);
  /* What pages and window draw is the same line. */
  CwPoint a, b;
  cw_trimming_get_ends (trimming, design, (guint) (move - &g_array_index (trimming->moves, CwMove, 0)), &a, &b);
  g_assert_true (cw_point_equal (a, ends[0]) && cw_point_equal (b, ends[1]));
  return segment (ends[0], ends[1]);
}

/* --- What is wanted: the design's own straight segments. --- */

static gint
compare_segments (gconstpointer a, gconstpointer b)
{
  const gint64 *x = a, *y = b;

  for (guint i = 0; i < 4; i++)
    if (x[i] != y[i])
      return x[i] < y[i] ? -1 : 1;
  return 0;
}

static void
want_path (GArray *wanted, const CwPath *path, gboolean closed)
{
  for (guint i = 0; i + (closed ? 0 : 1) < path->n_vertices; i++)
    {
      const CwVertex *v = &path->vertices[i], *next = &path->vertices[(i + 1) % path->n_vertices];
      Segment s = segment (cw_place_get_point (&v->at), cw_place_get_point (&next->at));

      if (!v->through && !next->through && (s.x0 != s.x1 || s.y0 != s.y1))
        g_array_append_val (wanted, s);
    }
}

static void
want_piece (GArray *wanted, const CwPiece *piece)
{
  for (guint i = 0; i < piece->marks->len; i++)
    {
      const CwMark *mark = g_ptr_array_index (piece->marks, i);

      if (mark->kind == CW_MARK_SCORE && cw_piece_is_pressed (piece, mark))
        continue;
      if (mark->shape == CW_SHAPE_RECT)
        {
          CwPoint a = cw_place_get_point (&mark->line.vertices[0].at),
                  b = cw_place_get_point (&mark->line.vertices[1].at);
          const Segment four[4] = { segment (a, cw_point (b.x, a.y)), segment (cw_point (b.x, a.y), b),
                                    segment (b, cw_point (a.x, b.y)), segment (cw_point (a.x, b.y), a) };

          g_array_append_vals (wanted, four, 4);
        }
      else if (mark->shape == CW_SHAPE_LINE)
        want_path (wanted, &mark->line, mark->kind == CW_MARK_WINDOW);
    }
}

static void
check_design (CwDesign *design, const CwTools *tools)
{
  g_autoptr (CwTrimming) trimming = cw_trimming_new (design, tools);
  gboolean cut_done = FALSE;

  for (guint p = 0; p < design->pieces->len; p++)
    {
      const CwPiece *piece = g_ptr_array_index (design->pieces, p);
      g_autoptr (GArray) wanted = g_array_new (FALSE, FALSE, sizeof (Segment));
      g_autoptr (GArray) made = g_array_new (FALSE, FALSE, sizeof (Segment));
      guint faces = 0, last_face = G_MAXUINT;
      CwPoint low, high;

      cw_piece_get_box (piece, &low, &high);
      want_piece (wanted, piece);
      cut_done = FALSE;
      for (guint i = 0; i < trimming->moves->len; i++)
        {
          const CwMove *move = &g_array_index (trimming->moves, CwMove, i);
          const CwMark *mark;

          if (move->piece != p)
            continue;
          mark = move->mark == CW_MOVE_OUTLINE ? NULL : piece->marks->pdata[move->mark];
          if (move->does != CW_MOVE_MARK)
            {
              Segment s = replay (design, tools, trimming, move);

              if (move->mark != CW_MOVE_OUTLINE)
                g_array_append_val (made, s);
              else
                {
                  g_autoptr (GArray) outline = g_array_new (FALSE, FALSE, sizeof (Segment));
                  gboolean found = FALSE;

                  want_path (outline, &piece->outline, TRUE);
                  for (guint k = 0; k < outline->len; k++)
                    found |= compare_segments (&g_array_index (outline, Segment, k), &s) == 0;
                  g_assert_true (found);
                }
            }
          if (move->does == CW_MOVE_SCORE)
            {
              /* Scores before cuts; all of one face together; the dent outside: what folds toward is pressed from the
               * back. */
              g_assert_false (cut_done);
              if (move->face_up != last_face)
                g_assert_cmpuint (faces++, <, 2);
              last_face = move->face_up;
              if (mark->fold == CW_FOLD_TOWARD)
                g_assert_cmpint (move->face_up, ==, tools->one_face ? CW_FACE_FRONT : CW_FACE_BACK);
              if (mark->fold == CW_FOLD_AWAY)
                g_assert_cmpint (move->face_up, ==, CW_FACE_FRONT);
            }
          if (move->does == CW_MOVE_SLIT || move->does == CW_MOVE_CUT)
            cut_done = TRUE;
          if (!move->joins && move->does != CW_MOVE_MARK)
            {
              gint32 breadth = move->against % 2 == 0 ? high.x - low.x : high.y - low.y;

              /* Never a strip too narrow to hold where the other edge leaves more. */
              if (move->at.ticks < tools->narrowest)
                g_assert_true (
                  (move->flags & CW_MOVE_NARROW)
                  && (breadth - move->at.ticks < tools->narrowest || breadth - move->at.ticks > tools->reach));
              if (move->at.ticks > tools->reach)
                g_assert_true (move->flags & CW_MOVE_BEYOND);
              g_assert_true (tools->pull_up ? move->from.ticks >= move->to.ticks : move->from.ticks <= move->to.ticks);
            }
        }
      g_array_sort (wanted, compare_segments);
      g_array_sort (made, compare_segments);
      g_assert_cmpuint (made->len, ==, wanted->len);
      for (guint i = 0; i < made->len; i++)
        g_assert_cmpint (compare_segments (&g_array_index (made, Segment, i), &g_array_index (wanted, Segment, i)), ==,
                         0);
    }

  /* Every printed measure read back is the design's. */
  for (guint i = 0; i < trimming->moves->len; i++)
    {
      const CwMove *move = &g_array_index (trimming->moves, CwMove, i);
      const CwLength lengths[3] = { move->at, move->from, move->to };

      for (guint k = 0; k < 3 && !move->joins; k++)
        {
          g_autofree char *text = cw_length_format (lengths[k]);
          CwLength again;

          g_assert_true (cw_length_parse (text, CW_UNIT_INCH, &again, NULL));
          g_assert_cmpint (again.ticks, ==, lengths[k].ticks);
        }
    }
}

static void
check_all_ways (CwDesign *design)
{
  for (guint i = 0; i < 8; i++)
    {
      CwTools tools = cw_tools_usual;

      tools.right_to_left = (i & 1) != 0;
      tools.pull_up = (i & 2) != 0;
      tools.one_face = (i & 4) != 0;
      check_design (design, &tools);
    }
}

static void
check_folder (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  g_assert_nonnull (dir);
  for (const char *name = g_dir_read_name (dir); name != NULL; name = g_dir_read_name (dir))
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (GFile) file = g_file_new_for_path (path);
      g_autoptr (CwDesign) design = NULL;

      if (!g_str_has_suffix (name, ".creasecard"))
        continue;
      g_test_message ("%s", name);
      design = cw_design_load (file, NULL);
      g_assert_nonnull (design);
      check_all_ways (design);
      n++;
    }
  g_assert_cmpuint (n, >=, 5);
}

static void
test_samples (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("CREASEWRIGHT_DATA"), "samples", NULL);

  check_folder (folder);
}

static void
test_golden (void)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "golden", "cards", NULL);

  check_folder (folder);
}

/* Sheets with scores, slits and windows at random, some slanted, some along the edges, an outline with a corner off. */
static void
test_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);

  for (guint trial = 0; trial < 60; trial++)
    {
      g_autoptr (GString) text = g_string_new (NULL);
      g_autoptr (CwDesign) design = NULL;
      guint n = (guint) g_rand_int_range (rand, 0, trial % 10 == 0 ? 40 : 9);
      gint32 w = 16 * g_rand_int_range (rand, 1, 14), h = 16 * g_rand_int_range (rand, 1, 12); /* sixteenths */
      gint32 bite_x = g_rand_int_range (rand, 1, w), bite_y = g_rand_int_range (rand, 1, h);

      g_string_append_printf (text,
                              CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['%d/16','0']", w);
      if (trial % 3 == 0)
        g_string_append_printf (text, ",['%d/16','%d/16'],['%d/16','%d/16'],['%d/16','%d/16']", w, bite_y, bite_x,
                                bite_y, bite_x, h);
      else if (trial % 3 == 1)
        g_string_append_printf (text, ",['%d/16','%d/16'],['%d/16','%d/16']", w, bite_y, bite_x, h);
      else
        g_string_append_printf (text, ",['%d/16','%d/16']", w, h);
      g_string_append_printf (text, ",['0','%d/16']], 'marks': [", h);
      for (guint i = 0; i < n; i++)
        {
          gint32 x0 = g_rand_int_range (rand, 0, w), y0 = g_rand_int_range (rand, 0, h);
          gint32 x1 = g_rand_int_range (rand, x0, w) + 1, y1 = g_rand_int_range (rand, y0, h) + 1;
          static const char *const kinds[] = { "'kind': 'score', 'fold': 'toward'", "'kind': 'score', 'fold': 'away'",
                                               "'kind': 'score', 'fold': 'none'", "'kind': 'cut'", "'kind': 'window'" };
          guint kind = (guint) g_rand_int_range (rand, 0, 5), way = (guint) g_rand_int_range (rand, 0, 5);

          g_string_append_printf (text, "%s{ 'id': 'm%u', %s, ", i > 0 ? "," : "", i, kinds[kind]);
          if (kind == 4)
            g_string_append_printf (text, "'rect': [['%d/16','%d/16'],['%d/16','%d/16']] }", x0, y0, x1, y1);
          else if (way == 0)
            g_string_append_printf (text, "'line': [['%d/16','%d/16'],['%d/16','%d/16']] }", x0, y0, x1, y1);
          else if (way == 1)
            g_string_append_printf (text, "'line': [['%d/16','0'],['%d/16','%d/16']] }", x1, x1, h);
          else if (way == 2)
            g_string_append_printf (text, "'line': [['%d/16','%d/16'],['%d/16','%d/16'],['%d/16','%d/16']] }", x0, y0,
                                    x1, y0, x1, y1);
          else if (way == 3)
            g_string_append_printf (text, "'line': [['%d/16','%d/16'],['%d/16','%d/16']] }", x0, y0, x1, y0);
          else
            g_string_append_printf (text, "'line': [['%d/16','%d/16'],['%d/16','%d/16']] }", x0, y0, x0, y1);
        }
      g_string_append (text, "] } ] }");
      design = card_design (text->str);
      check_all_ways (design);
    }
}

/* --- Single facts. --- */

static CwTrimming *
trim (const char *marks, const CwTools *tools)
{
  g_autofree char *text
    = g_strdup_printf (CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'outline': "
                                           "[['0','0'],['10','0'],['10','7'],['0','7']], 'marks': [ %s ] } ] }",
                       marks);
  g_autoptr (CwDesign) design = card_design (text);

  return cw_trimming_new (design, tools);
}

static const CwMove *
move_at (const CwTrimming *trimming, guint i)
{
  g_assert_cmpuint (i, <, trimming->moves->len);
  return &g_array_index (trimming->moves, CwMove, i);
}

/* 3 in from the left seen from the front is 7 in from the left edge as it lies turned over; the maker may measure the
 * 3 in from the edge that then lies at the right. */
static void
test_mirrored (void)
{
  g_autoptr (CwTrimming) t
    = trim ("{ 'id': 's', 'kind': 'score', 'fold': 'toward', 'line': [['3','0'],['3','7']] }", &cw_tools_usual);
  const CwMove *move = move_at (t, 0);

  g_assert_cmpint (move->face_up, ==, CW_FACE_BACK);
  g_assert_true (move->whole);
  if (move->against == CW_SIDE_OF_SHEET_LEFT)
    g_assert_cmpint (move->at.ticks, ==, 3 * CW_TICKS_PER_INCH);
  else
    g_assert_cmpint (move->at.ticks, ==, 7 * CW_TICKS_PER_INCH);
  g_assert_cmpuint (t->n_turns, ==, 1);
  g_assert_cmpuint (t->n_stops, ==, 1);
}

static void
test_limits (void)
{
  const char *near = "{ 'id': 's', 'kind': 'cut', 'line': [['1/4','1'],['1/4','6']] }";
  CwTools tools = cw_tools_usual;
  g_autoptr (CwTrimming) far = trim (near, &tools);

  /* A quarter inch cannot be held: it is measured from the other side. */
  g_assert_cmpint (move_at (far, 0)->against, ==, CW_SIDE_OF_SHEET_RIGHT);
  g_assert_cmpuint (move_at (far, 0)->flags, ==, 0);
  /* A rule of 6 in does not reach that far: told. */
  tools.reach = 6 * CW_TICKS_PER_INCH;
  g_autoptr (CwTrimming) tight = trim (near, &tools);
  g_assert_cmpuint (move_at (tight, 0)->flags & (CW_MOVE_NARROW | CW_MOVE_BEYOND), !=, 0);
}

/* Boards have grooves every 1/8 in: 3 1/4 lies over one, 3 3/16 over none from either edge of 10 in. */
static void
test_grooves (void)
{
  g_autoptr (CwTrimming) t
    = trim ("{ 'id': 'a', 'kind': 'score', 'fold': 'away', 'line': [['3 1/4','0'],['3 1/4','7']] },"
            "{ 'id': 'b', 'kind': 'score', 'fold': 'away', 'line': [['3 3/16','0'],['3 3/16','7']] }",
            &cw_tools_usual);

  for (guint i = 0; i < t->moves->len; i++)
    g_assert_cmpint ((move_at (t, i)->flags & CW_MOVE_OFF_GROOVE) != 0, ==, move_at (t, i)->mark == 1);
}

static void
test_finest (void)
{
  CwTools tools = cw_tools_usual;
  const char *mark = "{ 'id': 'a', 'kind': 'score', 'fold': 'away', 'line': [['3 1/16','0'],['3 1/16','7']] }";

  tools.finest = CW_TICKS_PER_INCH / 16;
  g_autoptr (CwTrimming) fine = trim (mark, &tools);
  g_assert_cmpuint (move_at (fine, 0)->flags & CW_MOVE_OFF_MARKS, ==, 0);
  tools.finest = CW_TICKS_PER_INCH / 8;
  g_autoptr (CwTrimming) coarse = trim (mark, &tools);
  g_assert_cmpuint (move_at (coarse, 0)->flags & CW_MOVE_OFF_MARKS, !=, 0);
}

/* The crease between the ends of a cornered slit is no move, unless the maker scores it on a board. */
static void
test_pressed (void)
{
#define CORNER(made)                                                                                                   \
  "{ 'id': 'slit', 'kind': 'cut', 'line': [['6','2'],['8','2'],['8','4']] },"                                          \
  "{ 'id': 'flip', 'kind': 'score', 'fold': 'away', " made "'line': [['8','4'],['6','2']] }"
  g_autoptr (CwTrimming) by_hand = trim (CORNER (""), &cw_tools_usual);
  g_autoptr (CwTrimming) scored = trim (CORNER ("'made': 'board', "), &cw_tools_usual);

  g_assert_cmpuint (by_hand->moves->len, ==, 2);
  g_assert_cmpuint (by_hand->by_hand->len, ==, 1);
  g_assert_cmpint (g_array_index (by_hand->by_hand, CwByHand, 0).why, ==, CW_BY_HAND_PRESS);
  g_assert_cmpuint (g_array_index (by_hand->by_hand, CwByHand, 0).slit, ==, 0);
  /* On the board: two pencil marks and the line that joins them. */
  g_assert_cmpuint (scored->moves->len, ==, 5);
  g_assert_cmpuint (scored->by_hand->len, ==, 0);
  g_assert_cmpint (move_at (scored, 0)->does, ==, CW_MOVE_MARK);
  g_assert_cmpint (move_at (scored, 1)->does, ==, CW_MOVE_MARK);
  g_assert_true (move_at (scored, 2)->joins);
}

/* Two pieces of one spine between slits take the stop once. */
static void
test_one_stop (void)
{
  g_autoptr (CwTrimming) t = trim ("{ 'id': 'a', 'kind': 'score', 'fold': 'toward', 'line': [['5','0'],['5','1']] },"
                                   "{ 'id': 'b', 'kind': 'score', 'fold': 'toward', 'line': [['5','6'],['5','7']] }",
                                   &cw_tools_usual);

  g_assert_cmpuint (t->moves->len, ==, 2);
  g_assert_cmpuint (t->n_turns, ==, 1);
  g_assert_cmpuint (t->n_stops, ==, 1);
  g_assert_true (t->least);
}

/* A blank with nothing left of two of its sides: the marks are made before anything is cut off. */
static void
test_edges_stay (void)
{
  const char *text = CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'kite', 'outline': [['4','0'],['8','4'],['4','8'],['0','4']], 'marks': [] } ] }";
  g_autoptr (CwDesign) design = card_design (text);
  g_autoptr (CwTrimming) t = cw_trimming_new (design, &cw_tools_usual);

  g_assert_cmpuint (t->moves->len, ==, 8);
  for (guint i = 0; i < 8; i++)
    g_assert_cmpint (move_at (t, i)->does, ==, i < 4 ? CW_MOVE_MARK : CW_MOVE_CUT);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/trim/trimmer/replay-samples", test_samples);
  g_test_add_func ("/trim/trimmer/replay-golden-cards", test_golden);
  g_test_add_func ("/trim/trimmer/replay-random-sheets", test_random);
  g_test_add_func ("/trim/trimmer/mirrored-when-turned-over", test_mirrored);
  g_test_add_func ("/trim/trimmer/narrow-strips-and-short-rules", test_limits);
  g_test_add_func ("/trim/trimmer/grooves-of-a-board", test_grooves);
  g_test_add_func ("/trim/trimmer/finest-mark", test_finest);
  g_test_add_func ("/trim/trimmer/creases-pressed-by-hand", test_pressed);
  g_test_add_func ("/trim/trimmer/one-stop-for-one-line", test_one_stop);
  g_test_add_func ("/trim/trimmer/edges-measured-from-are-there", test_edges_stay);
  return g_test_run ();
}
