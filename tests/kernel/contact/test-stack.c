/* test-stack.c: which orders of layers paper can take, counted and held against published numbers.
 *
 * Strips of stamps: OEIS A000136; maps: OEIS A001415 (2 x n), A001416 and A001418 (3 x 3); per string of folds,
 * assignments that pass Maekawa's count and cannot fold, and single points: recomputed independently (values page,
 * 5.1, 5.7). One-dimensional strips: Arkin, Bender, Demaine, Demaine, Mitchell, Sethia & Skiena, Comput. Geom. 29
 * (2004) 23-46. Four equal sectors etc.: Hull, Ars Combin. 67 (2003) 175-188 for the counts of assignments.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-stack.h"

#include <string.h>

#define SIDE 1000
#define MOST 1000000
#define RADIUS 20000

/* Panels as they lie, owning their outlines. */
typedef struct
{
  GArray *outlines; /* of CwPolygon */
  GArray *places;   /* of CwRigid */
  GArray *seams;    /* of CwSeam */
} Paper;

static Paper
paper_new (void)
{
  Paper paper = { g_array_new (FALSE, FALSE, sizeof (CwPolygon)), g_array_new (FALSE, FALSE, sizeof (CwRigid)),
                  g_array_new (FALSE, FALSE, sizeof (CwSeam)) };

  g_array_set_clear_func (paper.outlines, (GDestroyNotify) cw_polygon_clear);
  return paper;
}

static void
paper_clear (Paper *paper)
{
  g_array_unref (paper->outlines);
  g_array_unref (paper->places);
  g_array_unref (paper->seams);
}

static void
add_panel (Paper *paper, const CwPoint *points, guint n, CwRigid place)
{
  g_autoptr (GArray) list = g_array_new (FALSE, FALSE, sizeof (CwPoint));
  CwPolygon outline;

  g_array_append_vals (list, points, n);
  outline = cw_polygon_from_points (list);
  g_array_append_val (paper->outlines, outline);
  g_array_append_val (paper->places, place);
}

static CwPile *
pile_new (const Paper *paper)
{
  g_autofree CwLaid *laid = g_new0 (CwLaid, paper->outlines->len);

  for (guint i = 0; i < paper->outlines->len; i++)
    laid[i] = (CwLaid){ &g_array_index (paper->outlines, CwPolygon, i), g_array_index (paper->places, CwRigid, i) };
  return cw_pile_new (laid, paper->outlines->len, (const CwSeam *) (void *) paper->seams->data, paper->seams->len);
}

/* A map of rows x columns squares, every crease folded. Seams: first those between columns, row by row. */
static Paper
map_new (int rows, int columns)
{
  Paper paper = paper_new ();

  for (int r = 0; r < rows; r++)
    for (int c = 0; c < columns; c++)
      {
        int sx = c % 2 ? -1 : 1, sy = r % 2 ? -1 : 1;
        CwPoint corners[4] = { { c * SIDE, r * SIDE },
                               { (c + 1) * SIDE, r * SIDE },
                               { (c + 1) * SIDE, (r + 1) * SIDE },
                               { c * SIDE, (r + 1) * SIDE } };
        CwRigid place = { { { sx, 0, 0 }, { 0, sy, 0 }, { 0, 0, sx * sy } },
                          { sx > 0 ? -c * SIDE : (c + 1) * SIDE, sy > 0 ? -r * SIDE : (r + 1) * SIDE, 0 } };

        add_panel (&paper, corners, 4, place);
      }
  for (int r = 0; r < rows; r++)
    for (int c = 0; c + 1 < columns; c++)
      {
        gint32 x = c % 2 ? 0 : SIDE;
        CwSeam seam = { (guint) (r * columns + c), (guint) (r * columns + c + 1), 0, { x, 0 }, { x, SIDE }, TRUE, 0 };

        g_array_append_val (paper.seams, seam);
      }
  for (int r = 0; r + 1 < rows; r++)
    for (int c = 0; c < columns; c++)
      {
        gint32 y = r % 2 ? 0 : SIDE;
        CwSeam seam = { (guint) (r * columns + c), (guint) ((r + 1) * columns + c), 0, { 0, y }, { SIDE, y }, TRUE, 0 };

        g_array_append_val (paper.seams, seam);
      }
  return paper;
}

static guint64
count (const Paper *paper)
{
  g_autoptr (CwPile) pile = pile_new (paper);
  CwStackAnswer answer = cw_stack_search (pile, NULL, MOST, G_MAXUINT64, NULL);

  g_assert_false (answer.gave_up);
  if (answer.n_found > 0)
    g_assert_cmpint (cw_stack_check (pile).fault, ==, CW_STACK_RIGHT);
  return answer.n_found;
}

static void
test_stamps (void)
{
  /* OEIS A000136 */
  static const guint64 known[] = { 1, 2, 6, 16, 50, 144, 462 };

  for (int n = 1; n <= 7; n++)
    {
      Paper paper = map_new (1, n);

      g_assert_cmpuint (count (&paper), ==, known[n - 1]);
      paper_clear (&paper);
    }
}

static void
test_maps (void)
{
  /* OEIS A001415, A001418 */
  static const struct
  {
    int rows, columns;
    guint64 orders;
  } cases[] = { { 2, 1, 2 }, { 2, 2, 8 }, { 2, 3, 60 }, { 2, 4, 320 }, { 3, 3, 1368 } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Paper paper = map_new (cases[i].rows, cases[i].columns);

      g_assert_cmpuint (count (&paper), ==, cases[i].orders);
      paper_clear (&paper);
    }
}

/* T: fronts meet, A: backs meet. */
static void
fold_as (Paper *paper, const char *string)
{
  for (guint i = 0; i < paper->seams->len; i++)
    g_array_index (paper->seams, CwSeam, i).fronts = string[i] == 'T' ? 1 : -1;
}

static void
test_strings (void)
{
  static const struct
  {
    const char *string;
    guint64 orders;
  } cases[] = { { "AAA", 3 },  { "AAT", 2 },  { "ATA", 1 },  { "ATT", 2 },  { "TTT", 3 },  { "TAT", 1 },
                { "AAAA", 4 }, { "AAAT", 4 }, { "AATA", 3 }, { "AATT", 4 }, { "ATAA", 3 }, { "ATAT", 1 },
                { "ATTA", 2 }, { "ATTT", 4 }, { "TTTT", 4 }, { "TATA", 1 }, { "TAAT", 2 } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Paper paper = map_new (1, (int) strlen (cases[i].string) + 1);

      fold_as (&paper, cases[i].string);
      g_assert_cmpuint (count (&paper), ==, cases[i].orders);
      paper_clear (&paper);
    }
}

/* Every inner point of a map has three folds one way and one the other. */
static gboolean
passes_maekawa (const Paper *paper, int rows, int columns)
{
  const CwSeam *seams = (const CwSeam *) (void *) paper->seams->data;
  int down = rows * (columns - 1);

  for (int r = 0; r + 1 < rows; r++)
    for (int c = 0; c + 1 < columns; c++)
      {
        int sum = seams[r * (columns - 1) + c].fronts + seams[(r + 1) * (columns - 1) + c].fronts
                  + seams[down + r * columns + c].fronts + seams[down + r * columns + c + 1].fronts;

        if (sum != 2 && sum != -2)
          return FALSE;
      }
  return TRUE;
}

static void
test_assignments (void)
{
  static const struct
  {
    int rows, columns;
    guint pass, fold;
  } cases[] = { { 2, 2, 8, 8 }, { 2, 3, 32, 32 }, { 2, 4, 128, 128 }, { 2, 5, 512, 504 }, { 3, 3, 256, 252 } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Paper paper = map_new (cases[i].rows, cases[i].columns);
      g_autoptr (CwPile) pile = pile_new (&paper);
      guint pass = 0, fold = 0;

      for (guint bits = 0; bits < 1u << paper.seams->len; bits++)
        {
          for (guint k = 0; k < paper.seams->len; k++)
            g_array_index (paper.seams, CwSeam, k).fronts = bits >> k & 1 ? 1 : -1;
          if (!passes_maekawa (&paper, cases[i].rows, cases[i].columns))
            continue;
          pass++;
          for (guint k = 0; k < paper.seams->len; k++)
            pile->seams[k].fronts = g_array_index (paper.seams, CwSeam, k).fronts;
          fold += (guint) cw_stack_search (pile, NULL, 1, G_MAXUINT64, NULL).n_found;
        }
      g_assert_cmpuint (pass, ==, cases[i].pass);
      g_assert_cmpuint (fold, ==, cases[i].fold);
      paper_clear (&paper);
    }
}

/* A strip of panels of given lengths, in the flat state. */
static Paper
strip_new (const int *lengths, guint n, const char *folds)
{
  Paper paper = paper_new ();
  gint32 flat = 0, at = 0;

  for (guint i = 0; i < n; i++)
    {
      int way = i % 2 ? -1 : 1;
      gint32 length = lengths[i] * SIDE;
      CwPoint corners[4] = { { flat, 0 }, { flat + length, 0 }, { flat + length, SIDE }, { flat, SIDE } };
      CwRigid place = { { { way, 0, 0 }, { 0, 1, 0 }, { 0, 0, way } }, { at - way * flat, 0, 0 } };

      add_panel (&paper, corners, 4, place);
      flat += length;
      at += way * length;
      if (i + 1 < n)
        {
          CwSeam seam = { i, i + 1, 0, { at, 0 }, { at, SIDE }, TRUE, folds[i] == 'T' ? 1 : -1 };

          g_array_append_val (paper.seams, seam);
        }
    }
  return paper;
}

static void
test_one_dimension (void)
{
  static const struct
  {
    int lengths[5];
    guint n;
    const char *folds;
    guint64 orders;
  } cases[]
    = { { { 2, 1, 2 }, 3, "TT", 0 },         { { 2, 1, 2 }, 3, "TA", 1 },         { { 1, 2, 1 }, 3, "TT", 1 },
        { { 3, 1, 1, 3 }, 4, "TTT", 0 },     { { 3, 1, 1, 3 }, 4, "TAT", 1 },     { { 3, 1, 2, 1, 3 }, 5, "TATA", 1 },
        { { 3, 1, 2, 1, 3 }, 5, "TTAA", 0 }, { { 4, 2, 1, 2, 4 }, 5, "TAAT", 0 }, { { 1, 1, 1, 1 }, 4, "TTT", 3 },
        { { 2, 1, 1, 2 }, 4, "TTA", 1 } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Paper paper = strip_new (cases[i].lengths, cases[i].n, cases[i].folds);

      g_assert_cmpuint (count (&paper), ==, cases[i].orders);
      paper_clear (&paper);
    }
}

/* Creases that meet at one point, all folded flat. */
static Paper
point_new (const int *sectors, guint n)
{
  Paper paper = paper_new ();
  double flat = 0, at = 0;

  for (guint i = 0; i < n; i++)
    {
      double a = sectors[i] * G_PI / 180, turn = i % 2 ? at + flat : at - flat;
      int way = i % 2 ? -1 : 1;
      CwPoint corners[3] = { { 0, 0 },
                             { (gint32) lround (RADIUS * cos (flat)), (gint32) lround (RADIUS * sin (flat)) },
                             { (gint32) lround (RADIUS * cos (flat + a)), (gint32) lround (RADIUS * sin (flat + a)) } };
      CwRigid place
        = { { { cos (turn), -way * sin (turn), 0 }, { sin (turn), way * cos (turn), 0 }, { 0, 0, way } }, { 0, 0, 0 } };
      CwSeam seam = { i > 0 ? i - 1 : n - 1,
                      i,
                      0,
                      { 0, 0 },
                      { (gint32) lround (RADIUS * cos (at)), (gint32) lround (RADIUS * sin (at)) },
                      TRUE,
                      0 };

      add_panel (&paper, corners, 3, place);
      g_array_append_val (paper.seams, seam);
      flat += a;
      at += way * a;
    }
  return paper;
}

static void
test_points (void)
{
  static const struct
  {
    int sectors[8];
    guint n, assignments;
    guint64 orders;
  } cases[] = {
    { { 90, 90, 90, 90 }, 4, 8, 8 },
    { { 60, 60, 120, 120 }, 4, 6, 6 },
    { { 60, 100, 120, 80 }, 4, 4, 4 },
    { { 45, 90, 135, 90 }, 4, 4, 4 },
    { { 15, 30, 15, 30, 150, 120 }, 6, 8, 8 },
    { { 15, 15, 15, 30, 150, 135 }, 6, 12, 16 },
    { { 30, 45, 75, 75, 75, 60 }, 6, 16, 16 },
    { { 15, 15, 30, 30, 135, 135 }, 6, 18, 22 },
    { { 15, 15, 15, 15, 150, 150 }, 6, 20, 28 },
    { { 30, 30, 75, 75, 75, 75 }, 6, 24, 30 },
    { { 60, 60, 60, 60, 60, 60 }, 6, 30, 48 },
    { { 45, 45, 45, 45, 45, 45, 45, 45 }, 8, 112, 336 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Paper paper = point_new (cases[i].sectors, cases[i].n);
      g_autoptr (CwPile) pile = pile_new (&paper);
      guint assignments = 0;

      g_assert_cmpuint (count (&paper), ==, cases[i].orders);
      for (guint bits = 0; bits < 1u << cases[i].n; bits++)
        {
          for (guint k = 0; k < cases[i].n; k++)
            pile->seams[k].fronts = bits >> k & 1 ? 1 : -1;
          assignments += (guint) cw_stack_search (pile, NULL, 1, G_MAXUINT64, NULL).n_found;
        }
      g_assert_cmpuint (assignments, ==, cases[i].assignments);
      paper_clear (&paper);
    }
}

/* The search and the check are written apart: of all orders of a small stack the check passes those the search counts.
 */
static void
try_orders (CwPile *pile, guint from, guint64 *right)
{
  CwPileCell *cell = &g_array_index (pile->cells, CwPileCell, 0);

  if (from == cell->n_members)
    {
      *right += cw_stack_check (pile).fault == CW_STACK_RIGHT;
      return;
    }
  for (guint i = from; i < cell->n_members; i++)
    {
      guint keep = cell->members[from];

      cell->members[from] = cell->members[i];
      cell->members[i] = keep;
      try_orders (pile, from + 1, right);
      cell->members[i] = cell->members[from];
      cell->members[from] = keep;
    }
}

static void
test_check_agrees (void)
{
  static const struct
  {
    int rows, columns;
    guint64 orders;
  } cases[] = { { 1, 5, 50 }, { 1, 6, 144 }, { 2, 2, 8 }, { 2, 3, 60 }, { 2, 4, 320 } };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      Paper paper = map_new (cases[i].rows, cases[i].columns);
      g_autoptr (CwPile) pile = pile_new (&paper);
      guint64 right = 0;

      g_assert_cmpuint (pile->cells->len, ==, 1);
      try_orders (pile, 0, &right);
      g_assert_cmpuint (right, ==, cases[i].orders);
      paper_clear (&paper);
    }
}

/* Bern & Hayes 1996: there is no quick answer for all; ours says so. */
static void
test_gives_up (void)
{
  Paper paper = map_new (1, 9);
  g_autoptr (CwPile) pile = pile_new (&paper);
  CwStackAnswer answer = cw_stack_search (pile, NULL, MOST, 5, NULL);

  g_assert_true (answer.gave_up);
  paper_clear (&paper);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/contact/stack/strips-of-stamps", test_stamps);
  g_test_add_func ("/contact/stack/maps", test_maps);
  g_test_add_func ("/contact/stack/strings-of-folds", test_strings);
  g_test_add_func ("/contact/stack/assignments-that-cannot-fold", test_assignments);
  g_test_add_func ("/contact/stack/one-dimension", test_one_dimension);
  g_test_add_func ("/contact/stack/points", test_points);
  g_test_add_func ("/contact/stack/check-agrees-with-search", test_check_agrees);
  g_test_add_func ("/contact/stack/gives-up-and-says-so", test_gives_up);
  return g_test_run ();
}
