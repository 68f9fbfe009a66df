/* cw-make-arrange.h: marks of one piece moved, mirrored, turned, spread, repeated, aligned and copied; a panel divided.
 *
 * As in cw-make.h every function gives one edit for the history, or NULL with an error in words. Ways along the sheet
 * are given in the piece's own coordinates: the caller knows how it lies.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "make/cw-make.h"

G_BEGIN_DECLS

/* Where marks are lined up. */
typedef enum
{
  CW_ALIGN_LEFT,
  CW_ALIGN_RIGHT,
  CW_ALIGN_TOP,
  CW_ALIGN_BOTTOM,
  CW_ALIGN_MIDDLE_ACROSS, /* half way from left to right */
  CW_ALIGN_MIDDLE_DOWN,   /* half way from top to bottom */
} CwMakeAlign;

#define CW_MAKE_PARTS_MAX 64

CwEdit *cw_make_shift_marks (const CwDesign *design, const char *piece_id, const char *const *mark_ids, CwPoint by,
                             GError **error);
CwEdit *cw_make_mirror_marks (const CwDesign *design, const char *piece_id, const char *const *mark_ids,
                              gboolean left_right, GError **error);
CwEdit *cw_make_mirror_copy (const CwDesign *design, const char *piece_id, const char *const *mark_ids,
                             gboolean left_right, GError **error);
CwEdit *cw_make_turn_marks (const CwDesign *design, const char *piece_id, const char *const *mark_ids, guint quarters,
                            GError **error);
CwEdit *cw_make_spread_marks (const CwDesign *design, const char *piece_id, const char *const *mark_ids,
                              GError **error);
CwEdit *cw_make_repeat_marks (const CwDesign *design, const char *piece_id, const char *const *mark_ids, CwPoint by,
                              guint times, GError **error);
CwEdit *cw_make_align_marks (const CwDesign *design, const char *piece_id, const char *const *mark_ids,
                             CwMakeAlign where, const char *to_id, GError **error);
CwEdit *cw_make_divide_panel (const CwDesign *design, const char *piece_id, guint panel, guint parts, gboolean upright,
                              GError **error);

char *cw_make_copy_text (const CwDesign *design, const char *piece_id, const char *const *mark_ids);
CwEdit *cw_make_paste_text (const CwDesign *design, const char *piece_id, const char *text, GError **error);

G_END_DECLS
