/* cw-flat-state.c: how the paper lies at the end of every step.
 *
 * Every rest state, flat or not, is sorted into planes and put in order (cw-cluster.h), each from the one before it: so
 * a flap folded flat keeps its place while its cover stands up. A step that moves nothing and joins nothing shares what
 * the step before it found. Where the state is flat its one plane is turned into cells, sizes and thickness.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-flat-private.h"

#include <string.h>

#include "geometry/cw-tolerance.h"

static void
cell_clear (void *data)
{
  CwCell *cell = data;

  cw_polygon_clear (&cell->outline);
  g_free (cell->layers);
}

static void
fill_cells (CwFlatState *state, const CwCluster *cluster)
{
  const GArray *from = cluster->pile->cells;

  for (guint i = 0; i < from->len; i++)
    {
      const CwPileCell *old = &g_array_index (from, CwPileCell, i);
      CwCell cell = { .outline = cw_polygon_copy (&old->outline),
                      .area2 = old->area2,
                      .inside = old->inside,
                      .n_layers = old->n_members,
                      .layers = g_new0 (CwLayer, old->n_members) };

      for (guint k = 0; k < old->n_members; k++)
        {
          guint member = old->members[k];

          cell.layers[k].panel = cluster->panels[member];
          cell.layers[k].face_up = cw_laid_is_turned (&cluster->laid[member]) ? CW_FACE_BACK : CW_FACE_FRONT;
        }
      cw_polygon_tidy (&cell.outline);
      g_array_append_val (state->cells, cell);
    }
}

static void
fill_box (CwFlatState *state)
{
  gint32 *box = state->box;

  for (guint i = 0; i < state->cells->len; i++)
    {
      CwPoint low, high;

      cw_polygon_bounds (&g_array_index (state->cells, CwCell, i).outline, &low, &high);
      box[0] = i == 0 ? low.x : MIN (box[0], low.x);
      box[1] = i == 0 ? low.y : MIN (box[1], low.y);
      box[2] = i == 0 ? high.x : MAX (box[2], high.x);
      box[3] = i == 0 ? high.y : MAX (box[3], high.y);
    }
}

static void
fill_state (CwFlatStates *states, guint step)
{
  CwFlatState *state = &states->states[step];
  const CwClusters *clusters = states->clusters[step + 1];

  state->step = step;
  state->flat = cw_motion_get_state (states->motion, step)->flat;
  state->known = CW_KNOWN_EXACT;
  if (!state->flat || clusters->n_clusters == 0 || clusters->clusters[0].pile == NULL)
    return;
  state->known = clusters->clusters[0].gave_up         ? CW_KNOWN_NOT_DECIDED
                 : clusters->clusters[0].open->len > 0 ? CW_KNOWN_BOUNDED
                                                       : CW_KNOWN_NUMERIC;
  fill_cells (state, &clusters->clusters[0]);
  fill_box (state);
  cw_flat_state_measure_thickness (states->motion, state);
}

/* Nothing moved, joined or left: the order before is the order after. */
static gboolean
stands_still (const CwMotion *motion, guint step, const CwPose *last, const CwPose *end)
{
  guint former = step > 0 ? step - 1 : G_MAXUINT;

  if (step == 0 || cw_motion_get_state (motion, step)->flat != cw_motion_get_state (motion, former)->flat)
    return FALSE;
  for (guint i = 0; i < end->n_panels; i++)
    if (end->present[i] != last->present[i]
        || cw_motion_get_group (motion, step, i) != cw_motion_get_group (motion, former, i)
        || memcmp (&end->places[i], &last->places[i], sizeof (CwRigid)) != 0)
      return FALSE;
  return TRUE;
}

/**
 * cw_flat_states_new:
 * @motion: a motion; referenced
 *
 * Returns: (transfer full): how the paper lies at the end of every step
 */
CwFlatStates *
cw_flat_states_new (CwMotion *motion)
{
  return cw_flat_states_new_cancellable (motion, NULL);
}

/**
 * cw_flat_states_new_cancellable:
 * @motion: a motion; referenced
 * @cancellable: (nullable): asked between units of work: steps, planes, orders tried
 *
 * Returns: (transfer full) (nullable): how the paper lies at the end of every step; %NULL when cancelled
 */
CwFlatStates *
cw_flat_states_new_cancellable (CwMotion *motion, GCancellable *cancellable)
{
  CwFlatStates *states;
  g_autoptr (CwMotionWork) work = NULL;
  g_autoptr (CwPose) end = NULL;
  g_autoptr (CwPose) last = NULL;

  g_return_val_if_fail (motion != NULL, NULL);

  states = g_atomic_rc_box_new0 (CwFlatStates);
  states->motion = cw_motion_ref (motion);
  states->n_steps = cw_motion_get_n_steps (motion);
  states->states = g_new0 (CwFlatState, states->n_steps + 1);
  states->clusters = g_new0 (CwClusters *, states->n_steps + 1);
  states->findings = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_finding_free);
  work = cw_motion_work_new (motion);
  end = cw_pose_new (motion);
  last = cw_pose_new (motion);
  cw_motion_get_start (motion, last);
  states->clusters[0] = cw_clusters_new (motion, G_MAXUINT, last);
  for (guint i = 0; i < states->n_steps; i++)
    {
      states->states[i].cells = g_array_new (FALSE, FALSE, sizeof (CwCell));
      g_array_set_clear_func (states->states[i].cells, cell_clear);
    }
  for (guint i = 0; i < states->n_steps && !g_cancellable_is_cancelled (cancellable); i++)
    {
      cw_motion_get_pose (motion, work, i, 1, end);
      if (stands_still (motion, i, last, end))
        states->clusters[i + 1] = cw_clusters_ref (states->clusters[i]);
      else
        {
          CwPose *swap = last;

          states->clusters[i + 1] = cw_clusters_new (motion, i, end);
          cw_clusters_order (states->clusters[i + 1], states->clusters[i], motion, work, i, end, cancellable);
          last = end;
          end = swap;
        }
      fill_state (states, i);
    }
  if (g_cancellable_is_cancelled (cancellable))
    {
      cw_flat_states_unref (states);
      return NULL;
    }
  cw_flat_states_tell (states);
  cw_flat_states_tell_tucks (states);
  cw_flat_states_tell_layers (states);
  return states;
}

/**
 * cw_flat_states_ref:
 *
 * Returns: (transfer full): @states
 */
CwFlatStates *
cw_flat_states_ref (CwFlatStates *states)
{
  g_return_val_if_fail (states != NULL, NULL);
  return g_atomic_rc_box_acquire (states);
}

static void
states_clear (gpointer data)
{
  CwFlatStates *states = data;

  for (guint i = 0; i < states->n_steps; i++)
    g_array_unref (states->states[i].cells);
  for (guint i = 0; i <= states->n_steps; i++)
    g_clear_pointer (&states->clusters[i], cw_clusters_unref);
  g_free (states->states);
  g_free (states->clusters);
  g_ptr_array_unref (states->findings);
  cw_motion_unref (states->motion);
}

/**
 * cw_flat_states_unref:
 * @states: (transfer full): states
 */
void
cw_flat_states_unref (CwFlatStates *states)
{
  g_return_if_fail (states != NULL);
  g_atomic_rc_box_release_full (states, states_clear);
}

/**
 * cw_flat_states_get_motion:
 * @states: states
 *
 * Returns: (transfer none): the motion they are the rest states of
 */
CwMotion *
cw_flat_states_get_motion (const CwFlatStates *states)
{
  g_return_val_if_fail (states != NULL, NULL);
  return states->motion;
}

/**
 * cw_flat_states_get:
 * @states: states
 * @step: index of a step
 *
 * Returns: (transfer none): how the paper lies at the end of @step
 */
const CwFlatState *
cw_flat_states_get (const CwFlatStates *states, guint step)
{
  g_return_val_if_fail (states != NULL && step < states->n_steps, NULL);
  return &states->states[step];
}

/**
 * cw_flat_states_get_findings:
 *
 * Returns: (transfer none) (element-type CwFinding): what is wrong with how the paper lies, in the order of the steps
 */
GPtrArray *
cw_flat_states_get_findings (const CwFlatStates *states)
{
  g_return_val_if_fail (states != NULL, NULL);
  return states->findings;
}

/* As cw_flat_states_compare(); the cluster both lie in, or NULL. */
static int
compare (const CwFlatStates *states, guint step, guint a, guint b, const CwCluster **in)
{
  const CwClusters *clusters = states->clusters[step == G_MAXUINT ? 0 : step + 1];
  const CwPile *pile;
  guint i, k, end_i, end_k, member_a = clusters->member_of[a], member_b = clusters->member_of[b];

  *in = NULL;
  if (clusters->cluster_of[a] != clusters->cluster_of[b] || a == b)
    return 0;
  *in = &clusters->clusters[clusters->cluster_of[a]];
  pile = (*in)->pile;
  if (pile == NULL)
    return 0;
  for (guint o = 0; o < (*in)->open->len; o++)
    {
      const CwPair *open = &g_array_index ((*in)->open, CwPair, o);

      if (open->a == MIN (member_a, member_b) && open->b == MAX (member_a, member_b))
        return 0;
    }
  end_i = pile->first_of[member_a + 1];
  end_k = pile->first_of[member_b + 1];
  for (i = pile->first_of[member_a], k = pile->first_of[member_b]; i < end_i && k < end_k;)
    if (pile->cells_of[i] < pile->cells_of[k])
      i++;
    else if (pile->cells_of[i] > pile->cells_of[k])
      k++;
    else
      {
        const CwPileCell *cell = &g_array_index (pile->cells, CwPileCell, pile->cells_of[i]);

        for (guint m = 0; m < cell->n_members; m++)
          if (cell->members[m] == member_a)
            return -1;
          else if (cell->members[m] == member_b)
            return 1;
        break;
      }
  return 0;
}

/**
 * cw_flat_states_compare:
 * @states: states
 * @step: index of a step; %G_MAXUINT for the moment before the first
 * @panel_a: a panel, through the design
 * @panel_b: another
 *
 * Returns: -1 if a lies above b where both lie, 1 if below, 0 if they lie nowhere together or it is not known
 */
int
cw_flat_states_compare (const CwFlatStates *states, guint step, guint panel_a, guint panel_b)
{
  const CwCluster *in;

  g_return_val_if_fail (states != NULL && (step == G_MAXUINT || step < states->n_steps), 0);
  g_return_val_if_fail (panel_a < states->clusters[0]->n_panels && panel_b < states->clusters[0]->n_panels, 0);
  return compare (states, step, panel_a, panel_b, &in);
}

/**
 * cw_flat_states_side:
 * @states: states
 * @step: index of a step; %G_MAXUINT for the moment before the first
 * @panel_a: a panel, through the design
 * @panel_b: another
 *
 * Returns: 1 if b lies on a's front, -1 if on a's back, 0 if they lie nowhere together or it is not known
 */
int
cw_flat_states_side (const CwFlatStates *states, guint step, guint panel_a, guint panel_b)
{
  const CwCluster *in;
  int over;

  g_return_val_if_fail (states != NULL && (step == G_MAXUINT || step < states->n_steps), 0);
  g_return_val_if_fail (panel_a < states->clusters[0]->n_panels && panel_b < states->clusters[0]->n_panels, 0);
  over = compare (states, step, panel_a, panel_b, &in);
  if (over == 0)
    return 0;
  /* A front that looks to -z has above it what lies nearer to -z. */
  return cw_laid_is_turned (&in->laid[states->clusters[step == G_MAXUINT ? 0 : step + 1]->member_of[panel_a]]) ? -over
                                                                                                               : over;
}
