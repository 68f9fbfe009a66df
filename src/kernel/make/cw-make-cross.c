/* cw-make-cross.c: a fold right across that crosses folds drawn before it: folded in half, then folded again.
 *
 * Where two fold lines cross square, three of the four creases at the crossing fold one way and one the other
 * (Maekawa-Justin): the line drawn first folds first, through one layer, and the second one folds both layers, the
 * lower one in its own way, the upper one, which lies turned over, in the other. So the second line is split into
 * scores at every crossing, and its ways take turns. The card is then closed by the second line; the first one is
 * folded in a making step of its own before that. Crossings that are not square never fold flat and are left as drawn.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "make/cw-make-private.h"

#include "panel/cw-path-flatten.h"

/* A straight score along one of the axes that runs from edge to edge of the outline and folds. */
typedef struct
{
  gboolean upright;
  gint32 at;        /* where it crosses the other axis */
  gint32 low, high; /* from where to where it runs */
} Across;

static gboolean
get_across (const GArray *ring, const CwMark *mark, Across *across)
{
  if (mark->kind != CW_MARK_SCORE || mark->shape != CW_SHAPE_LINE || mark->line.n_vertices != 2
      || mark->fold == CW_FOLD_NONE)
    return FALSE;
  CwPoint a = cw_place_get_point (&mark->line.vertices[0].at), b = cw_place_get_point (&mark->line.vertices[1].at);
  if ((a.x == b.x) == (a.y == b.y) || !cw_make_on_line (ring, a, NULL) || !cw_make_on_line (ring, b, NULL))
    return FALSE;
  across->upright = a.x == b.x;
  across->at = across->upright ? a.x : a.y;
  across->low = across->upright ? MIN (a.y, b.y) : MIN (a.x, b.x);
  across->high = across->upright ? MAX (a.y, b.y) : MAX (a.x, b.x);
  return TRUE;
}

static gboolean
crosses (const Across *a, const Across *b)
{
  return a->upright != b->upright && a->low < b->at && b->at < a->high && b->low < a->at && a->at < b->high;
}

static int
compare_places (gconstpointer a, gconstpointer b)
{
  gint32 x = *(const gint32 *) a, y = *(const gint32 *) b;

  return (x > y) - (x < y);
}

/* The mark from one place of its line to another; the outermost parts keep the ends as they were typed. */
static CwMark *
make_part (const CwMark *mark, const Across *across, gint32 from, gint32 to)
{
  CwMark *part = cw_mark_copy (mark);
  CwUnit unit = mark->line.vertices[0].at.x.unit;
  const gint32 ends[2] = { from, to };

  cw_path_clear (&part->line);
  for (guint end = 0; end < 2; end++)
    {
      CwPoint point = across->upright ? cw_point (across->at, ends[end]) : cw_point (ends[end], across->at);
      CwPlace place = cw_place_from_point (point, unit);

      for (guint k = 0; k < 2; k++)
        if (cw_point_equal (cw_place_get_point (&mark->line.vertices[k].at), point))
          place = mark->line.vertices[k].at;
      cw_path_append (&part->line, place, FALSE);
    }
  return part;
}

/**
 * cw_make_split_crossing:
 * @piece: holds all marks, the new ones last
 * @first_new: index of the first new mark
 *
 * Splits new fold lines right across at the folds they cross, as said at the top of this file. The last part (to the
 * right, or lowest) keeps its way.
 *
 * Returns: (transfer full) (element-type utf8): the ids of all parts, none if nothing was split
 */
GPtrArray *
cw_make_split_crossing (CwPiece *piece, guint first_new)
{
  GPtrArray *ids = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GArray) ring = cw_path_flatten (&piece->outline, TRUE);

  if (ring->len > 0)
    {
      CwPoint first = g_array_index (ring, CwPoint, 0);
      g_array_append_val (ring, first);
    }
  for (guint i = first_new; i < piece->marks->len; i++)
    {
      const CwMark *mark = piece->marks->pdata[i];
      g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (gint32));
      Across across, other;

      if (!get_across (ring, mark, &across))
        continue;
      for (guint k = 0; k < first_new; k++)
        if (get_across (ring, piece->marks->pdata[k], &other) && crosses (&across, &other))
          g_array_append_val (places, other.at);
      if (places->len == 0)
        continue;
      g_array_sort (places, compare_places);
      g_array_append_val (places, across.high);

      g_autoptr (CwMark) whole = g_ptr_array_steal_index (piece->marks, i);
      gint32 from = across.low;
      for (guint k = 0; k < places->len; k++)
        {
          gint32 to = g_array_index (places, gint32, k);
          CwMark *part = make_part (whole, &across, from, to);

          if ((places->len - 1 - k) % 2 == 1)
            part->fold = whole->fold == CW_FOLD_AWAY ? CW_FOLD_TOWARD : CW_FOLD_AWAY;
          if (k > 0)
            {
              g_free (part->id);
              part->id = cw_make_dup_mark_id (piece, CW_MARK_SCORE);
            }
          g_ptr_array_add (ids, g_strdup (part->id));
          g_ptr_array_insert (piece->marks, (int) (i + k), part);
          from = to;
        }
      i += places->len - 1;
    }
  return ids;
}

/* Whether every fold of the step is one that a part ends on: then those were folded first, and close no longer. */
static gboolean
all_crossed (const CwPiece *piece, const CwStep *step, const GPtrArray *ids)
{
  for (guint i = 0; i < step->folds->len; i++)
    {
      const CwStepFold *fold = step->folds->pdata[i];
      gboolean crossed = FALSE;

      for (guint k = 0; k < piece->marks->len && !crossed; k++)
        {
          const CwMark *mark = piece->marks->pdata[k];
          g_autofree char *address = g_strdup_printf ("%s/%s", piece->id, mark->id);
          g_autoptr (GArray) line = cw_mark_flatten (mark);

          if (g_strcmp0 (address, fold->score) != 0)
            continue;
          for (guint n = 0; n < ids->len && !crossed; n++)
            {
              const CwMark *part = cw_piece_get_mark (piece, ids->pdata[n]);

              for (guint end = 0; end < 2 && !crossed; end++)
                crossed = cw_make_on_line (line, cw_place_get_point (&part->line.vertices[end].at), NULL);
            }
        }
      if (!crossed)
        return FALSE;
    }
  return step->folds->len > 0;
}

/* Moves the folds of the closing step to a making step before it, and takes them out of the opening. */
static void
fold_first (CwMakeWork *work, const char *piece_id)
{
  guint close = cw_make_find_rest (work->design, "closed"), open = cw_make_find_rest (work->design, "open");
  const CwStep *closing = work->design->steps->pdata[close];
  g_autofree char *wish
    = g_strdup_printf ("fold-%s", strchr (((const CwStepFold *) closing->folds->pdata[0])->score, '/') + 1);
  CwStep *first = cw_step_new ();
  CwStep *now = cw_step_copy (closing);

  first->id = cw_design_dup_free_id (work->design, wish);
  first->what = CW_DO_FOLD;
  first->phase = CW_PHASE_MAKING;
  for (guint i = 0; i < closing->folds->len; i++)
    {
      const CwStepFold *fold = closing->folds->pdata[i];
      CwStepFold *copy = cw_step_fold_new ();

      copy->score = g_strdup (fold->score);
      copy->to = fold->to;
      g_ptr_array_add (first->folds, copy);
    }
  g_ptr_array_set_size (now->folds, 0);
  if (open != G_MAXUINT)
    for (guint i = 0; i < first->folds->len; i++)
      cw_make_drop_fold (work, open, ((const CwStepFold *) first->folds->pdata[i])->score);
  cw_make_work_do (work, cw_edit_new_replace (work->design, CW_LIST_STEPS, NULL, close, now));
  cw_make_insert_step (work, piece_id, first);
}

/**
 * cw_make_fold_again:
 * @ids: (element-type utf8): the parts of fold lines that were split at their crossings
 *
 * Brings their step: closing the card where what they cross closed it until now, a step of its own where not.
 */
void
cw_make_fold_again (CwMakeWork *work, const char *piece_id, const GPtrArray *ids)
{
  guint close = cw_make_find_rest (work->design, "closed"), open = cw_make_find_rest (work->design, "open");
  const CwPiece *piece = cw_design_get_piece (work->design, piece_id);
  gboolean closes = FALSE;

  if (ids->len == 0)
    return;
  if (close != G_MAXUINT && open != G_MAXUINT && cw_design_get_ground (work->design) == piece)
    {
      closes = all_crossed (piece, work->design->steps->pdata[close], ids);
      if (closes)
        fold_first (work, piece_id);
    }
  if (closes)
    {
      close = cw_make_find_rest (work->design, "closed");
      open = cw_make_find_rest (work->design, "open");
    }
  else
    {
      CwStep *step = cw_step_new ();
      g_autofree char *wish = g_strdup_printf ("fold-%s", (const char *) ids->pdata[0]);

      step->id = cw_design_dup_free_id (work->design, wish);
      step->what = CW_DO_FOLD;
      step->phase = CW_PHASE_MAKING;
      close = cw_make_insert_step (work, piece_id, step);
    }
  for (guint i = 0; i < ids->len; i++)
    {
      g_autofree char *address = g_strdup_printf ("%s/%s", piece_id, (const char *) ids->pdata[i]);

      cw_make_add_fold (work, close, address, 180);
      if (closes)
        cw_make_add_fold (work, open, address, 0);
    }
}
