/* cw-table-across.c: a picture's place or glue drawn over the folded card, laid on the faces that are seen under it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-table-private.h"
#include "make/cw-make-across.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Whether the tool at hand draws on the card as well. */
gboolean
cw_table_draws_on_card (CwTable *self)
{
  return (self->tool == CW_TOOL_PICTURE || self->tool == CW_TOOL_GLUE) && cw_table_get_form (self) == CW_FORM_BOX;
}

/* One side as the hand has drawn it, brought to the maker's marks. */
static double
settle (CwTable *self, double pulled)
{
  gint32 ticks = cw_ticks_snap ((gint32) lround (fabs (pulled) / self->camera.scale), cw_table_get_snap (self));

  return copysign (ticks * self->camera.scale, pulled);
}

/* The rectangle drawn so far: left, top, right and bottom, output. */
void
cw_table_get_area (CwTable *self, double box[4])
{
  double x = self->press_x + settle (self, self->pointer_x - self->press_x);
  double y = self->press_y + settle (self, self->pointer_y - self->press_y);

  box[0] = MIN (self->press_x, x);
  box[1] = MIN (self->press_y, y);
  box[2] = MAX (self->press_x, x);
  box[3] = MAX (self->press_y, y);
}

/* Its size beside the pointer. */
void
cw_table_follow_area (CwTable *self)
{
  CwUnit unit = cw_table_get_unit (self);
  double box[4];
  g_autofree char *wide = NULL, *high = NULL;

  cw_table_get_area (self, box);
  wide = cw_length_format_ticks ((gint32) lround ((box[2] - box[0]) / self->camera.scale), unit);
  high = cw_length_format_ticks ((gint32) lround ((box[3] - box[1]) / self->camera.scale), unit);
  cw_table_set_tip (self, g_strdup_printf (_ ("%s wide, %s high, as it is seen"), wide, high));
  cw_table_redraw_over (self);
}

/* Selects what came last on the lists of the pieces: `n` pictures or zones. */
static void
select_new (CwTable *self, CwDesign *before)
{
  CwDesign *design = cw_document_get_design (self->document);
  g_autoptr (GArray) ids = g_array_new (FALSE, TRUE, sizeof (CwId));

  for (guint i = 0; i < design->pieces->len; i++)
    for (guint k = ((CwPiece *) g_ptr_array_index (before->pieces, i))->art->len;
         k < ((CwPiece *) g_ptr_array_index (design->pieces, i))->art->len; k++)
      g_array_append_val (ids, ((CwId){ CW_ID_ART, i, k, 0 }));
  for (guint k = before->glue->len; k < design->glue->len; k++)
    g_array_append_val (ids, ((CwId){ CW_ID_ZONE, G_MAXUINT, k, 0 }));
  cw_document_select (self->document, (const CwId *) (gpointer) ids->data, ids->len);
  if (ids->len > 1)
    cw_table_say (self, ngettext ("It lies on %u face.", "It lies on %u faces.", ids->len), ids->len);
}

/* Lays what has been drawn on the faces under it, and asks for a picture's words. */
void
cw_table_lay_across (CwTable *self)
{
  g_autoptr (CwDesign) design = cw_design_ref (cw_document_get_design (self->document));
  g_autoptr (GArray) parts = NULL;
  GError *error = NULL;
  int step = cw_document_get_step (self->document);
  gboolean picture = self->tool == CW_TOOL_PICTURE;
  double box[4];
  CwEdit *edit;
  guint n;
  const CwId *ids;

  if (!cw_table_needs_fresh (self))
    return;
  cw_table_get_area (self, box);
  parts = cw_card_scene_find_across (self->scene, step < 0 ? G_MAXUINT : (guint) step,
                                     cw_document_get_fraction (self->document), &self->camera, box);
  edit = picture ? cw_make_add_art_across (design, parts, NULL, &error)
                 : cw_make_draw_glue_across (design, parts, self->glue_kind, &error);
  cw_document_try (self->document, picture ? _ ("draw a picture area") : _ ("draw glue"), edit, error);
  if (cw_document_get_design (self->document) == design)
    return;
  self->known |= 1u << CW_FORM_BOX;
  select_new (self, design);
  ids = cw_document_get_selection (self->document, &n);
  if (picture && n > 0)
    cw_table_ask_words_at (self, ids[0], box);
}
