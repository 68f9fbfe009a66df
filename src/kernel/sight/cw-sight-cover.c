/* cw-sight-cover.c: how well a hidden layer is hidden in a flat state: how far it may shift, any way, before it shows.
 *
 * The layer shifts along what it is stuck to, with all that is stuck on it. Over every cell of the state it is asked
 * whether it would be hidden there: where it lies, by what lies over it; elsewhere, by its host or what lies over the
 * host on the layer's side; where neither is, by a sheet known to lie over the layer. These cells together are the
 * cover. A shift of the layer by less than its distance from the cover's rim keeps it hidden whatever the way, and the
 * least shift that shows it is that distance: no other mathematics is needed. What moves with the layer hides it at any
 * shift, so what is hidden by that alone does not count. Openings that a flap leaves when it is folded out of the sheet
 * over the layer count as cover: they were opened on purpose to be looked through, unlike a window, which may have come
 * to lie over the wrong thing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sight/cw-sight-private.h"

#include "geometry/cw-tolerance.h"

typedef struct
{
  const gboolean *target;
  gboolean *moves, *over; /* n_panels: goes with the target; lies over it somewhere and does not */
  double *over_area;
  guint host; /* panel */
  CwFace host_face;
  CwFace from;
} Ask;

/* TRUE if the piece is the one or is carried by it. */
static gboolean
is_carried (const CwLook *look, guint step, guint piece, guint by)
{
  for (guint n = 0; n <= look->set->n_pieces; n++)
    {
      guint stick;

      if (piece == by)
        return TRUE;
      stick = cw_look_find_stick (look, piece, step);
      if (stick == G_MAXUINT)
        return FALSE;
      piece = cw_design_find_piece (look->design, cw_look_get_step (look, stick)->on.piece);
      if (piece == G_MAXUINT)
        return FALSE;
    }
  return FALSE;
}

/* The layer i-th from the eye. */
static const CwLayer *
layer (const CwCell *cell, CwFace from, guint i)
{
  return &cell->layers[from == CW_FACE_FRONT ? i : cell->n_layers - 1 - i];
}

/* Place of the first target from the eye; n_layers if none lies there. */
static guint
find_target (const CwCell *cell, const Ask *ask)
{
  guint i = 0;

  while (i < cell->n_layers && !ask->target[layer (cell, ask->from, i)->panel])
    i++;
  return i;
}

static gboolean
fixed_before (const CwCell *cell, const Ask *ask, guint end)
{
  for (guint i = 0; i < end; i++)
    if (!ask->moves[layer (cell, ask->from, i)->panel])
      return TRUE;
  return FALSE;
}

static gboolean
moves_before (const CwCell *cell, const Ask *ask, guint end)
{
  for (guint i = 0; i < end; i++)
    if (ask->moves[layer (cell, ask->from, i)->panel])
      return TRUE;
  return FALSE;
}

/* Would the target be hidden over this cell by what does not move with it? */
static gboolean
is_covered (const CwCell *cell, const Ask *ask)
{
  guint target = find_target (cell, ask);

  if (target < cell->n_layers)
    return fixed_before (cell, ask, target);
  for (guint i = 0; i < cell->n_layers; i++)
    {
      const CwLayer *own = layer (cell, ask->from, i);
      CwFace seen = own->face_up == ask->from ? CW_FACE_FRONT : CW_FACE_BACK;

      if (own->panel == ask->host)
        return seen != ask->host_face || fixed_before (cell, ask, i);
    }
  for (guint i = 0; i < cell->n_layers; i++)
    if (ask->over[layer (cell, ask->from, i)->panel])
      return TRUE;
  return FALSE;
}

static void
note_over (const CwCell *cell, const Ask *ask)
{
  guint target = find_target (cell, ask);

  if (target == cell->n_layers)
    return;
  for (guint i = 0; i < target; i++)
    {
      guint panel = layer (cell, ask->from, i)->panel;

      if (!ask->moves[panel])
        ask->over[panel] = TRUE;
      ask->over_area[panel] += (double) cell->area2;
    }
}

/* Cracks of rounding between cells closed. */
static CwRegion
join_closed (GArray *parts)
{
  CwRegion joined = cw_sight_join ((CwRegion *) (void *) parts->data, parts->len);
  CwRegion grown = cw_region_grow (&joined, (gint32) CW_TOL_CELL_TICKS);
  CwRegion closed = cw_region_grow (&grown, -(gint32) CW_TOL_CELL_TICKS);

  cw_region_clear (&joined);
  cw_region_clear (&grown);
  return closed;
}

/* TRUE if the panel lies in a hole of the other, of one piece with it. */
static gboolean
is_flap_in (const CwPanelSet *set, guint flap, guint sheet)
{
  const CwPanel *own = cw_panel_set_get_panel (set, flap), *round = cw_panel_set_get_panel (set, sheet);

  for (guint r = 1; r < round->outline.n_rings; r++)
    {
      CwPolygon hole = { 1, &round->outline.rings[r] };

      if (cw_polygon_contains (&hole, own->inside.x, own->inside.y))
        return TRUE;
    }
  return FALSE;
}

/* It lies neither in the sheet any more nor folded back into it. */
static gboolean
is_folded_out (const CwPose *pose, guint flap, guint sheet)
{
  CwRigid back = cw_rigid_inverse (&pose->places[sheet]);
  CwRigid off = cw_rigid_compose (&back, &pose->places[flap]);

  return off.r[2][2] < 0;
}

/**
 * cw_cover_find_openings:
 * @look: looks
 * @step: a step that ends flat
 * @from: the reader's side
 * @panels: (array): n_panels flags, the target
 *
 * A flap cut into a sheet and folded out of it is opened on purpose, to be looked through.
 *
 * Returns: (transfer full): the openings left by such flaps in sheets that lie over the target
 */
CwRegion
cw_cover_find_openings (CwLook *look, guint step, CwFace from, const gboolean *panels)
{
  const CwPose *pose = cw_look_get_pose (look, step);
  const CwView *view = cw_look_get_view (look, step, from);
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (CwRegion));
  guint piece, own;

  for (guint i = 0; i < look->n_panels; i++)
    {
      gboolean over = FALSE;

      if (!pose->present[i] || panels[i] || cw_panel_set_get_panel (look->set, i)->outline.n_rings < 2)
        continue;
      for (guint k = 0; k < look->n_panels && !over; k++)
        over = panels[k] && cw_flat_states_compare (look->states, step, i, k) == (from == CW_FACE_FRONT ? -1 : 1);
      if (!over)
        continue;
      cw_panel_set_locate (look->set, i, &piece, &own);
      for (guint k = look->set->first_panel[piece]; k < look->set->first_panel[piece + 1]; k++)
        if (k != i && is_flap_in (look->set, k, i) && is_folded_out (pose, k, i))
          {
            CwRegion flat = cw_region_from_polygon (&cw_panel_set_get_panel (look->set, k)->outline);
            CwRegion part = cw_sight_project (&flat, &view->places[i]);

            g_array_append_val (parts, part);
            cw_region_clear (&flat);
          }
    }
  return cw_sight_join ((CwRegion *) (void *) parts->data, parts->len);
}

/**
 * cw_cover_find:
 * @look: looks
 * @step: a step that ends flat
 * @from: the reader's side
 * @piece: the piece that is or carries the target
 * @panels: (array): n_panels flags, the target
 *
 * Returns: (transfer full): where the target lies and where it would be hidden
 */
CwCover
cw_cover_find (CwLook *look, guint step, CwFace from, guint piece, const gboolean *panels)
{
  const CwFlatState *state = cw_flat_states_get (look->states, step);
  g_autofree gboolean *moves = g_new0 (gboolean, look->n_panels + 1);
  g_autofree gboolean *over = g_new0 (gboolean, look->n_panels + 1);
  g_autofree double *over_area = g_new0 (double, look->n_panels + 1);
  g_autoptr (GArray) lies = g_array_new (FALSE, FALSE, sizeof (CwRegion));
  g_autoptr (GArray) covers = g_array_new (FALSE, FALSE, sizeof (CwRegion));
  Ask ask = { panels, moves, over, over_area, G_MAXUINT, CW_FACE_FRONT, from };
  guint stick = cw_look_find_stick (look, piece, step);
  CwCover cover = { .by = G_MAXUINT };
  CwRegion openings;
  double most = 0;

  for (guint i = 0; i < look->set->n_pieces; i++)
    if (is_carried (look, step, i, piece))
      for (guint k = look->set->first_panel[i]; k < look->set->first_panel[i + 1]; k++)
        moves[k] = TRUE;
  if (stick != G_MAXUINT)
    {
      const CwStep *own = cw_look_get_step (look, stick);

      ask.host = cw_panel_set_find_host (look->set, own);
      ask.host_face = own->on_face;
    }
  for (guint i = 0; i < state->cells->len; i++)
    note_over (&g_array_index (state->cells, CwCell, i), &ask);
  for (guint i = 0; i < look->n_panels; i++)
    {
      cover.n_by += over_area[i] > 0 ? 1 : 0;
      if (over_area[i] > most)
        {
          most = over_area[i];
          cover.by = i;
        }
    }
  for (guint i = 0; i < state->cells->len; i++)
    {
      const CwCell *cell = &g_array_index (state->cells, CwCell, i);
      guint target = find_target (cell, &ask);
      CwRegion part;

      if (is_covered (cell, &ask))
        {
          part = cw_region_from_polygon (&cell->outline);
          g_array_append_val (covers, part);
        }
      if (target < cell->n_layers && !moves_before (cell, &ask, target))
        {
          part = cw_region_from_polygon (&cell->outline);
          g_array_append_val (lies, part);
        }
    }
  openings = cw_cover_find_openings (look, step, from, panels);
  if (openings.n_polygons > 0)
    g_array_append_val (covers, openings);
  else
    cw_region_clear (&openings);
  cover.lies = join_closed (lies);
  cover.cover = join_closed (covers);
  return cover;
}

/**
 * cw_cover_clear:
 * @cover: a cover; its regions are freed
 */
void
cw_cover_clear (CwCover *cover)
{
  cw_region_clear (&cover->lies);
  cw_region_clear (&cover->cover);
}

static double
segment_gap (CwPoint a, CwPoint b, CwPoint p, CwPoint q, CwPoint *at)
{
  const double gaps[4] = { cw_segment_distance (p, q, a.x, a.y), cw_segment_distance (p, q, b.x, b.y),
                           cw_segment_distance (a, b, p.x, p.y), cw_segment_distance (a, b, q.x, q.y) };
  const CwPoint ends[4] = { a, b, p, q };
  gint64 pa = cw_point_orient (a, b, p), qa = cw_point_orient (a, b, q);
  gint64 ap = cw_point_orient (p, q, a), bp = cw_point_orient (p, q, b);
  guint best = 0;

  for (guint i = 1; i < 4; i++)
    if (gaps[i] < gaps[best])
      best = i;
  *at = ends[best];
  return ((pa < 0 && qa > 0) || (pa > 0 && qa < 0)) && ((ap < 0 && bp > 0) || (ap > 0 && bp < 0)) ? 0 : gaps[best];
}

static double
ring_gap (const CwRing *a, const CwRing *b, double most, CwPoint *at)
{
  for (guint i = 0; i < a->n_points; i++)
    for (guint k = 0; k < b->n_points; k++)
      {
        CwPoint here;
        double gap = segment_gap (a->points[i], a->points[(i + 1) % a->n_points], b->points[k],
                                  b->points[(k + 1) % b->n_points], &here);

        if (gap < most)
          {
            most = gap;
            *at = here;
          }
      }
  return most;
}

/**
 * cw_cover_margin:
 * @cover: how something is hidden
 * @most: the largest margin that is asked for, ticks
 * @at: (out): where it is least, if it is less than @most
 *
 * Returns: how far the target may shift any way and stay hidden, ticks, at most @most
 */
double
cw_cover_margin (const CwCover *cover, double most, CwPoint *at)
{
  double margin = most;

  for (guint i = 0; i < cover->lies.n_polygons; i++)
    for (guint k = 0; k < cover->cover.n_polygons; k++)
      for (guint r = 0; r < cover->lies.polygons[i].n_rings; r++)
        for (guint s = 0; s < cover->cover.polygons[k].n_rings; s++)
          margin = ring_gap (&cover->lies.polygons[i].rings[r], &cover->cover.polygons[k].rings[s], margin, at);
  return margin;
}

/**
 * cw_cover_hides:
 * @cover: how something is or is not hidden
 * @dx: shift to the right in the picture, ticks
 * @dy: shift down
 *
 * Returns: %TRUE if all of the target would be hidden after that shift
 */
gboolean
cw_cover_hides (const CwCover *cover, gint32 dx, gint32 dy)
{
  CwRegion moved = cw_region_copy (&cover->lies), rest, opened;
  gboolean hidden;

  for (guint i = 0; i < moved.n_polygons; i++)
    for (guint r = 0; r < moved.polygons[i].n_rings; r++)
      for (guint k = 0; k < moved.polygons[i].rings[r].n_points; k++)
        {
          moved.polygons[i].rings[r].points[k].x += dx;
          moved.polygons[i].rings[r].points[k].y += dy;
        }
  rest = cw_region_overlay (&moved, &cover->cover, CW_OVERLAY_DIFFERENCE);
  opened = cw_region_open (&rest, CW_TOL_SHOWS_TICKS / 2);
  hidden = opened.n_polygons == 0;
  cw_region_clear (&moved);
  cw_region_clear (&rest);
  cw_region_clear (&opened);
  return hidden;
}
