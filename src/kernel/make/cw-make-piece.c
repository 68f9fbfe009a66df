/* cw-make-piece.c: pieces and their papers.
 *
 * A sized piece is a rectangle, its corners square or quarter circles (an arc through the point at radius (1 - sqrt
 * 1/2) from either side, to the tick). When it is made larger or smaller, marks that end on its right or bottom edge
 * keep to it, all others stay where they are measured from the left and the top. Other outlines have no size here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-piece.h"
#include "make/cw-make-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define CORNERS 4

/* ---- Size ---- */

/* Where an arc of this radius passes nearest to its corner, from either side. */
static gint32
arc_inset (gint32 radius)
{
  return (gint32) lround (radius * (1 - G_SQRT2 / 2));
}

/* The outline of a sheet; its corners in order from the top left, clockwise. */
static CwPath
make_outline (const CwMakeSize *size)
{
  CwPath path = { 0 };
  gint32 w = size->width.ticks, h = size->height.ticks, r = size->radius.ticks, q = arc_inset (r);
  CwUnit unit = size->width.unit;
  const CwLength zero = cw_length_from_ticks (0, unit);

  if (r == 0)
    {
      cw_path_append (&path, (CwPlace){ zero, zero }, FALSE);
      cw_path_append (&path, (CwPlace){ size->width, zero }, FALSE);
      cw_path_append (&path, (CwPlace){ size->width, size->height }, FALSE);
      cw_path_append (&path, (CwPlace){ zero, size->height }, FALSE);
      return path;
    }
  const CwPoint places[3 * CORNERS] = {
    { 0, r },     { q, q },         { r, 0 },     { w - r, 0 }, { w - q, q }, { w, r },
    { w, h - r }, { w - q, h - q }, { w - r, h }, { r, h },     { q, h - q }, { 0, h - r },
  };
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      /* Half a circle from side to side: the next arc begins where this one ends. */
      if (i > 0 && cw_point_equal (places[i], places[i - 1]))
        continue;
      if (i + 1 == G_N_ELEMENTS (places) && cw_point_equal (places[i], places[0]))
        continue;
      cw_path_append (&path, cw_place_from_point (places[i], unit), i % 3 == 1);
    }
  return path;
}

static gboolean
same_outline (const CwPath *a, const CwPath *b)
{
  if (a->n_vertices != b->n_vertices)
    return FALSE;
  for (guint i = 0; i < a->n_vertices; i++)
    if (a->vertices[i].through != b->vertices[i].through
        || !cw_point_equal (cw_place_get_point (&a->vertices[i].at), cw_place_get_point (&b->vertices[i].at)))
      return FALSE;
  return TRUE;
}

/**
 * cw_make_get_size:
 * @piece: a piece
 * @size: (out): its width, height and corners
 *
 * Returns: FALSE when its outline is no rectangle with equal corners
 */
gboolean
cw_make_get_size (const CwPiece *piece, CwMakeSize *size)
{
  CwMakeBox box = { .some = FALSE };
  CwUnit unit;

  g_return_val_if_fail (piece && size, FALSE);

  if (piece->outline.n_vertices < CORNERS)
    return FALSE;
  for (guint i = 0; i < piece->outline.n_vertices; i++)
    cw_make_box_add (&box, cw_place_get_point (&piece->outline.vertices[i].at));
  unit = piece->outline.vertices[0].at.x.unit;
  *size = (CwMakeSize){ cw_length_from_ticks (box.high.x, unit), cw_length_from_ticks (box.high.y, unit),
                        cw_length_from_ticks (0, unit) };
  for (guint i = 0; i < piece->outline.n_vertices; i++)
    {
      const CwPlace *at = &piece->outline.vertices[i].at;

      if (at->x.ticks == box.high.x)
        size->width = at->x;
      if (at->y.ticks == box.high.y)
        size->height = at->y;
    }
  if (piece->outline.n_vertices > CORNERS)
    size->radius = piece->outline.vertices[0].at.y;
  if (box.low.x != 0 || box.low.y != 0 || 2 * size->radius.ticks > MIN (box.high.x, box.high.y))
    return FALSE;
  if (size->radius.ticks == 0)
    {
      /* A rectangle, wherever its outline begins and whichever way it runs. */
      for (guint i = 0; i < CORNERS; i++)
        {
          CwPoint p = cw_place_get_point (&piece->outline.vertices[i].at);
          CwPoint q = cw_place_get_point (&piece->outline.vertices[(i + 1) % CORNERS].at);

          if ((p.x != 0 && p.x != box.high.x) || (p.y != 0 && p.y != box.high.y) || (p.x == q.x) == (p.y == q.y)
              || piece->outline.vertices[i].through)
            return FALSE;
        }
      return piece->outline.n_vertices == CORNERS;
    }
  CwPath ideal = make_outline (size);
  gboolean same = same_outline (&ideal, &piece->outline);
  cw_path_clear (&ideal);
  return same;
}

static gboolean
check_size (const CwMakeSize *size, GError **error)
{
  if (size->width.ticks <= 0 || size->height.ticks <= 0)
    return cw_make_fail (error, _ ("A piece needs some width and some height."));
  if (size->radius.ticks < 0)
    return cw_make_fail (error, _ ("Corners are rounded by 0 or more."));
  if (2 * size->radius.ticks > MIN (size->width.ticks, size->height.ticks))
    return cw_make_fail (error, _ ("Corners cannot be rounded by more than half of the shorter side."));
  return TRUE;
}

static void
keep_to_edge (CwPlace *place, const CwMakeSize *was, const CwMakeSize *now)
{
  if (place->x.ticks == was->width.ticks)
    place->x = now->width;
  if (place->y.ticks == was->height.ticks)
    place->y = now->height;
}

/**
 * cw_make_set_size:
 * @piece_id: an existing piece
 * @size: what it is to be
 *
 * A layer that has followed its panel follows it no longer.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_set_size (const CwDesign *design, const char *piece_id, const CwMakeSize *size, GError **error)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  CwMakeSize was = { 0 };
  g_return_val_if_fail (piece && size, NULL);

  if (!check_size (size, error))
    return NULL;
  g_autoptr (CwMakeGraph) before = cw_make_graph_new (design, piece_id);
  gboolean plain = cw_make_get_size (piece, &was);
  CwMakeWork work = cw_make_work_begin (design);
  CwPiece *copy = cw_piece_copy (piece);

  cw_path_clear (&copy->outline);
  copy->outline = make_outline (size);
  copy->has_rim = FALSE;
  for (guint i = 0; plain && i < copy->marks->len; i++)
    {
      CwMark *mark = cw_mark_copy (copy->marks->pdata[i]);

      for (guint k = 0; k < mark->line.n_vertices; k++)
        keep_to_edge (&mark->line.vertices[k].at, &was, size);
      cw_mark_unref (copy->marks->pdata[i]);
      copy->marks->pdata[i] = mark;
    }
  cw_make_replace_piece (&work, copy);
  cw_make_settle (&work, piece_id, before);
  cw_make_hold_anew (&work, piece_id, before);
  cw_make_follow (&work, piece_id, before);
  cw_make_reflow (&work, piece_id, before);
  return cw_make_work_finish (&work, error);
}

/* "Piece 2", the first number not yet taken. */
static char *
make_piece_name (const CwDesign *design)
{
  for (guint n = design->pieces->len + 1;; n++)
    {
      g_autofree char *name = g_strdup_printf (_ ("Piece %u"), n);
      guint i = 0;

      while (i < design->pieces->len && g_strcmp0 (((CwPiece *) design->pieces->pdata[i])->name, name) != 0)
        i++;
      if (i == design->pieces->len)
        return g_steal_pointer (&name);
    }
}

/**
 * cw_make_usual_size:
 *
 * Returns: what a new piece measures until its maker says otherwise: half as wide and high as the base, on the maker's
 * marks; 2 inches or 50 mm where the base has an outline of its own
 */
CwMakeSize
cw_make_usual_size (const CwDesign *design)
{
  CwMakeSize size = { 0 };
  g_return_val_if_fail (design, size);

  const CwPiece *ground = cw_design_get_ground (design);
  CwUnit unit = design->head->unit;
  gint32 snap = cw_head_get_mark_step (design->head);

  if (!ground || !cw_make_get_size (ground, &size))
    size.width = size.height
      = cw_length_from_ticks (unit == CW_UNIT_INCH ? 4 * CW_TICKS_PER_INCH : 100 * CW_TICKS_PER_MM, unit);
  size.width = cw_length_from_ticks (MAX (cw_ticks_snap (size.width.ticks / 2, snap), snap), unit);
  size.height = cw_length_from_ticks (MAX (cw_ticks_snap (size.height.ticks / 2, snap), snap), unit);
  size.radius = cw_length_from_ticks (0, unit);
  return size;
}

/**
 * cw_make_add_piece:
 * @size: of the new piece
 *
 * Adds a piece that is not on the card yet, of the base's paper.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_add_piece (const CwDesign *design, const CwMakeSize *size, GError **error)
{
  g_return_val_if_fail (design && size, NULL);

  if (!check_size (size, error))
    return NULL;
  const CwPiece *ground = cw_design_get_ground (design);
  CwMakeWork work = cw_make_work_begin (design);
  CwPiece *piece = cw_piece_new ();

  piece->id = cw_design_dup_free_id (design, "piece");
  piece->name = make_piece_name (design);
  piece->paper = ground ? g_strdup (ground->paper) : NULL;
  piece->outline = make_outline (size);
  cw_make_work_do (&work, cw_edit_new_insert (design, CW_LIST_PIECES, NULL, design->pieces->len, piece));
  return cw_make_work_finish (&work, error);
}

static CwEdit *
replace_piece (const CwDesign *design, CwPiece *piece)
{
  return cw_edit_new_replace (design, CW_LIST_PIECES, NULL, cw_design_find_piece (design, piece->id), piece);
}

/**
 * cw_make_rename_piece:
 * @name: (nullable): its name
 *
 * Returns: (transfer full): the edit
 */
CwEdit *
cw_make_rename_piece (const CwDesign *design, const char *piece_id, const char *name)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece, NULL);

  CwPiece *copy = cw_piece_copy (piece);
  g_free (copy->name);
  copy->name = name && *name ? g_strdup (name) : NULL;
  return replace_piece (design, copy);
}

/**
 * cw_make_set_shows:
 * @shows: the face that is meant to be seen
 *
 * Returns: (transfer full): the edit
 */
CwEdit *
cw_make_set_shows (const CwDesign *design, const char *piece_id, CwShows shows)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece, NULL);

  CwPiece *copy = cw_piece_copy (piece);
  copy->shows = shows;
  return replace_piece (design, copy);
}

/* ---- Papers ---- */

/**
 * cw_make_set_paper:
 * @paper_id: an existing paper
 *
 * Returns: (transfer full): the edit that cuts the piece from that paper
 */
CwEdit *
cw_make_set_paper (const CwDesign *design, const char *piece_id, const char *paper_id)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece && cw_design_get_paper (design, paper_id), NULL);

  CwPiece *copy = cw_piece_copy (piece);
  g_free (copy->paper);
  copy->paper = g_strdup (paper_id);
  return replace_piece (design, copy);
}

/**
 * cw_make_add_paper:
 * @piece_id: the piece that is cut from it
 *
 * Adds a paper like the one the piece is cut from now, to be changed.
 *
 * Returns: (transfer full): the edit
 */
CwEdit *
cw_make_add_paper (const CwDesign *design, const char *piece_id)
{
  const CwPiece *piece = design ? cw_design_get_piece (design, piece_id) : NULL;
  g_return_val_if_fail (piece, NULL);

  const CwPaper *old = piece->paper ? cw_design_get_paper (design, piece->paper) : NULL;
  CwMakeWork work = cw_make_work_begin (design);
  CwPaper *paper = old ? cw_paper_copy (old) : cw_paper_new ();
  g_autofree char *id = cw_design_dup_free_id (design, "paper");

  g_free (paper->id);
  paper->id = g_strdup (id);
  g_free (paper->name);
  paper->name = g_strdup_printf (_ ("Paper %u"), design->papers->len + 1);
  cw_make_work_do (&work, cw_edit_new_insert (design, CW_LIST_PAPERS, NULL, design->papers->len, paper));
  cw_make_work_do (&work, cw_make_set_paper (work.design, piece_id, id));
  return cw_make_work_end (&work);
}

/**
 * cw_make_change_paper:
 * @paper: (transfer full): a changed paper with the id of an old one
 *
 * Returns: (transfer full): the edit
 */
CwEdit *
cw_make_change_paper (const CwDesign *design, CwPaper *paper)
{
  g_return_val_if_fail (design && paper, NULL);

  for (guint i = 0; i < design->papers->len; i++)
    if (g_strcmp0 (((const CwPaper *) design->papers->pdata[i])->id, paper->id) == 0)
      return cw_edit_new_replace (design, CW_LIST_PAPERS, NULL, i, paper);
  g_return_val_if_reached (NULL);
}
