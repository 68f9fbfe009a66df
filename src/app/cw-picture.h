/* cw-picture.h: a small picture of a card at the end of a step, drawn once and kept.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "check/cw-analysis.h"

G_BEGIN_DECLS

#define CW_TYPE_PICTURE (cw_picture_get_type ())
G_DECLARE_FINAL_TYPE (CwPicture, cw_picture, CW, PICTURE, GtkWidget)

GtkWidget *cw_picture_new (int width, int height);
/* step -1: the flat card before the first step. NULL shows nothing. */
void cw_picture_set_moment (CwPicture *self, CwAnalysis *analysis, int step, double fraction);
/* A plain sheet of these proportions, with its middle fold. */
void cw_picture_set_blank (CwPicture *self, double width, double height);

G_END_DECLS
