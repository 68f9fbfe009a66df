/* cw-make-area.h: what lies on a face of a piece: places for pictures and greetings, glue drawn by hand, names.
 *
 * A drawn area is a mark that stands for its outline only (a window's shape), so that it is drawn, moved and stretched
 * as marks are.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "make/cw-make.h"

G_BEGIN_DECLS

CwMark *cw_make_outline_of_glue (const CwGlue *glue);
CwMark *cw_make_outline_of_art (const CwArt *art);
CwMark *cw_make_outline_of_layer (const CwDesign *design, const char *piece_id);
guint cw_make_find_panel (const CwDesign *design, const char *piece_id, CwPoint at);

CwEdit *cw_make_add_art (const CwDesign *design, const char *piece_id, CwFace face, const CwMark *drawn,
                         const char *label, GError **error);
CwEdit *cw_make_redraw_art (const CwDesign *design, const char *piece_id, guint index, const CwMark *drawn,
                            GError **error);
CwEdit *cw_make_change_art (const CwDesign *design, const char *piece_id, guint index, const char *label, double up);

CwEdit *cw_make_draw_glue (const CwDesign *design, const char *piece_id, CwFace face, CwGlueKind kind,
                           const CwMark *drawn, GError **error);
CwEdit *cw_make_redraw_glue (const CwDesign *design, guint index, const CwMark *drawn, GError **error);
CwEdit *cw_make_change_glue (const CwDesign *design, guint index, CwGlueKind kind);

CwEdit *cw_make_name_panel (const CwDesign *design, const char *piece_id, guint panel, const char *name);

G_END_DECLS
