/* cw-hinge-find.c: the fold lines between the panels of one piece.
 *
 * Every edge that carries a score, and no outline, cut or window, and has two different panels at its sides is a part
 * of a hinge. Parts between the same two panels belong to one hinge when they come from the same drawn segment, or
 * from two whose ends lie on one line: decided on the ends as drawn, in integers, with the tick that an end may stand
 * off a slanted line (model, "Marks and outlines"). The axis is taken from the two ends as drawn that lie farthest
 * apart, not from the rounded crossings: so it is as true as ends on ticks can make it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "panel/cw-panel-map-private.h"

#include "geometry/cw-tolerance.h"

#include "cw-config.h"
#include <glib/gi18n-lib.h>
#include <math.h>

typedef struct
{
  guint low, high; /* panels */
  guint edge;      /* of the sheet */
  guint source;    /* the first score in file order that runs along it */
  guint group;
} Part;

static int
compare_parts (const void *one, const void *two)
{
  const Part *a = one, *b = two;
  guint x[4] = { a->low, a->high, a->source, a->edge }, y[4] = { b->low, b->high, b->source, b->edge };

  for (int i = 0; i < 4; i++)
    if (x[i] != y[i])
      return x[i] < y[i] ? -1 : 1;
  return 0;
}

static int
compare_groups (const void *one, const void *two)
{
  const Part *a = one, *b = two;

  if (a->group != b->group)
    return a->group < b->group ? -1 : 1;
  return compare_parts (one, two);
}

static gint64
square_distance (CwPoint a, CwPoint b)
{
  gint64 dx = (gint64) b.x - a.x, dy = (gint64) b.y - a.y;

  return dx * dx + dy * dy;
}

/* Whether two drawn segments lie on one line: of their four ends, the two innermost are within a tick of the line
 * through the two outermost. The products stay exact in doubles' reach for the comparison: under 2^43 against a
 * length. */
static gboolean
on_one_line (const CwSheetSource *s, const CwSheetSource *t)
{
  CwPoint ends[4] = { s->a, s->b, t->a, t->b };
  CwPoint from = ends[0], to = ends[1];

  for (int i = 0; i < 4; i++)
    for (int k = i + 1; k < 4; k++)
      if (square_distance (ends[i], ends[k]) > square_distance (from, to))
        {
          from = ends[i];
          to = ends[k];
        }
  for (int i = 0; i < 4; i++)
    {
      double off = fabs ((double) cw_point_orient (from, to, ends[i]));

      if (off > CW_TOL_MEETS_TICKS * sqrt ((double) square_distance (from, to)))
        return FALSE;
    }
  return TRUE;
}

static GArray *
collect_parts (const CwSheet *sheet, const guint *panel_of_face)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (Part));

  for (guint i = 0; i < sheet->edges->len; i++)
    {
      const CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, i);
      guint left, right;
      Part part = { 0 };

      if ((edge->flags & CW_SHEET_SCORE) == 0 || (edge->flags & (CW_SHEET_OPEN | CW_SHEET_DROPPED)) != 0)
        continue;
      if (edge->left == CW_SHEET_NO_FACE || edge->right == CW_SHEET_NO_FACE)
        continue;
      left = panel_of_face[edge->left];
      right = panel_of_face[edge->right];
      if (left == right || left == G_MAXUINT || right == G_MAXUINT)
        continue;
      part.low = MIN (left, right);
      part.high = MAX (left, right);
      part.edge = i;
      part.source = g_array_index (sheet->links, CwEdgeLink, edge->first_link).source;
      g_array_append_val (parts, part);
    }
  g_array_sort (parts, compare_parts);
  return parts;
}

/* Gives parts of one line between the same panels one group. Groups of a pair are few: each is compared with all. */
static void
group_parts (const CwSheet *sheet, GArray *parts)
{
  g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (guint)); /* a source for each group of the pair */
  guint first_group = 0, n_groups = 0;

  for (guint i = 0; i < parts->len; i++)
    {
      Part *part = &g_array_index (parts, Part, i);
      const Part *before = i > 0 ? part - 1 : NULL;
      gboolean found = FALSE;

      if (before == NULL || before->low != part->low || before->high != part->high)
        {
          g_array_set_size (lines, 0);
          first_group = n_groups;
        }
      else if (before->source == part->source)
        {
          part->group = before->group;
          continue;
        }
      for (guint k = 0; k < lines->len && !found; k++)
        {
          guint line = g_array_index (lines, guint, k);

          found = on_one_line (&g_array_index (sheet->sources, CwSheetSource, line),
                               &g_array_index (sheet->sources, CwSheetSource, part->source));
          if (found)
            part->group = first_group + k;
        }
      if (!found)
        {
          part->group = n_groups++;
          g_array_append_val (lines, part->source);
        }
    }
  g_array_sort (parts, compare_groups);
}

static int
compare_stretches (const void *one, const void *two)
{
  const CwStretch *a = one, *b = two;

  if (a->a.x != b->a.x)
    return a->a.x < b->a.x ? -1 : 1;
  return a->a.y < b->a.y ? -1 : a->a.y > b->a.y;
}

/* Edges one after the other become one stretch. They run from left (then top) to right already. */
static void
join_stretches (CwHinge *hinge)
{
  GArray *all = hinge->stretches;
  guint n = 0;

  g_array_sort (all, compare_stretches);
  for (guint i = 0; i < all->len; i++)
    {
      CwStretch stretch = g_array_index (all, CwStretch, i);

      if (n > 0 && cw_point_equal (g_array_index (all, CwStretch, n - 1).b, stretch.a))
        g_array_index (all, CwStretch, n - 1).b = stretch.b;
      else
        g_array_index (all, CwStretch, n++) = stretch;
    }
  g_array_set_size (all, n);
  hinge->p = g_array_index (all, CwStretch, 0).a;
  hinge->q = g_array_index (all, CwStretch, n - 1).b;
  for (guint i = 0; i < n; i++)
    {
      CwStretch *stretch = &g_array_index (all, CwStretch, i);

      hinge->length += sqrt ((double) square_distance (stretch->a, stretch->b));
    }
}

/* Keeps the two of the drawn ends that lie farthest apart. */
static void
stretch_line (CwPoint line[2], CwPoint end)
{
  gint64 now = square_distance (line[0], line[1]);

  if (square_distance (line[0], end) > now && square_distance (line[0], end) >= square_distance (line[1], end))
    line[1] = end;
  else if (square_distance (line[1], end) > now)
    line[0] = end;
}

static CwVec3
foot_on_line (const CwPoint line[2], CwPoint p)
{
  double dx = (double) line[1].x - line[0].x, dy = (double) line[1].y - line[0].y;
  double off = (double) cw_point_orient (line[0], line[1], p) / (dx * dx + dy * dy);

  /* Shifted square to the line by its own distance: a point on the line stays exactly where it is. */
  return cw_vec3 (p.x + dy * off, p.y - dx * off, 0);
}

static int
compare_mark_numbers (const void *a, const void *b)
{
  guint x = *(const guint *) a, y = *(const guint *) b;

  return x < y ? -1 : x > y;
}

static void
say_marks_disagree (const CwPanelMap *map, const CwHinge *hinge, const CwMark *first, const CwMark *other,
                    GPtrArray *findings)
{
  CwFinding *finding = cw_finding_new (CW_FINDING_MARKS_DISAGREE);

  cw_finding_add_piece (finding, map->piece->id);
  cw_finding_add_panel (finding, map->piece->id, hinge->left);
  cw_finding_add_panel (finding, map->piece->id, hinge->right);
  cw_finding_add_mark (finding, map->piece->id, first->id);
  cw_finding_add_mark (finding, map->piece->id, other->id);
  cw_finding_set_at (finding, map->piece->id, ((double) hinge->p.x + hinge->q.x) / 2,
                     ((double) hinge->p.y + hinge->q.y) / 2);
  cw_finding_set_words (finding,
                        N_ ("The scores “{0}” and “{1}” make one fold line of “{2}”, but do not fold the same way."),
                        N_ ("Let both fold the same way. Until then “{0}” counts."), first->id, other->id,
                        map->piece->id, NULL);
  g_ptr_array_add (findings, finding);
}

/* Fills in one hinge from its parts. */
static CwHinge
make_hinge (const CwPanelMap *map, const CwSheet *sheet, const guint *panel_of_face, const Part *parts, guint n_parts,
            guint *first_mark, GPtrArray *findings)
{
  CwHinge hinge = { 0 };
  CwPoint line[2] = { 0 };
  const CwMark *first, *other = NULL;
  g_autoptr (GArray) marks = g_array_new (FALSE, FALSE, sizeof (guint));
  const CwSheetEdge *some = &g_array_index (sheet->edges, CwSheetEdge, parts[0].edge);

  hinge.left = panel_of_face[some->left];
  hinge.right = panel_of_face[some->right];
  hinge.stretches = g_array_new (FALSE, FALSE, sizeof (CwStretch));
  hinge.scores = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < n_parts; i++)
    {
      const CwSheetEdge *edge = &g_array_index (sheet->edges, CwSheetEdge, parts[i].edge);
      CwStretch stretch = { edge->a, edge->b };

      g_array_append_val (hinge.stretches, stretch);
      for (guint k = 0; k < edge->n_links; k++)
        {
          const CwSheetSource *source = cw_sheet_get_source (sheet, edge, k);

          g_array_append_val (marks, source->mark);
          if (marks->len == 1)
            {
              line[0] = source->a;
              line[1] = source->b;
            }
          stretch_line (line, source->a);
          stretch_line (line, source->b);
        }
    }
  join_stretches (&hinge);
  hinge.axis[0] = foot_on_line (line, hinge.p);
  hinge.axis[1] = foot_on_line (line, hinge.q);

  g_array_sort (marks, compare_mark_numbers);
  *first_mark = g_array_index (marks, guint, 0);
  first = map->piece->marks->pdata[*first_mark];
  hinge.fold = first->fold;
  for (guint i = 0; i < marks->len; i++)
    {
      const CwMark *mark = map->piece->marks->pdata[g_array_index (marks, guint, i)];

      if (i > 0 && g_array_index (marks, guint, i) == g_array_index (marks, guint, i - 1))
        continue;
      g_ptr_array_add (hinge.scores, g_strdup (mark->id));
      if (other == NULL && mark->fold != first->fold)
        other = mark;
    }
  if (other != NULL)
    say_marks_disagree (map, &hinge, first, other, findings);
  return hinge;
}

typedef struct
{
  guint mark; /* the first of the hinge's scores */
  guint first_part, n_parts;
  CwHinge hinge;
} Numbered;

static int
compare_hinges (const void *one, const void *two)
{
  const Numbered *a = one, *b = two;
  gint64 x[5] = { a->mark, a->hinge.p.x, a->hinge.p.y, a->hinge.q.x, a->hinge.q.y };
  gint64 y[5] = { b->mark, b->hinge.p.x, b->hinge.p.y, b->hinge.q.x, b->hinge.q.y };

  for (int i = 0; i < 5; i++)
    if (x[i] != y[i])
      return x[i] < y[i] ? -1 : 1;
  return 0;
}

/**
 * cw_panel_map_find_hinges:
 * @map: a map whose panels are known
 * @sheet: the drawing it was made from
 * @panel_of_face: which panel each face is
 * @findings: (element-type CwFinding): `marks-disagree` goes here
 *
 * Returns: (transfer full): for each edge of @sheet the hinge it is a part of, else G_MAXUINT
 */
guint *
cw_panel_map_find_hinges (CwPanelMap *map, const CwSheet *sheet, const guint *panel_of_face, GPtrArray *findings)
{
  g_autoptr (GArray) parts = collect_parts (sheet, panel_of_face);
  g_autoptr (GArray) numbered = g_array_new (FALSE, FALSE, sizeof (Numbered));
  guint *hinge_of_edge = g_new (guint, sheet->edges->len + 1);

  for (guint i = 0; i < sheet->edges->len; i++)
    hinge_of_edge[i] = G_MAXUINT;
  group_parts (sheet, parts);
  for (guint i = 0, n; i < parts->len; i += n)
    {
      Numbered item = { 0 };
      guint group = g_array_index (parts, Part, i).group;

      for (n = 1; i + n < parts->len && g_array_index (parts, Part, i + n).group == group; n++)
        ;
      item.hinge = make_hinge (map, sheet, panel_of_face, &g_array_index (parts, Part, i), n, &item.mark, findings);
      item.first_part = i;
      item.n_parts = n;
      g_array_append_val (numbered, item);
    }
  g_array_sort (numbered, compare_hinges);
  for (guint i = 0; i < numbered->len; i++)
    {
      const Numbered *item = &g_array_index (numbered, Numbered, i);

      g_array_append_val (map->hinges, item->hinge);
      for (guint k = 0; k < item->n_parts; k++)
        hinge_of_edge[g_array_index (parts, Part, item->first_part + k).edge] = i;
    }
  return hinge_of_edge;
}
