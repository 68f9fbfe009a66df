/* test-bond-laws.c: random zones over windows and overhangs, their bonds against plain arithmetic of rectangles; and
 * what must not change when a card is mirrored, turned or listed in another order.
 *
 * Areas are sums of common parts of rectangles, exact in sixteenths of an inch: no geometry library is asked. The laws
 * are plane geometry. Seeds are GLib's (printed by the test runner; --seed repeats a run).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glue-fixture.h"

#define TRIES 30
#define WINDOWS_MAX 6
/* The leaves left and right of the spine, and their height, in sixteenths. */
#define LEFT 96
#define RIGHT 80
#define HEIGHT 96

typedef struct
{
  int x0, y0, x1, y1;
} Box;

/* A card with windows in the right leaf and a mat on its outside that may stand over its edge; sixteenths. */
typedef struct
{
  Box windows[WINDOWS_MAX], mat, zone; /* all as they lie on the base, open */
  int n_windows;
  gboolean whole; /* the zone is to hold the whole base, not the right leaf alone */
} Card;

static Box
random_box (int x0, int y0, int x1, int y1)
{
  Box box = { g_test_rand_int_range (x0, x1 - 1), g_test_rand_int_range (y0, y1 - 1), 0, 0 };

  box.x1 = g_test_rand_int_range (box.x0 + 2, x1 + 1);
  box.y1 = g_test_rand_int_range (box.y0 + 2, y1 + 1);
  return box;
}

static Card
random_card (void)
{
  Card card = { .n_windows = g_test_rand_int_range (1, WINDOWS_MAX + 1), .whole = g_test_rand_bit () };

  /* Windows lie in cells of their own, two across and three down, so that none meets another. */
  for (int i = 0; i < card.n_windows; i++)
    {
      int x = LEFT + 4 + i % 2 * 38, y = 4 + i / 2 * 30;

      card.windows[i] = random_box (x, y, x + 34, y + 26);
    }
  card.mat = (Box){ LEFT + g_test_rand_int_range (2, 20), g_test_rand_int_range (2, 20), 0, 0 };
  card.mat.x1 = LEFT + RIGHT + g_test_rand_int_range (-20, LEFT - RIGHT);
  card.mat.y1 = g_test_rand_int_range (60, HEIGHT - 1);
  card.zone = random_box (card.mat.x0, card.mat.y0, card.mat.x1, card.mat.y1);
  return card;
}

typedef enum
{
  PLAIN,
  MIRRORED, /* left and right changed */
  TURNED,   /* by a half turn */
  QUARTER,  /* by a quarter turn */
  SHUFFLED, /* pieces, marks and corners listed the other way round */
  N_WAYS
} Way;

/* A box of a sheet of this size, as it lies after the sheet has been mirrored or turned. */
static Box
way_box (Way way, Box box, int width, int height)
{
  switch (way)
    {
    case MIRRORED:
      return (Box){ width - box.x1, box.y0, width - box.x0, box.y1 };
    case TURNED:
      return (Box){ width - box.x1, height - box.y1, width - box.x0, height - box.y0 };
    case QUARTER:
      return (Box){ height - box.y1, box.x0, height - box.y0, box.x1 };
    case PLAIN:
    case SHUFFLED:
    case N_WAYS:
    default:
      return box;
    }
}

static char *
corners (Way way, Box box)
{
  if (way == SHUFFLED)
    return g_strdup_printf ("[['%d/16','%d/16'],['%d/16','%d/16'],['%d/16','%d/16'],['%d/16','%d/16']]", box.x1, box.y1,
                            box.x1, box.y0, box.x0, box.y0, box.x0, box.y1);
  return g_strdup_printf ("[['%d/16','%d/16'],['%d/16','%d/16'],['%d/16','%d/16'],['%d/16','%d/16']]", box.x0, box.y0,
                          box.x1, box.y0, box.x1, box.y1, box.x0, box.y1);
}

static CwAnalysis *
make_card (const Card *card, Way way)
{
  int width = LEFT + RIGHT, height = HEIGHT, mat_width = card->mat.x1 - card->mat.x0;
  int mat_height = card->mat.y1 - card->mat.y0;
  Box sheet = way_box (way, (Box){ 0, 0, width, height }, width, height);
  Box spine = way_box (way, (Box){ LEFT, 0, LEFT, height }, width, height);
  Box right = way_box (way, (Box){ LEFT + 1, 1, LEFT + 1, 1 }, width, height);
  Box at = way_box (way, card->mat, width, height);
  Box own = way_box (way, (Box){ 0, 0, mat_width, mat_height }, mat_width, mat_height);
  Box zone = { card->zone.x0 - card->mat.x0, card->zone.y0 - card->mat.y0, card->zone.x1 - card->mat.x0,
               card->zone.y1 - card->mat.y0 };
  g_autoptr (GString) marks = g_string_new (NULL);
  g_autofree char *sheet_text = corners (way, sheet), *own_text = corners (way, own), *zone_text = NULL, *base = NULL;
  g_autofree char *mat = NULL, *holds = NULL, *text = NULL;

  zone = way_box (way, zone, mat_width, mat_height);
  zone_text = corners (way, zone);
  g_string_printf (
    marks, "{ 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['%d/16','%d/16'],['%d/16','%d/16']] }",
    spine.x0, spine.y0, spine.x1, spine.y1);
  for (int i = 0; i < card->n_windows; i++)
    {
      Box window = way_box (way, card->windows[i], width, height);
      g_autofree char *line = corners (way, window);
      g_autofree char *mark = g_strdup_printf ("{ 'id': 'w%d', 'kind': 'window', 'line': %s }", i, line);

      if (way == SHUFFLED)
        {
          g_string_prepend (marks, ", ");
          g_string_prepend (marks, mark);
        }
      else
        g_string_append_printf (marks, ", %s", mark);
    }
  base = g_strdup_printf ("{ 'id': 'base', 'ground': true, 'outline': %s, 'hold': ['%d/16','%d/16'], 'marks': [ %s ] }",
                          sheet_text, right.x0, right.y0, marks->str);
  mat = g_strdup_printf ("{ 'id': 'mat', 'outline': %s }", own_text);
  holds = card->whole ? g_strdup ("'base'")
                      : g_strdup_printf ("{ 'piece': 'base', 'panel': ['%d/16','%d/16'] }", right.x0, right.y0);
  text = g_strdup_printf (
    CARD_HEAD CARD_INCH
    "'pieces': [ %s, %s ], 'glue': [ { 'id': 'g', 'piece': 'mat', 'face': 'front', 'kind': 'wet', 'area': %s,"
    " 'holds': %s } ], 'steps': [ { 'id': 'stick', 'do': 'stick', 'piece': 'mat', 'on': { 'piece': 'base', 'panel':"
    " ['%d/16','%d/16'], 'face': 'back' }, 'facing': 'front', 'at': ['%d/16','%d/16'], 'overhang': 'meant' },"
    " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"
    " { 'id': 'open', 'do': 'fold', 'phase': 'using', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } ] }",
    way == SHUFFLED ? mat : base, way == SHUFFLED ? base : mat, zone_text, holds, right.x0, right.y0, at.x0, at.y0);
  return glue_analysis (text);
}

static int
common (Box a, Box b)
{
  int x = MIN (a.x1, b.x1) - MAX (a.x0, b.x0), y = MIN (a.y1, b.y1) - MAX (a.y0, b.y0);

  return x > 0 && y > 0 ? x * y : 0;
}

/* What of the zone rests on the leaf, and what looks past it, square inches. */
static double
find_rest (const Card *card, double *past)
{
  int all = common (card->zone, card->zone), rests = common (card->zone, (Box){ LEFT, 0, LEFT + RIGHT, HEIGHT });

  for (int i = 0; i < card->n_windows; i++)
    rests -= common (card->zone, card->windows[i]);
  *past = (all - rests) / 256.0;
  return rests / 256.0;
}

/* The mat's glue holds the leaf where it rests on it; closed, all else of it meets the other leaf behind: a stray, or,
 * if nothing of it rests on the leaf and the whole base is meant, the bond it was made for. */
static void
test_areas (void)
{
  for (int i = 0; i < TRIES; i++)
    {
      Card card = random_card ();
      g_autoptr (CwAnalysis) analysis = make_card (&card, PLAIN);
      double past, rests = find_rest (&card, &past);
      gboolean meant = card.whole && rests <= 0;
      double right = LEFT / 16.0 + 0.125;

      glue_assert_area (glue_row (analysis, "stick", "g", "base", right, 0.125), rests);
      glue_assert_area (glue_row (analysis, "close", "g", "base", 0.125, 0.125), meant ? past : -past);
      glue_assert_area (glue_area (analysis, "g", TRUE), meant ? past : rests);
      glue_assert_area (glue_area (analysis, "g", FALSE), meant ? 0 : past);
      /* Strays are told, and shut the card if something of the glue holds the first leaf too: else the mat goes over.
       */
      if (past > 0 && !meant && rests > 0)
        {
          g_assert_nonnull (glue_finding (analysis, CW_FINDING_GLUED_SHUT));
          g_assert_null (glue_finding (analysis, CW_FINDING_GLUE_STRAYS));
          g_assert_cmpfloat_with_epsilon (glue_finding (analysis, CW_FINDING_GLUED_SHUT)->amount, past * SQ_INCH, 1);
        }
      else
        {
          g_assert_null (glue_finding (analysis, CW_FINDING_GLUED_SHUT));
          g_assert_true ((glue_finding (analysis, CW_FINDING_GLUE_STRAYS) != NULL) == (past > 0 && !meant));
        }
    }
}

/* All that is said of glue, with its measures. */
static char *
tell (const CwAnalysis *analysis)
{
  GString *words = g_string_new (NULL);

  for (guint i = 0; i < analysis->findings->len; i++)
    {
      const CwFinding *finding = g_ptr_array_index (analysis->findings, i);

      if (finding->code == CW_FINDING_GLUED_SHUT || finding->code == CW_FINDING_GLUE_STRAYS
          || finding->code == CW_FINDING_GLUE_MISSING || finding->code == CW_FINDING_GLUE_NEAR_EDGE
          || finding->code == CW_FINDING_LAYER_OVER_SCORE || finding->code == CW_FINDING_LAYER_OVER_CUT
          || finding->code == CW_FINDING_CANNOT_MOVE)
        g_string_append_printf (words, "%s in %s: %.0f\n", cw_finding_code_get_key (finding->code), finding->step,
                                finding->amount);
    }
  g_string_append_printf (words, "holds %.6f strays %.6f", glue_area (analysis, "g", TRUE),
                          glue_area (analysis, "g", FALSE));
  return g_string_free (words, FALSE);
}

static void
test_ways (void)
{
  for (int i = 0; i < TRIES; i++)
    {
      Card card = random_card ();
      g_autoptr (CwAnalysis) plain = make_card (&card, PLAIN);
      g_autofree char *wanted = tell (plain);

      for (Way way = MIRRORED; way < N_WAYS; way++)
        {
          g_autoptr (CwAnalysis) other = make_card (&card, way);
          g_autofree char *got = tell (other);

          g_assert_cmpstr (got, ==, wanted);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/glue/bond-laws/areas", test_areas);
  g_test_add_func ("/glue/bond-laws/ways", test_ways);
  return g_test_run ();
}
