/* cw-motion-finding.c: a step's motion in a maker's words: what stops it, what is loose, where paper has to give.
 *
 * A stop is explained where it is a dead point of a four-bar (cw-four-bar.h), by the inequality that fails. Anything
 * else is said in general words.
 *
 * Over 500 lines because all findings about a motion name fold lines, panels and measures with the same few helpers.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "fold/cw-motion-finding.h"

#include "fold/cw-four-bar.h"
#include "geometry/cw-tolerance.h"
#include "units/cw-about.h"

#include <glib/gi18n-lib.h>

static const char *
step_name (const CwPanelSet *set, const CwStep *step)
{
  guint index = cw_design_find_step (set->design, step->id);

  return cw_panel_set_get_step_name (set, index);
}

static const char *
fold_name (const CwPanelSet *set, guint hinge)
{
  guint piece;
  const CwHinge *h = cw_panel_set_get_hinge (set, hinge, &piece);

  return h->scores->len > 0 ? g_ptr_array_index (h->scores, 0) : "";
}

/* The angle in the score's own direction, degrees. */
static double
own_degrees (const CwPanelSet *set, guint hinge, double rho)
{
  guint piece;
  const CwHinge *h = cw_panel_set_get_hinge (set, hinge, &piece);

  return (h->fold == CW_FOLD_AWAY ? -rho : rho) * 180 / G_PI;
}

static char *
length_text (const CwPanelSet *set, double ticks)
{
  return cw_about_length (ticks, set->design->head ? set->design->head->unit : CW_UNIT_INCH);
}

static char *
bar_text (const CwPanelSet *set, const CwFourBar *bars, double bar)
{
  return bars->at_point ? cw_about_degrees (bar) : length_text (set, bar);
}

/* The panel that carries both fold lines, as "name (measure)", or the measure alone where it has no name. */
static char *
named_bar_text (const CwPanelSet *set, const CwFourBar *bars, guint hinge_1, guint hinge_2, double bar)
{
  guint piece_1, piece_2;
  const CwHinge *h1 = cw_panel_set_get_hinge (set, hinge_1, &piece_1);
  const CwHinge *h2 = cw_panel_set_get_hinge (set, hinge_2, &piece_2);
  g_autofree char *measure = bar_text (set, bars, bar);
  guint both = G_MAXUINT;

  if (piece_1 == piece_2)
    both = h1->left == h2->left || h1->left == h2->right     ? h1->left
           : h1->right == h2->left || h1->right == h2->right ? h1->right
                                                             : G_MAXUINT;
  if (both != G_MAXUINT)
    {
      const CwPanel *panel = cw_panel_set_get_panel (set, set->first_panel[piece_1] + both);

      if (panel->name)
        return g_strdup_printf ("%s (%s)", panel->name, measure);
    }
  return g_steal_pointer (&measure);
}

static void
add_hinge_panels (CwFinding *finding, const CwPanelSet *set, guint hinge)
{
  guint piece;
  const CwHinge *h = cw_panel_set_get_hinge (set, hinge, &piece);

  cw_panel_set_tell (set, finding, set->first_panel[piece] + h->left);
  cw_panel_set_tell (set, finding, set->first_panel[piece] + h->right);
}

/* Shows the middle of a fold line and names its score. */
static void
set_at_hinge (CwFinding *finding, const CwPanelSet *set, guint hinge)
{
  guint piece;
  const CwHinge *h = cw_panel_set_get_hinge (set, hinge, &piece);
  const char *id = set->maps[piece].piece->id;

  cw_finding_set_at (finding, id, ((double) h->p.x + h->q.x) / 2, ((double) h->p.y + h->q.y) / 2);
  if (h->scores->len > 0)
    cw_finding_add_mark (finding, id, g_ptr_array_index (h->scores, 0));
}

/* What has to move or turn to mend it, and by how much. */
static void
set_mend (CwFinding *finding, const CwPanelSet *set, guint hinge, gboolean turns, double by)
{
  guint piece;
  const CwHinge *h = cw_panel_set_get_hinge (set, hinge, &piece);

  if (h->scores->len > 0)
    cw_finding_set_mend (finding, set->maps[piece].piece->id, g_ptr_array_index (h->scores, 0), turns, by);
}

static CwFinding *
new_finding (const CwStep *step, CwFindingCode code, double fraction)
{
  CwFinding *finding = cw_finding_new (code);

  finding->step = g_strdup (step->id);
  finding->fraction = fraction;
  finding->known = CW_KNOWN_NUMERIC;
  return finding;
}

/* The drive the maker will think of: the first one in the block, else the first of all. */
static const CwDrive *
find_drive (const CwMotionTold *told, guint block)
{
  for (guint i = 0; i < told->n_drives; i++)
    if (cw_linkage_get_joint_block (told->assembly->linkage, told->drives[i].joint) == block)
      return &told->drives[i];
  return &told->drives[0];
}

/* Words for a dead four-bar; FALSE if no inequality fails by more than a hair, so that something else holds it. */
static gboolean
tell_four_bar (const CwMotionTold *told, const CwFourBar *bars, const char *degrees, CwFinding *finding)
{
  const CwPanelSet *set = told->set;
  double hair = CW_TOL_DEAD_POINT * (bars->p + bars->q + bars->r + bars->s);
  g_autofree char *p = bar_text (set, bars, bars->p);
  g_autofree char *q = bar_text (set, bars, bars->q);
  g_autofree char *r = named_bar_text (set, bars, bars->a, bars->c, bars->r);
  g_autofree char *s = named_bar_text (set, bars, bars->b, bars->c, bars->s);
  const char *name = step_name (told->set, told->step), *fold = fold_name (set, bars->d),
             *ridge = fold_name (set, bars->c);
  gboolean stretched = fabs (bars->ab - (bars->r + bars->s)) < fabs (bars->ab - fabs (bars->r - bars->s));

  if (stretched && bars->p + bars->q - (bars->r + bars->s) > hair)
    {
      set_mend (finding, set, bars->c, bars->at_point, bars->p + bars->q - (bars->r + bars->s));
      g_autofree char *pq = bar_text (set, bars, bars->p + bars->q);
      g_autofree char *rs = bar_text (set, bars, bars->r + bars->s);
      g_autofree char *short_by = bar_text (set, bars, bars->p + bars->q - (bars->r + bars->s));

      if (bars->at_point)
        cw_finding_set_words (
          finding,
          N_ ("“{0}” stops at {1} degrees on {2}, pulled tight: the corners {3} and {4}, together {5} degrees, are too "
              "narrow for {6} and {7}, together {8} degrees, which they have to span."),
          N_ ("Make the corners that meet in {10} wider by {9} degrees in all."), name, degrees, fold, r, s, rs, p, q,
          pq, short_by, ridge, NULL);
      else
        cw_finding_set_words (finding,
                              N_ ("“{0}” stops at {1} degrees on {2}, pulled tight: {3} and {4}, together {5}, are "
                                  "shorter than {6} and {7}, together {8}, which they have to span."),
                              N_ ("Make the parts that meet in {10} longer by {9} in all."), name, degrees, fold, r, s,
                              rs, p, q, pq, short_by, ridge, NULL);
      return TRUE;
    }
  if (!stretched && fabs (bars->p + bars->r - bars->q - bars->s) > hair)
    {
      set_mend (finding, set, bars->c, bars->at_point, fabs (bars->p + bars->r - bars->q - bars->s) / 2);
      g_autofree char *pr = bar_text (set, bars, bars->p + bars->r);
      g_autofree char *qs = bar_text (set, bars, bars->q + bars->s);
      g_autofree char *half = bar_text (set, bars, fabs (bars->p + bars->r - bars->q - bars->s) / 2);

      if (bars->at_point)
        cw_finding_set_words (finding,
                              N_ ("“{0}” stops at {1} degrees on {2}: one way round the point is {3} and {4}, together "
                                  "{5} degrees, the other {6} and {7}, together {8} degrees; to fold shut they must be "
                                  "the same."),
                              N_ ("Turn the fold line {10} by {9} degrees."), name, degrees, fold, p, r, pr, q, s, qs,
                              half, ridge, NULL);
      else
        cw_finding_set_words (
          finding,
          N_ ("“{0}” stops at {1} degrees on {2}: one way round is {3} and {4}, together {5}, the other {6} and {7}, "
              "together {8}; to fold shut they must be the same."),
          N_ ("Move the fold line {10} by {9}."), name, degrees, fold, p, r, pr, q, s, qs, half, ridge, NULL);
      return TRUE;
    }
  return FALSE;
}

/* The four-bar that explains where the step stopped. */
static gboolean
find_dead_ring (const CwMotionTold *told, CwFourBar *bars)
{
  g_autofree gboolean *driven = g_new0 (gboolean, told->assembly->n_hinges + 1);

  if (told->result->blocking_block == G_MAXUINT)
    return FALSE;
  for (guint i = 0; i < told->n_drives; i++)
    driven[told->drives[i].joint] = TRUE;
  return cw_four_bar_find_dead (told->set, told->assembly, told->work, told->end, told->result->blocking_block, driven,
                                bars);
}

static gboolean
is_driven (const CwMotionTold *told, guint hinge)
{
  for (guint i = 0; i < told->n_drives; i++)
    if (told->drives[i].joint == hinge)
      return TRUE;
  return FALSE;
}

/* A score that is not folded and that no step has named holds its loop: G_MAXUINT if there is none. */
static guint
find_unfolded (const CwMotionTold *told)
{
  for (guint i = 0; told->result->blocking_block != G_MAXUINT && i < told->assembly->n_hinges; i++)
    {
      guint piece;

      if (cw_linkage_get_joint_block (told->assembly->linkage, i) == told->result->blocking_block
          && !is_driven (told, i) && cw_panel_set_get_hinge (told->set, i, &piece)->fold == CW_FOLD_NONE)
        return i;
    }
  return G_MAXUINT;
}

static void
tell_cannot_move (const CwMotionTold *told, GPtrArray *findings)
{
  const CwTraceResult *result = told->result;
  const CwDrive *drive = find_drive (told, result->blocking_block);
  CwFinding *finding = new_finding (told->step, CW_FINDING_CANNOT_MOVE, result->reached);
  double stop = own_degrees (told->set, drive->joint, told->end[drive->joint]);
  double aim = own_degrees (told->set, drive->joint, drive->to_rad);
  g_autofree char *degrees = cw_about_degrees (stop), *wanted = cw_about_degrees (aim);
  const char *name = step_name (told->set, told->step), *fold = fold_name (told->set, drive->joint);
  CwFourBar bars;

  add_hinge_panels (finding, told->set, drive->joint);
  if (result->blocking_block != G_MAXUINT)
    for (guint i = 0; i < told->assembly->n_hinges; i++)
      if (cw_linkage_get_joint_block (told->assembly->linkage, i) == result->blocking_block)
        add_hinge_panels (finding, told->set, i);
  set_at_hinge (finding, told->set, drive->joint);
  cw_finding_set_amount (finding, CW_AMOUNT_DEGREES, stop);

  if (find_unfolded (told) != G_MAXUINT)
    cw_finding_set_words (finding,
                          N_ (
                            "“{0}” stops at {1} degrees on {2}: the parts round it cannot move while the score {3} is "
                            "not folded."),
                          N_ ("Say whether {3} folds toward or away."), name, degrees, fold,
                          fold_name (told->set, find_unfolded (told)), NULL);
  else if (result->other_way_moves)
    cw_finding_set_words (finding,
                          N_ ("“{0}” stops at {1} degrees on {2}: the parts round it would move only with some scores "
                              "folded the other way."),
                          N_ ("Change a fold line round {2} from toward to away, or from away to toward."), name,
                          degrees, fold, NULL);
  else if (find_dead_ring (told, &bars) && tell_four_bar (told, &bars, degrees, finding))
    ;
  else if (result->misfit_joint != G_MAXUINT && result->misfit_ticks > MAX (told->give_ticks, CW_TOL_EXACT_TICKS))
    {
      g_autofree char *miss = length_text (told->set, result->misfit_ticks);
      g_autofree char *give = length_text (told->set, told->give_ticks);

      set_mend (finding, told->set, result->misfit_joint, FALSE, result->misfit_ticks);
      cw_finding_set_words (finding,
                            N_ (
                              "“{0}” stops at {1} degrees on {2}: the parts that meet at {3} miss one another by {4}, "
                              "and the paper gives only {5}."),
                            N_ ("Move what meets at {3} by {4}."), name, degrees, fold,
                            fold_name (told->set, result->misfit_joint), miss, give, NULL);
    }
  else
    cw_finding_set_words (finding,
                          N_ (
                            "“{0}” stops at {1} degrees on {2}, where {3} degrees are asked: the panels round it hold "
                            "one another."),
                          NULL, name, degrees, fold, wanted, NULL);
  g_ptr_array_add (findings, finding);
}

/* A finding about the loops that the step drives. */
static CwFinding *
new_loop_finding (const CwMotionTold *told, CwFindingCode code)
{
  CwFinding *finding = new_finding (told->step, code, 0);
  gboolean placed = FALSE;

  for (guint i = 0; i < told->n_drives; i++)
    {
      guint block = cw_linkage_get_joint_block (told->assembly->linkage, told->drives[i].joint);

      if (block == G_MAXUINT)
        continue;
      if (!placed)
        set_at_hinge (finding, told->set, told->drives[i].joint);
      placed = TRUE;
      for (guint k = 0; k < told->assembly->n_hinges; k++)
        if (cw_linkage_get_joint_block (told->assembly->linkage, k) == block)
          add_hinge_panels (finding, told->set, k);
    }
  return finding;
}

static const char *
loop_fold_name (const CwMotionTold *told)
{
  for (guint i = 0; i < told->n_drives; i++)
    if (cw_linkage_get_joint_block (told->assembly->linkage, told->drives[i].joint) != G_MAXUINT)
      return fold_name (told->set, told->drives[i].joint);
  return fold_name (told->set, told->drives[0].joint);
}

/* The panels of a block, or of all blocks for G_MAXUINT, shown at its first fold line. */
static void
add_block (CwFinding *finding, const CwPanelSet *set, const CwLinkage *linkage, const guint *hinges, guint n_joints,
           guint block)
{
  for (guint i = 0; i < n_joints; i++)
    {
      guint at = cw_linkage_get_joint_block (linkage, i), hinge = hinges != NULL ? hinges[i] : i;

      if (at == G_MAXUINT || (block != G_MAXUINT && at != block))
        continue;
      if (!finding->has_at)
        set_at_hinge (finding, set, hinge);
      add_hinge_panels (finding, set, hinge);
    }
}

static void
tell_not_decided (const CwMotionTold *told, GPtrArray *findings)
{
  const CwTraceResult *result = told->result;
  gboolean moves = result->verdict != CW_TRACE_NOT_DECIDED;
  CwFinding *finding;
  const char *fold
    = moves ? loop_fold_name (told) : fold_name (told->set, find_drive (told, result->blocking_block)->joint);

  if (moves)
    {
      finding = new_loop_finding (told, CW_FINDING_NOT_DECIDED);
      cw_finding_set_words (finding,
                            N_ ("In “{0}” the fold lines round {1} hang together in too many ways to work out whether "
                                "the parts there can sway."),
                            NULL, step_name (told->set, told->step), fold, NULL);
    }
  else
    {
      finding = new_finding (told->step, CW_FINDING_NOT_DECIDED, 0);
      add_block (finding, told->set, told->assembly->linkage, NULL, told->assembly->n_hinges, result->blocking_block);
      cw_finding_set_words (finding,
                            N_ ("The fold lines round {1} hang together in too many ways to work out how they move in "
                                "“{0}”; the step is left undone."),
                            N_ ("Leave out scores or slits round {1}, or fold them in steps of their own."),
                            step_name (told->set, told->step), fold, NULL);
    }
  finding->known = CW_KNOWN_NOT_DECIDED;
  g_ptr_array_add (findings, finding);
}

/**
 * cw_motion_tell_not_free:
 * @set: the panels
 * @assembly: how they hang together at the end of the step
 * @step: a step
 * @findings: (inout): gets a `not-decided`: in how many ways the card can move there was too much to work out
 */
void
cw_motion_tell_not_free (const CwPanelSet *set, const CwAssembly *assembly, const CwStep *step, GPtrArray *findings)
{
  CwFinding *finding;

  g_return_if_fail (set != NULL && assembly != NULL && assembly->card != NULL && step != NULL && findings != NULL);

  finding = new_finding (step, CW_FINDING_NOT_DECIDED, 1);
  add_block (finding, set, assembly->card, assembly->card_hinges, assembly->n_card_joints, G_MAXUINT);
  finding->known = CW_KNOWN_NOT_DECIDED;
  cw_finding_set_words (finding,
                        N_ ("After “{0}” the fold lines hang together in too many ways to work out how freely the card "
                            "moves."),
                        NULL, step_name (set, step), NULL);
  g_ptr_array_add (findings, finding);
}

/* Whether an earlier step stopped at the panels of @finding: what such a loop gives on its way back is no news. */
static gboolean
stopped_before (const GPtrArray *findings, const CwFinding *finding)
{
  for (guint i = 0; i < findings->len; i++)
    {
      const CwFinding *stop = g_ptr_array_index (findings, i);
      gboolean same = stop->code == CW_FINDING_CANNOT_MOVE && stop->panels->len == finding->panels->len;

      for (guint k = 0; same && k < finding->panels->len; k++)
        {
          const CwPanelRef *a = &g_array_index (stop->panels, CwPanelRef, k);
          const CwPanelRef *b = &g_array_index (finding->panels, CwPanelRef, k);

          same = a->panel == b->panel && g_str_equal (a->piece, b->piece);
        }
      if (same)
        return TRUE;
    }
  return FALSE;
}

/**
 * cw_motion_tell_trace:
 * @told: a traced step with at least one drive
 * @findings: (inout): gets what there is to say: `cannot-move`, `two-ways`, `sways`, `needs-give`, `not-decided`
 */
void
cw_motion_tell_trace (const CwMotionTold *told, GPtrArray *findings)
{
  const CwTraceResult *result;

  g_return_if_fail (told != NULL && told->n_drives > 0 && findings != NULL);

  result = told->result;
  if (result->verdict == CW_TRACE_STOPPED)
    tell_cannot_move (told, findings);
  if (result->verdict == CW_TRACE_NOT_DECIDED || result->sway_not_decided)
    tell_not_decided (told, findings);
  if (result->two_ways)
    {
      CwFinding *finding = new_loop_finding (told, CW_FINDING_TWO_WAYS);

      cw_finding_set_words (finding,
                            N_ ("In “{0}” the card can fold in two ways round {1}, and both fit the directions of its "
                                "scores; one of them is shown."),
                            N_ ("Say for more fold lines in this step how far they are folded."),
                            step_name (told->set, told->step), loop_fold_name (told), NULL);
      g_ptr_array_add (findings, finding);
    }
  if (result->sways)
    {
      CwFinding *finding = new_loop_finding (told, CW_FINDING_SWAYS);

      cw_finding_set_words (finding,
                            N_ (
                              "In “{0}” the parts round {1} can sway: folding {1} does not say where all of them go."),
                            N_ ("Say for more fold lines in this step how far they are folded, or leave a score out."),
                            step_name (told->set, told->step), loop_fold_name (told), NULL);
      g_ptr_array_add (findings, finding);
    }
  if (result->needs_give && result->verdict != CW_TRACE_STOPPED)
    {
      g_autoptr (CwFinding) finding = new_loop_finding (told, CW_FINDING_NEEDS_GIVE);
      guint hinge = result->misfit_joint != G_MAXUINT ? result->misfit_joint : told->drives[0].joint;
      g_autofree char *miss = length_text (told->set, result->misfit_ticks);

      if (stopped_before (findings, finding))
        return;
      if (result->misfit_joint != G_MAXUINT)
        set_at_hinge (finding, told->set, hinge);
      set_mend (finding, told->set, hinge, FALSE, result->misfit_ticks);
      cw_finding_set_amount (finding, CW_AMOUNT_TICKS, result->misfit_ticks);
      cw_finding_set_words (finding,
                            N_ ("In “{0}” the paper has to give by {2} at {1}: the parts that meet there miss one "
                                "another by that much."),
                            NULL, step_name (told->set, told->step), fold_name (told->set, hinge), miss, NULL);
      g_ptr_array_add (findings, g_steal_pointer (&finding));
    }
}

/**
 * cw_motion_tell_two_angles:
 * @set: the panels
 * @step: a step that asks two angles of one fold line
 * @hinge: that fold line
 * @first_rad: the angle listed first, radians
 * @second_rad: the angle listed later, radians
 * @findings: (inout): gets the `cannot-move`
 */
void
cw_motion_tell_two_angles (const CwPanelSet *set, const CwStep *step, guint hinge, double first_rad, double second_rad,
                           GPtrArray *findings)
{
  CwFinding *finding;
  g_autofree char *first = NULL, *second = NULL;

  g_return_if_fail (set != NULL && step != NULL && findings != NULL);

  finding = new_finding (step, CW_FINDING_CANNOT_MOVE, 1);
  first = cw_about_degrees (own_degrees (set, hinge, first_rad));
  second = cw_about_degrees (own_degrees (set, hinge, second_rad));
  add_hinge_panels (finding, set, hinge);
  set_at_hinge (finding, set, hinge);
  cw_finding_set_amount (finding, CW_AMOUNT_DEGREES, own_degrees (set, hinge, first_rad));
  finding->known = CW_KNOWN_EXACT;
  cw_finding_set_words (finding,
                        N_ ("“{0}” asks both {2} and {3} degrees of one fold line, {1}; it is folded to {2} degrees."),
                        N_ ("Ask one angle of {1}."), step_name (set, step), fold_name (set, hinge), first, second,
                        NULL);
  g_ptr_array_add (findings, finding);
}

/**
 * cw_motion_tell_not_there:
 * @set: the panels
 * @step: a `stick` step of a piece that hangs on the card already
 * @host: the panel it should be stuck on, through the design
 * @laid: the panel that should be stuck, through the design
 * @off_ticks: how far the laid panel is from where the step wants it
 * @findings: (inout): gets the `cannot-move`
 */
void
cw_motion_tell_not_there (const CwPanelSet *set, const CwStep *step, guint host, guint laid, double off_ticks,
                          GPtrArray *findings)
{
  CwFinding *finding;
  g_autofree char *off = NULL;
  const CwPanel *panel;
  guint piece, unused;

  g_return_if_fail (set != NULL && step != NULL && findings != NULL);

  finding = new_finding (step, CW_FINDING_CANNOT_MOVE, 0);
  off = length_text (set, off_ticks);
  panel = cw_panel_set_get_panel (set, laid);
  cw_panel_set_locate (set, laid, &piece, &unused);
  cw_panel_set_tell (set, finding, laid);
  cw_panel_set_tell (set, finding, host);
  cw_finding_set_at (finding, set->maps[piece].piece->id, panel->inside.x, panel->inside.y);
  cw_finding_set_amount (finding, CW_AMOUNT_TICKS, off_ticks);
  cw_finding_set_words (finding,
                        N_ ("“{0}” cannot be done: the part to be stuck hangs on the card already and lies {1} away "
                            "from where this step wants it."),
                        N_ ("Fold it there first."), step_name (set, step), off, NULL);
  g_ptr_array_add (findings, finding);
}
