/* test-effort.c: drawings whose loops are too intricate end soon, say so, and say the same every time.
 *
 * The drawing is a grid of scores with a diagonal across every cell, folded by one stretch alone: no drawing of sense,
 * one that kept the search for ways out of the flat sheet at work for minutes. Expected values are the bounds handed in
 * (fold/cw-effort.h) and what the model page says of honesty; there is no outside source.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "cw-make-vertex.h"

#include "fold/cw-assembly.h"
#include "fold/cw-motion.h"
#include "geometry/cw-tolerance.h"

#define CELLS 8

/* Scores all over a sheet of 8 by 8 inches; the first step folds one diagonal, the second a plain tab at the side. */
static CwPanelSet *
wild_set (void)
{
  g_autoptr (GString) text
    = g_string_new (CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', "
                                        "'outline': [['0','0'],['11','0'],['11','8'],['0','8']], "
                                        "'marks': [ ");
  g_autoptr (CwDesign) design = NULL;

  for (guint i = 1; i < CELLS; i++)
    g_string_append_printf (text,
                            "{ 'id': 'x%u', 'kind': 'score', 'fold': '%s', 'line': [['%u','0'],['%u','8']] },"
                            "{ 'id': 'y%u', 'kind': 'score', 'fold': '%s', 'line': [['0','%u'],['8','%u']] },",
                            i, i % 2 ? "toward" : "away", i, i, i, i % 3 ? "away" : "toward", i, i);
  for (guint i = 0; i < CELLS; i++)
    for (guint k = 0; k < CELLS; k++)
      g_string_append_printf (text,
                              "{ 'id': 'd%u%u', 'kind': 'score', 'fold': '%s', 'line': [['%u','%u'],['%u','%u']] },", i,
                              k, (i + k) % 3 ? "toward" : "away", i, k + (i + k) % 2, i + 1, k + 1 - (i + k) % 2);
  g_string_append (text,
                   "{ 'id': 'x8', 'kind': 'score', 'fold': 'away', 'line': [['8','0'],['8','8']] },"
                   "{ 'id': 'tab', 'kind': 'score', 'fold': 'toward', 'line': [['10','0'],['10','8']] } ] } ], "
                   "'steps': [ { 'id': 'wild', 'do': 'fold', 'folds': [ { 'score': 'base/d33', 'to': 90 } ] },"
                   "           { 'id': 'tab', 'do': 'fold', 'folds': [ { 'score': 'base/tab', 'to': 180 } ] } ] }");
  design = card_design (text->str);
  return cw_panel_set_new (design);
}

static void
test_honest (void)
{
  g_autoptr (CwPanelSet) set = wild_set ();
  g_autoptr (CwMotion) motion = cw_motion_new (set, NULL, 0);
  const CwMotionState *wild = cw_motion_get_state (motion, 0), *tab = cw_motion_get_state (motion, 1);
  gboolean told = FALSE;

  g_assert_true (wild->not_decided);
  g_assert_cmpfloat (wild->reached, <=, 0);
  /* A plain fold is in no loop: it goes all the way, however hard the rest. */
  g_assert_cmpfloat (tab->reached, >=, 1);
  g_assert_cmpuint (tab->freedom, >=, 1);
  for (guint i = 0; i < cw_motion_get_findings (motion)->len; i++)
    {
      const CwFinding *finding = g_ptr_array_index (cw_motion_get_findings (motion), i);

      /* Not knowing is no reason to say that it cannot move. */
      g_assert_cmpint (finding->code, !=, CW_FINDING_CANNOT_MOVE);
      if (finding->code == CW_FINDING_NOT_DECIDED && g_strcmp0 (finding->step, "wild") == 0)
        {
          told = TRUE;
          g_assert_cmpint (finding->severity, ==, CW_SEVERITY_NOTE);
          g_assert_cmpint (finding->known, ==, CW_KNOWN_NOT_DECIDED);
          g_assert_cmpuint (finding->panels->len, >, 0);
        }
    }
  g_assert_true (told);
}

/* The work done is counted, stays under what was allowed, and is the same every time. */
static void
test_counted (void)
{
  const gint64 allowed = 20000000;
  g_autoptr (CwPanelSet) set = wild_set ();
  g_autoptr (CwAssembly) assembly = cw_assembly_new (set, 0, NULL, 0);
  g_autofree double *start = g_new0 (double, assembly->n_hinges);
  CwDrive drive = { G_MAXUINT, G_PI_2 };
  gint64 left[2];

  for (guint i = 0; i < assembly->n_hinges; i++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, i, &piece);

      if (g_str_equal (g_ptr_array_index (hinge->scores, 0), "d33"))
        drive.joint = i;
    }
  g_assert_cmpuint (drive.joint, !=, G_MAXUINT);
  for (guint k = 0; k < 2; k++)
    {
      CwEffort effort = { .left = allowed };
      g_autoptr (CwTrace) trace = cw_linkage_trace_within (assembly->linkage, start, NULL, &drive, 1, 0, &effort);
      guint first = 0, freedom;

      g_assert_true (effort.out);
      g_assert_cmpint (effort.left, >=, 0);
      g_assert_cmpint (effort.left, <, allowed);
      g_assert_cmpint (cw_trace_get_result (trace)->verdict, ==, CW_TRACE_NOT_DECIDED);
      g_assert_cmpfloat (cw_trace_get_result (trace)->reached, <=, 0);
      left[k] = effort.left;

      effort = (CwEffort){ .left = allowed };
      freedom = cw_linkage_freedom_within (assembly->linkage, start, 0, &first, &effort);
      g_assert_true (effort.out);
      g_assert_cmpint (effort.left, >=, 0);
      /* The tab at least. */
      g_assert_cmpuint (freedom, >=, 1);
      g_assert_cmpuint (first, >=, 1);
    }
  g_assert_cmpint (left[0], ==, left[1]);
}

static void
test_cancel (void)
{
  g_autoptr (CwPanelSet) set = wild_set ();
  g_autoptr (CwAssembly) assembly = cw_assembly_new (set, 0, NULL, 0);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_autofree double *start = g_new0 (double, assembly->n_hinges);
  CwEffort effort = { .left = CW_EFFORT_MOTION, .stop = cancellable };

  g_cancellable_cancel (cancellable);
  g_assert_null (cw_motion_new_cancellable (set, NULL, 0, cancellable));
  cw_linkage_freedom_within (assembly->linkage, start, 0, NULL, &effort);
  g_assert_true (effort.out);
  g_assert_cmpint (effort.left, ==, CW_EFFORT_MOTION);
}

static gpointer
make_motion (gpointer data)
{
  gpointer *pair = data;

  return cw_motion_new_cancellable (pair[0], NULL, 0, pair[1]);
}

/* Cancelled from another thread while at work, or just before or after: no motion comes of it. */
static void
test_cancel_at_work (void)
{
  g_autoptr (CwPanelSet) set = wild_set ();
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  gpointer pair[] = { set, cancellable };
  GThread *thread = g_thread_new ("motion", make_motion, pair);

  g_usleep (5000);
  g_cancellable_cancel (cancellable);
  g_assert_null (g_thread_join (thread));
}

/* Six creases at a point leave three ways open (hinges less the three conditions of a closed vertex, Belcastro & Hull
 * 2002): driven by one, the vertex sways, and others come to rest on flat on the way, for they may not turn against
 * their own directions. Resting costs no work: creeping along a bound by steps as small as are told apart would cost a
 * thousand times what is allowed here. No outside source for the number. */
static void
test_resting (void)
{
  static const struct
  {
    double sectors[6];
    int ways[6];
  } vertices[] = {
    { { 30, 30, 45, 105, 15, 135 }, { 1, -1, 1, 1, -1, 1 } },
    { { 45, 105, 75, 90, 15, 30 }, { -1, -1, -1, -1, 1, -1 } },
    { { 45, 75, 60, 105, 15, 60 }, { 1, 1, -1, 1, 1, -1 } },
    { { 15, 45, 15, 60, 75, 150 }, { 1, 1, 1, -1, 1, 1 } },
    { { 60, 60, 15, 120, 60, 45 }, { 1, -1, 1, 1, 1, 1 } },
  };

  for (guint k = 0; k < G_N_ELEMENTS (vertices); k++)
    {
      g_autoptr (CwLinkage) linkage = cw_make_vertex (6, vertices[k].sectors, vertices[k].ways);
      g_autoptr (CwLinkageWork) work = cw_linkage_work_new (linkage);
      CwEffort effort = { .left = 5000000 };
      double start[6] = { 0 }, rho[6];
      CwDrive drive = { 0, vertices[k].ways[0] * G_PI };
      g_autoptr (CwTrace) trace = cw_linkage_trace_within (linkage, start, NULL, &drive, 1, 0, &effort);
      const CwTraceResult *result = cw_trace_get_result (trace);

      g_test_message ("vertex %u: %" G_GINT64_FORMAT " left", k, effort.left);
      g_assert_false (effort.out);
      g_assert_cmpint (result->verdict, ==, CW_TRACE_ARRIVED);
      g_assert_true (result->sways);
      for (guint i = 0; i <= 40; i++)
        {
          cw_trace_get_angles (trace, work, i / 40.0, rho);
          g_assert_cmpfloat (cw_linkage_misfit (linkage, work, rho, NULL), <=, 1e-6);
          for (guint j = 0; j < 6; j++)
            g_assert_cmpfloat (rho[j] * vertices[k].ways[j], >=, -1e-4);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fold/effort/too-intricate-is-said", test_honest);
  g_test_add_func ("/fold/effort/work-is-counted-and-repeats", test_counted);
  g_test_add_func ("/fold/effort/cancelled-before", test_cancel);
  g_test_add_func ("/fold/effort/cancelled-at-work", test_cancel_at_work);
  g_test_add_func ("/fold/effort/hinges-that-rest-on-flat-cost-nothing", test_resting);
  return g_test_run ();
}
