/* cw-icon.h: the pictures on the table's buttons.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef enum
{
  CW_ICON_SELECT,
  CW_ICON_SCORE,
  CW_ICON_CUT,
  CW_ICON_WINDOW,
  CW_ICON_LAYER,
  CW_ICON_GLUE,
  CW_ICON_PICTURE,
  CW_ICON_NAME,
  CW_ICON_STRAIGHT,
  CW_ICON_ARC,
  CW_ICON_PANEL,
  CW_ICON_BOX,
  CW_ICON_ROUND,
  CW_ICON_CORNERS,
  CW_ICON_TURN,
  CW_ICON_FLIP,
  CW_ICON_BIGGER,
  CW_ICON_GLUE_MAP,
  CW_N_ICONS /* none */
} CwIcon;

GtkWidget *cw_icon_new (CwIcon icon);

G_END_DECLS
