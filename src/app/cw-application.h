/* cw-application.h: the program with its windows.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define CW_TYPE_APPLICATION (cw_application_get_type ())
G_DECLARE_FINAL_TYPE (CwApplication, cw_application, CW, APPLICATION, GtkApplication)

CwApplication *cw_application_new (void);

G_END_DECLS
