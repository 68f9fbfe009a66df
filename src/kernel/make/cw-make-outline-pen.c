/* cw-make-outline-pen.c: the shapes of a picture, drawn with lines, curves and arcs.
 *
 * Path data and transforms after SVG 1.1, second edition, 2011 (chapters 7.6, 8.3, appendix F.6 for arcs). Circular
 * arcs stay arcs when the transform keeps circles; every other curve becomes as many equal steps as keep the lines
 * within CW_OUTLINE_TICKS of it: a chord is off by at most an eighth of its step squared times the greatest second
 * derivative (linear interpolation, e.g. Davis, Interpolation and Approximation, 1963), which for a cubic is at most
 * six times the larger second difference of its points.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "make/cw-make-outline-private.h"

#include "geometry/cw-tolerance.h"

#include <math.h>
#include <string.h>

#define STEPS_MAX 400 /* of one curve */

/* ---- Numbers and transforms ---- */

static void
skip_blank (const char **at)
{
  while (**at == ' ' || **at == ',' || **at == '\t' || **at == '\n' || **at == '\r')
    (*at)++;
}

/**
 * cw_outline_scan:
 * @at: (inout): where to read; after the number
 * @number: (out): the number
 *
 * Returns: FALSE when no finite number stands there
 */
gboolean
cw_outline_scan (const char **at, double *number)
{
  char *end = NULL;

  skip_blank (at);
  if (strchr ("+-.0123456789", **at) == NULL || **at == '\0' || (**at == '0' && ((*at)[1] == 'x' || (*at)[1] == 'X')))
    return FALSE;
  *number = g_ascii_strtod (*at, &end);
  if (end == *at || !isfinite (*number))
    return FALSE;
  *at = end;
  return TRUE;
}

/**
 * cw_outline_matrix_multiply:
 *
 * Returns: first @inner, then @outer
 */
CwOutlineMatrix
cw_outline_matrix_multiply (const CwOutlineMatrix *outer, const CwOutlineMatrix *inner)
{
  return (CwOutlineMatrix){
    outer->a * inner->a + outer->c * inner->b,
    outer->b * inner->a + outer->d * inner->b,
    outer->a * inner->c + outer->c * inner->d,
    outer->b * inner->c + outer->d * inner->d,
    outer->a * inner->e + outer->c * inner->f + outer->e,
    outer->b * inner->e + outer->d * inner->f + outer->f,
  };
}

static gboolean
one_transform (const char *name, gsize length, const double *v, guint n, CwOutlineMatrix *m)
{
  const double turn = G_PI / 180;

#define IS(word) (length == strlen (word) && strncmp (name, word, length) == 0)
  if (IS ("matrix") && n == 6)
    *m = (CwOutlineMatrix){ v[0], v[1], v[2], v[3], v[4], v[5] };
  else if (IS ("translate") && (n == 1 || n == 2))
    *m = (CwOutlineMatrix){ 1, 0, 0, 1, v[0], n > 1 ? v[1] : 0 };
  else if (IS ("scale") && (n == 1 || n == 2))
    *m = (CwOutlineMatrix){ v[0], 0, 0, n > 1 ? v[1] : v[0], 0, 0 };
  else if (IS ("rotate") && (n == 1 || n == 3))
    {
      double c = cos (v[0] * turn), s = sin (v[0] * turn), x = n > 1 ? v[1] : 0, y = n > 1 ? v[2] : 0;

      *m = (CwOutlineMatrix){ c, s, -s, c, x - c * x + s * y, y - s * x - c * y };
    }
  else if (IS ("skewX") && n == 1)
    *m = (CwOutlineMatrix){ 1, 0, tan (v[0] * turn), 1, 0, 0 };
  else if (IS ("skewY") && n == 1)
    *m = (CwOutlineMatrix){ 1, tan (v[0] * turn), 0, 1, 0, 0 };
  else
    return FALSE;
#undef IS
  return TRUE;
}

/**
 * cw_outline_read_transform:
 * @text: a `transform` attribute
 * @matrix: (inout): what is transformed so far; then with @text inside
 *
 * Returns: FALSE when it is none
 */
gboolean
cw_outline_read_transform (const char *text, CwOutlineMatrix *matrix)
{
  for (skip_blank (&text); *text != '\0'; skip_blank (&text))
    {
      const char *name = text;
      gsize length = 0;
      double values[6];
      guint n = 0;
      CwOutlineMatrix one;

      while (g_ascii_isalpha (*text))
        text++;
      length = (gsize) (text - name);
      skip_blank (&text);
      if (*text++ != '(')
        return FALSE;
      while (n < G_N_ELEMENTS (values) && cw_outline_scan (&text, &values[n]))
        n++;
      skip_blank (&text);
      if (*text++ != ')' || !one_transform (name, length, values, n, &one))
        return FALSE;
      *matrix = cw_outline_matrix_multiply (matrix, &one);
    }
  return TRUE;
}

/* ---- The pen ---- */

static void
add (CwOutlinePen *pen, double x, double y, gboolean through)
{
  const CwOutlineMatrix *m = &pen->matrix;
  CwOutlinePoint point = { m->a * x + m->c * y + m->e, m->b * x + m->d * y + m->f, through };

  if (++pen->n_points > CW_OUTLINE_POINTS_MAX)
    pen->too_many = TRUE;
  else
    g_array_append_val (pen->line, point);
}

/**
 * cw_outline_pen_begin:
 * @pen: a pen
 * @x: where the shape begins, user units
 * @y: where the shape begins, user units
 *
 * Begins a shape; the one before it is left as it is.
 */
void
cw_outline_pen_begin (CwOutlinePen *pen, double x, double y)
{
  cw_outline_pen_end (pen, FALSE);
  pen->x = x;
  pen->y = y;
  add (pen, x, y, FALSE);
}

/**
 * cw_outline_pen_line:
 * @pen: a pen
 * @x: where the straight line ends, user units
 * @y: where the straight line ends, user units
 */
void
cw_outline_pen_line (CwOutlinePen *pen, double x, double y)
{
  add (pen, x, y, FALSE);
  pen->x = x;
  pen->y = y;
}

/* How long a user unit is at most, ticks. */
static double
largest_scale (const CwOutlineMatrix *m)
{
  return hypot (hypot (m->a, m->b), hypot (m->c, m->d));
}

/**
 * cw_outline_pen_curve:
 * @pen: a pen
 * @x1: the first control point, user units
 * @y1: the first control point, user units
 * @x2: the second control point, user units
 * @y2: the second control point, user units
 * @x: where the cubic curve ends, user units
 * @y: where the cubic curve ends, user units
 */
void
cw_outline_pen_curve (CwOutlinePen *pen, double x1, double y1, double x2, double y2, double x, double y)
{
  double x0 = pen->x, y0 = pen->y;
  double bend = MAX (hypot (x0 - 2 * x1 + x2, y0 - 2 * y1 + y2), hypot (x1 - 2 * x2 + x, y1 - 2 * y2 + y));
  double wanted = ceil (sqrt (6 * bend * largest_scale (&pen->matrix) / 8 / CW_OUTLINE_TICKS));
  guint n = (guint) CLAMP (wanted, 1, STEPS_MAX);

  for (guint i = 1; i <= n; i++)
    {
      double t = (double) i / n, u = 1 - t;
      double w0 = u * u * u, w1 = 3 * u * u * t, w2 = 3 * u * t * t, w3 = t * t * t;

      add (pen, w0 * x0 + w1 * x1 + w2 * x2 + w3 * x, w0 * y0 + w1 * y1 + w2 * y2 + w3 * y, FALSE);
    }
  pen->x = x;
  pen->y = y;
}

static gboolean
keeps_circles (const CwOutlineMatrix *m)
{
  double p = hypot (m->a, m->b), q = hypot (m->c, m->d), most = MAX (p, q);

  return fabs (p - q) <= CW_TOL_SAME_SCALE * most
         && fabs (m->a * m->c + m->b * m->d) <= CW_TOL_SAME_SCALE * most * most;
}

/**
 * cw_outline_pen_arc:
 * @pen: a pen
 * @rx: half axis, user units
 * @ry: half axis, user units
 * @turned: turn of the axes, degrees
 * @large: the longer way round
 * @sweep: with growing angle
 * @x: where the arc ends, user units
 * @y: where the arc ends, user units
 *
 * On an ellipse (SVG 1.1, F.6.5 and F.6.6).
 */
void
cw_outline_pen_arc (CwOutlinePen *pen, double rx, double ry, double turned, gboolean large, gboolean sweep, double x,
                    double y)
{
  double phi = turned * G_PI / 180, c = cos (phi), s = sin (phi);
  double dx = (pen->x - x) / 2, dy = (pen->y - y) / 2, px = c * dx + s * dy, py = c * dy - s * dx;
  double grow, root, qx, qy, from, by, wanted;
  gboolean round = FALSE;
  guint n = 0;

  rx = fabs (rx);
  ry = fabs (ry);
  if (!(hypot (dx, dy) > 0))
    return;
  if (!(rx > 0) || !(ry > 0))
    {
      cw_outline_pen_line (pen, x, y);
      return;
    }
  grow = (px / rx) * (px / rx) + (py / ry) * (py / ry);
  if (grow > 1)
    {
      rx *= sqrt (grow);
      ry *= sqrt (grow);
      grow = 1;
    }
  root = sqrt (MAX (0, 1 / grow - 1)) * (large == sweep ? -1 : 1);
  qx = root * rx * py / ry;
  qy = -root * ry * px / rx;
  from = atan2 ((py - qy) / ry, (px - qx) / rx);
  by = atan2 ((-py - qy) / ry, (-px - qx) / rx) - from;
  if (sweep && by <= 0)
    by += 2 * G_PI;
  else if (!sweep && by >= 0)
    by -= 2 * G_PI;

  round = fabs (rx - ry) <= CW_TOL_SAME_SCALE * rx && keeps_circles (&pen->matrix);
  /* Arcs of up to a third of a circle through a point half way; else lines, off by r step^2 / 8. */
  wanted = round ? 2 * ceil (fabs (by) / (2 * G_PI / 3))
                 : ceil (fabs (by) * sqrt (MAX (rx, ry) * largest_scale (&pen->matrix) / 8 / CW_OUTLINE_TICKS));
  n = (guint) CLAMP (wanted, 1, STEPS_MAX);
  for (guint i = 1; i < n; i++)
    {
      double angle = from + by * i / n, ex = rx * cos (angle) + qx, ey = ry * sin (angle) + qy;

      add (pen, c * ex - s * ey + (pen->x + x) / 2, s * ex + c * ey + (pen->y + y) / 2, round && i % 2 == 1);
    }
  add (pen, x, y, FALSE);
  pen->x = x;
  pen->y = y;
}

/**
 * cw_outline_pen_end:
 * @close: whether the shape is closed, however far its ends are apart
 *
 * Ends the shape being drawn. An open one is kept when its ends meet.
 */
void
cw_outline_pen_end (CwOutlinePen *pen, gboolean close)
{
  GArray *line = pen->line;
  const CwOutlinePoint *first = (const CwOutlinePoint *) (gpointer) line->data, *last = NULL;
  gboolean meets = FALSE;

  if (line->len > 2)
    {
      last = &first[line->len - 1];
      meets = hypot (last->x - first->x, last->y - first->y) <= CW_OUTLINE_CLOSED_TICKS;
    }
  if (line->len > 2 && (close || meets))
    {
      if (meets)
        g_array_set_size (line, line->len - 1);
      g_ptr_array_add (pen->shapes, line);
      pen->line = g_array_new (FALSE, FALSE, sizeof (CwOutlinePoint));
      if (pen->shapes->len > CW_OUTLINE_SHAPES_MAX)
        pen->too_many = TRUE;
    }
  g_array_set_size (pen->line, 0);
}

/* ---- Path data ---- */

static const char commands[] = "MLHVCSQTAZ";
static const guint n_values[] = { 2, 2, 1, 1, 6, 4, 4, 2, 7, 0 };

/* The flags of an arc may stand without anything between them. */
static gboolean
scan_flag (const char **at, double *flag)
{
  skip_blank (at);
  if (**at != '0' && **at != '1')
    return FALSE;
  *flag = *(*at)++ - '0';
  return TRUE;
}

static gboolean
scan_values (const char **at, char command, guint n, double *values)
{
  for (guint i = 0; i < n; i++)
    if (!(command == 'A' && (i == 3 || i == 4) ? scan_flag (at, &values[i]) : cw_outline_scan (at, &values[i])))
      return FALSE;
  return TRUE;
}

/**
 * cw_outline_pen_path:
 * @data: a `d` attribute
 *
 * Returns: FALSE when it cannot be read
 */
gboolean
cw_outline_pen_path (CwOutlinePen *pen, const char *data)
{
  char command = '\0', before = '\0';
  gboolean relative = FALSE;
  double start_x = 0, start_y = 0, handle_x = 0, handle_y = 0;

  for (skip_blank (&data); *data != '\0' && !pen->too_many; skip_blank (&data))
    {
      double v[7] = { 0 }, ox, oy;
      const char *found = strchr (commands, g_ascii_toupper (*data));

      if (found != NULL)
        {
          command = *found;
          relative = g_ascii_islower (*data++);
        }
      else if (command == 'M')
        command = 'L'; /* further pairs are lines */
      else if (command == '\0' || command == 'Z')
        return FALSE;
      if ((before == '\0') != (command == 'M' && before == '\0')
          || !scan_values (&data, command, n_values[strchr (commands, command) - commands], v))
        return FALSE;
      ox = relative ? pen->x : 0;
      oy = relative ? pen->y : 0;
      if (before == 'Z' && command != 'M' && command != 'Z')
        cw_outline_pen_begin (pen, start_x, start_y);
      if (!strchr (before == 'C' || before == 'S' ? "CS" : "QT", before) || before == '\0')
        {
          handle_x = pen->x;
          handle_y = pen->y;
        }
      switch (command)
        {
        case 'M':
          cw_outline_pen_begin (pen, ox + v[0], oy + v[1]);
          start_x = pen->x;
          start_y = pen->y;
          break;
        case 'L':
          cw_outline_pen_line (pen, ox + v[0], oy + v[1]);
          break;
        case 'H':
          cw_outline_pen_line (pen, ox + v[0], pen->y);
          break;
        case 'V':
          cw_outline_pen_line (pen, pen->x, oy + v[0]);
          break;
        case 'C':
          handle_x = ox + v[2];
          handle_y = oy + v[3];
          cw_outline_pen_curve (pen, ox + v[0], oy + v[1], handle_x, handle_y, ox + v[4], oy + v[5]);
          break;
        case 'S':
          {
            gboolean after = before == 'C' || before == 'S';
            double x1 = after ? 2 * pen->x - handle_x : pen->x, y1 = after ? 2 * pen->y - handle_y : pen->y;

            handle_x = ox + v[0];
            handle_y = oy + v[1];
            cw_outline_pen_curve (pen, x1, y1, handle_x, handle_y, ox + v[2], oy + v[3]);
            break;
          }
        case 'Q':
        case 'T':
          {
            gboolean given = command == 'Q', after = before == 'Q' || before == 'T';
            double x = ox + v[given ? 2 : 0], y = oy + v[given ? 3 : 1], x0 = pen->x, y0 = pen->y;

            handle_x = given ? ox + v[0] : after ? 2 * x0 - handle_x : x0;
            handle_y = given ? oy + v[1] : after ? 2 * y0 - handle_y : y0;
            cw_outline_pen_curve (pen, x0 + 2 * (handle_x - x0) / 3, y0 + 2 * (handle_y - y0) / 3,
                                  x + 2 * (handle_x - x) / 3, y + 2 * (handle_y - y) / 3, x, y);
            break;
          }
        case 'A':
          cw_outline_pen_arc (pen, v[0], v[1], v[2], v[3] > 0, v[4] > 0, ox + v[5], oy + v[6]);
          break;
        case 'Z':
        default:
          cw_outline_pen_end (pen, TRUE);
          pen->x = start_x;
          pen->y = start_y;
          break;
        }
      before = command;
    }
  cw_outline_pen_end (pen, FALSE);
  return TRUE;
}
