/* cw-panel-words.c: names a panel so that the maker can find it. A panel has its own name or, if its piece is not
 * folded, that of the piece. Any other is told by a place on it, measured on the piece lying flat as all places are, so
 * that two panels of one piece never have the same words.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "contact/cw-panel-words.h"

#include "units/cw-about.h"

#include <glib/gi18n-lib.h>

/**
 * cw_panel_words:
 * @set: panels
 * @panel: one of them, through the design
 *
 * Returns: (transfer full): the panel in words, for a finding (cw_finding_dup_both())
 */
char *
cw_panel_words (const CwPanelSet *set, guint panel)
{
  const CwPanel *own;
  const CwPiece *piece;
  const char *name;
  CwUnit unit;
  guint which;
  g_autofree char *x = NULL, *y = NULL, *english = NULL, *translated = NULL;

  g_return_val_if_fail (set != NULL && panel < cw_panel_set_n_panels (set), NULL);

  own = cw_panel_set_get_panel (set, panel);
  if (own->name)
    return g_strdup (own->name);
  cw_panel_set_locate (set, panel, &which, NULL);
  piece = set->maps[which].piece;
  name = piece->name ? piece->name : piece->id;
  if (set->maps[which].panels->len == 1)
    return g_strdup (name);
  unit = set->design->head ? set->design->head->unit : CW_UNIT_INCH;
  x = cw_about_length (own->inside.x, unit);
  y = cw_about_length (own->inside.y, unit);
  /* Translators: one panel of a folded piece, by a place on it: the piece's name, then how far from the left and how
   * far from the top. */
  translated = g_strdup_printf (_ ("the panel of %s at %s, %s"), name, x, y);
  english = g_strdup_printf ("the panel of %s at %s, %s", name, x, y);
  return cw_finding_dup_both (english, translated);
}
