/* cw-make.h: what an edit brings with it, so that drawing alone makes a card.
 *
 * Every function looks at a design and gives one edit (often a group) for the history to do, or NULL with an error that
 * says in words why it cannot be done. The design itself is never changed. A step without title, caption and label is
 * the program's own: it may be taken away again when a later mark makes it idle; a step the maker has named never is.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design/cw-edit.h"

G_BEGIN_DECLS

typedef enum
{
  CW_MAKE_ERROR_IMPOSSIBLE, /* the design does not allow it */
} CwMakeError;
#define CW_MAKE_ERROR (cw_make_error_quark ())
GQuark cw_make_error_quark (void);

/* An offer the window can show beside a mark: "this corner can flip here". */
typedef struct
{
  char *cut;    /* id of the slit */
  CwMark *mark; /* the crease proposed */
  CwEdit *edit; /* adds the crease and its fold step */
} CwMakeOffer;

void cw_make_offer_free (CwMakeOffer *offer);

CwDesign *cw_make_design (CwUnit unit, gint32 width, gint32 height);

/* Marks */
CwEdit *cw_make_add_marks (const CwDesign *design, const char *piece_id, GPtrArray *marks, gboolean guess_ways,
                           GError **error);
CwEdit *cw_make_remove_marks (const CwDesign *design, const char *piece_id, const char *const *mark_ids,
                              GError **error);
CwEdit *cw_make_replace_mark (const CwDesign *design, const char *piece_id, CwMark *mark, GError **error);
CwEdit *cw_make_replace_marks (const CwDesign *design, const char *piece_id, GPtrArray *marks, GError **error);
CwEdit *cw_make_turn_way (const CwDesign *design, const char *piece_id, const char *mark_id, GError **error);
CwMakeOffer *cw_make_offer_flip (const CwDesign *design, const char *piece_id, const char *cut_id);
GPtrArray *cw_make_offer_flips (const CwDesign *design, const char *piece_id);

/* Pieces */
CwEdit *cw_make_set_hold (const CwDesign *design, const char *piece_id, CwPoint point, GError **error);
CwEdit *cw_make_add_layer (const CwDesign *design, const char *host_id, guint panel, CwFace face, CwLength rim,
                           GError **error);
CwEdit *cw_make_lay_shape (const CwDesign *design, const char *host_id, CwFace face, const CwMark *drawn,
                           GError **error);
CwEdit *cw_make_stick_piece (const CwDesign *design, const char *piece_id, const char *host_id, guint panel,
                             CwFace face, GError **error);
gboolean cw_make_is_loose (const CwDesign *design, const char *piece_id);
CwEdit *cw_make_set_rim (const CwDesign *design, const char *piece_id, CwLength rim, GError **error);
CwEdit *cw_make_remove_piece (const CwDesign *design, const char *piece_id, GError **error);

/* Steps */
CwEdit *cw_make_rename_step (const CwDesign *design, const char *step_id, const char *title);
CwEdit *cw_make_move_step (const CwDesign *design, const char *step_id, guint to, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CwMakeOffer, cw_make_offer_free)

G_END_DECLS
