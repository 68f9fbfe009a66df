/* cw-make-piece.h: pieces and their papers: added, sized, rounded, named; which face is meant to be seen; the card's
 * closed size and envelope; what must and must not show.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "make/cw-make.h"

G_BEGIN_DECLS

typedef struct
{
  CwLength width, height;
  CwLength radius; /* of the corners; 0 ticks: square */
} CwMakeSize;

gboolean cw_make_get_size (const CwPiece *piece, CwMakeSize *size);
CwEdit *cw_make_set_size (const CwDesign *design, const char *piece_id, const CwMakeSize *size, GError **error);
CwMakeSize cw_make_usual_size (const CwDesign *design); /* of a new piece: half the base */
CwEdit *cw_make_add_piece (const CwDesign *design, const CwMakeSize *size, GError **error);
CwEdit *cw_make_rename_piece (const CwDesign *design, const char *piece_id, const char *name);
CwEdit *cw_make_set_shows (const CwDesign *design, const char *piece_id, CwShows shows);

CwEdit *cw_make_set_paper (const CwDesign *design, const char *piece_id, const char *paper_id);
CwEdit *cw_make_add_paper (const CwDesign *design, const char *piece_id);
CwEdit *cw_make_change_paper (const CwDesign *design, CwPaper *paper);

CwEdit *cw_make_set_closed_size (const CwDesign *design, const CwLength *width, const CwLength *height);
CwEdit *cw_make_set_envelope (const CwDesign *design, const CwLength *width, const CwLength *height);

/* What a maker can want of a panel at a rest state. */
typedef enum
{
  CW_WISH_NOTHING,
  CW_WISH_HIDDEN,      /* shows from no side */
  CW_WISH_SHOWN_FRONT, /* shows to a reader in front of the card */
  CW_WISH_SHOWN_BACK,
} CwMakeWish;

CwMakeWish cw_make_get_wish (const CwDesign *design, const char *piece_id, guint panel, const char *rest);
CwEdit *cw_make_set_wish (const CwDesign *design, const char *piece_id, guint panel, const char *rest, CwMakeWish wish,
                          GError **error);

G_END_DECLS
