/* cw-make-follow.c: names and other points that stand for a panel go with it when a mark is moved.
 *
 * Panels before and after are paired one to one: those of the same outline first, then by the share of the smaller one
 * that the two have in common, greatest first. So when a line moves, what it leaves of a panel is that panel, however
 * small. A point that no longer lies in its panel is put inside it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "make/cw-make-private.h"

#include "geometry/cw-region.h"

typedef struct
{
  guint before, after;
  double share; /* of the smaller panel */
  gint64 area2;
} Pair;

static int
compare_pairs (gconstpointer a, gconstpointer b)
{
  const Pair *p = a, *q = b;

  if (p->share < q->share || p->share > q->share)
    return p->share > q->share ? -1 : 1;
  if (p->area2 != q->area2)
    return p->area2 > q->area2 ? -1 : 1;
  if (p->before != q->before)
    return p->before < q->before ? -1 : 1;
  return (p->after > q->after) - (p->after < q->after);
}

static const CwPanel *
get_panel (const CwMakeGraph *graph, guint i)
{
  return &g_array_index (graph->map->panels, CwPanel, i);
}

static gint64
common_area2 (const CwPolygon *a, const CwPolygon *b)
{
  CwRegion ra = cw_region_from_polygon (a), rb = cw_region_from_polygon (b);
  CwRegion both = cw_region_overlay (&ra, &rb, CW_OVERLAY_INTERSECTION);
  gint64 area2 = cw_region_area2 (&both);

  cw_region_clear (&ra);
  cw_region_clear (&rb);
  cw_region_clear (&both);
  return area2;
}

/* Per panel before: the panel it has become, or G_MAXUINT. */
static guint *
pair_panels (const CwMakeGraph *before, const CwMakeGraph *after)
{
  guint n = before->map->panels->len, m = after->map->panels->len;
  guint *became = g_new (guint, n + 1);
  g_autofree gboolean *taken = g_new0 (gboolean, m + 1);
  g_autoptr (GArray) pairs = g_array_new (FALSE, FALSE, sizeof (Pair));

  for (guint i = 0; i < n; i++)
    {
      became[i] = G_MAXUINT;
      for (guint k = 0; k < m && became[i] == G_MAXUINT; k++)
        if (!taken[k] && cw_polygon_compare (&get_panel (before, i)->outline, &get_panel (after, k)->outline) == 0)
          {
            became[i] = k;
            taken[k] = TRUE;
          }
    }
  for (guint i = 0; i < n; i++)
    for (guint k = 0; became[i] == G_MAXUINT && k < m; k++)
      {
        const CwPanel *a = get_panel (before, i), *b = get_panel (after, k);
        gint64 area2 = taken[k] ? 0 : common_area2 (&a->outline, &b->outline);
        Pair pair = { i, k, (double) area2 / (double) MIN (a->area2, b->area2), area2 };

        if (area2 > 0)
          g_array_append_val (pairs, pair);
      }
  g_array_sort (pairs, compare_pairs);
  for (guint i = 0; i < pairs->len; i++)
    {
      const Pair *pair = &g_array_index (pairs, Pair, i);

      if (became[pair->before] != G_MAXUINT || taken[pair->after])
        continue;
      became[pair->before] = pair->after;
      taken[pair->after] = TRUE;
    }
  return became;
}

typedef struct
{
  const CwMakeGraph *before, *after;
  const guint *became;
} Follow;

/* Moves the place if it fell out of its panel. */
static gboolean
follow_place (const Follow *follow, CwPlace *place)
{
  CwPoint at = cw_place_get_point (place);
  guint old = cw_panel_map_find (follow->before->map, at);
  guint now = old == G_MAXUINT ? G_MAXUINT : follow->became[old];

  if (now == G_MAXUINT || cw_polygon_contains (&get_panel (follow->after, now)->outline, at.x, at.y))
    return FALSE;
  *place = cw_place_from_point (cw_make_point_in (&get_panel (follow->after, now)->outline,
                                                  follow->after->set->design->head->snap_ticks),
                                place->x.unit);
  return TRUE;
}

static gboolean
follow_target (const Follow *follow, CwTarget *target)
{
  return target->has_panel && g_strcmp0 (target->piece, follow->after->map->piece->id) == 0
         && follow_place (follow, &target->panel);
}

static gboolean
follow_targets (const Follow *follow, GPtrArray *targets)
{
  gboolean moved = FALSE;

  for (guint i = 0; i < targets->len; i++)
    moved = follow_target (follow, targets->pdata[i]) || moved;
  return moved;
}

static gboolean
follow_sights (const Follow *follow, GPtrArray *sights)
{
  gboolean moved = FALSE;

  for (guint i = 0; i < sights->len; i++)
    moved = follow_target (follow, &((CwSightWant *) sights->pdata[i])->target) || moved;
  return moved;
}

/**
 * cw_make_follow:
 * @before: the piece before this edit
 *
 * Lets names, the hold point, and the panels that glue, steps and wants speak of go with their panels.
 */
void
cw_make_follow (CwMakeWork *work, const char *piece_id, const CwMakeGraph *before)
{
  g_autoptr (CwMakeGraph) after = cw_make_graph_new (work->design, piece_id);
  g_autofree guint *became = pair_panels (before, after);
  Follow follow = { before, after, became };

  for (guint i = 0; i < after->map->piece->names->len; i++)
    {
      g_autoptr (CwName) name = cw_name_copy (after->map->piece->names->pdata[i]);
      if (follow_place (&follow, &name->at))
        cw_make_work_do (work, cw_edit_new_replace (work->design, CW_LIST_NAMES, piece_id, i, g_steal_pointer (&name)));
    }
  g_autoptr (CwPiece) piece = cw_piece_copy (cw_design_get_piece (work->design, piece_id));
  if (piece->has_hold && follow_place (&follow, &piece->hold))
    cw_make_replace_piece (work, g_steal_pointer (&piece));
  for (guint i = 0; i < work->design->glue->len; i++)
    {
      g_autoptr (CwGlue) glue = cw_glue_copy (work->design->glue->pdata[i]);
      if (follow_targets (&follow, glue->holds))
        cw_make_work_do (work, cw_edit_new_replace (work->design, CW_LIST_GLUE, NULL, i, g_steal_pointer (&glue)));
    }
  for (guint i = 0; i < work->design->steps->len; i++)
    {
      g_autoptr (CwStep) step = cw_step_copy (work->design->steps->pdata[i]);
      if (step->has_on && follow_target (&follow, &step->on))
        cw_make_work_do (work, cw_edit_new_replace (work->design, CW_LIST_STEPS, NULL, i, g_steal_pointer (&step)));
    }
  g_autoptr (CwHead) head = cw_head_copy (work->design->head);
  gboolean hidden = follow_sights (&follow, head->wants.hidden);
  if (follow_sights (&follow, head->wants.shown) || hidden)
    cw_make_work_do (work, cw_edit_new_head (work->design, g_steal_pointer (&head)));
}

/**
 * cw_make_hold_anew:
 * @before: the piece before this edit
 *
 * Guesses again which panel of the ground piece stays still, if that was a guess until now.
 */
void
cw_make_hold_anew (CwMakeWork *work, const char *piece_id, const CwMakeGraph *before)
{
  const CwPiece *piece = cw_design_get_piece (work->design, piece_id);
  gint32 snap = work->design->head->snap_ticks;
  const CwPiece *ground = cw_design_get_ground (work->design);

  if (!ground || g_strcmp0 (ground->id, piece_id) != 0)
    return;
  if (piece->has_hold && !cw_point_equal (cw_place_get_point (&piece->hold), cw_make_graph_guess_hold (before, snap)))
    return;
  g_autoptr (CwMakeGraph) after = cw_make_graph_new (work->design, piece_id);
  CwPoint guess = cw_make_graph_guess_hold (after, snap);
  if (after->map->panels->len < 2 && !piece->has_hold)
    return;
  if (piece->has_hold && cw_point_equal (cw_place_get_point (&piece->hold), guess))
    return;
  CwPiece *copy = cw_piece_copy (piece);
  copy->has_hold = TRUE;
  copy->hold = cw_place_from_point (guess, work->design->head->unit);
  cw_make_replace_piece (work, copy);
}
