/* cw-template-svg.c: templates as one SVG at true size, for cutting machines and drawing programs.
 *
 * Written by hand, not by cairo: numbers are exact millimetres (a tick is 1/320 mm, six decimals say it all), arcs stay
 * arcs, and every line lies in a group named for what it means: cut, score-toward, score-away, score-none, glue, ticks,
 * check, words. Width and height are in mm and the viewBox in the same numbers, so that programs cannot take the unit
 * for a pixel (SVG 1.1, 7.2 and 7.7).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "cw-draw-sheet-private.h"
#include "cw-pen.h"
#include "cw-template.h"
#include "design/cw-file.h"
#include "panel/cw-path-flatten.h"

/* Ticks: between the pieces and round them all, and the check bars. */
#define APART (15 * CW_TICKS_PER_MM)
#define BAR_MM 100
#define LETTERS_MM 4
/* Ends of creases: marks off the paper's edge from here to there. */
#define TICK_FROM (1 * CW_TICKS_PER_MM)
#define TICK_TO (5 * CW_TICKS_PER_MM)

typedef enum
{
  GROUP_CUT,
  GROUP_TOWARD,
  GROUP_AWAY,
  GROUP_NONE,
  GROUP_GLUE,
  GROUP_TICKS,
  GROUP_CHECK,
  GROUP_WORDS,
  N_GROUPS
} Group;

static const struct
{
  const char *id;
  CwLineType line;
  double width_mm;
} groups[N_GROUPS] = {
  [GROUP_CUT] = { "cut", CW_LINE_CONTINUOUS, 0.35 },
  [GROUP_TOWARD] = { "score-toward", CW_LINE_DASHED, 0.25 },
  [GROUP_AWAY] = { "score-away", CW_LINE_DASHED_DOTTED, 0.25 },
  [GROUP_NONE] = { "score-none", CW_LINE_DOTTED, 0.25 },
  [GROUP_GLUE] = { "glue", CW_LINE_DOTTED, 0.18 },
  [GROUP_TICKS] = { "ticks", CW_LINE_CONTINUOUS, 0.18 },
  [GROUP_CHECK] = { "check", CW_LINE_CONTINUOUS, 0.25 },
  [GROUP_WORDS] = { "words", CW_LINE_NONE, 0 },
};

typedef struct
{
  GString *parts[N_GROUPS];
  gint32 dx, dy; /* ticks: where the piece at hand lies */
} Svg;

/* Ticks as millimetres, exact. */
static void
append_mm (GString *text, gint64 ticks)
{
  /* A tick is 3125 millionths of a millimetre. */
  gint64 millionths = ticks * 1000000 / CW_TICKS_PER_MM;
  g_autofree char *number = g_strdup_printf ("%s%" G_GINT64_FORMAT ".%06" G_GINT64_FORMAT, millionths < 0 ? "-" : "",
                                             ABS (millionths) / 1000000, ABS (millionths) % 1000000);
  gsize length = strlen (number);

  while (number[length - 1] == '0')
    length--;
  if (number[length - 1] == '.')
    length--;
  g_string_append_len (text, number, (gssize) length);
}

static void
append_place (const Svg *svg, GString *text, CwPoint p)
{
  append_mm (text, (gint64) p.x + svg->dx);
  g_string_append_c (text, ' ');
  append_mm (text, (gint64) p.y + svg->dy);
}

static void
append_double (GString *text, double mm)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  g_string_append (text, g_ascii_formatd (buffer, sizeof buffer, "%.6f", mm));
}

/* The arc from one place through another to a third; a line if they lie on one. */
static void
append_arc (const Svg *svg, GString *text, CwPoint a, CwPoint through, CwPoint b)
{
  double bx = through.x - a.x, by = through.y - a.y, cx = b.x - a.x, cy = b.y - a.y;
  gint64 d = cw_point_orient (a, through, b);

  if (d == 0)
    {
      g_string_append (text, " L ");
      append_place (svg, text, through);
      g_string_append (text, " L ");
      append_place (svg, text, b);
      return;
    }
  double b2 = bx * bx + by * by, c2 = cx * cx + cy * cy, twice = 2 * (double) d;
  double ux = (cy * b2 - by * c2) / twice, uy = (bx * c2 - cx * b2) / twice;
  /* More than half way round when the middle of the chord and the place between lie on either side of the centre. */
  gboolean large = (bx - cx / 2) * (ux - cx / 2) + (by - cy / 2) * (uy - cy / 2) > 0;
  double radius = hypot (ux, uy) / CW_TICKS_PER_MM;

  g_string_append (text, " A ");
  append_double (text, radius);
  g_string_append_c (text, ' ');
  append_double (text, radius);
  g_string_append_printf (text, " 0 %d %d ", large, d > 0);
  append_place (svg, text, b);
}

static void
append_path (const Svg *svg, GString *text, const CwPath *path, gboolean closed)
{
  CwPoint at = cw_place_get_point (&path->vertices[0].at);

  g_string_append (text, "M ");
  append_place (svg, text, at);
  for (guint i = 1; i < path->n_vertices; i++)
    {
      CwPoint p = cw_place_get_point (&path->vertices[i].at);

      if (!path->vertices[i].through)
        {
          g_string_append (text, " L ");
          append_place (svg, text, p);
          at = p;
        }
      else if (i + 1 < path->n_vertices || closed)
        {
          CwPoint end;

          i++;
          end = cw_place_get_point (&path->vertices[i % path->n_vertices].at);
          append_arc (svg, text, at, p, end);
          at = end;
        }
    }
  if (closed)
    g_string_append (text, " Z");
}

static void
begin (Svg *svg, Group group, const char *element, const char *piece, const char *mark)
{
  g_autofree char *of = g_markup_escape_text (piece, -1), *name = mark != NULL ? g_markup_escape_text (mark, -1) : NULL;

  g_string_append_printf (svg->parts[group], "    <%s data-piece=\"%s\"", element, of);
  if (name != NULL)
    g_string_append_printf (svg->parts[group], " data-mark=\"%s\"", name);
}

static void
add_line (Svg *svg, Group group, CwPoint a, CwPoint b, const char *piece)
{
  GString *text = svg->parts[group];

  begin (svg, group, "path", piece, NULL);
  g_string_append (text, " d=\"M ");
  append_place (svg, text, a);
  g_string_append (text, " L ");
  append_place (svg, text, b);
  g_string_append (text, "\"/>\n");
}

static Group
group_of (const CwMark *mark)
{
  if (mark->kind != CW_MARK_SCORE)
    return GROUP_CUT;
  return mark->fold == CW_FOLD_NONE ? GROUP_NONE : mark->fold == CW_FOLD_TOWARD ? GROUP_TOWARD : GROUP_AWAY;
}

static void
add_mark (Svg *svg, const CwPiece *piece, const CwMark *mark)
{
  Group group = group_of (mark);
  GString *text = svg->parts[group];

  if (mark->shape == CW_SHAPE_CIRCLE)
    {
      CwPoint centre = cw_place_get_point (&mark->centre);

      begin (svg, group, "circle", piece->id, mark->id);
      g_string_append (text, " cx=\"");
      append_mm (text, (gint64) centre.x + svg->dx);
      g_string_append (text, "\" cy=\"");
      append_mm (text, (gint64) centre.y + svg->dy);
      g_string_append (text, "\" r=\"");
      append_mm (text, mark->radius.ticks);
      g_string_append (text, "\"/>\n");
      return;
    }
  if (mark->line.n_vertices < 2)
    return;
  begin (svg, group, "path", piece->id, mark->id);
  g_string_append (text, " d=\"");
  if (mark->shape == CW_SHAPE_RECT)
    {
      CwPoint p = cw_place_get_point (&mark->line.vertices[0].at), q = cw_place_get_point (&mark->line.vertices[1].at);
      const CwPoint corners[4] = { p, { q.x, p.y }, q, { p.x, q.y } };

      for (guint i = 0; i < 4; i++)
        {
          g_string_append (text, i == 0 ? "M " : " L ");
          append_place (svg, text, corners[i]);
        }
      g_string_append (text, " Z");
    }
  else
    append_path (svg, text, &mark->line, mark->kind == CW_MARK_WINDOW);
  g_string_append (text, "\"/>\n");
}

/* Off the paper, in the line of a crease that ends at the box round it. */
static void
add_tick (Svg *svg, const CwPiece *piece, CwPoint low, CwPoint high, CwPoint end, CwPoint from)
{
  double length = hypot (end.x - from.x, end.y - from.y);
  double ux = (end.x - from.x) / length, uy = (end.y - from.y) / length;

  if (end.x > low.x && end.x < high.x && end.y > low.y && end.y < high.y)
    return;
  add_line (svg, GROUP_TICKS,
            cw_point (end.x + (gint32) lround (ux * TICK_FROM), end.y + (gint32) lround (uy * TICK_FROM)),
            cw_point (end.x + (gint32) lround (ux * TICK_TO), end.y + (gint32) lround (uy * TICK_TO)), piece->id);
}

static void
add_words (Svg *svg, CwPoint at, const char *piece, const char *words)
{
  g_autofree char *escaped = g_markup_escape_text (words, -1);

  begin (svg, GROUP_WORDS, "text", piece, NULL);
  g_string_append (svg->parts[GROUP_WORDS], " x=\"");
  append_mm (svg->parts[GROUP_WORDS], (gint64) at.x + svg->dx);
  g_string_append (svg->parts[GROUP_WORDS], "\" y=\"");
  append_mm (svg->parts[GROUP_WORDS], (gint64) at.y + svg->dy);
  g_string_append_printf (svg->parts[GROUP_WORDS], "\">%s</text>\n", escaped);
}

static void
add_piece (Svg *svg, const CwDesign *design, const CwPiece *piece, CwPoint low, CwPoint high)
{
  begin (svg, GROUP_CUT, "path", piece->id, NULL);
  g_string_append (svg->parts[GROUP_CUT], " data-outline=\"yes\" d=\"");
  append_path (svg, svg->parts[GROUP_CUT], &piece->outline, TRUE);
  g_string_append (svg->parts[GROUP_CUT], "\"/>\n");
  for (guint i = 0; i < piece->marks->len; i++)
    {
      const CwMark *mark = g_ptr_array_index (piece->marks, i);
      g_autoptr (GArray) points = cw_mark_flatten (mark);

      add_mark (svg, piece, mark);
      if (mark->kind != CW_MARK_SCORE || points->len < 2)
        continue;
      add_tick (svg, piece, low, high, g_array_index (points, CwPoint, 0), g_array_index (points, CwPoint, 1));
      add_tick (svg, piece, low, high, g_array_index (points, CwPoint, points->len - 1),
                g_array_index (points, CwPoint, points->len - 2));
    }
  for (guint i = 0; i < design->glue->len; i++)
    {
      const CwGlue *glue = g_ptr_array_index (design->glue, i);

      if (g_strcmp0 (glue->piece, piece->id) != 0 || glue->area.n_vertices < 3)
        continue;
      begin (svg, GROUP_GLUE, "path", piece->id, glue->id);
      g_string_append_printf (svg->parts[GROUP_GLUE], " data-face=\"%s\" d=\"", cw_face_get_key (glue->face));
      append_path (svg, svg->parts[GROUP_GLUE], &glue->area, TRUE);
      g_string_append (svg->parts[GROUP_GLUE], "\"/>\n");
    }
  add_words (svg, cw_point (low.x, low.y - 2 * CW_TICKS_PER_MM), piece->id,
             piece->name != NULL ? piece->name : piece->id);
}

static void
append_group (GString *text, Group group, const GString *content)
{
  double dashes[4], centre;
  guint n = cw_line_get_dashes (groups[group].line, dashes, &centre);

  g_string_append_printf (text, "  <g id=\"%s\"", groups[group].id);
  if (group == GROUP_WORDS)
    g_string_append_printf (text, " fill=\"#000000\" font-family=\"sans-serif\" font-size=\"%d\"", LETTERS_MM);
  else
    {
      g_string_append (text, " fill=\"none\" stroke=\"#000000\" stroke-width=\"");
      append_double (text, groups[group].width_mm);
      g_string_append_c (text, '"');
    }
  for (guint i = 0; i < n; i++)
    {
      g_string_append (text, i == 0 ? " stroke-dasharray=\"" : " ");
      append_double (text, dashes[i] * groups[group].width_mm);
    }
  g_string_append_printf (text, "%s>\n%s  </g>\n", n > 0 ? "\"" : "", content->str);
}

/**
 * cw_template_to_svg:
 * @analysis: a design
 *
 * Returns: (transfer full): all pieces, drawn side up, one below the other, in millimetres
 */
char *
cw_template_to_svg (const CwAnalysis *analysis)
{
  const CwDesign *design;
  Svg svg = { 0 };
  GString *text = g_string_new (NULL);
  gint32 width = BAR_MM * CW_TICKS_PER_MM, y = APART;

  g_return_val_if_fail (analysis != NULL, NULL);

  design = analysis->design;
  for (guint g = 0; g < N_GROUPS; g++)
    svg.parts[g] = g_string_new (NULL);
  for (guint i = 0; i < design->pieces->len; i++)
    {
      const CwPiece *piece = g_ptr_array_index (design->pieces, i);
      CwPoint low, high;

      cw_piece_get_box (piece, &low, &high);
      svg.dx = 2 * APART - low.x;
      svg.dy = y - low.y;
      add_piece (&svg, design, piece, low, high);
      width = MAX (width, high.x - low.x);
      y += high.y - low.y + APART;
    }
  svg.dx = 0;
  svg.dy = 0;
  add_line (&svg, GROUP_CHECK, cw_point (2 * APART, y), cw_point (2 * APART + BAR_MM * CW_TICKS_PER_MM, y), "");
  add_line (&svg, GROUP_CHECK, cw_point (APART, APART), cw_point (APART, APART + BAR_MM * CW_TICKS_PER_MM), "");
  add_words (&svg, cw_point (2 * APART, y + 6 * CW_TICKS_PER_MM), "", _ ("100 mm each way; print or cut at 100 %"));
  y = MAX (y, APART + BAR_MM * CW_TICKS_PER_MM) + APART;
  width += 3 * APART;

  g_string_append (text,
                   "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"");
  append_mm (text, width);
  g_string_append (text, "mm\" height=\"");
  append_mm (text, y);
  g_string_append (text, "mm\" viewBox=\"0 0 ");
  append_mm (text, width);
  g_string_append_c (text, ' ');
  append_mm (text, y);
  g_autofree char *title = g_markup_escape_text (design->head->title != NULL ? design->head->title : "", -1);
  g_string_append_printf (text, "\">\n  <title>%s</title>\n", title);
  for (guint g = 0; g < N_GROUPS; g++)
    {
      append_group (text, g, svg.parts[g]);
      g_string_free (svg.parts[g], TRUE);
    }
  g_string_append (text, "</svg>\n");
  return g_string_free (text, FALSE);
}

/**
 * cw_template_write_svg:
 * @analysis: a design
 * @file: where to
 * @error: return location
 *
 * Returns: %FALSE with a #GIOErrorEnum error if the file cannot be written; what was there is then left as it was
 */
gboolean
cw_template_write_svg (const CwAnalysis *analysis, GFile *file, GError **error)
{
  g_autofree char *text = NULL;

  g_return_val_if_fail (analysis != NULL && G_IS_FILE (file), FALSE);

  text = cw_template_to_svg (analysis);
  return cw_file_write (file, text, strlen (text), NULL, error);
}
