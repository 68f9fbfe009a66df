/* cw-look.h: the colours of the window and of what is drawn in it, light, dark or high contrast.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "cw-draw-play.h"

G_BEGIN_DECLS

/* Style sheet, dark theme as the desktop wishes; once for a display. */
void cw_look_init (GdkDisplay *display);
/* The colours to draw with, now. */
const CwPalette *cw_look_get_palette (void);
/* Calls back (with the object, for as long as it lives) when the colours have changed. */
void cw_look_watch (GObject *object, GCallback changed);

G_END_DECLS
