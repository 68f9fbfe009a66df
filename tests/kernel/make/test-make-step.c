/* test-make-step.c: steps added, changed and told more about by hand.
 *
 * Outside source: the design's model of steps (folds go on straight ramps together, so half a step is half of every
 * way; making steps come before using steps; a guide is laid and taken away again); the rest is plain arithmetic.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "make-test.h"
#include "make/cw-make-step.h"

static const char *const lines[] = { "score 3", "score 6", "cut 8 from 2 to 4", NULL };

static const CwStep *
step_at (const CwDesign *design, guint index)
{
  return design->steps->pdata[index];
}

static char *
address_of (const CwDesign *design, guint mark)
{
  return g_strdup_printf ("base/%s", mark_at (design, mark)->id);
}

static void
test_add (void)
{
  static const CwDo plain[] = { CW_DO_CUT, CW_DO_SCORE, CW_DO_FOLD, CW_DO_RUB, CW_DO_TURN_OVER, CW_DO_DECORATE };
  g_autoptr (CwDesign) design = sheet (10, 7, lines);
  g_autoptr (GError) error = NULL;
  guint n = design->steps->len;

  for (guint i = 0; i < G_N_ELEMENTS (plain); i++)
    {
      do_edit (&design, cw_make_add_step (design, plain[i], i, &error));
      g_assert_no_error (error);
      g_assert_cmpuint (design->steps->len, ==, n + i + 1);
      g_assert_cmpint (step_at (design, i)->what, ==, plain[i]);
      g_assert_cmpint (step_at (design, i)->phase, ==, CW_PHASE_MAKING);
    }
  /* at the end, where the reader is at work */
  do_edit (&design, cw_make_add_step (design, CW_DO_FOLD, design->steps->len, &error));
  g_assert_cmpint (step_at (design, design->steps->len - 1)->phase, ==, CW_PHASE_USING);
  /* nothing there that they could be about */
  assert_refused (cw_make_add_step (design, CW_DO_TAKE_AWAY, 0, &error), &error);
  assert_refused (cw_make_add_step (design, CW_DO_GLUE, 0, &error), &error);
  assert_refused (cw_make_add_step (design, CW_DO_STICK, 0, &error), &error);
}

/* A guide is laid and taken away again; its glue, if any, can be put on by a step. */
static void
test_guide (void)
{
  g_autoptr (CwDesign) design = sheet (10, 7, lines);
  g_autoptr (GError) error = NULL;
  guint laid = 0;

  do_edit (&design, cw_make_add_layer (design, "base", 0, CW_FACE_FRONT,
                                       cw_length_from_ticks (IN (0.125), CW_UNIT_INCH), &error));
  g_assert_no_error (error);
  while (step_at (design, laid)->what != CW_DO_STICK)
    laid++;
  /* before it lies there it cannot be taken away */
  assert_refused (cw_make_add_step (design, CW_DO_TAKE_AWAY, laid, &error), &error);
  do_edit (&design, cw_make_add_step (design, CW_DO_TAKE_AWAY, laid + 1, &error));
  g_assert_cmpstr (step_at (design, laid + 1)->piece, ==, step_at (design, laid)->piece);
  /* gone already */
  assert_refused (cw_make_add_step (design, CW_DO_TAKE_AWAY, laid + 2, &error), &error);

  /* the same by one edit, with its glue gone: nothing would take it away otherwise */
  {
    g_autoptr (CwDesign) other = sheet (10, 7, lines);
    g_autofree char *piece = NULL;
    guint away = 0;

    do_edit (&other, cw_make_add_layer (other, "base", 0, CW_FACE_FRONT,
                                        cw_length_from_ticks (IN (0.125), CW_UNIT_INCH), &error));
    piece = g_strdup (((CwPiece *) other->pieces->pdata[1])->id);
    g_assert_cmpuint (other->glue->len, >, 0);
    do_edit (&other, cw_make_guide (other, piece, &error));
    g_assert_no_error (error);
    g_assert_cmpuint (other->glue->len, ==, 0);
    while (step_at (other, away)->what != CW_DO_TAKE_AWAY)
      away++;
    g_assert_true (step_at (other, away - 1)->tucked);
    g_assert_cmpstr (step_at (other, away + 1)->rest, ==, "closed");
    assert_refused (cw_make_guide (other, piece, &error), &error);
    assert_refused (cw_make_guide (other, "base", &error), &error);
  }

  do_edit (&design, cw_make_add_step (design, CW_DO_GLUE, 0, &error));
  g_assert_cmpuint (step_at (design, 0)->zones->len, ==, design->glue->len);
  const CwGlue *glue = design->glue->pdata[0];
  g_autofree char *zone = g_strdup (glue->id), *glueing = g_strdup (step_at (design, 0)->id);
  do_edit (&design, cw_make_toggle_zone (design, glueing, zone, &error));
  g_assert_cmpuint (step_at (design, 0)->zones->len, ==, design->glue->len - 1);
  do_edit (&design, cw_make_toggle_zone (design, glueing, zone, &error));
  g_assert_cmpuint (step_at (design, 0)->zones->len, ==, design->glue->len);
}

static double
angle (const CwDesign *design, guint step, guint fold)
{
  return ((const CwStepFold *) step_at (design, step)->folds->pdata[fold])->to;
}

static void
test_marks (void)
{
  g_autoptr (CwDesign) design = sheet (10, 7, lines);
  g_autoptr (GError) error = NULL;
  g_autofree char *first = address_of (design, 0), *second = address_of (design, 1), *cut = address_of (design, 2);
  g_autofree char *fold = NULL, *again = NULL, *cutting = NULL;

  g_assert_cmpint (mark_at (design, 2)->kind, ==, CW_MARK_CUT);
  do_edit (&design, cw_make_add_step (design, CW_DO_FOLD, 0, &error));
  do_edit (&design, cw_make_add_step (design, CW_DO_FOLD, 1, &error));
  fold = g_strdup (step_at (design, 0)->id);
  again = g_strdup (step_at (design, 1)->id);
  do_edit (&design, cw_make_toggle_mark (design, fold, first, &error));
  do_edit (&design, cw_make_toggle_mark (design, fold, second, &error));
  g_assert_cmpuint (step_at (design, 0)->folds->len, ==, 2);
  g_assert_cmpfloat_with_epsilon (angle (design, 0, 0), 180, 1e-9);
  g_assert_true (cw_make_step_has_mark (step_at (design, 0), first));
  /* folded shut by the step before, so it is opened */
  do_edit (&design, cw_make_toggle_mark (design, again, first, &error));
  g_assert_cmpfloat_with_epsilon (angle (design, 1, 0), 0, 1e-9);
  do_edit (&design, cw_make_toggle_mark (design, again, first, &error));
  g_assert_cmpuint (step_at (design, 1)->folds->len, ==, 0);
  g_assert_false (cw_make_step_has_mark (step_at (design, 1), first));
  assert_refused (cw_make_toggle_mark (design, fold, cut, &error), &error);
  assert_refused (cw_make_toggle_mark (design, fold, "base/nothing", &error), &error);

  do_edit (&design, cw_make_add_step (design, CW_DO_CUT, 0, &error));
  cutting = g_strdup (step_at (design, 0)->id);
  assert_refused (cw_make_toggle_mark (design, cutting, first, &error), &error);
  do_edit (&design, cw_make_toggle_mark (design, cutting, cut, &error));
  g_assert_cmpstr (step_at (design, 0)->marks->pdata[0], ==, cut);
  do_edit (&design, cw_make_toggle_mark (design, cutting, cut, &error));
  g_assert_cmpuint (step_at (design, 0)->marks->len, ==, 0);
}

static void
test_angles (void)
{
  g_autoptr (CwDesign) design = sheet (10, 7, lines);
  g_autoptr (GError) error = NULL;
  g_autofree char *first = address_of (design, 0), *second = address_of (design, 1), *fold = NULL, *open = NULL;

  do_edit (&design, cw_make_add_step (design, CW_DO_FOLD, 0, &error));
  do_edit (&design, cw_make_add_step (design, CW_DO_FOLD, 1, &error));
  fold = g_strdup (step_at (design, 0)->id);
  open = g_strdup (step_at (design, 1)->id);
  do_edit (&design, cw_make_toggle_mark (design, fold, first, &error));
  do_edit (&design, cw_make_toggle_mark (design, fold, second, &error));
  do_edit (&design, cw_make_set_angle (design, fold, second, -60, &error));
  assert_refused (cw_make_set_angle (design, fold, second, 200, &error), &error);
  /* half of it: half of each way, 0 to 180 and 0 to -60 */
  do_edit (&design, cw_make_stop_step (design, fold, 0.5, &error));
  g_assert_cmpfloat_with_epsilon (angle (design, 0, 0), 90, 1e-9);
  g_assert_cmpfloat_with_epsilon (angle (design, 0, 1), -30, 1e-9);
  /* a quarter of the way from 90 back to 0 */
  do_edit (&design, cw_make_toggle_mark (design, open, first, &error));
  do_edit (&design, cw_make_set_angle (design, open, first, 0, &error));
  g_assert_cmpfloat_with_epsilon (cw_make_angle_before (design, 1, first), 90, 1e-9);
  do_edit (&design, cw_make_stop_step (design, open, 0.25, &error));
  g_assert_cmpfloat_with_epsilon (angle (design, 1, 0), 68, 1e-9); /* 67.5, in whole degrees */
  do_edit (&design, cw_make_add_step (design, CW_DO_RUB, 0, &error));
  assert_refused (cw_make_stop_step (design, step_at (design, 0)->id, 0.5, &error), &error);
}

static void
assert_in_order (const CwDesign *design)
{
  gboolean using = FALSE;

  for (guint i = 0; i < design->steps->len; i++)
    {
      g_assert_false (using && step_at (design, i)->phase != CW_PHASE_USING);
      using = using || step_at (design, i)->phase == CW_PHASE_USING;
    }
}

static void
test_phase (void)
{
  g_autoptr (CwDesign) design = sheet (10, 7, lines);
  g_autoptr (GError) error = NULL;
  g_autofree char *id = NULL;

  do_edit (&design, cw_make_add_step (design, CW_DO_DECORATE, 0, &error));
  id = g_strdup (step_at (design, 0)->id);
  do_edit (&design, cw_make_set_phase (design, id, CW_PHASE_USING, &error));
  assert_in_order (design);
  g_assert_cmpint (cw_design_get_step (design, id)->phase, ==, CW_PHASE_USING);
  do_edit (&design, cw_make_set_phase (design, id, CW_PHASE_MAKING, &error));
  assert_in_order (design);
  g_assert_cmpint (cw_design_get_step (design, id)->phase, ==, CW_PHASE_MAKING);
  do_edit (&design, cw_make_remove_step (design, id, &error));
  g_assert_null (cw_design_get_step (design, id));
}

static void
test_details (void)
{
  static const struct
  {
    const char *key, *text, *json;
  } all[] = {
    { "minutes", "5", "\"minutes\": 5" },
    { "minutes", "about 5", "\"minutes\": \"about 5\"" },
    { "who", "a grown-up", "\"who\": \"a grown-up\"" },
    { "tools", "bone folder, ruler", "\"tools\": [\"bone folder\", \"ruler\"]" },
    { "wait", "10 minutes, until it is dry", "\"wait\": \"10 minutes, until it is dry\"" },
    { "caution", "The blade is sharp.", "\"caution\": \"The blade is sharp.\"" },
  };
  g_autoptr (CwDesign) design = sheet (10, 7, lines);
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    {
      CwStep *copy = cw_step_copy (step_at (design, 0));
      g_autofree char *text = NULL, *back = NULL, *gone = NULL;

      cw_step_set_detail (copy, all[i].key, all[i].text);
      do_edit (&design, cw_make_change_step (design, copy, &error));
      text = cw_design_to_text (design, NULL);
      g_assert_nonnull (strstr (text, all[i].json));
      back = cw_step_dup_detail (step_at (design, 0), all[i].key);
      g_assert_cmpstr (back, ==, all[i].text);
      copy = cw_step_copy (step_at (design, 0));
      cw_step_set_detail (copy, all[i].key, "");
      do_edit (&design, cw_make_change_step (design, copy, &error));
      gone = cw_step_dup_detail (step_at (design, 0), all[i].key);
      g_assert_cmpstr (gone, ==, "");
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/make/step/added-of-every-kind", test_add);
  g_test_add_func ("/make/step/guide-laid-and-taken-away", test_guide);
  g_test_add_func ("/make/step/marks-taken-in-and-out", test_marks);
  g_test_add_func ("/make/step/angles-typed-and-stopped-at", test_angles);
  g_test_add_func ("/make/step/making-comes-before-using", test_phase);
  g_test_add_func ("/make/step/minutes-tools-and-the-like", test_details);
  return g_test_run ();
}
