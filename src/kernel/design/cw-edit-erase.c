/* cw-edit-erase.c: takes an item out together with what cannot be without it.
 *
 * So that a design stays one that cw_design_validate() passes: a score goes with the folds that name it, a piece with
 * its glue and its stick step, a step with the wants that name its state. A step that did nothing else goes as well; a
 * piece stuck on one that goes stays in the design, not attached. Each item is edited at most once, first all
 * replacements, then removals from the end, so that indices hold.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-design-private.h"
#include "design/cw-edit.h"

#include <string.h>

typedef struct
{
  const CwDesign *design;
  const char *paper, *piece;       /* ids; NULL if none goes */
  const char *mark_piece, *mark;   /* ids; NULL if none goes */
  GHashTable *zones, *steps;       /* sets of borrowed ids that go */
  GPtrArray *new_steps, *new_glue; /* an item that changes, or NULL, an index; owned until handed on */
} Erase;

static gboolean
piece_goes (const Erase *erase, const char *id)
{
  return erase->piece && id && g_str_equal (erase->piece, id);
}

static gboolean
mark_goes (const Erase *erase, const char *address)
{
  const char *slash = strchr (address, '/');

  if (!slash)
    return FALSE;
  g_autofree char *piece = g_strndup (address, (gsize) (slash - address));
  return piece_goes (erase, piece)
         || (erase->mark && g_str_equal (erase->mark_piece, piece) && g_str_equal (erase->mark, slash + 1));
}

static gboolean
fold_goes (const Erase *erase, gconstpointer fold)
{
  return mark_goes (erase, ((const CwStepFold *) fold)->score);
}

static gboolean
text_mark_goes (const Erase *erase, gconstpointer address)
{
  return mark_goes (erase, address);
}

static gboolean
text_zone_goes (const Erase *erase, gconstpointer id)
{
  return g_hash_table_contains (erase->zones, id);
}

static gboolean
text_piece_goes (const Erase *erase, gconstpointer id)
{
  return piece_goes (erase, id);
}

static gboolean
target_goes (const Erase *erase, gconstpointer target)
{
  return piece_goes (erase, ((const CwTarget *) target)->piece);
}

/* A state that goes is named by the id of a step that goes, unless another step still carries the word as its label. */
static gboolean
state_goes (const Erase *erase, gconstpointer state)
{
  if (!g_hash_table_contains (erase->steps, state))
    return FALSE;
  for (guint i = 0; i < erase->design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (erase->design->steps, i);
      if (g_strcmp0 (step->rest, state) == 0 && !g_hash_table_contains (erase->steps, step->id))
        return FALSE;
    }
  return TRUE;
}

static gboolean
sight_goes (const Erase *erase, gconstpointer want)
{
  const CwSightWant *sight = want;

  return piece_goes (erase, sight->target.piece) || state_goes (erase, sight->state);
}

typedef gboolean (*Goes) (const Erase *erase, gconstpointer entry);

static guint
count_going (const Erase *erase, const GPtrArray *list, Goes goes)
{
  guint n = 0;

  for (guint i = 0; i < list->len; i++)
    n += goes (erase, g_ptr_array_index (list, i)) ? 1 : 0;
  return n;
}

static void
drop_going (const Erase *erase, GPtrArray *list, Goes goes)
{
  for (guint i = list->len; i > 0; i--)
    if (goes (erase, g_ptr_array_index (list, i - 1)))
      g_ptr_array_remove_index (list, i - 1);
}

/* Which zones go: those of the piece, and those that held nothing else. */
static void
mark_zones (Erase *erase)
{
  for (guint i = 0; i < erase->design->glue->len; i++)
    {
      const CwGlue *glue = g_ptr_array_index (erase->design->glue, i);
      guint n = count_going (erase, glue->holds, target_goes);
      if (piece_goes (erase, glue->piece) || (n > 0 && n == glue->holds->len))
        g_hash_table_add (erase->zones, glue->id);
    }
}

/* Which steps go, and what the others become. */
static void
mark_steps (Erase *erase)
{
  for (guint i = 0; i < erase->design->steps->len; i++)
    {
      CwStep *step = g_ptr_array_index (erase->design->steps, i);
      gboolean needs_piece = step->what == CW_DO_STICK || step->what == CW_DO_TAKE_AWAY;
      guint folds = count_going (erase, step->folds, fold_goes);
      guint marks = count_going (erase, step->marks, text_mark_goes);
      guint zones = count_going (erase, step->zones, text_zone_goes);
      guint heat = count_going (erase, step->heat, text_piece_goes);

      g_ptr_array_add (erase->new_steps, NULL);
      if ((piece_goes (erase, step->piece) && needs_piece) || (step->has_on && piece_goes (erase, step->on.piece))
          || (folds > 0 && folds == step->folds->len && step->what == CW_DO_FOLD)
          || (marks > 0 && marks == step->marks->len && (step->what == CW_DO_CUT || step->what == CW_DO_SCORE))
          || (zones > 0 && zones == step->zones->len && step->what == CW_DO_GLUE))
        g_hash_table_add (erase->steps, step->id);
      else if (folds + marks + zones + heat > 0 || piece_goes (erase, step->piece))
        {
          CwStep *copy = cw_step_copy (step);
          drop_going (erase, copy->folds, fold_goes);
          drop_going (erase, copy->marks, text_mark_goes);
          drop_going (erase, copy->zones, text_zone_goes);
          drop_going (erase, copy->heat, text_piece_goes);
          if (piece_goes (erase, copy->piece))
            g_clear_pointer (&copy->piece, g_free);
          g_ptr_array_index (erase->new_steps, i) = copy;
        }
    }
}

static void
mark_glue (Erase *erase)
{
  for (guint i = 0; i < erase->design->glue->len; i++)
    {
      CwGlue *glue = g_ptr_array_index (erase->design->glue, i);
      gboolean apply_goes = glue->apply && g_hash_table_contains (erase->steps, glue->apply);

      g_ptr_array_add (erase->new_glue, NULL);
      if (g_hash_table_contains (erase->zones, glue->id)
          || (!apply_goes && count_going (erase, glue->holds, target_goes) == 0))
        continue;
      CwGlue *copy = cw_glue_copy (glue);
      drop_going (erase, copy->holds, target_goes);
      if (apply_goes)
        g_clear_pointer (&copy->apply, g_free);
      g_ptr_array_index (erase->new_glue, i) = copy;
    }
}

static void
add_list (const Erase *erase, CwEdit *group, CwList list, const GPtrArray *items, const GPtrArray *replaced,
          GHashTable *gone)
{
  for (guint i = 0; i < items->len; i++)
    if (g_ptr_array_index (replaced, i))
      cw_edit_group_add (group, cw_edit_new_replace (erase->design, list, NULL, i, g_ptr_array_index (replaced, i)));
  for (guint i = items->len; i > 0; i--)
    if (g_hash_table_contains (gone, *(char **) g_ptr_array_index (items, i - 1)))
      cw_edit_group_add (group, cw_edit_new_remove (erase->design, list, NULL, i - 1));
}

static void
add_head (const Erase *erase, CwEdit *group)
{
  const CwWants *wants = &erase->design->head->wants;

  if (count_going (erase, wants->flat, state_goes) + count_going (erase, wants->hidden, sight_goes)
        + count_going (erase, wants->shown, sight_goes)
      == 0)
    return;
  CwHead *head = cw_head_copy (erase->design->head);
  drop_going (erase, head->wants.flat, state_goes);
  drop_going (erase, head->wants.hidden, sight_goes);
  drop_going (erase, head->wants.shown, sight_goes);
  cw_edit_group_add (group, cw_edit_new_head (erase->design, head));
}

static void
add_papers (const Erase *erase, CwEdit *group)
{
  for (guint i = 0; erase->paper && i < erase->design->pieces->len; i++)
    {
      const CwPiece *piece = g_ptr_array_index (erase->design->pieces, i);
      if (g_strcmp0 (piece->paper, erase->paper) != 0)
        continue;
      CwPiece *copy = cw_piece_share (piece);
      g_clear_pointer (&copy->paper, g_free);
      cw_edit_group_add (group, cw_edit_new_replace (erase->design, CW_LIST_PIECES, NULL, i, copy));
    }
}

/**
 * cw_edit_new_erase:
 * @design: the design to be edited
 * @list: a list
 * @piece_id: (nullable): the piece whose list it is, NULL for the lists of the design
 * @index: which item
 *
 * Like cw_edit_new_remove(), but what refers to the item goes, or lets go of it, too.
 *
 * Returns: (transfer full): the edit, a group
 */
CwEdit *
cw_edit_new_erase (const CwDesign *design, CwList list, const char *piece_id, guint index)
{
  g_return_val_if_fail (design, NULL);
  g_autoptr (CwEdit) remove = cw_edit_new_remove (design, list, piece_id, index);
  g_return_val_if_fail (remove, NULL);
  g_autoptr (GHashTable) zones = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) steps = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GPtrArray) new_steps = g_ptr_array_new ();
  g_autoptr (GPtrArray) new_glue = g_ptr_array_new ();
  Erase erase = { .design = design, .zones = zones, .steps = steps, .new_steps = new_steps, .new_glue = new_glue };
  CwEdit *group = cw_edit_new_group ();

  switch (list)
    {
    case CW_LIST_PAPERS:
      erase.paper = ((CwPaper *) g_ptr_array_index (design->papers, index))->id;
      break;
    case CW_LIST_PIECES:
      erase.piece = ((CwPiece *) g_ptr_array_index (design->pieces, index))->id;
      break;
    case CW_LIST_GLUE:
      g_hash_table_add (zones, ((CwGlue *) g_ptr_array_index (design->glue, index))->id);
      break;
    case CW_LIST_STEPS:
      g_hash_table_add (steps, ((CwStep *) g_ptr_array_index (design->steps, index))->id);
      break;
    case CW_LIST_MARKS:
      erase.mark_piece = piece_id;
      erase.mark = ((CwMark *) g_ptr_array_index (cw_design_get_piece (design, piece_id)->marks, index))->id;
      break;
    case CW_LIST_NAMES:
    case CW_LIST_ART:
    default:
      break;
    }
  mark_zones (&erase);
  mark_steps (&erase);
  mark_glue (&erase);
  add_head (&erase, group);
  add_list (&erase, group, CW_LIST_STEPS, design->steps, new_steps, steps);
  add_list (&erase, group, CW_LIST_GLUE, design->glue, new_glue, zones);
  add_papers (&erase, group);
  if (list != CW_LIST_STEPS && list != CW_LIST_GLUE)
    cw_edit_group_add (group, g_steal_pointer (&remove));
  return group;
}
