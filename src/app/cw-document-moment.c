/* cw-document-moment.c: what of the design is looked at: the moment of the card, the piece on the table and how it
 * lies, marks that are not in the design yet.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-document-private.h"

/**
 * cw_document_set_moment:
 * @self: the document
 * @step: index of a step; -1 is before the first one
 * @fraction: how much of it is done, 0 to 1
 */
void
cw_document_set_moment (CwDocument *self, int step, double fraction)
{
  CwDesign *design = NULL;

  g_return_if_fail (CW_IS_DOCUMENT (self));

  design = cw_document_get_design (self);
  step = CLAMP (step, -1, (int) design->steps->len - 1);
  fraction = step < 0 ? 1 : CLAMP (fraction, 0, 1);
  if (step == self->step && !(fraction < self->fraction) && !(fraction > self->fraction))
    return;
  if (step != self->step)
    {
      g_free (self->step_id);
      self->step_id = step < 0 ? NULL : g_strdup (((CwStep *) g_ptr_array_index (design->steps, (guint) step))->id);
    }
  self->step = step;
  self->fraction = fraction;
  cw_document_tell (self, CW_DOCUMENT_MOMENT);
}

/**
 * cw_document_get_step:
 * @self: the document
 *
 * Returns: the step the card is shown in, -1 before the first
 */
int
cw_document_get_step (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), -1);
  return self->step;
}

/**
 * cw_document_choose_moment:
 * @design: a design
 * @step: (out): index of a step, -1 when there is none
 * @fraction: (out): how much of it is done
 *
 * Gives the moment at which the card is seen best.
 */
void
cw_document_choose_moment (const CwDesign *design, int *step, double *fraction)
{
  g_return_if_fail (design != NULL && step != NULL && fraction != NULL);

  *step = (int) design->steps->len - 1;
  *fraction = 1;
  for (guint i = 0; i < design->steps->len; i++)
    {
      const CwStep *one = g_ptr_array_index (design->steps, i);

      if (one->phase == CW_PHASE_USING && one->what == CW_DO_FOLD)
        {
          *step = (int) i;
          /* Half way between shut and open; a step that ends upright is seen at its end. */
          *fraction = one->rest == NULL || g_str_equal (one->rest, "standing") ? 1 : 0.5;
          return;
        }
    }
}

/**
 * cw_document_get_fraction:
 * @self: the document
 *
 * Returns: how much of that step is done, 0 to 1
 */
double
cw_document_get_fraction (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), 0);
  return self->fraction;
}

/**
 * cw_document_set_piece:
 * @self: the document
 * @piece: index of the piece to lay on the table
 */
void
cw_document_set_piece (CwDocument *self, guint piece)
{
  CwDesign *design = NULL;

  g_return_if_fail (CW_IS_DOCUMENT (self));

  design = cw_document_get_design (self);
  if (piece == self->piece || piece >= design->pieces->len)
    return;
  self->piece = piece;
  g_free (self->piece_id);
  self->piece_id = g_strdup (((CwPiece *) g_ptr_array_index (design->pieces, piece))->id);
  cw_document_tell (self, CW_DOCUMENT_PIECE);
}

/**
 * cw_document_get_piece:
 * @self: the document
 *
 * Returns: index of the piece that lies on the table
 */
guint
cw_document_get_piece (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), 0);
  return self->piece;
}

/**
 * cw_document_set_lie:
 * @self: the document
 * @lie: how the piece is to lie on the table
 */
void
cw_document_set_lie (CwDocument *self, CwLie lie)
{
  g_return_if_fail (CW_IS_DOCUMENT (self));

  lie.quarter_turns %= 4;
  lie.flipped = lie.flipped != FALSE;
  if (lie.quarter_turns == self->lie.quarter_turns && lie.flipped == self->lie.flipped)
    return;
  self->lie = lie;
  cw_document_tell (self, CW_DOCUMENT_LIE);
}

/**
 * cw_document_set_far:
 * @self: the document
 * @far: whether measures are read from the right and the bottom edge
 */
void
cw_document_set_far (CwDocument *self, gboolean far)
{
  g_return_if_fail (CW_IS_DOCUMENT (self));

  if (self->far == (far != FALSE))
    return;
  self->far = far != FALSE;
  cw_document_tell (self, CW_DOCUMENT_SELECTION);
}

/**
 * cw_document_get_far:
 * @self: the document
 *
 * Returns: whether measures are read from the right and the bottom edge
 */
gboolean
cw_document_get_far (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), FALSE);
  return self->far;
}

/**
 * cw_document_get_lie:
 * @self: the document
 *
 * Returns: how the piece lies on the table
 */
CwLie
cw_document_get_lie (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), ((CwLie){ 0, FALSE }));
  return self->lie;
}

/**
 * cw_document_set_preview:
 * @self: the document
 * @marks: (nullable) (transfer none) (element-type CwMark): marks that would be added to the piece on the table
 */
void
cw_document_set_preview (CwDocument *self, GPtrArray *marks)
{
  g_return_if_fail (CW_IS_DOCUMENT (self));

  if (marks == self->preview)
    return;
  if (marks != NULL)
    g_ptr_array_ref (marks);
  g_clear_pointer (&self->preview, g_ptr_array_unref);
  self->preview = marks;
  cw_document_tell (self, CW_DOCUMENT_PREVIEW);
}

/**
 * cw_document_get_preview:
 * @self: the document
 *
 * Returns: (transfer none) (nullable) (element-type CwMark): marks that would be added to the piece on the table
 */
GPtrArray *
cw_document_get_preview (CwDocument *self)
{
  g_return_val_if_fail (CW_IS_DOCUMENT (self), NULL);
  return self->preview;
}
