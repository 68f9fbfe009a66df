/* cw-make-outline-private.h: shapes of a picture while it is being read. For these files only.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "make/cw-make-outline.h"

G_BEGIN_DECLS

typedef struct
{
  double x, y; /* ticks */
  gboolean through;
} CwOutlinePoint;

/* (x, y) becomes (a x + c y + e, b x + d y + f), as SVG writes it. */
typedef struct
{
  double a, b, c, d, e, f;
} CwOutlineMatrix;

/* A drawing under way: closed shapes so far, and the one being drawn. */
typedef struct
{
  CwOutlineMatrix matrix; /* user units to ticks */
  GPtrArray *shapes;      /* of GArray of CwOutlinePoint */
  GArray *line;           /* being drawn */
  double x, y;            /* where the pen is, user units */
  guint n_points;         /* in all */
  gboolean too_many;
} CwOutlinePen;

CwOutlineMatrix cw_outline_matrix_multiply (const CwOutlineMatrix *outer, const CwOutlineMatrix *inner);
gboolean cw_outline_read_transform (const char *text, CwOutlineMatrix *matrix);
gboolean cw_outline_scan (const char **at, double *number);

void cw_outline_pen_begin (CwOutlinePen *pen, double x, double y);
void cw_outline_pen_line (CwOutlinePen *pen, double x, double y);
void cw_outline_pen_curve (CwOutlinePen *pen, double x1, double y1, double x2, double y2, double x, double y);
void cw_outline_pen_arc (CwOutlinePen *pen, double rx, double ry, double turned, gboolean large, gboolean sweep,
                         double x, double y);
void cw_outline_pen_end (CwOutlinePen *pen, gboolean close);
gboolean cw_outline_pen_path (CwOutlinePen *pen, const char *data);

G_END_DECLS
