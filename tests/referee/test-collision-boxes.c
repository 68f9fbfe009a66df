/* test-collision-boxes.c: cards with boxes and layers, which move in loops, against a general collision library.
 *
 * test-collision-boxes CARD.creasecard...    Random cards: up to three boxes across the spine, some with a smaller one
 * across their foot, and flaps stuck anywhere, over edges, cuts and folds, that stand up; then every card named.
 *
 * Every step is looked at but for its ends, where flat paper lies face to face. Pairs that share a fold line or move as
 * one are not asked, nor those that meet where the looking begins. Not missed: where FCL sees two panels drawn in cut
 * one another, a collision of that pair was found no later. Not invented: where one is found, the whole panels touch at
 * that moment, and drawn in they do so at some look, but for a few. The panels' outlines are the program's; they have a
 * referee of their own (test-referee.c). Seed named here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "check/cw-analysis.h"
#include "collision-referee.h"
#include "contact/cw-collision.h"
#include "geometry/cw-tolerance.h"

#define SEED 0x626f7865u
#define BOXES 60
#define BOXES_THOROUGH 400
#define LOOKS 90
#define LOOKS_AGAIN 1500
/* Shares of a step that are not looked at. */
#define SKIPPED 0.02
#define DRAWN_IN 100.0
#define MOST_POINTS 4096

typedef struct
{
  guint pairs, through, touching;
} Count;

typedef struct
{
  CwMotion *motion;
  CwMotionWork *work;
  CwPose *pose;
  guint step;
  RefereeSheet **whole, **less;
} Looker;

static RefereeSheet *
sheet_of (const CwPanelSet *set, guint panel, double by)
{
  const CwPolygon *outline = &cw_panel_set_get_panel (set, panel)->outline;
  g_autofree double *xy = g_new (double, 2 * MOST_POINTS);
  g_autofree double *slits = g_new (double, 4 * MOST_POINTS);
  guint sizes[64], piece, own, n = 0, n_slits = 0;
  const GPtrArray *marks;

  g_assert_cmpuint (outline->n_rings, <=, 64);
  for (guint r = 0; r < outline->n_rings; r++)
    {
      sizes[r] = outline->rings[r].n_points;
      g_assert_cmpuint (n + sizes[r], <=, MOST_POINTS);
      for (guint i = 0; i < sizes[r]; i++, n++)
        {
          xy[2 * n] = outline->rings[r].points[i].x;
          xy[2 * n + 1] = outline->rings[r].points[i].y;
        }
    }
  cw_panel_set_locate (set, panel, &piece, &own);
  marks = set->maps[piece].piece->marks;
  for (guint m = 0; m < marks->len; m++)
    {
      const CwMark *mark = marks->pdata[m];

      for (guint i = 0; mark->kind == CW_MARK_CUT && i + 1 < mark->line.n_vertices; i++)
        {
          CwPoint a = cw_place_get_point (&mark->line.vertices[i].at);
          CwPoint b = cw_place_get_point (&mark->line.vertices[i + 1].at);
          const double ends[4] = { a.x, a.y, b.x, b.y };

          memcpy (&slits[4 * n_slits++], ends, sizeof ends);
        }
    }
  return referee_sheet_drawn_in (sizes[0], xy, outline->n_rings - 1, sizes + 1, xy + 2 * sizes[0], n_slits, slits, by);
}

static void
place_of (const Looker *l, guint panel, double *place)
{
  const CwRigid *m = &l->pose->places[panel];

  memcpy (place, m->r, 9 * sizeof (double));
  place[9] = m->t.x;
  place[10] = m->t.y;
  place[11] = m->t.z;
}

/* Sheets face to face: whether triangles of one plane meet is a matter of rounding. */
static gboolean
one_plane (const CwRigid *a, const CwRigid *b)
{
  CwRigid back = cw_rigid_inverse (a), rel = cw_rigid_compose (&back, b);

  return fabs (rel.r[2][2]) > CW_COLLISION_FACE_COS && fabs (rel.t.z) < CW_TICKS_PER_INCH * 0.1;
}

/* By how much the two, whole or drawn in, are apart; 0: they meet. */
static double
apart (Looker *l, gboolean whole, guint a, guint b, double t)
{
  double place_a[12], place_b[12];
  RefereeSheet **sheets = whole ? l->whole : l->less;

  cw_motion_get_pose (l->motion, l->work, l->step, t, l->pose);
  place_of (l, a, place_a);
  place_of (l, b, place_b);
  if (whole)
    return referee_sheets_apart (sheets[a], place_a, sheets[b], place_b);
  if (one_plane (&l->pose->places[a], &l->pose->places[b]))
    return 1;
  return referee_sheets_meet (sheets[a], place_a, sheets[b], place_b) ? 0 : 1;
}

/* The first look at which the two, drawn in, meet; 2: none. */
static double
first_meeting (Looker *l, guint a, guint b, guint looks)
{
  for (guint i = 0; i <= looks; i++)
    {
      double t = SKIPPED + (1 - 2 * SKIPPED) * i / looks;

      if (apart (l, FALSE, a, b, t) < 0.5)
        return t;
    }
  return 2;
}

static gboolean
share_a_fold (const CwPanelSet *set, guint a, guint b)
{
  for (guint i = 0; i < cw_panel_set_n_hinges (set); i++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, i, &piece);
      guint left = set->first_panel[piece] + hinge->left, right = set->first_panel[piece] + hinge->right;

      if ((left == a && right == b) || (left == b && right == a))
        return TRUE;
    }
  return FALSE;
}

static const CwCollision *
find_pair (const GArray *found, guint step, guint a, guint b)
{
  for (guint i = 0; i < found->len; i++)
    {
      const CwCollision *c = &g_array_index (found, CwCollision, i);

      if (c->step == step && c->panel_a == a && c->panel_b == b)
        return c;
    }
  return NULL;
}

/* What went through in an earlier step is anywhere since. */
static gboolean
has_been_through (const GArray *found, guint step, guint a, guint b)
{
  for (guint i = 0; i < step; i++)
    if (find_pair (found, i, a, b) != NULL)
      return TRUE;
  return FALSE;
}

static void
check_pair (Looker *l, const GArray *found, guint a, guint b, const char *what, Count *count)
{
  const CwCollision *c = find_pair (found, l->step, a, b);
  double first;

  /* What passes through face to face at the start, or meets there, is not for FCL to see. */
  if ((c != NULL && (c->fraction < SKIPPED || c->fraction > 1 - SKIPPED)) || apart (l, FALSE, a, b, SKIPPED) < 0.5)
    return;
  count->pairs++;
  first = first_meeting (l, a, b, LOOKS);
  if (first > 1 && c != NULL)
    {
      first = first_meeting (l, a, b, LOOKS_AGAIN);
      count->touching += first > 1;
    }
  if (first <= 1)
    {
      if (c == NULL)
        g_error ("%s: panels %u and %u meet at %.4f of step %u and were not found", what, a, b, first, l->step);
      g_assert_cmpfloat (c->fraction, <=, first + 1e-9);
      count->through++;
    }
  if (c != NULL && apart (l, TRUE, a, b, c->fraction) > 1)
    g_error ("%s: panels %u and %u do not touch at %.6f of step %u", what, a, b, c->fraction, l->step);
}

/* Near flat a loop that closes only within give turns as that has it and not as paper does: nothing is told there. */
static gboolean
gives (const CwMotion *motion, guint step)
{
  return cw_motion_get_state (motion, step)->misfit_ticks > CW_TOL_EXACT_TICKS
         || (step > 0 && cw_motion_get_state (motion, step - 1)->misfit_ticks > CW_TOL_EXACT_TICKS);
}

static void
check_motion (CwMotion *motion, const CwFlatStates *states, const char *what, Count *count)
{
  const CwPanelSet *set = cw_motion_get_set (motion);
  guint n = cw_panel_set_n_panels (set);
  g_autoptr (CwMotionWork) work = cw_motion_work_new (motion);
  g_autoptr (CwPose) pose = cw_pose_new (motion);
  g_autoptr (GArray) found = cw_collisions_find (motion, states, NULL);
  Looker l = { motion, work, pose, 0, g_new (RefereeSheet *, n), g_new (RefereeSheet *, n) };

  for (guint i = 0; i < n; i++)
    {
      l.whole[i] = sheet_of (set, i, 0);
      l.less[i] = sheet_of (set, i, DRAWN_IN);
    }
  for (; l.step < cw_motion_get_n_steps (motion); l.step++)
    for (guint a = 0; a < n; a++)
      for (guint b = a + 1; b < n; b++)
        {
          guint before = l.step > 0 ? l.step - 1 : G_MAXUINT;

          cw_motion_get_pose (motion, work, l.step, 0.5, pose);
          if (cw_motion_get_state (motion, l.step)->reached < 1 || gives (motion, l.step) || !pose->present[a]
              || !pose->present[b] || cw_motion_get_body (motion, before, a) == cw_motion_get_body (motion, before, b)
              || cw_motion_get_group (motion, before, a) != cw_motion_get_group (motion, before, b)
              || share_a_fold (set, a, b) || has_been_through (found, l.step, a, b))
            continue;
          check_pair (&l, found, a, b, what, count);
        }
  for (guint i = 0; i < n; i++)
    {
      referee_sheet_free (l.whole[i]);
      referee_sheet_free (l.less[i]);
    }
  g_free (l.whole);
  g_free (l.less);
}

static double
sixteenths (GRand *rand, int low, int high)
{
  return g_rand_int_range (rand, low, high + 1) / 16.0;
}

static void
add_mark (GString *marks, const char *kind, const char *fold, int *n, double x0, double y0, double x1, double y1)
{
  g_string_append_printf (marks, "%s{ 'id': 'm%d', 'kind': '%s'%s%s%s, 'line': [['%g','%g'],['%g','%g']] }",
                          marks->len > 0 ? ", " : "", (*n)++, kind, *fold ? ", 'fold': '" : "", fold, *fold ? "'" : "",
                          x0, y0, x1, y1);
}

/* Leaves of 6 by 12. A box of arms p and q stands between feet at 6 - p and 6 + q, its ridge at 6 - p + q; one across
 * its far foot has arms r and r. */
static CwMotion *
random_boxes (GRand *rand)
{
  g_autoptr (GString) marks = g_string_new (NULL);
  g_autoptr (GString) text = g_string_new (CARD_HEAD CARD_INCH);
  int n_boxes = g_rand_int_range (rand, 1, 4), n_tiles = g_rand_int_range (rand, 1, 5), n = 1;
  gboolean behind[4];
  double y = 0;

  for (int i = 0; i < n_boxes; i++)
    {
      double y0 = 4 * i + sixteenths (rand, 4, 16), y1 = 4 * i + sixteenths (rand, 48, 60);
      double p = sixteenths (rand, 12, 64), q = sixteenths (rand, 12, 64), r = sixteenths (rand, 4, 8);
      gboolean child = g_rand_boolean (rand) && p > 2 * r && q > 2 * r;

      if (i == 0)
        g_string_append_printf (marks,
                                "{ 'id': 'm0', 'kind': 'score', 'fold': 'toward', 'line': [['6','0'],['6','%g']] }",
                                y0);
      else
        add_mark (marks, "score", "toward", &n, 6, y, 6, y0);
      add_mark (marks, "cut", "", &n, 6 - p, y0, 6 + q, y0);
      add_mark (marks, "cut", "", &n, 6 - p, y1, 6 + q, y1);
      add_mark (marks, "score", "toward", &n, 6 - p, y0, 6 - p, y1);
      add_mark (marks, "score", "away", &n, 6 - p + q, y0, 6 - p + q, y1);
      if (child)
        {
          double x = 6 + q, a = y0 + 0.75, b = y1 - 0.75;

          add_mark (marks, "score", "toward", &n, x, y0, x, a);
          add_mark (marks, "score", "toward", &n, x, b, x, y1);
          add_mark (marks, "cut", "", &n, x - r, a, x + r, a);
          add_mark (marks, "cut", "", &n, x - r, b, x + r, b);
          add_mark (marks, "score", "toward", &n, x - r, a, x - r, b);
          add_mark (marks, "score", "away", &n, x, a, x, b);
          add_mark (marks, "score", "toward", &n, x + r, a, x + r, b);
        }
      else
        add_mark (marks, "score", "toward", &n, 6 + q, y0, 6 + q, y1);
      y = y1;
    }
  add_mark (marks, "score", "toward", &n, 6, y, 6, 12);
  g_string_append_printf (text,
                          "'pieces': [ { 'id': 'base', 'outline': [['0','0'],['12','0'],['12','12'],['0','12']],"
                          " 'hold': ['11.75','11.75'], 'marks': [ %s ] }",
                          marks->str);
  for (int i = 0; i < n_tiles; i++)
    {
      double wide = sixteenths (rand, 24, 56);

      g_string_append_printf (text,
                              ", { 'id': 't%d', 'outline': [['0','0'],['%g','0'],['%g','2'],['1','2'],['0','1']],"
                              " 'hold': ['0.5','0.5'], 'marks': [ { 'id': 'h', 'kind': 'score', 'fold': 'toward',"
                              " 'line': [['1','0'],['1','2']] } ] }",
                              i, wide, wide + sixteenths (rand, 0, 24));
    }
  g_string_append (text, " ], 'steps': [ ");
  for (int i = 0; i < n_tiles; i++)
    {
      double x = sixteenths (rand, 16, 170), at = sixteenths (rand, 16, 170);

      /* On the panel under this point, whichever it is. */
      behind[i] = g_rand_int_range (rand, 0, 4) == 0;
      g_string_append_printf (text,
                              "{ 'id': 's%d', 'do': 'stick', 'piece': 't%d', 'on': { 'piece': 'base', 'panel':"
                              " ['%g','%g'], 'face': '%s' }, 'facing': '%s', 'at': ['%g','%g'], 'turn': %d }, ",
                              i, i, x + 0.03125, at + 0.03125, behind[i] ? "back" : "front",
                              behind[i] ? "front" : "back", x - 0.5, at - 0.5, g_rand_int_range (rand, 0, 24) * 15);
    }
  g_string_append (text, "{ 'id': 'lift', 'do': 'fold', 'folds': [ { 'score': 'base/m0', 'to': 25 } ] }, ");
  for (int i = 0; i < n_tiles; i++)
    g_string_append_printf (text, "{ 'id': 'f%d', 'do': 'fold', 'folds': [ { 'score': 't%d/h', 'to': %d } ] }, ", i, i,
                            g_rand_int_range (rand, 20, 160) * (behind[i] ? -1 : 1));
  g_string_append (text, " { 'id': 'shut', 'do': 'fold', 'folds': [ { 'score': 'base/m0', 'to': 165 } ] },"
                         " { 'id': 'open', 'do': 'fold', 'folds': [ { 'score': 'base/m0', 'to': 30 } ] } ] }");
  return card_motion (text->str);
}

static void
test_boxes (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  guint n = g_test_thorough () ? BOXES_THOROUGH : BOXES;
  Count count = { 0 };

  for (guint i = 0; i < n; i++)
    {
      CwMotion *motion = random_boxes (rand);
      g_autofree char *what = g_strdup_printf ("card %u", i);

      check_motion (motion, NULL, what, &count);
      cw_motion_unref (motion);
    }
  g_test_message ("%u motions of pairs: %u through, %u within the tolerance", count.pairs, count.through,
                  count.touching);
  g_assert_cmpuint (count.through, >, n);
  g_assert_cmpuint (count.touching, <, count.through / 20);
}

static void
test_card (gconstpointer path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  g_autoptr (GError) error = NULL;
  g_autoptr (CwDesign) design = cw_design_load (file, &error);
  g_autoptr (CwAnalysis) analysis = NULL;
  Count count = { 0 };

  g_assert_no_error (error);
  analysis = cw_analysis_new (design);
  check_motion (analysis->motion, analysis->flat_states, path, &count);
  g_test_message ("%u motions of pairs: %u through, %u within the tolerance", count.pairs, count.through,
                  count.touching);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/referee/collision-boxes/random", test_boxes);
  for (int i = 1; i < argc; i++)
    {
      g_autofree char *base = g_path_get_basename (argv[i]);
      g_autofree char *name = NULL;

      base[strlen (base) - strlen (".creasecard")] = '\0';
      name = g_strdup_printf ("/referee/collision-boxes/%s", base);
      g_test_add_data_func (name, argv[i], test_card);
    }
  return g_test_run ();
}
