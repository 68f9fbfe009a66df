/* cw-show.h: the steps one at a time over the whole screen.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "text/cw-step-card.h"

G_BEGIN_DECLS

#define CW_TYPE_SHOW (cw_show_get_type ())
G_DECLARE_FINAL_TYPE (CwShow, cw_show, CW, SHOW, GtkWindow)

/* step: of the design, to begin with; G_MAXUINT: the first. */
GtkWidget *cw_show_new (GtkWindow *parent, CwAnalysis *analysis, guint step);
guint cw_show_get_index (CwShow *self);
gboolean cw_show_is_turned (CwShow *self);

G_END_DECLS
