/* cw-draw-play.h: the cairo player of a draw list, and whole files made with it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <cairo.h>
#include <gio/gio.h>

#include "cw-draw-list.h"

G_BEGIN_DECLS

/* Colours of the surroundings; papers keep their own. */
typedef struct
{
  guint32 ink, table, faint,
    accent;          /* rgb: lines and words, background, rulers, selection; accent is never the only sign */
  double line_scale; /* 1 on screen; larger for high contrast */
} CwPalette;

extern const CwPalette cw_palette_paper; /* black on white, for files and print */
extern const CwPalette cw_palette_light, cw_palette_dark, cw_palette_contrast;

void cw_draw_play (const CwDrawList *list, const CwPalette *palette, cairo_t *cr);

typedef enum
{
  CW_PICTURE_SVG,
  CW_PICTURE_PNG,
  CW_PICTURE_PDF
} CwPictureKind;
/* Writes one picture of width x height points; an existing file is replaced only by a complete new one. */
gboolean cw_draw_write (const CwDrawList *list, CwPictureKind kind, double width, double height, GFile *file,
                        GError **error);

G_END_DECLS
