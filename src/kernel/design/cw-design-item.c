/* cw-design-item.c: the life of every item of a design: new, copy, ref, unref; and paths and places.
 *
 * Every item lies in an atomically counted box, so that designs which share it may live on different threads. A copy
 * shares nothing with its original (keys the program does not know included), so it may be changed until it is handed
 * on. Nothing here can fail.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-design-private.h"

/* The snap step of a design that names none: 1/16 inch (model, "Lengths"). */
#define SNAP_DEFAULT (CW_TICKS_PER_INCH / 16)

#define DEFINE_ITEM(Type, prefix, init, clear, adopt)                                                                  \
  Type *prefix##_new (void)                                                                                            \
  {                                                                                                                    \
    Type *item = g_atomic_rc_box_new0 (Type);                                                                          \
    init (item);                                                                                                       \
    return item;                                                                                                       \
  }                                                                                                                    \
  Type *prefix##_copy (const Type *item)                                                                               \
  {                                                                                                                    \
    g_return_val_if_fail (item, NULL);                                                                                 \
    Type *copy = (g_atomic_rc_box_dup) (sizeof (Type), item);                                                          \
    adopt (copy);                                                                                                      \
    return copy;                                                                                                       \
  }                                                                                                                    \
  Type *prefix##_ref (Type *item)                                                                                      \
  {                                                                                                                    \
    g_return_val_if_fail (item, NULL);                                                                                 \
    return g_atomic_rc_box_acquire (item);                                                                             \
  }                                                                                                                    \
  static void prefix##_finish (gpointer item)                                                                          \
  {                                                                                                                    \
    clear (item);                                                                                                      \
  }                                                                                                                    \
  void prefix##_unref (Type *item)                                                                                     \
  {                                                                                                                    \
    if (item)                                                                                                          \
      g_atomic_rc_box_release_full (item, prefix##_finish);                                                            \
  }

/* After a bitwise copy every owned field still belongs to the original: own it. */
static void
own_text (char **text)
{
  *text = g_strdup (*text);
}

static void
own_extra (JsonObject **extra)
{
  if (*extra)
    *extra = cw_json_object_copy (*extra);
}

static void
own_path (CwPath *path)
{
  *path = cw_path_copy (path);
}

static void
own_list (GPtrArray **list, GCopyFunc copy, GDestroyNotify unref)
{
  GPtrArray *own = g_ptr_array_new_full ((*list)->len, unref);
  for (guint i = 0; i < (*list)->len; i++)
    g_ptr_array_add (own, copy (g_ptr_array_index (*list, i), NULL));
  *list = own;
}

#define OWN_LIST(list, prefix) own_list (&(list), prefix##_copy_func, prefix##_unref_func)

#define DEFINE_LIST_FUNCS(Type, prefix)                                                                                \
  static gpointer prefix##_copy_func (gconstpointer item, gpointer nothing)                                            \
  {                                                                                                                    \
    return prefix##_copy (item);                                                                                       \
  }                                                                                                                    \
  static void prefix##_unref_func (gpointer item)                                                                      \
  {                                                                                                                    \
    prefix##_unref (item);                                                                                             \
  }

static gpointer
text_copy_func (gconstpointer text, gpointer nothing)
{
  return g_strdup (text);
}

static void
text_unref_func (gpointer text)
{
  g_free (text);
}

DEFINE_LIST_FUNCS (CwMark, cw_mark)
DEFINE_LIST_FUNCS (CwName, cw_name)
DEFINE_LIST_FUNCS (CwArt, cw_art)
DEFINE_LIST_FUNCS (CwTarget, cw_target)
DEFINE_LIST_FUNCS (CwStepFold, cw_step_fold)
DEFINE_LIST_FUNCS (CwSightWant, cw_sight_want)
DEFINE_LIST_FUNCS (CwPaper, cw_paper)
DEFINE_LIST_FUNCS (CwPiece, cw_piece)
DEFINE_LIST_FUNCS (CwGlue, cw_glue)
DEFINE_LIST_FUNCS (CwStep, cw_step)

#define NEW_LIST(prefix) g_ptr_array_new_with_free_func (prefix##_unref_func)

static void
init_nothing (gpointer item)
{
}

static void
paper_clear (CwPaper *paper)
{
  g_free (paper->id);
  g_free (paper->name);
  g_free (paper->weight);
  g_free (paper->front);
  g_free (paper->back);
  g_free (paper->grain);
  g_clear_pointer (&paper->extra, json_object_unref);
}

static void
paper_own (CwPaper *paper)
{
  own_text (&paper->id);
  own_text (&paper->name);
  own_text (&paper->weight);
  own_text (&paper->front);
  own_text (&paper->back);
  own_text (&paper->grain);
  own_extra (&paper->extra);
}

DEFINE_ITEM (CwPaper, cw_paper, init_nothing, paper_clear, paper_own)

static void
mark_clear (CwMark *mark)
{
  g_free (mark->id);
  cw_path_clear (&mark->line);
  g_clear_pointer (&mark->circle_extra, json_object_unref);
  g_clear_pointer (&mark->extra, json_object_unref);
}

static void
mark_own (CwMark *mark)
{
  own_text (&mark->id);
  own_path (&mark->line);
  own_extra (&mark->circle_extra);
  own_extra (&mark->extra);
}

DEFINE_ITEM (CwMark, cw_mark, init_nothing, mark_clear, mark_own)

static void
name_clear (CwName *name)
{
  g_free (name->name);
  g_clear_pointer (&name->extra, json_object_unref);
}

static void
name_own (CwName *name)
{
  own_text (&name->name);
  own_extra (&name->extra);
}

DEFINE_ITEM (CwName, cw_name, init_nothing, name_clear, name_own)

static void
art_clear (CwArt *art)
{
  g_free (art->id);
  g_free (art->label);
  g_clear_pointer (&art->extra, json_object_unref);
}

static void
art_own (CwArt *art)
{
  own_text (&art->id);
  own_text (&art->label);
  own_extra (&art->extra);
}

DEFINE_ITEM (CwArt, cw_art, init_nothing, art_clear, art_own)

static void
piece_init (CwPiece *piece)
{
  piece->marks = NEW_LIST (cw_mark);
  piece->names = NEW_LIST (cw_name);
  piece->art = NEW_LIST (cw_art);
}

static void
piece_clear (CwPiece *piece)
{
  g_free (piece->id);
  g_free (piece->name);
  g_free (piece->paper);
  cw_path_clear (&piece->outline);
  g_ptr_array_unref (piece->marks);
  g_ptr_array_unref (piece->names);
  g_ptr_array_unref (piece->art);
  g_clear_pointer (&piece->extra, json_object_unref);
}

static void
piece_own_but_lists (CwPiece *piece)
{
  own_text (&piece->id);
  own_text (&piece->name);
  own_text (&piece->paper);
  own_path (&piece->outline);
  own_extra (&piece->extra);
}

static void
piece_own (CwPiece *piece)
{
  piece_own_but_lists (piece);
  OWN_LIST (piece->marks, cw_mark);
  OWN_LIST (piece->names, cw_name);
  OWN_LIST (piece->art, cw_art);
}

DEFINE_ITEM (CwPiece, cw_piece, piece_init, piece_clear, piece_own)

/**
 * cw_piece_share: (private to the room)
 * @piece: a piece
 *
 * A piece like @piece that shares its lists: replace a list, never change one.
 *
 * Returns: (transfer full): the piece
 */
CwPiece *
cw_piece_share (const CwPiece *piece)
{
  CwPiece *share = (g_atomic_rc_box_dup) (sizeof (CwPiece), piece);
  piece_own_but_lists (share);
  g_ptr_array_ref (share->marks);
  g_ptr_array_ref (share->names);
  g_ptr_array_ref (share->art);
  return share;
}

static void
target_clear (CwTarget *target)
{
  g_free (target->piece);
  g_clear_pointer (&target->extra, json_object_unref);
}

static void
target_own (CwTarget *target)
{
  own_text (&target->piece);
  own_extra (&target->extra);
}

DEFINE_ITEM (CwTarget, cw_target, init_nothing, target_clear, target_own)

static void
glue_init (CwGlue *glue)
{
  glue->holds = NEW_LIST (cw_target);
}

static void
glue_clear (CwGlue *glue)
{
  g_free (glue->id);
  g_free (glue->piece);
  cw_path_clear (&glue->area);
  g_ptr_array_unref (glue->holds);
  g_free (glue->apply);
  g_clear_pointer (&glue->extra, json_object_unref);
}

static void
glue_own (CwGlue *glue)
{
  own_text (&glue->id);
  own_text (&glue->piece);
  own_path (&glue->area);
  OWN_LIST (glue->holds, cw_target);
  own_text (&glue->apply);
  own_extra (&glue->extra);
}

DEFINE_ITEM (CwGlue, cw_glue, glue_init, glue_clear, glue_own)

static void
step_fold_clear (CwStepFold *fold)
{
  g_free (fold->score);
  g_clear_pointer (&fold->extra, json_object_unref);
}

static void
step_fold_own (CwStepFold *fold)
{
  own_text (&fold->score);
  own_extra (&fold->extra);
}

DEFINE_ITEM (CwStepFold, cw_step_fold, init_nothing, step_fold_clear, step_fold_own)

static void
step_init (CwStep *step)
{
  step->facing = CW_FACE_BACK;
  step->folds = NEW_LIST (cw_step_fold);
  step->marks = NEW_LIST (text);
  step->zones = NEW_LIST (text);
  step->heat = NEW_LIST (text);
}

static void
step_clear (CwStep *step)
{
  g_free (step->id);
  g_free (step->title);
  g_free (step->caption);
  g_free (step->rest);
  g_ptr_array_unref (step->folds);
  g_free (step->piece);
  target_clear (&step->on);
  g_ptr_array_unref (step->marks);
  g_ptr_array_unref (step->zones);
  g_ptr_array_unref (step->heat);
  g_clear_pointer (&step->extra, json_object_unref);
}

static void
step_own (CwStep *step)
{
  own_text (&step->id);
  own_text (&step->title);
  own_text (&step->caption);
  own_text (&step->rest);
  OWN_LIST (step->folds, cw_step_fold);
  own_text (&step->piece);
  target_own (&step->on);
  OWN_LIST (step->marks, text);
  OWN_LIST (step->zones, text);
  OWN_LIST (step->heat, text);
  own_extra (&step->extra);
}

DEFINE_ITEM (CwStep, cw_step, step_init, step_clear, step_own)

static void
sight_want_clear (CwSightWant *want)
{
  target_clear (&want->target);
  g_free (want->state);
  g_clear_pointer (&want->extra, json_object_unref);
}

static void
sight_want_own (CwSightWant *want)
{
  target_own (&want->target);
  own_text (&want->state);
  own_extra (&want->extra);
}

DEFINE_ITEM (CwSightWant, cw_sight_want, init_nothing, sight_want_clear, sight_want_own)

static void
head_init (CwHead *head)
{
  head->snap_ticks = SNAP_DEFAULT;
  head->snap = cw_length_from_ticks (SNAP_DEFAULT, CW_UNIT_INCH);
  head->wants.flat = NEW_LIST (text);
  head->wants.hidden = NEW_LIST (cw_sight_want);
  head->wants.shown = NEW_LIST (cw_sight_want);
}

static void
head_clear (CwHead *head)
{
  g_free (head->title);
  g_free (head->notes);
  g_free (head->wants.mail);
  g_ptr_array_unref (head->wants.flat);
  g_ptr_array_unref (head->wants.hidden);
  g_ptr_array_unref (head->wants.shown);
  g_clear_pointer (&head->wants.extra, json_object_unref);
  g_clear_pointer (&head->measure_extra, json_object_unref);
  g_clear_pointer (&head->extra, json_object_unref);
}

static void
head_own (CwHead *head)
{
  own_text (&head->title);
  own_text (&head->notes);
  own_text (&head->wants.mail);
  OWN_LIST (head->wants.flat, text);
  OWN_LIST (head->wants.hidden, cw_sight_want);
  OWN_LIST (head->wants.shown, cw_sight_want);
  own_extra (&head->wants.extra);
  own_extra (&head->measure_extra);
  own_extra (&head->extra);
}

DEFINE_ITEM (CwHead, cw_head, head_init, head_clear, head_own)

static void
design_init (CwDesign *design)
{
  design->head = cw_head_new ();
  design->papers = NEW_LIST (cw_paper);
  design->pieces = NEW_LIST (cw_piece);
  design->glue = NEW_LIST (cw_glue);
  design->steps = NEW_LIST (cw_step);
}

static void
design_clear (CwDesign *design)
{
  cw_head_unref (design->head);
  g_ptr_array_unref (design->papers);
  g_ptr_array_unref (design->pieces);
  g_ptr_array_unref (design->glue);
  g_ptr_array_unref (design->steps);
}

static void
design_own (CwDesign *design)
{
  design->head = cw_head_copy (design->head);
  OWN_LIST (design->papers, cw_paper);
  OWN_LIST (design->pieces, cw_piece);
  OWN_LIST (design->glue, cw_glue);
  OWN_LIST (design->steps, cw_step);
}

DEFINE_ITEM (CwDesign, cw_design, design_init, design_clear, design_own)

/**
 * cw_design_share: (private to the room)
 * @design: a design
 *
 * A design like @design that shares its head and its lists: replace, never change.
 *
 * Returns: (transfer full): the design
 */
CwDesign *
cw_design_share (const CwDesign *design)
{
  CwDesign *share = (g_atomic_rc_box_dup) (sizeof (CwDesign), design);
  cw_head_ref (share->head);
  g_ptr_array_ref (share->papers);
  g_ptr_array_ref (share->pieces);
  g_ptr_array_ref (share->glue);
  g_ptr_array_ref (share->steps);
  return share;
}
