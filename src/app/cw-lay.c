/* cw-lay.c: areas put down on a piece, by hand or by typing.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-lay.h"

#include "make/cw-make-area.h"

#include <glib/gi18n-lib.h>

/* Does the edit and selects what it has put at the end of its list. Takes the edit. */
static gboolean
do_and_select (CwDocument *document, const char *name, CwEdit *edit, CwIdKind kind)
{
  guint at = cw_document_get_piece (document);
  CwId id = { kind, at, 0, 0 };
  CwDesign *design;

  if (edit == NULL)
    return FALSE;
  cw_document_do (document, name, edit);
  design = cw_document_get_design (document);
  if (kind == CW_ID_ZONE)
    id = (CwId){ kind, G_MAXUINT, design->glue->len - 1, 0 };
  else if (kind == CW_ID_PANEL)
    id.piece = design->pieces->len - 1;
  else
    id.index = ((CwPiece *) g_ptr_array_index (design->pieces, at))->art->len - 1;
  cw_document_select (document, &id, 1);
  return TRUE;
}

/**
 * cw_lay_area:
 * @document: the open design
 * @wish: a layer, glue or a picture
 * @outline: where, on the piece on the table
 * @face: which face of it
 * @error: says why it cannot be
 *
 * Returns: whether it is there now, and selected
 */
gboolean
cw_lay_area (CwDocument *document, const CwMeasureWish *wish, const CwMark *outline, CwFace face, GError **error)
{
  CwDesign *design = cw_document_get_design (document);
  const char *piece = ((CwPiece *) g_ptr_array_index (design->pieces, cw_document_get_piece (document)))->id;

  switch (wish->what)
    {
    case CW_MEASURE_LAYER:
      return do_and_select (document, _ ("lay a layer"), cw_make_lay_shape (design, piece, face, outline, error),
                            CW_ID_PANEL);
    case CW_MEASURE_GLUE:
      return do_and_select (document, _ ("draw glue"),
                            cw_make_draw_glue (design, piece, face, wish->glue, outline, error), CW_ID_ZONE);
    case CW_MEASURE_PICTURE:
      return do_and_select (document, _ ("draw a picture area"),
                            cw_make_add_art (design, piece, face, outline, wish->label, error), CW_ID_ART);
    case CW_MEASURE_MARKS:
    case CW_MEASURE_RIM:
    default:
      g_return_val_if_reached (FALSE);
    }
}

/**
 * cw_lay_rim:
 * @document: the open design
 * @piece: index of the piece it is laid on
 * @panel: index of its panel
 * @face: which face of it
 * @rim: how much of the panel shows all round
 * @error: says why it cannot be
 *
 * Returns: whether the layer is there now, and selected
 */
gboolean
cw_lay_rim (CwDocument *document, guint piece, guint panel, CwFace face, CwLength rim, GError **error)
{
  CwDesign *design = cw_document_get_design (document);

  return do_and_select (document, _ ("lay a layer"),
                        cw_make_add_layer (design, ((CwPiece *) g_ptr_array_index (design->pieces, piece))->id, panel,
                                           face, rim, error),
                        CW_ID_PANEL);
}
