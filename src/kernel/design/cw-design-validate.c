/* cw-design-validate.c: whether a design holds together: ids, references, lines and areas.
 *
 * One pass in file order, with tables of ids made first, so that the time grows with the size of the file. Everything
 * the other rooms rely on is here: what passes, they can work with. Left to them as findings about a card: marks that
 * leave their piece, outlines that cross themselves, folds that cannot move. Left alone because it is only unfinished:
 * no paper, no hold point, zones that hold nothing, states that no step reaches.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "design/cw-design-json.h"
#include "design/cw-design-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define TO_MAX 180.0   /* degrees: a score cannot fold further than shut */
#define TURN_MAX 360.0 /* degrees */

typedef struct
{
  const CwDesign *design;
  GHashTable *papers, *pieces, *marks, *glue, *steps; /* borrowed ids; marks by "piece/mark", owned */
  GError **error;
} Check;

static gboolean fail (const Check *check, const char *path, const char *format, ...) G_GNUC_PRINTF (3, 4);

static gboolean
fail (const Check *check, const char *path, const char *format, ...)
{
  va_list args;

  va_start (args, format);
  g_autofree char *words = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (check->error, CW_DESIGN_ERROR, CW_DESIGN_ERROR_CONTENT, "%s: %s", path, words);
  return FALSE;
}

/* An id must be there, hold no '/' (addresses are "piece/mark") and nothing that cannot be seen, and be new in `ids`.
 * Takes `key`, what stands for the id in `ids`. */
static gboolean
check_id (const Check *check, const char *path, const char *id, GHashTable *ids, char *key, gpointer item)
{
  g_autofree char *own = key;
  g_autofree char *place = g_strconcat (path, ".id", NULL);

  if (!id || !*id)
    return fail (check, place, _ ("expected an id that is not empty"));
  if (strchr (id, '/'))
    return fail (check, place, _ ("expected an id without “/”, not “%s”"), id);
  for (const char *p = id; *p; p = g_utf8_next_char (p))
    if (g_unichar_iscntrl (g_utf8_get_char (p)))
      return fail (check, place, _ ("expected an id without control characters"));
  if (!g_hash_table_insert (ids, g_steal_pointer (&own), item))
    return fail (check, place, _ ("the id “%s” is taken already"), id);
  return TRUE;
}

static gboolean
check_piece_ref (const Check *check, const char *path, const char *key, const char *id)
{
  g_autofree char *place = g_strconcat (path, key, NULL);

  if (!id || !g_hash_table_contains (check->pieces, id))
    return fail (check, place, _ ("there is no piece “%s”"), id ? id : "");
  return TRUE;
}

static gboolean
check_angle (const Check *check, const char *path, const char *key, double angle, double most)
{
  g_autofree char *place = g_strconcat (path, key, NULL);

  if (!(fabs (angle) <= most))
    return fail (check, place, _ ("expected an angle between -%g and %g degrees"), most, most);
  return TRUE;
}

static gboolean
is_inside (CwPoint point)
{
  return ABS (point.x) <= CW_COORDINATE_MAX && ABS (point.y) <= CW_COORDINATE_MAX;
}

/* Whether the arc from a through t to b stays within the largest sheet. Its box is that of its ends and of those of the
 * four outermost points of its circle that lie on it: the ones on the same side of the chord a b as t. */
static gboolean
arc_is_inside (CwPoint a, CwPoint t, CwPoint b)
{
  double ax = a.x, ay = a.y;
  double bx = b.x - ax, by = b.y - ay, tx = t.x - ax, ty = t.y - ay;
  double d = 2.0 * (double) cw_point_orient (a, b, t);

  if (cw_point_orient (a, b, t) == 0)
    return TRUE; /* straight */
  double b2 = bx * bx + by * by, t2 = tx * tx + ty * ty;
  double cx = (ty * b2 - by * t2) / d, cy = (bx * t2 - tx * b2) / d;
  double radius = hypot (cx, cy);
  double side = bx * ty - by * tx;
  for (guint i = 0; i < 4; i++)
    {
      double x = cx + (i == 0 ? radius : i == 1 ? -radius : 0.0);
      double y = cy + (i == 2 ? radius : i == 3 ? -radius : 0.0);

      if ((bx * y - by * x) * side > 0.0 && (fabs (ax + x) > CW_COORDINATE_MAX || fabs (ay + y) > CW_COORDINATE_MAX))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_path (const Check *check, const char *owner, const char *key, const CwPath *path, gboolean closed)
{
  g_autofree char *place = g_strconcat (owner, key, NULL);
  guint n = path->n_vertices;
  gboolean moves = FALSE;
  gint64 area = 0;

  if (n < (closed ? 3 : 2))
    return fail (check, place, closed ? _ ("expected at least three points") : _ ("expected at least two points"));
  if (path->vertices[0].through || (!closed && path->vertices[n - 1].through))
    return fail (check, place, _ ("expected a “through” only between two points"));
  for (guint i = 0; i < n; i++)
    {
      const CwVertex *vertex = &path->vertices[i];
      const CwVertex *before = &path->vertices[i > 0 ? i - 1 : n - 1];
      const CwVertex *after = &path->vertices[i + 1 < n ? i + 1 : 0];
      CwPoint p = cw_place_get_point (&vertex->at), q = cw_place_get_point (&after->at);
      g_autofree char *spot = g_strdup_printf ("%s[%u]", place, i);

      if (!is_inside (p))
        return fail (check, spot, _ ("expected a point within 60 in of the corner, the largest sheet"));
      moves = moves || (i + 1 < n && !cw_point_equal (p, q));
      area += (gint64) p.x * q.y - (gint64) p.y * q.x;
      if (!vertex->through)
        continue;
      CwPoint o = cw_place_get_point (&before->at);
      if (before->through || after->through)
        return fail (check, spot, _ ("expected a “through” only between two points"));
      if (cw_point_equal (o, q))
        return fail (check, spot, _ ("expected an arc between two different points"));
      if (!arc_is_inside (o, p, q))
        return fail (check, spot, _ ("this arc is so flat that it leaves the largest sheet, 60 in"));
    }
  if (!closed && !moves)
    return fail (check, place, _ ("expected a line that is longer than 0"));
  if (closed && area == 0)
    return fail (check, place, _ ("expected an outline with an area"));
  return TRUE;
}

/* Two corners must span an area. */
static gboolean
check_corners (const Check *check, const char *owner, const char *key, CwPoint a, CwPoint b)
{
  g_autofree char *place = g_strconcat (owner, key, NULL);

  if (!is_inside (a) || !is_inside (b))
    return fail (check, place, _ ("expected corners within 60 in of the corner, the largest sheet"));
  if (a.x == b.x || a.y == b.y)
    return fail (check, place, _ ("expected two opposite corners with an area between them"));
  return TRUE;
}

static gboolean
check_mark (const Check *check, const char *path, const CwMark *mark)
{
  CwPoint centre = cw_place_get_point (&mark->centre);
  g_autofree char *place = g_strconcat (path, ".circle", NULL);

  switch (mark->shape)
    {
    case CW_SHAPE_LINE:
      return check_path (check, path, ".line", &mark->line, mark->kind == CW_MARK_WINDOW);
    case CW_SHAPE_RECT:
    case CW_SHAPE_CIRCLE:
      if (mark->kind != CW_MARK_WINDOW)
        return fail (check, path, _ ("only a window may be a “rect” or a “circle”; a %s needs a “line”"),
                     cw_mark_kind_get_key (mark->kind));
      if (mark->shape == CW_SHAPE_RECT)
        {
          if (mark->line.n_vertices != 2)
            return fail (check, path, _ ("a “rect” needs two corners"));
          return check_corners (check, path, ".rect", cw_place_get_point (&mark->line.vertices[0].at),
                                cw_place_get_point (&mark->line.vertices[1].at));
        }
      if (mark->radius.ticks <= 0)
        return fail (check, place, _ ("expected a radius over 0"));
      if ((gint64) ABS ((gint64) centre.x) + mark->radius.ticks > CW_COORDINATE_MAX
          || (gint64) ABS ((gint64) centre.y) + mark->radius.ticks > CW_COORDINATE_MAX)
        return fail (check, place, _ ("expected a circle within 60 in of the corner, the largest sheet"));
      return TRUE;
    default:
      return fail (check, path, _ ("expected a “line”, a “rect” or a “circle”"));
    }
}

static gboolean
check_piece (const Check *check, const char *path, const CwPiece *piece)
{
  g_autoptr (GHashTable) art_ids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  if (piece->paper && !g_hash_table_contains (check->papers, piece->paper))
    {
      g_autofree char *place = g_strconcat (path, ".paper", NULL);
      return fail (check, place, _ ("there is no paper “%s”"), piece->paper);
    }
  if (!check_path (check, path, ".outline", &piece->outline, TRUE))
    return FALSE;
  for (guint i = 0; i < piece->marks->len; i++)
    {
      CwMark *mark = g_ptr_array_index (piece->marks, i);
      g_autofree char *place = g_strdup_printf ("%s.marks[%u]", path, i);
      char *key = g_strdup_printf ("%s/%s", piece->id, mark->id ? mark->id : "");
      if (!check_id (check, place, mark->id, check->marks, key, mark) || !check_mark (check, place, mark))
        return FALSE;
    }
  for (guint i = 0; i < piece->art->len; i++)
    {
      CwArt *art = g_ptr_array_index (piece->art, i);
      g_autofree char *place = g_strdup_printf ("%s.art[%u]", path, i);
      if (!check_id (check, place, art->id, art_ids, g_strdup (art->id), art)
          || !check_corners (check, place, ".box", cw_place_get_point (&art->box[0]), cw_place_get_point (&art->box[1]))
          || !check_angle (check, place, ".up", art->up, TURN_MAX))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_glue (const Check *check, const char *path, const CwGlue *glue)
{
  if (!check_piece_ref (check, path, ".piece", glue->piece) || !check_path (check, path, ".area", &glue->area, TRUE))
    return FALSE;
  for (guint i = 0; i < glue->holds->len; i++)
    {
      const CwTarget *target = g_ptr_array_index (glue->holds, i);
      g_autofree char *key
        = glue->holds_listed || glue->holds->len != 1 ? g_strdup_printf (".holds[%u]", i) : g_strdup (".holds");
      if (!check_piece_ref (check, path, key, target->piece))
        return FALSE;
    }
  if (glue->apply && !g_hash_table_contains (check->steps, glue->apply))
    {
      g_autofree char *place = g_strconcat (path, ".apply", NULL);
      return fail (check, place, _ ("there is no step “%s”"), glue->apply);
    }
  return TRUE;
}

static gboolean
check_step (const Check *check, const char *path, const CwStep *step)
{
  gboolean needs_piece = step->what == CW_DO_STICK || step->what == CW_DO_TAKE_AWAY;

  if (needs_piece && !step->piece)
    return fail (check, path, _ ("the key “%s” is missing"), "piece");
  if (step->piece && !check_piece_ref (check, path, ".piece", step->piece))
    return FALSE;
  if (step->has_on && !check_piece_ref (check, path, ".on.piece", step->on.piece))
    return FALSE;
  if (step->what == CW_DO_STICK && step->has_on && g_str_equal (step->on.piece, step->piece))
    {
      g_autofree char *place = g_strconcat (path, ".on.piece", NULL);
      return fail (check, place, _ ("a piece cannot be stuck on itself"));
    }
  if (!check_angle (check, path, ".turn", step->turn, TURN_MAX))
    return FALSE;
  for (guint i = 0; i < step->folds->len; i++)
    {
      const CwStepFold *fold = g_ptr_array_index (step->folds, i);
      g_autofree char *place = g_strdup_printf ("%s.folds[%u]", path, i);
      g_autofree char *where = g_strconcat (place, ".score", NULL);
      const CwMark *mark = fold->score ? g_hash_table_lookup (check->marks, fold->score) : NULL;
      if (!mark)
        return fail (check, where, _ ("there is no score “%s” (written as piece/score)"),
                     fold->score ? fold->score : "");
      if (mark->kind != CW_MARK_SCORE)
        return fail (check, where, _ ("“%s” is not a score, so it cannot be folded"), fold->score);
      if (!check_angle (check, place, ".to", fold->to, TO_MAX))
        return FALSE;
    }
  for (guint i = 0; i < step->marks->len; i++)
    {
      const char *address = g_ptr_array_index (step->marks, i);
      g_autofree char *place = g_strdup_printf ("%s.marks[%u]", path, i);
      if (!g_hash_table_contains (check->marks, address))
        return fail (check, place, _ ("there is no mark “%s” (written as piece/mark)"), address);
    }
  for (guint i = 0; i < step->zones->len; i++)
    {
      const char *zone = g_ptr_array_index (step->zones, i);
      g_autofree char *place = g_strdup_printf ("%s.zones[%u]", path, i);
      if (!g_hash_table_contains (check->glue, zone))
        return fail (check, place, _ ("there is no glue zone “%s”"), zone);
    }
  for (guint i = 0; i < step->heat->len; i++)
    {
      g_autofree char *key = g_strdup_printf (".heat[%u]", i);
      if (!check_piece_ref (check, path, key, g_ptr_array_index (step->heat, i)))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_sights (const Check *check, const char *path, const GPtrArray *wants)
{
  for (guint i = 0; i < wants->len; i++)
    {
      const CwSightWant *want = g_ptr_array_index (wants, i);
      g_autofree char *key = g_strdup_printf ("[%u].piece", i);
      if (!check_piece_ref (check, path, key, want->target.piece))
        return FALSE;
    }
  return TRUE;
}

/* Ids of one list, which every item has first (see cw-design.c). */
static gboolean
check_ids (const Check *check, const char *key, const GPtrArray *list, GHashTable *ids)
{
  for (guint i = 0; i < list->len; i++)
    {
      gpointer item = g_ptr_array_index (list, i);
      const char *id = *(char **) item;
      g_autofree char *place = g_strdup_printf ("%s[%u]", key, i);
      if (!check_id (check, place, id, ids, g_strdup (id), item))
        return FALSE;
    }
  return TRUE;
}

static gboolean
check_lists (const Check *check)
{
  const CwDesign *design = check->design;
  guint n_ground = 0;

  if (!check_ids (check, "papers", design->papers, check->papers)
      || !check_ids (check, "pieces", design->pieces, check->pieces)
      || !check_ids (check, "glue", design->glue, check->glue)
      || !check_ids (check, "steps", design->steps, check->steps))
    return FALSE;
  if (design->pieces->len == 0)
    return fail (check, "pieces", _ ("expected at least one piece"));
  for (guint i = 0; i < design->papers->len; i++)
    {
      const CwPaper *paper = g_ptr_array_index (design->papers, i);
      g_autofree char *place = g_strdup_printf ("papers[%u].grain", i);
      if (paper->grain && !g_str_equal (paper->grain, "x") && !g_str_equal (paper->grain, "y"))
        return fail (check, place, _ ("expected \"x\" or \"y\", the way the fibres run, not “%s”"), paper->grain);
    }
  for (guint i = 0; i < design->pieces->len; i++)
    {
      const CwPiece *piece = g_ptr_array_index (design->pieces, i);
      g_autofree char *place = g_strdup_printf ("pieces[%u]", i);
      if (!check_piece (check, place, piece))
        return FALSE;
      if (piece->ground && n_ground++ > 0)
        return fail (check, place, _ ("only one piece can be the ground"));
    }
  for (guint i = 0; i < design->glue->len; i++)
    {
      g_autofree char *place = g_strdup_printf ("glue[%u]", i);
      if (!check_glue (check, place, g_ptr_array_index (design->glue, i)))
        return FALSE;
    }
  for (guint i = 0; i < design->steps->len; i++)
    {
      g_autofree char *place = g_strdup_printf ("steps[%u]", i);
      if (!check_step (check, place, g_ptr_array_index (design->steps, i)))
        return FALSE;
    }
  return check_sights (check, "wants.hidden", design->head->wants.hidden)
         && check_sights (check, "wants.shown", design->head->wants.shown);
}

/**
 * cw_design_validate:
 * @design: a design
 * @error: where to put an error of CW_DESIGN_ERROR
 *
 * Whether ids are unique and well formed, every reference has its item, every line a length and every outline an area,
 * and all of it lies within the largest sheet. Every file that is read has passed this; whoever edits a design should
 * leave it so.
 *
 * Returns: FALSE with @error set, which begins with the JSON path, when it does not hold together
 */
gboolean
cw_design_validate (const CwDesign *design, GError **error)
{
  g_return_val_if_fail (design, FALSE);
  g_autoptr (GHashTable) papers = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) pieces = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) marks = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) glue = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) steps = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  const Check check = { design, papers, pieces, marks, glue, steps, error };

  return check_lists (&check);
}
