/* test-make.c: drawing alone makes a card.
 *
 * The designs are drawn with the measure line only and must then close flat and open again. Outside sources: the
 * parallelogram condition of a step across a spine (panels parallel to the pages: the ridge lies as far from one hinge
 * as the other hinge from the spine), elementary geometry; that an edit and its inverse leave the same bytes is a law
 * of our own.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-design-json.h"
#include "fold/cw-motion.h"
#include "make/cw-make.h"
#include "text/cw-measure-line.h"

#include <string.h>

#define IN(n) ((gint32) ((n) *64) * 127) /* n in whole 64ths of an inch */

static char *
to_text (const CwDesign *design)
{
  return cw_design_to_text (design, NULL);
}

/* Does the edit, checks that it can be undone to the same bytes, and replaces the design. */
static void
do_edit (CwDesign **design, CwEdit *edit)
{
  g_autoptr (CwEdit) owned = edit;
  g_autoptr (GError) error = NULL;
  g_assert_nonnull (owned);
  g_autofree char *before = to_text (*design);
  g_autoptr (CwDesign) after = cw_edit_apply (owned, *design);
  g_autoptr (CwEdit) inverse = cw_edit_invert (owned);
  g_autoptr (CwDesign) back = cw_edit_apply (inverse, after);
  g_autofree char *undone = to_text (back);

  g_assert_cmpstr (undone, ==, before);
  cw_design_validate (after, &error);
  g_assert_no_error (error);
  g_autofree char *text = to_text (after);
  g_autoptr (CwDesign) read = cw_design_from_text (text, -1, "test", &error);
  g_assert_no_error (error);
  g_autofree char *again = to_text (read);
  g_assert_cmpstr (again, ==, text);
  cw_design_unref (*design);
  *design = g_steal_pointer (&after);
}

static void
draw_on (CwDesign **design, const char *piece_id, const char *line)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *marks
    = cw_measure_line_parse (line, *design, cw_design_get_piece (*design, piece_id), (CwLie){ 0 }, &error);

  g_test_message ("%s", line);
  g_assert_no_error (error);
  CwEdit *edit = cw_make_add_marks (*design, piece_id, marks, !cw_measure_line_says_way (line), &error);
  g_assert_no_error (error);
  do_edit (design, edit);
}

static CwDesign *
draw_card (double width, double height, const char *const *lines)
{
  CwDesign *design = cw_make_design (CW_UNIT_INCH, IN (width), IN (height));

  for (guint i = 0; lines[i]; i++)
    draw_on (&design, "base", lines[i]);
  return design;
}

/* "fold-s2(s2 180) close(s1 180) open(s1 0)" */
static char *
say_steps (const CwDesign *design)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *step = design->steps->pdata[i];

      g_string_append_printf (text, "%s%s", i ? " " : "", step->id);
      for (guint k = 0; k < step->folds->len; k++)
        {
          const CwStepFold *fold = step->folds->pdata[k];
          g_string_append_printf (text, "%s%s %g", k ? ", " : "(", strchr (fold->score, '/') + 1, fold->to);
        }
      g_string_append (text, step->folds->len ? ")" : "");
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
assert_steps (const CwDesign *design, const char *expected)
{
  g_autofree char *steps = say_steps (design);

  g_assert_cmpstr (steps, ==, expected);
}

static void
assert_way (const CwDesign *design, const char *mark_id, CwFoldWay way)
{
  const CwMark *mark = cw_piece_get_mark (cw_design_get_piece (design, "base"), mark_id);

  g_assert_nonnull (mark);
  g_assert_cmpint (mark->fold, ==, way);
}

/* Every step goes to its end; closed, everything lies flat and no larger than `width` x `height`; open, everything is
 * where it was. */
static void
assert_plays (CwDesign *design, double width, double height)
{
  g_autoptr (CwPanelSet) set = cw_panel_set_new (design);
  g_autoptr (CwMotion) motion = cw_motion_new (set, NULL, 0);
  g_autoptr (CwMotionWork) work = cw_motion_work_new (motion);
  g_autoptr (CwPose) pose = cw_pose_new (motion);
  g_autoptr (CwPose) start = cw_pose_new (motion);
  gboolean closed = FALSE, open = FALSE;

  for (guint i = 0; i < set->findings->len; i++)
    {
      const CwFinding *finding = set->findings->pdata[i];
      g_test_message ("%s", cw_finding_code_get_key (finding->code));
      g_assert_cmpint (finding->severity, !=, CW_SEVERITY_ERROR);
    }
  cw_motion_get_start (motion, start);
  for (guint s = 0; s < design->steps->len; s++)
    {
      const CwStep *step = design->steps->pdata[s];
      const CwMotionState *state = cw_motion_get_state (motion, s);

      if (state->reached < 1)
        {
          g_autofree char *text = to_text (design);
          g_test_message ("%s reached %g\n%s", step->id, state->reached, text);
        }
      g_assert_cmpfloat (state->reached, >=, 1.0);
      cw_motion_get_pose (motion, work, s, 1.0, pose);
      if (g_strcmp0 (step->rest, "closed") == 0)
        {
          double low[2] = { INFINITY, INFINITY }, high[2] = { -INFINITY, -INFINITY };

          g_assert_true (state->flat);
          for (guint p = 0; p < pose->n_panels; p++)
            {
              const CwRing *ring = &cw_panel_set_get_panel (set, p)->outline.rings[0];

              for (guint k = 0; pose->present[p] && k < ring->n_points; k++)
                {
                  CwVec3 at = cw_rigid_apply (&pose->places[p], cw_vec3 (ring->points[k].x, ring->points[k].y, 0));
                  low[0] = MIN (low[0], at.x);
                  high[0] = MAX (high[0], at.x);
                  low[1] = MIN (low[1], at.y);
                  high[1] = MAX (high[1], at.y);
                }
            }
          g_assert_cmpfloat_with_epsilon ((high[0] - low[0]) / CW_TICKS_PER_INCH, width, 1e-3);
          g_assert_cmpfloat_with_epsilon ((high[1] - low[1]) / CW_TICKS_PER_INCH, height, 1e-3);
          closed = TRUE;
        }
      if (g_strcmp0 (step->rest, "open") == 0)
        {
          open = TRUE;
          for (guint h = 0; h < cw_panel_set_n_hinges (set); h++)
            {
              guint piece;
              const CwHinge *hinge = cw_panel_set_get_hinge (set, h, &piece);
              gboolean made_before = FALSE; /* folds of making steps stay */

              for (guint k = 0; k < s; k++)
                {
                  const CwStep *earlier = design->steps->pdata[k];
                  for (guint f = 0; f < earlier->folds->len && !earlier->rest; f++)
                    made_before = made_before
                                  || strcmp (strchr (((CwStepFold *) earlier->folds->pdata[f])->score, '/') + 1,
                                             hinge->scores->pdata[0])
                                       == 0;
                }
              if (!made_before)
                g_assert_cmpfloat_with_epsilon (pose->angles_deg[h], 0, 1e-6);
            }
        }
    }
  g_assert_true (closed && open);
}

static guint
held_panel (CwDesign *design, CwPoint *low, CwPoint *high)
{
  g_autoptr (CwPanelSet) set = cw_panel_set_new (design);
  guint held = cw_panel_map_find_hold (&set->maps[0]);

  cw_polygon_bounds (&cw_panel_set_get_panel (set, held)->outline, low, high);
  return held;
}

static void
test_blank (void)
{
  g_autoptr (CwDesign) design = cw_make_design (CW_UNIT_MM, 210 * 320, 297 * 320);
  g_autoptr (GError) error = NULL;

  assert_steps (design, "close open");
  g_assert_true (cw_design_validate (design, &error));
  g_assert_no_error (error);
  g_assert_cmpint (design->head->snap_ticks, ==, 320);
  g_assert_cmpint (design->head->give.ticks, ==, 254); /* 1/32 in, see the reference's unit arithmetic */
  g_autofree char *text = to_text (design);
  g_autoptr (CwDesign) back = cw_design_from_text (text, -1, "test", &error);
  g_assert_no_error (error);
  g_autofree char *again = to_text (back);
  g_assert_cmpstr (again, ==, text);
  g_assert_cmpuint (back->steps->len, ==, 2);
}

static void
test_half_fold (void)
{
  static const char *const lines[] = { "score 5", NULL };
  g_autoptr (CwDesign) design = draw_card (10, 7, lines);
  CwPoint low, high;

  assert_steps (design, "close(s1 180) open(s1 0)");
  assert_way (design, "s1", CW_FOLD_TOWARD);
  held_panel (design, &low, &high);
  g_assert_cmpint (low.x, ==, IN (5)); /* the right half stays */
  assert_plays (design, 5, 7);
}

static void
test_tent (void)
{
  static const char *const lines[] = { "score 4 along", NULL };
  g_autoptr (CwDesign) design = draw_card (6, 8, lines);
  CwPoint low, high;

  assert_steps (design, "close(s1 180) open(s1 0)");
  held_panel (design, &low, &high);
  g_assert_cmpint (low.y, ==, IN (4)); /* the lower half stays */
  assert_plays (design, 6, 4);
}

static void
test_gate (void)
{
  static const char *const at_once[] = { "score 2 1/2, 7 1/2", NULL };
  static const char *const in_turn[] = { "score 7 1/2", "score 2 1/2", NULL };
  const char *const *const ways[] = { at_once, in_turn };

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (CwDesign) design = draw_card (10, 6, ways[i]);
      CwPoint low, high;

      assert_steps (design, "close(s1 180, s2 180) open(s1 0, s2 0)");
      assert_way (design, "s1", CW_FOLD_TOWARD);
      assert_way (design, "s2", CW_FOLD_TOWARD);
      held_panel (design, &low, &high);
      g_assert_true (low.x == IN (2.5) && high.x == IN (7.5));
      assert_plays (design, 5, 6);
    }
}

static void
test_z (void)
{
  static const char *const at_once[] = { "score 4, 8", NULL };
  static const char *const in_turn[] = { "score 8", "score 4", NULL };
  const char *const *const ways[] = { at_once, in_turn };

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (CwDesign) design = draw_card (12, 5, ways[i]);
      const CwPiece *base = cw_design_get_piece (design, "base");

      assert_steps (design, "close(s1 180, s2 180) open(s1 0, s2 0)");
      g_assert_cmpint (cw_piece_get_mark (base, "s1")->fold, !=, cw_piece_get_mark (base, "s2")->fold);
      assert_plays (design, 4, 5);
    }
  static const char *const four[] = { "score 3, 6, 9", NULL };
  g_autoptr (CwDesign) accordion = draw_card (12, 5, four);
  assert_way (accordion, "s1", CW_FOLD_TOWARD);
  assert_way (accordion, "s2", CW_FOLD_AWAY);
  assert_way (accordion, "s3", CW_FOLD_TOWARD);
  assert_plays (accordion, 3, 5);
}

/* Folded in half, then folded again: at the crossing three creases fold one way and one the other (Maekawa-Justin). The
 * first fold is made once and stays, the second closes and opens the card. */
static void
test_fold_again (void)
{
  static const char *const quarter[] = { "score 4 1/4", "score 2 3/4 along", NULL };
  static const char *const tent_first[] = { "score 2 3/4 along", "score 4 1/4", NULL };
  static const char *const thirds[] = { "score 3, 6", "score 2 along", NULL };
  static const char *const way_said[] = { "score 4 1/4", "score 2 3/4 along away", NULL };

  g_autoptr (CwDesign) design = draw_card (8.5, 5.5, quarter);
  assert_steps (design, "fold-s1(s1 180) close(s2 180, s3 180) open(s2 0, s3 0)");
  assert_way (design, "s1", CW_FOLD_TOWARD);
  assert_way (design, "s2", CW_FOLD_AWAY);
  assert_way (design, "s3", CW_FOLD_TOWARD);
  assert_plays (design, 4.25, 2.75);

  g_autoptr (CwDesign) other = draw_card (8.5, 5.5, tent_first);
  assert_steps (other, "fold-s1(s1 180) close(s2 180, s3 180) open(s2 0, s3 0)");
  assert_plays (other, 4.25, 2.75);

  g_autoptr (CwDesign) three = draw_card (9, 4, thirds);
  assert_steps (three, "fold-s1(s1 180, s2 180) close(s3 180, s4 180, s5 180) open(s3 0, s4 0, s5 0)");
  assert_plays (three, 3, 2);

  g_autoptr (CwDesign) said = draw_card (8.5, 5.5, way_said);
  assert_way (said, "s2", CW_FOLD_TOWARD);
  assert_way (said, "s3", CW_FOLD_AWAY);
  assert_plays (said, 4.25, 2.75);
}

static void
test_corner (void)
{
  static const char *const lines[] = { "score 5", "cut from 6, 1 to 8, 1 to 8, 3", NULL };
  g_autoptr (CwDesign) design = draw_card (10, 7, lines);

  assert_steps (design, "close(s1 180) open(s1 0)");
  g_autoptr (GPtrArray) offers = cw_make_offer_flips (design, "base");
  g_assert_cmpuint (offers->len, ==, 1);
  const CwMakeOffer *offer = offers->pdata[0];
  g_assert_cmpstr (offer->cut, ==, "c1");
  do_edit (&design, cw_edit_ref (offer->edit));
  assert_steps (design, "fold-s2(s2 180) close(s1 180) open(s1 0)");
  assert_way (design, "s2", CW_FOLD_AWAY);
  assert_plays (design, 5, 7);

  /* Taken: no second offer. A slit without a corner offers nothing; nor does one whose crease would cross the spine. */
  g_autoptr (GPtrArray) none = cw_make_offer_flips (design, "base");
  g_assert_cmpuint (none->len, ==, 0);
  draw_on (&design, "base", "cut 9 from 1 to 3");
  draw_on (&design, "base", "cut from 4, 5 to 6, 5 to 6, 6");
  g_autoptr (GPtrArray) still = cw_make_offer_flips (design, "base");
  g_assert_cmpuint (still->len, ==, 0);

  /* Typed instead of offered: the same. */
  static const char *const typed[] = { "score 5", "cut from 6, 1 to 8, 1 to 8, 3", "score from 6, 1 to 8, 3", NULL };
  g_autoptr (CwDesign) other = draw_card (10, 7, typed);
  assert_steps (other, "fold-s2(s2 180) close(s1 180) open(s1 0)");
  assert_way (other, "s2", CW_FOLD_AWAY);
}

/* Left hinge 1 1/2 from the spine, right hinge 1: so the ridge is 1 from the left hinge. */
static const char *const step_lines[] = { "score 5 1/2",
                                          "cut 2 along from 4 to 6 1/2",
                                          "cut 5 along from 4 to 6 1/2",
                                          "score 4 from 2 to 5",
                                          "score 6 1/2 from 2 to 5",
                                          "score 5 from 2 to 5",
                                          NULL };

static void
assert_step_card (CwDesign *design)
{
  const CwPiece *base = cw_design_get_piece (design, "base");
  guint n_away = 0, n_scores = 0;

  for (guint i = 0; i < base->marks->len; i++)
    {
      const CwMark *mark = base->marks->pdata[i];
      gint32 x = mark->line.vertices[0].at.x.ticks;

      if (mark->kind != CW_MARK_SCORE)
        continue;
      n_scores++;
      n_away += mark->fold == CW_FOLD_AWAY ? 1 : 0;
      g_assert_true ((mark->fold == CW_FOLD_AWAY) == (x == IN (5))); /* only the ridge */
    }
  if (n_scores != 5)
    {
      g_autofree char *text = to_text (design);
      g_test_message ("%s", text);
    }
  g_assert_cmpuint (n_scores, ==, 5); /* the spine in two, two hinges, the ridge */
  g_assert_cmpuint (n_away, ==, 1);
  g_assert_cmpuint (design->steps->len, ==, 2);
  g_assert_cmpuint (((CwStep *) design->steps->pdata[0])->folds->len, ==, 1);
  assert_plays (design, 5.5, 7);
}

static void
test_step (void)
{
  g_autoptr (CwDesign) design = draw_card (11, 7, step_lines);

  assert_step_card (design);

  /* The spine said in two parts, as the model's own cards do. */
  static const char *const parts[]
    = { "score 5 1/2 from 0 to 2",    "score 5 1/2 from 5 to 7", "cut 2, 5 along from 4 to 6 1/2",
        "score 4, 6 1/2 from 2 to 5", "score 5 from 2 to 5",     NULL };
  g_autoptr (CwDesign) other = draw_card (11, 7, parts);
  assert_step_card (other);
}

static void
test_step_any_order (void)
{
  guint order[] = { 0, 1, 2, 3, 4, 5 };

  for (guint round = 0; round < 24; round++)
    {
      const char *lines[7] = { NULL };

      for (guint i = 5; i > 0; i--)
        {
          guint k = (guint) g_test_rand_int_range (0, (gint32) i + 1), t = order[i];
          order[i] = order[k];
          order[k] = t;
        }
      for (guint i = 0; i < 6; i++)
        lines[i] = step_lines[order[i]];
      g_autoptr (CwDesign) design = draw_card (11, 7, lines);
      assert_step_card (design);
    }
}

static void
test_box_on_spine (void)
{
  /* Both hinges 1 from the spine: the ridge is the spine itself, folded the other way. */
  static const char *const lines[] = { "score 5", "cut 2, 4 along from 4 to 6", "score 4, 6 from 2 to 4", NULL };
  g_autoptr (CwDesign) design = draw_card (10, 7, lines);
  const CwPiece *base = cw_design_get_piece (design, "base");
  guint n_away = 0;

  for (guint i = 0; i < base->marks->len; i++)
    {
      const CwMark *mark = base->marks->pdata[i];
      if (mark->kind != CW_MARK_SCORE || mark->fold != CW_FOLD_AWAY)
        continue;
      n_away++;
      g_assert_cmpint (mark->line.vertices[0].at.x.ticks, ==, IN (5));
      g_assert_cmpint (mark->line.vertices[0].at.y.ticks, ==, IN (2));
      g_assert_cmpint (mark->line.vertices[1].at.y.ticks, ==, IN (4));
    }
  g_assert_cmpuint (n_away, ==, 1);
  assert_plays (design, 5, 7);
}

static void
test_box_in_steps (void)
{
  /* A step across the spine (hinges 2 1/2 and 2 from it, ridge 2 from the left hinge) and a smaller one across its left
   * hinge at 3 (hinges 1 and 1 1/4 from it, ridge 1 1/4 from the left one). */
  static const char *const lines[] = { "score 5 1/2",
                                       "cut 2, 7 along from 3 to 7 1/2",
                                       "score 3, 7 1/2 from 2 to 7",
                                       "score 5 from 2 to 7",
                                       "cut 3, 6 along from 2 to 4 1/4",
                                       "score 2, 4 1/4 from 3 to 6",
                                       "score 3 1/4 from 3 to 6",
                                       NULL };
  g_autoptr (CwDesign) design = draw_card (11, 9, lines);

  g_assert_cmpuint (design->steps->len, ==, 2);
  assert_plays (design, 5.5, 9);
}

static void
test_remove (void)
{
  g_autoptr (CwDesign) design = draw_card (11, 7, step_lines);
  g_autoptr (GError) error = NULL;
  const CwPiece *base = cw_design_get_piece (design, "base");
  g_autoptr (GPtrArray) ids = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < base->marks->len; i++)
    g_ptr_array_add (ids, g_strdup (((CwMark *) base->marks->pdata[i])->id));
  g_ptr_array_add (ids, NULL);
  do_edit (&design, cw_make_remove_marks (design, "base", (const char *const *) ids->pdata, &error));
  assert_steps (design, "close open"); /* they stay */
  g_assert_cmpuint (cw_design_get_piece (design, "base")->marks->len, ==, 0);

  /* One half of a spine taken out: the other half is no fold line; put back, it folds again. */
  static const char *const lines[] = { "score 5", "cut from 6, 1 to 8, 1 to 8, 3", "score from 6, 1 to 8, 3", NULL };
  g_autoptr (CwDesign) corner = draw_card (10, 7, lines);
  const char *const crease[] = { "s2", NULL };
  do_edit (&corner, cw_make_remove_marks (corner, "base", crease, &error));
  assert_steps (corner, "close(s1 180) open(s1 0)");
}

static void
test_named_steps_stay (void)
{
  /* Hinge of a step drawn alone first, its own step named by the maker: it is not taken away. */
  static const char *const lines[] = { "cut from 6, 1 to 8, 1 to 8, 3", "score from 6, 1 to 8, 3", NULL };
  g_autoptr (CwDesign) design = draw_card (10, 7, lines);

  assert_steps (design, "fold-s1(s1 180) close open");
  do_edit (&design, cw_make_rename_step (design, "fold-s1", "Flip the corner"));
  draw_on (&design, "base", "score 5");
  assert_steps (design, "fold-s1(s1 180) close(s2 180) open(s2 0)");
  g_assert_cmpstr (cw_design_get_step (design, "fold-s1")->title, ==, "Flip the corner");
}

static void
test_turn (void)
{
  static const char *const lines[] = { "score 5", "cut 3 from 2 to 4", "cut 3 along from 4 to 6", NULL };
  g_autoptr (CwDesign) design = draw_card (10, 7, lines);
  g_autoptr (GError) error = NULL;

  do_edit (&design, cw_make_turn_way (design, "base", "s1", &error));
  assert_way (design, "s1", CW_FOLD_AWAY);
  assert_plays (design, 5, 7);
  do_edit (&design, cw_make_turn_way (design, "base", "s1", &error));
  assert_way (design, "s1", CW_FOLD_TOWARD);
  g_assert_null (cw_make_turn_way (design, "base", "c1", &error));
  g_assert_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE);
  g_clear_error (&error);

  /* Two scores of one fold line turn together; otherwise they would disagree. */
  static const char *const halves[] = { "cut 3 along from 4 to 6", "score 5 from 0 to 3", "score 5 from 3 to 7", NULL };
  g_autoptr (CwDesign) two = draw_card (10, 7, halves);
  do_edit (&two, cw_make_turn_way (two, "base", "s2", &error));
  assert_way (two, "s1", CW_FOLD_AWAY);
  assert_way (two, "s2", CW_FOLD_AWAY);

  /* Scored but not folded: no step, until it is turned. */
  static const char *const none[] = { "score 5, not folded", NULL };
  g_autoptr (CwDesign) flat = draw_card (10, 7, none);
  assert_steps (flat, "close open");
  do_edit (&flat, cw_make_turn_way (flat, "base", "s1", &error));
  assert_way (flat, "s1", CW_FOLD_TOWARD);
  assert_steps (flat, "close(s1 180) open(s1 0)");
  CwMark *mark = cw_mark_copy (cw_piece_get_mark (cw_design_get_piece (flat, "base"), "s1"));
  mark->fold = CW_FOLD_NONE;
  do_edit (&flat, cw_make_replace_mark (flat, "base", mark, &error));
  assert_steps (flat, "close open");
}

static void
move_score (CwDesign **design, const char *id, gint32 x)
{
  g_autoptr (GError) error = NULL;
  CwMark *mark = cw_mark_copy (cw_piece_get_mark (cw_design_get_piece (*design, "base"), id));

  for (guint i = 0; i < mark->line.n_vertices; i++)
    mark->line.vertices[i].at.x = cw_length_from_ticks (x, CW_UNIT_INCH);
  CwEdit *edit = cw_make_replace_mark (*design, "base", mark, &error);
  g_assert_no_error (error);
  do_edit (design, edit);
}

static gint32
name_x (const CwDesign *design, guint i)
{
  return ((CwName *) cw_design_get_piece (design, "base")->names->pdata[i])->at.x.ticks;
}

static void
test_names_follow (void)
{
  static const char *const lines[] = { "score 5", NULL };
  g_autoptr (CwDesign) design = draw_card (10, 7, lines);
  static const double places[] = { 3, 6 };
  static const gint32 moves[] = { IN (7), IN (1), IN (9), IN (2), IN (5) };

  for (guint i = 0; i < 2; i++)
    {
      CwName *name = cw_name_new ();
      name->name = g_strdup (i ? "right" : "left");
      name->at = cw_place_from_point (cw_point (IN (places[i]), IN (3)), CW_UNIT_INCH);
      do_edit (&design, cw_edit_new_insert (design, CW_LIST_NAMES, "base", i, name));
    }
  for (guint i = 0; i < G_N_ELEMENTS (moves); i++)
    {
      CwPoint low, high;

      move_score (&design, "s1", moves[i]);
      g_assert_cmpint (name_x (design, 0), <, moves[i]);
      g_assert_cmpint (name_x (design, 1), >, moves[i]);
      held_panel (design, &low, &high);
      assert_steps (design, "close(s1 180) open(s1 0)");
    }

  /* A point the line does not pass stays where it was put. */
  g_autoptr (CwDesign) other = draw_card (10, 7, lines);
  CwName *name = cw_name_new ();
  name->name = g_strdup ("left");
  name->at = cw_place_from_point (cw_point (IN (1), IN (1)), CW_UNIT_INCH);
  do_edit (&other, cw_edit_new_insert (other, CW_LIST_NAMES, "base", 0, name));
  move_score (&other, "s1", IN (4));
  g_assert_cmpint (name_x (other, 0), ==, IN (1));
}

static void
test_moved_together (void)
{
  /* Each goes where the next one was; one alone may not. */
  static const char *const lines[] = { "score 3, 6, 9", NULL };
  g_autoptr (CwDesign) design = draw_card (15, 5, lines);
  const CwPiece *base = cw_design_get_piece (design, "base");
  g_autoptr (GError) error = NULL;
  GPtrArray *marks = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);

  for (guint i = 0; i < 3; i++)
    {
      CwMark *mark = cw_mark_copy (base->marks->pdata[i]);
      for (guint k = 0; k < 2; k++)
        mark->line.vertices[k].at.x.ticks += IN (3);
      g_ptr_array_add (marks, mark);
    }
  g_assert_null (cw_make_replace_mark (design, "base", cw_mark_copy (marks->pdata[0]), &error));
  g_assert_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE);
  g_clear_error (&error);
  do_edit (&design, cw_make_replace_marks (design, "base", marks, &error));
  assert_steps (design, "close(s1 180, s2 180, s3 180) open(s1 0, s2 0, s3 0)");
  g_assert_cmpint (((CwMark *) cw_design_get_piece (design, "base")->marks->pdata[2])->line.vertices[0].at.x.ticks, ==,
                   IN (12));
}

static void
test_hold (void)
{
  static const char *const lines[] = { "score 5", NULL };
  g_autoptr (CwDesign) design = draw_card (10, 7, lines);
  g_autoptr (GError) error = NULL;
  CwPoint low, high;

  do_edit (&design, cw_make_set_hold (design, "base", cw_point (IN (2), IN (3)), &error));
  held_panel (design, &low, &high);
  g_assert_cmpint (high.x, ==, IN (5));
  draw_on (&design, "base", "score 7"); /* chosen by the maker, so it stays */
  held_panel (design, &low, &high);
  g_assert_cmpint (high.x, ==, IN (5));
  g_assert_null (cw_make_set_hold (design, "base", cw_point (IN (20), IN (3)), &error));
  g_assert_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE);
}

static void
test_layer (void)
{
  static const char *const lines[] = { "score 5", "window 1 by 1 at 7, 3", NULL };

  for (guint face = 0; face < 2; face++)
    {
      g_autoptr (CwDesign) design = draw_card (10, 7, lines);
      g_autoptr (GError) error = NULL;
      g_autoptr (CwPanelSet) set = cw_panel_set_new (design);
      guint panel = cw_panel_map_find (&set->maps[0], cw_point (IN (9), IN (6)));

      do_edit (&design, cw_make_add_layer (design, "base", panel, (CwFace) face,
                                           cw_length_from_ticks (IN (0.25), CW_UNIT_INCH), &error));
      assert_steps (design, "stick-layer close(s1 180) open(s1 0)");

      /* Panel 5 x 7 less 1/4 all round, less the opening 1 x 1 wider by 1/4 all round: 4.5 x 6.5 - 1.5 x 1.5 = 27. */
      g_autoptr (CwPanelSet) after = cw_panel_set_new (design);
      g_assert_cmpint (after->maps[1].area2 / 2, ==, (gint64) (27 * 64) * 64 * 127 * 127);

      /* Its corners lie 1/4 in inside the panel's: the middle of the panel is at 7.5, 3.5. */
      g_autoptr (CwMotion) motion = cw_motion_new (after, NULL, 0);
      g_autoptr (CwMotionWork) work = cw_motion_work_new (motion);
      g_autoptr (CwPose) pose = cw_pose_new (motion);
      cw_motion_get_pose (motion, work, 0, 1.0, pose);
      guint layer = after->first_panel[1];
      const CwRing *ring = &cw_panel_set_get_panel (after, layer)->outline.rings[0];
      double low_x = INFINITY, high_x = -INFINITY;
      for (guint k = 0; k < ring->n_points; k++)
        {
          CwVec3 at = cw_rigid_apply (&pose->places[layer], cw_vec3 (ring->points[k].x, ring->points[k].y, 0));
          low_x = MIN (low_x, at.x);
          high_x = MAX (high_x, at.x);
        }
      g_assert_cmpfloat_with_epsilon (low_x, IN (5.25), 1e-6);
      g_assert_cmpfloat_with_epsilon (high_x, IN (9.75), 1e-6);
      /* The opening of the layer lies over the panel's: from 6.75 to 8.25. */
      const CwRing *hole = &cw_panel_set_get_panel (after, layer)->outline.rings[1];
      low_x = INFINITY;
      for (guint k = 0; k < hole->n_points; k++)
        low_x = MIN (low_x, cw_rigid_apply (&pose->places[layer], cw_vec3 (hole->points[k].x, hole->points[k].y, 0)).x);
      g_assert_cmpfloat_with_epsilon (low_x, IN (6.75), 1e-6);

      /* A layer on the layer: the lower one cannot go first; then both go, with glue and steps. */
      do_edit (&design, cw_make_add_layer (design, "layer", 0, CW_FACE_FRONT,
                                           cw_length_from_ticks (IN (0.25), CW_UNIT_INCH), &error));
      g_assert_null (cw_make_remove_piece (design, "layer", &error));
      g_assert_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE);
      g_clear_error (&error);
      do_edit (&design, cw_make_remove_piece (design, "layer-2", &error));
      do_edit (&design, cw_make_remove_piece (design, "layer", &error));
      assert_steps (design, "close(s1 180) open(s1 0)");
      g_assert_cmpuint (design->glue->len, ==, 0);
      g_assert_null (cw_make_remove_piece (design, "base", &error));
      g_assert_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE);
      g_clear_error (&error);
      g_assert_null (
        cw_make_add_layer (design, "base", 0, CW_FACE_FRONT, cw_length_from_ticks (IN (3), CW_UNIT_INCH), &error));
      g_assert_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE);
    }
}

static void
test_steps (void)
{
  static const char *const lines[] = { "score 5",
                                       "cut from 6, 1 to 8, 1 to 8, 3",
                                       "score from 6, 1 to 8, 3",
                                       "cut from 6, 4 to 8, 4 to 8, 6",
                                       "score from 6, 4 to 8, 6",
                                       NULL };
  g_autoptr (CwDesign) design = draw_card (10, 7, lines);
  g_autoptr (GError) error = NULL;

  assert_steps (design, "fold-s2(s2 180) fold-s3(s3 180) close(s1 180) open(s1 0)");
  do_edit (&design, cw_make_move_step (design, "fold-s3", 0, &error));
  assert_steps (design, "fold-s3(s3 180) fold-s2(s2 180) close(s1 180) open(s1 0)");
  g_assert_null (cw_make_move_step (design, "open", 0, &error));
  g_assert_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE);
  g_clear_error (&error);
  g_assert_null (cw_make_move_step (design, "fold-s2", 3, &error));
  g_assert_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE);
}

static void
test_samples_left_alone (void)
{
  /* A pinhole in the panel that stays still changes no step and no other mark of any sample. */
  const char *data = g_getenv ("CREASEWRIGHT_DATA");
  g_autofree char *folder = data ? g_build_filename (data, "samples", NULL) : NULL;
  g_autoptr (GDir) dir = folder ? g_dir_open (folder, 0, NULL) : NULL;
  const char *file;
  guint n_samples = 0;

  if (!dir)
    {
      g_test_skip ("CREASEWRIGHT_DATA is not set");
      return;
    }
  while ((file = g_dir_read_name (dir)))
    {
      g_autofree char *path = g_build_filename (folder, file, NULL);
      g_autoptr (GFile) gfile = g_file_new_for_path (path);
      g_autoptr (GError) error = NULL;

      if (!g_str_has_suffix (file, ".creasecard"))
        continue;
      g_test_message ("%s", file);
      g_autoptr (CwDesign) design = cw_design_load (gfile, &error);
      g_assert_no_error (error);
      const CwPiece *ground = cw_design_get_ground (design);
      g_autofree char *id = g_strdup (ground->id);
      g_autofree char *steps = say_steps (design);
      g_autoptr (CwPanelSet) set = cw_panel_set_new (design);
      const CwPanelMap *map = &set->maps[cw_design_find_piece (design, id)];
      const CwPanel *held = &g_array_index (map->panels, CwPanel, cw_panel_map_find_hold (map));
      GPtrArray *marks = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_mark_unref);
      CwMark *hole = cw_mark_new ();
      guint n_marks = ground->marks->len;

      hole->kind = CW_MARK_WINDOW;
      hole->shape = CW_SHAPE_CIRCLE;
      hole->centre = cw_place_from_point (cw_polygon_inside_point (&held->outline), CW_UNIT_INCH);
      hole->radius = cw_length_from_ticks (IN (0.0625), CW_UNIT_INCH);
      g_ptr_array_add (marks, hole);
      do_edit (&design, cw_make_add_marks (design, id, marks, TRUE, &error));
      g_assert_no_error (error);
      assert_steps (design, steps);
      g_assert_cmpuint (cw_design_get_piece (design, id)->marks->len, ==, n_marks + 1);
      n_samples++;
    }
  g_assert_cmpuint (n_samples, >=, 6);
}

static void
test_refused (void)
{
  static const char *const lines[] = { "score 5", NULL };
  g_autoptr (CwDesign) design = draw_card (10, 7, lines);
  g_autoptr (GError) error = NULL;
  GPtrArray *marks
    = cw_measure_line_parse ("score 5 from 7 to 0", design, cw_design_get_piece (design, "base"), (CwLie){ 0 }, &error);

  g_assert_no_error (error);
  g_assert_null (cw_make_add_marks (design, "base", marks, TRUE, &error));
  g_assert_error (error, CW_MAKE_ERROR, CW_MAKE_ERROR_IMPOSSIBLE);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/make/make/blank-sheet", test_blank);
  g_test_add_func ("/make/make/half-fold", test_half_fold);
  g_test_add_func ("/make/make/tent", test_tent);
  g_test_add_func ("/make/make/gate", test_gate);
  g_test_add_func ("/make/make/z-and-accordion", test_z);
  g_test_add_func ("/make/make/folded-in-half-and-again", test_fold_again);
  g_test_add_func ("/make/make/corner-that-flips", test_corner);
  g_test_add_func ("/make/make/step-across-the-spine", test_step);
  g_test_add_func ("/make/make/step-drawn-in-any-order", test_step_any_order);
  g_test_add_func ("/make/make/box-on-the-spine", test_box_on_spine);
  g_test_add_func ("/make/make/box-in-steps", test_box_in_steps);
  g_test_add_func ("/make/make/removing", test_remove);
  g_test_add_func ("/make/make/named-steps-stay", test_named_steps_stay);
  g_test_add_func ("/make/make/turning", test_turn);
  g_test_add_func ("/make/make/names-follow-their-panels", test_names_follow);
  g_test_add_func ("/make/make/moved-together", test_moved_together);
  g_test_add_func ("/make/make/hold", test_hold);
  g_test_add_func ("/make/make/layer", test_layer);
  g_test_add_func ("/make/make/steps", test_steps);
  g_test_add_func ("/make/make/samples-are-left-alone", test_samples_left_alone);
  g_test_add_func ("/make/make/refused", test_refused);
  return g_test_run ();
}
