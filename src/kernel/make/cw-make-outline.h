/* cw-make-outline.h: the outline of a piece from an SVG picture.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "make/cw-make.h"

G_BEGIN_DECLS

#define CW_OUTLINE_BYTES_MAX (2 * 1024 * 1024) /* a larger picture is refused */
#define CW_OUTLINE_NESTING_MAX 64              /* so is a deeper one, */
#define CW_OUTLINE_SHAPES_MAX 64               /* one with more closed shapes, */
#define CW_OUTLINE_POINTS_MAX 2000             /* or with more points in all */

/* Closed shapes of a picture, ticks, their box beginning at (0, 0); the largest first. */
GPtrArray *cw_outline_read (const char *text, gsize length, CwUnit unit, GError **error);
CwEdit *cw_make_add_outline (const CwDesign *design, const char *name, const char *text, gsize length, GError **error);

G_END_DECLS
