/* cw-make-outline.c: the outline of a piece from an SVG picture.
 *
 * A small reader for what outlines are drawn with: path, polygon, polyline, rect, circle, ellipse, in groups with
 * transforms; the size of a user unit from width, height and viewBox, else 1/96 inch (SVG 1.1, second edition, 2011,
 * chapters 7 and 9; CSS 2.1, 4.3.2). Nothing is fetched, no entity is known, and size, nesting, shapes and points are
 * bounded, so that a file made to do harm is refused. Of the closed shapes the largest is the outline; those that lie
 * in it are windows. Fills, strokes and texts mean nothing here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-outline-private.h"

#include "make/cw-make-private.h"
#include "panel/cw-path-flatten.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#define TICKS_PER_PIXEL (CW_TICKS_PER_INCH / 96.0)
#define LEAST CW_TICKS_PER_MM /* nothing smaller is cut out */
#define BEYOND 1e12           /* no place of any sheet, user units */

typedef struct
{
  CwOutlinePen pen;
  CwOutlineMatrix stack[CW_OUTLINE_NESTING_MAX];
  guint depth;
  guint hidden; /* elements deep in something that is not drawn itself */
  gboolean seen_svg;
} Reader;

/* ---- Attributes ---- */

static const char *
get (const char **names, const char **values, const char *name)
{
  for (guint i = 0; names[i]; i++)
    if (g_str_equal (names[i], name))
      return values[i];
  return NULL;
}

static gboolean
get_number (const char **names, const char **values, const char *name, double *number)
{
  const char *text = get (names, values, name);

  *number = 0;
  return text == NULL || (cw_outline_scan (&text, number) && fabs (*number) < BEYOND);
}

/* A length of the root, ticks; 0 when it is not said or a share of the window. */
static double
get_size (const char **names, const char **values, const char *name)
{
  static const struct
  {
    const char *unit;
    double ticks;
  } units[] = {
    { "mm", CW_TICKS_PER_MM },         { "cm", 10 * CW_TICKS_PER_MM },
    { "in", CW_TICKS_PER_INCH },       { "pt", CW_TICKS_PER_INCH / 72.0 },
    { "pc", CW_TICKS_PER_INCH / 6.0 }, { "px", TICKS_PER_PIXEL },
    { "", TICKS_PER_PIXEL },
  };
  const char *text = get (names, values, name);
  double size = 0;

  if (text == NULL || !cw_outline_scan (&text, &size) || !(size > 0))
    return 0;
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (g_str_equal (text, units[i].unit))
      return size * units[i].ticks;
  return 0;
}

static gboolean
fail (GError **error, const char *why)
{
  return cw_make_fail (error, "%s", why);
}

static gboolean
fail_number (GError **error)
{
  return fail (error, _ ("A measure in the picture cannot be read."));
}

/* ---- Elements ---- */

/* How long a user unit is. Both ways alike, as large as fits (preserveAspectRatio as when nothing is said). */
static gboolean
begin_svg (Reader *self, const char **names, const char **values, GError **error)
{
  const char *box = get (names, values, "viewBox");
  double width = get_size (names, values, "width"), height = get_size (names, values, "height");
  double v[4] = { 0 }, scale = TICKS_PER_PIXEL;

  for (guint i = 0; box != NULL && i < 4; i++)
    if (!cw_outline_scan (&box, &v[i]))
      return fail_number (error);
  if (box != NULL && v[2] > 0 && v[3] > 0 && (width > 0 || height > 0))
    scale = MIN (width > 0 ? width / v[2] : INFINITY, height > 0 ? height / v[3] : INFINITY);
  self->stack[0] = (CwOutlineMatrix){ scale, 0, 0, scale, 0, 0 };
  self->seen_svg = TRUE;
  return TRUE;
}

static gboolean
draw_rect (CwOutlinePen *pen, const char **names, const char **values, GError **error)
{
  double x, y, w, h, rx, ry;

  if (!get_number (names, values, "x", &x) || !get_number (names, values, "y", &y)
      || !get_number (names, values, "width", &w) || !get_number (names, values, "height", &h)
      || !get_number (names, values, "rx", &rx) || !get_number (names, values, "ry", &ry))
    return fail_number (error);
  if (!(w > 0) || !(h > 0))
    return TRUE;
  if (get (names, values, "rx") == NULL)
    rx = ry;
  if (get (names, values, "ry") == NULL)
    ry = rx;
  rx = CLAMP (rx, 0, w / 2);
  ry = CLAMP (ry, 0, h / 2);
  cw_outline_pen_begin (pen, x + rx, y);
  cw_outline_pen_line (pen, x + w - rx, y);
  cw_outline_pen_arc (pen, rx, ry, 0, FALSE, TRUE, x + w, y + ry);
  cw_outline_pen_line (pen, x + w, y + h - ry);
  cw_outline_pen_arc (pen, rx, ry, 0, FALSE, TRUE, x + w - rx, y + h);
  cw_outline_pen_line (pen, x + rx, y + h);
  cw_outline_pen_arc (pen, rx, ry, 0, FALSE, TRUE, x, y + h - ry);
  cw_outline_pen_line (pen, x, y + ry);
  cw_outline_pen_arc (pen, rx, ry, 0, FALSE, TRUE, x + rx, y);
  cw_outline_pen_end (pen, TRUE);
  return TRUE;
}

static gboolean
draw_ellipse (CwOutlinePen *pen, gboolean circle, const char **names, const char **values, GError **error)
{
  double x, y, rx, ry;

  if (!get_number (names, values, "cx", &x) || !get_number (names, values, "cy", &y)
      || !get_number (names, values, circle ? "r" : "rx", &rx) || !get_number (names, values, circle ? "r" : "ry", &ry))
    return fail_number (error);
  if (!(rx > 0) || !(ry > 0))
    return TRUE;
  cw_outline_pen_begin (pen, x - rx, y);
  cw_outline_pen_arc (pen, rx, ry, 0, FALSE, TRUE, x + rx, y);
  cw_outline_pen_arc (pen, rx, ry, 0, FALSE, TRUE, x - rx, y);
  cw_outline_pen_end (pen, TRUE);
  return TRUE;
}

static gboolean
draw_points (CwOutlinePen *pen, gboolean close, const char *text, GError **error)
{
  double x, y;
  gboolean first = TRUE;

  while (text != NULL && cw_outline_scan (&text, &x) && !pen->too_many)
    {
      if (!cw_outline_scan (&text, &y))
        return fail_number (error);
      if (first)
        cw_outline_pen_begin (pen, x, y);
      else
        cw_outline_pen_line (pen, x, y);
      first = FALSE;
    }
  cw_outline_pen_end (pen, close);
  return TRUE;
}

static gboolean
draw (Reader *self, const char *element, const char **names, const char **values, GError **error)
{
  CwOutlinePen *pen = &self->pen;

  if (g_str_equal (element, "path"))
    {
      const char *data = get (names, values, "d");

      return data == NULL || cw_outline_pen_path (pen, data) || fail_number (error);
    }
  if (g_str_equal (element, "rect"))
    return draw_rect (pen, names, values, error);
  if (g_str_equal (element, "circle") || g_str_equal (element, "ellipse"))
    return draw_ellipse (pen, g_str_equal (element, "circle"), names, values, error);
  if (g_str_equal (element, "polygon") || g_str_equal (element, "polyline"))
    return draw_points (pen, g_str_equal (element, "polygon"), get (names, values, "points"), error);
  return TRUE;
}

/* What holds things that are drawn elsewhere, or not at all. */
static gboolean
is_hidden (const char *element, const char **names, const char **values)
{
  static const char *const holders[] = { "defs", "symbol", "clipPath", "mask", "pattern", "marker", NULL };

  return g_strv_contains (holders, element) || g_strcmp0 (get (names, values, "display"), "none") == 0;
}

static void
element_begins (GMarkupParseContext *context, const char *name, const char **names, const char **values, gpointer data,
                GError **error)
{
  Reader *self = data;
  const char *colon = strchr (name, ':'), *element = colon ? colon + 1 : name;
  const char *transform = get (names, values, "transform");

  if (self->depth + 1 >= CW_OUTLINE_NESTING_MAX)
    {
      fail (error, _ ("The picture is nested too deeply."));
      return;
    }
  if (!self->seen_svg)
    {
      if (!g_str_equal (element, "svg"))
        fail (error, _ ("This is no SVG picture."));
      else
        begin_svg (self, names, values, error);
      return;
    }
  self->stack[self->depth + 1] = self->stack[self->depth];
  self->depth++;
  if (self->hidden > 0 || is_hidden (element, names, values))
    {
      self->hidden++;
      return;
    }
  if (transform != NULL && !cw_outline_read_transform (transform, &self->stack[self->depth]))
    {
      fail_number (error);
      return;
    }
  self->pen.matrix = self->stack[self->depth];
  if (draw (self, element, names, values, error) && self->pen.too_many)
    fail (error, _ ("The picture has too many shapes or points to be cut out by hand."));
}

static void
element_ends (GMarkupParseContext *context, const char *name, gpointer data, GError **error)
{
  Reader *self = data;

  if (self->hidden > 0)
    self->hidden--;
  if (self->depth > 0)
    self->depth--;
}

/* ---- Shapes ---- */

static double
area_of (const GArray *shape)
{
  const CwOutlinePoint *p = (const CwOutlinePoint *) (gpointer) shape->data;
  double twice = 0;

  for (guint i = 0; i < shape->len; i++)
    {
      const CwOutlinePoint *q = &p[(i + 1) % shape->len];

      twice += p[i].x * q->y - q->x * p[i].y;
    }
  return fabs (twice) / 2;
}

static int
by_area (gconstpointer a, gconstpointer b)
{
  double p = area_of (*(GArray *const *) a), q = area_of (*(GArray *const *) b);

  return (p < q) - (p > q);
}

static gboolean
find_box (const GArray *shape, double *box)
{
  box[0] = box[1] = INFINITY;
  box[2] = box[3] = -INFINITY;
  for (guint i = 0; i < shape->len; i++)
    {
      const CwOutlinePoint *p = &g_array_index (shape, CwOutlinePoint, i);

      box[0] = MIN (box[0], p->x);
      box[1] = MIN (box[1], p->y);
      box[2] = MAX (box[2], p->x);
      box[3] = MAX (box[3], p->y);
    }
  return isfinite (box[0] + box[1] + box[2] + box[3]);
}

/* The shape on ticks, without points that fall together; NULL when nothing is left of it. */
static CwPath *
to_path (const GArray *shape, const double *origin, CwUnit unit)
{
  CwPath *path = g_new0 (CwPath, 1);
  CwPoint last = { G_MININT32, G_MININT32 };

  for (guint i = 0; i < shape->len; i++)
    {
      const CwOutlinePoint *p = &g_array_index (shape, CwOutlinePoint, i);
      CwPoint at = { (gint32) lround (p->x - origin[0]), (gint32) lround (p->y - origin[1]) };
      gboolean first = path->n_vertices == 0;

      if (!first && cw_point_equal (at, last))
        continue;
      if (i + 1 == shape->len && !p->through && !first
          && cw_point_equal (at, cw_place_get_point (&path->vertices[0].at)))
        continue;
      cw_path_append (path, cw_place_from_point (at, unit), p->through);
      last = at;
    }
  if (path->n_vertices >= 3)
    return path;
  cw_path_clear (path);
  g_free (path);
  return NULL;
}

static void
path_free (gpointer data)
{
  cw_path_clear (data);
  g_free (data);
}

static GPtrArray *
to_paths (GPtrArray *shapes, CwUnit unit, GError **error)
{
  g_autoptr (GPtrArray) paths = g_ptr_array_new_with_free_func (path_free);
  double box[4], inner[4];

  g_ptr_array_sort (shapes, by_area);
  if (shapes->len == 0)
    {
      fail (error, _ ("There is no closed shape in the picture that could be cut out."));
      return NULL;
    }
  if (!find_box (shapes->pdata[0], box) || box[2] - box[0] > CW_LENGTH_MAX || box[3] - box[1] > CW_LENGTH_MAX)
    {
      fail (error, _ ("The shape is larger than the largest sheet."));
      return NULL;
    }
  if (box[2] - box[0] < LEAST || box[3] - box[1] < LEAST)
    {
      fail (error, _ ("The shape is too small to be cut out."));
      return NULL;
    }
  for (guint i = 0; i < shapes->len; i++)
    {
      CwPath *path = NULL;

      if (!find_box (shapes->pdata[i], inner) || inner[0] < box[0] || inner[1] < box[1] || inner[2] > box[2]
          || inner[3] > box[3])
        continue; /* beside the outline */
      path = to_path (shapes->pdata[i], box, unit);
      if (path != NULL)
        g_ptr_array_add (paths, path);
    }
  if (paths->len == 0)
    {
      fail (error, _ ("The shape is too small to be cut out."));
      return NULL;
    }
  return g_steal_pointer (&paths);
}

/**
 * cw_outline_read:
 * @text: an SVG picture
 * @length: its length in bytes
 * @unit: the unit of the places
 * @error: CW_MAKE_ERROR, in one sentence
 *
 * Returns: (transfer full) (element-type CwPath): closed shapes, the largest first and the others within the box round
 *   it, which begins at (0, 0); NULL when there is none that could be cut out
 */
GPtrArray *
cw_outline_read (const char *text, gsize length, CwUnit unit, GError **error)
{
  static const GMarkupParser parser = { .start_element = element_begins, .end_element = element_ends };
  g_autoptr (GMarkupParseContext) context = NULL;
  g_autoptr (GError) why = NULL;
  Reader self = { .depth = 0 };
  gboolean sound = FALSE;
  GPtrArray *paths = NULL;

  g_return_val_if_fail (text != NULL, NULL);

  if (length > CW_OUTLINE_BYTES_MAX)
    {
      fail (error, _ ("The picture is too large a file."));
      return NULL;
    }
  self.pen.shapes = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  self.pen.line = g_array_new (FALSE, FALSE, sizeof (CwOutlinePoint));
  context = g_markup_parse_context_new (&parser, G_MARKUP_TREAT_CDATA_AS_TEXT, &self, NULL);
  sound = g_markup_parse_context_parse (context, text, (gssize) length, &why)
          && g_markup_parse_context_end_parse (context, &why);
  if (sound)
    paths = to_paths (self.pen.shapes, unit, error);
  else if (why != NULL && why->domain == CW_MAKE_ERROR)
    g_propagate_error (error, g_steal_pointer (&why));
  else
    fail (error, _ ("This is no SVG picture."));
  g_ptr_array_unref (self.pen.shapes);
  g_array_unref (self.pen.line);
  return paths;
}

/**
 * cw_make_add_outline:
 * @name: (nullable): of the new piece
 * @text: an SVG picture
 * @length: its length in bytes
 *
 * Adds a piece with the outline and the windows of the picture, of the base's paper, that is not on the card yet.
 *
 * Returns: (transfer full): the edit, or NULL with CW_MAKE_ERROR
 */
CwEdit *
cw_make_add_outline (const CwDesign *design, const char *name, const char *text, gsize length, GError **error)
{
  g_return_val_if_fail (design && text, NULL);

  g_autoptr (GPtrArray) paths = cw_outline_read (text, length, design->head->unit, error);
  const CwPiece *ground = cw_design_get_ground (design);
  CwMakeWork work;
  CwPiece *piece = NULL;

  if (paths == NULL)
    return NULL;
  work = cw_make_work_begin (design);
  piece = cw_piece_new ();
  piece->id = cw_design_dup_free_id (design, "piece");
  piece->name = g_strdup (name && *name ? name : piece->id);
  piece->paper = ground ? g_strdup (ground->paper) : NULL;
  piece->outline = cw_path_copy (paths->pdata[0]);
  for (guint i = 1; i < paths->len; i++)
    {
      CwMark *window = cw_mark_new ();

      window->kind = CW_MARK_WINDOW;
      window->shape = CW_SHAPE_LINE;
      window->line = cw_path_copy (paths->pdata[i]);
      window->id = cw_make_dup_mark_id (piece, CW_MARK_WINDOW);
      g_ptr_array_add (piece->marks, window);
    }
  cw_make_work_do (&work, cw_edit_new_insert (design, CW_LIST_PIECES, NULL, design->pieces->len, piece));
  return cw_make_work_finish (&work, error);
}
