/* cw-design-format.c: the file format as tables, one a kind of item: which key stands for which field, in which order
 * keys are written, which are needed.
 *
 * The reader (cw-design-read.c) and the writer (cw-design-write.c) walk the same tables, so that neither can know a key
 * that the other does not. Keys of later pages (author, minutes, looks...) are not here: they are kept like unknown
 * ones, in `extra`. `data/creasecard.schema.json` says the same to other programs.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-design-format.h"

#define AT(Type, field) G_STRUCT_OFFSET (Type, field)
#define NEEDED CW_FIELD_NEEDED
#define ALWAYS CW_FIELD_ALWAYS

#define RECORD_ITEM(Type, prefix)                                                                                      \
  static gpointer prefix##_make (void)                                                                                 \
  {                                                                                                                    \
    return prefix##_new ();                                                                                            \
  }                                                                                                                    \
  static void prefix##_drop (gpointer item)                                                                            \
  {                                                                                                                    \
    prefix##_unref (item);                                                                                             \
  }

RECORD_ITEM (CwPaper, cw_paper)
RECORD_ITEM (CwMark, cw_mark)
RECORD_ITEM (CwName, cw_name)
RECORD_ITEM (CwArt, cw_art)
RECORD_ITEM (CwPiece, cw_piece)
RECORD_ITEM (CwTarget, cw_target)
RECORD_ITEM (CwGlue, cw_glue)
RECORD_ITEM (CwStepFold, cw_step_fold)
RECORD_ITEM (CwStep, cw_step)
RECORD_ITEM (CwSightWant, cw_sight_want)

/* Keys of the enums, in the order of their values; each list ends with END. */
#define END "" /* no key is empty */
static const char *const face_keys[] = { "front", "back", END };
static const char *const kind_keys[] = { "score", "cut", "window", END };
static const char *const fold_keys[] = { "toward", "away", "none", END };
static const char *const made_keys[] = { NULL, "board", "press", END };
static const char *const shows_keys[] = { NULL, "front", "back", "both", END };
static const char *const glue_keys[] = { "tape", "wet", "strong", "foam", "dots", END };
static const char *const do_keys[]
  = { "cut", "score", "fold", "stick", "take-away", "glue", "rub", "turn-over", "decorate", END };
static const char *const phase_keys[] = { NULL, "making", "using", END };
static const char *const overhang_keys[] = { NULL, "meant", END };
static const char *const unit_keys[] = { "in", "mm", "cm", END };

static const CwField paper_fields[] = {
  { "id", CW_FIELD_TEXT, AT (CwPaper, id), NEEDED },
  { "name", CW_FIELD_TEXT, AT (CwPaper, name) },
  { "weight", CW_FIELD_TEXT, AT (CwPaper, weight) },
  { "caliper", CW_FIELD_LENGTH, AT (CwPaper, caliper), CW_FIELD_UNSIGNED, AT (CwPaper, has_caliper) },
  { "front", CW_FIELD_COLOUR, AT (CwPaper, front) },
  { "back", CW_FIELD_COLOUR, AT (CwPaper, back) },
  { "patterned", CW_FIELD_YES, AT (CwPaper, patterned), 0, AT (CwPaper, has_patterned) },
  { "grain", CW_FIELD_TEXT, AT (CwPaper, grain) },
  { NULL },
};
static const CwRecord paper = { paper_fields, AT (CwPaper, extra), cw_paper_make, cw_paper_drop };

static gboolean
is_score (gconstpointer mark)
{
  return ((const CwMark *) mark)->kind == CW_MARK_SCORE;
}

static gboolean
is_line (gconstpointer mark)
{
  return ((const CwMark *) mark)->shape == CW_SHAPE_LINE;
}

static gboolean
is_rect (gconstpointer mark)
{
  return ((const CwMark *) mark)->shape == CW_SHAPE_RECT;
}

static gboolean
is_circle (gconstpointer mark)
{
  return ((const CwMark *) mark)->shape == CW_SHAPE_CIRCLE;
}

static const CwField circle_fields[] = {
  { "centre", CW_FIELD_PLACE, AT (CwMark, centre), NEEDED },
  { "radius", CW_FIELD_LENGTH, AT (CwMark, radius), NEEDED | CW_FIELD_POSITIVE },
  { NULL },
};
static const CwRecord circle = { circle_fields, AT (CwMark, circle_extra) };

static const CwField mark_fields[] = {
  { "id", CW_FIELD_TEXT, AT (CwMark, id), NEEDED },
  { "kind", CW_FIELD_ENUM, AT (CwMark, kind), NEEDED, 0, kind_keys },
  { "fold", CW_FIELD_ENUM, AT (CwMark, fold), ALWAYS, 0, fold_keys, is_score },
  { "made", CW_FIELD_ENUM, AT (CwMark, made), 0, 0, made_keys, is_score },
  { "line", CW_FIELD_PATH, AT (CwMark, line), NEEDED, 0, NULL, is_line },
  { "rect", CW_FIELD_RECT, AT (CwMark, line), NEEDED, 0, NULL, is_rect },
  { "circle", CW_FIELD_OBJECT, 0, NEEDED, 0, &circle, is_circle },
  { NULL },
};
const CwRecord cw_format_mark = { mark_fields, AT (CwMark, extra), cw_mark_make, cw_mark_drop };

static const CwField through_fields[] = {
  { "through", CW_FIELD_PLACE, AT (CwVertex, at), NEEDED },
  { NULL },
};
const CwRecord cw_format_through = { through_fields, AT (CwVertex, extra) };

static const CwField name_fields[] = {
  { "name", CW_FIELD_TEXT, AT (CwName, name), NEEDED },
  { "at", CW_FIELD_PLACE, AT (CwName, at), NEEDED },
  { NULL },
};
static const CwRecord name = { name_fields, AT (CwName, extra), cw_name_make, cw_name_drop };

static const CwField art_fields[] = {
  { "id", CW_FIELD_TEXT, AT (CwArt, id), NEEDED },  { "face", CW_FIELD_ENUM, AT (CwArt, face), ALWAYS, 0, face_keys },
  { "label", CW_FIELD_TEXT, AT (CwArt, label) },    { "box", CW_FIELD_BOX, AT (CwArt, box), NEEDED },
  { "up", CW_FIELD_ANGLE, AT (CwArt, up), ALWAYS }, { NULL },
};
static const CwRecord art = { art_fields, AT (CwArt, extra), cw_art_make, cw_art_drop };

static const CwField piece_fields[] = {
  { "id", CW_FIELD_TEXT, AT (CwPiece, id), NEEDED },
  { "name", CW_FIELD_TEXT, AT (CwPiece, name) },
  { "paper", CW_FIELD_TEXT, AT (CwPiece, paper) },
  { "ground", CW_FIELD_YES, AT (CwPiece, ground) },
  { "outline", CW_FIELD_PATH, AT (CwPiece, outline), NEEDED },
  { "hold", CW_FIELD_PLACE, AT (CwPiece, hold), 0, AT (CwPiece, has_hold) },
  { "shows", CW_FIELD_ENUM, AT (CwPiece, shows), 0, 0, shows_keys },
  { "rim", CW_FIELD_LENGTH, AT (CwPiece, rim), 0, AT (CwPiece, has_rim) },
  { "marks", CW_FIELD_ITEMS, AT (CwPiece, marks), ALWAYS, 0, &cw_format_mark },
  { "names", CW_FIELD_ITEMS, AT (CwPiece, names), 0, AT (CwPiece, has_names), &name },
  { "art", CW_FIELD_ITEMS, AT (CwPiece, art), 0, AT (CwPiece, has_art), &art },
  { NULL },
};
static const CwRecord piece = { piece_fields, AT (CwPiece, extra), cw_piece_make, cw_piece_drop };

static const CwField target_fields[] = {
  { "piece", CW_FIELD_TEXT, AT (CwTarget, piece), NEEDED },
  { "panel", CW_FIELD_PLACE, AT (CwTarget, panel), 0, AT (CwTarget, has_panel) },
  { NULL },
};
const CwRecord cw_format_target = { target_fields, AT (CwTarget, extra), cw_target_make, cw_target_drop };

static const CwField glue_fields[] = {
  { "id", CW_FIELD_TEXT, AT (CwGlue, id), NEEDED },
  { "piece", CW_FIELD_TEXT, AT (CwGlue, piece), NEEDED },
  { "face", CW_FIELD_ENUM, AT (CwGlue, face), NEEDED, 0, face_keys },
  { "kind", CW_FIELD_ENUM, AT (CwGlue, kind), NEEDED, 0, glue_keys },
  { "area", CW_FIELD_PATH, AT (CwGlue, area), NEEDED },
  { "holds", CW_FIELD_HOLDS, AT (CwGlue, holds), 0, AT (CwGlue, holds_listed) },
  { "apply", CW_FIELD_TEXT, AT (CwGlue, apply) },
  { "height", CW_FIELD_LENGTH, AT (CwGlue, height), CW_FIELD_UNSIGNED, AT (CwGlue, has_height) },
  { NULL },
};
static const CwRecord glue = { glue_fields, AT (CwGlue, extra), cw_glue_make, cw_glue_drop };

static const CwField step_fold_fields[] = {
  { "score", CW_FIELD_TEXT, AT (CwStepFold, score), NEEDED },
  { "to", CW_FIELD_ANGLE, AT (CwStepFold, to), NEEDED },
  { NULL },
};
static const CwRecord step_fold = { step_fold_fields, AT (CwStepFold, extra), cw_step_fold_make, cw_step_fold_drop };

static const CwField on_fields[] = {
  { "piece", CW_FIELD_TEXT, AT (CwStep, on.piece), NEEDED },
  { "panel", CW_FIELD_PLACE, AT (CwStep, on.panel), 0, AT (CwStep, on.has_panel) },
  { "face", CW_FIELD_ENUM, AT (CwStep, on_face), ALWAYS, 0, face_keys },
  { NULL },
};
static const CwRecord on = { on_fields, AT (CwStep, on.extra) };

static gboolean
is_stick (gconstpointer step)
{
  return ((const CwStep *) step)->what == CW_DO_STICK;
}

static const CwField step_fields[] = {
  { "id", CW_FIELD_TEXT, AT (CwStep, id), NEEDED },
  { "do", CW_FIELD_ENUM, AT (CwStep, what), NEEDED, 0, do_keys },
  { "phase", CW_FIELD_ENUM, AT (CwStep, phase), 0, 0, phase_keys },
  { "rest", CW_FIELD_TEXT, AT (CwStep, rest) },
  { "title", CW_FIELD_TEXT, AT (CwStep, title) },
  { "caption", CW_FIELD_TEXT, AT (CwStep, caption) },
  { "piece", CW_FIELD_TEXT, AT (CwStep, piece) },
  { "on", CW_FIELD_OBJECT, 0, 0, AT (CwStep, has_on), &on, is_stick },
  { "facing", CW_FIELD_ENUM, AT (CwStep, facing), ALWAYS, 0, face_keys, is_stick },
  { "at", CW_FIELD_PLACE, AT (CwStep, at), ALWAYS, 0, NULL, is_stick },
  { "turn", CW_FIELD_ANGLE, AT (CwStep, turn), ALWAYS, 0, NULL, is_stick },
  { "tucked", CW_FIELD_YES, AT (CwStep, tucked), 0, 0, NULL, is_stick },
  { "overhang", CW_FIELD_ENUM, AT (CwStep, overhang_meant), 0, 0, overhang_keys, is_stick },
  { "folds", CW_FIELD_ITEMS, AT (CwStep, folds), 0, 0, &step_fold },
  { "marks", CW_FIELD_TEXTS, AT (CwStep, marks) },
  { "zones", CW_FIELD_TEXTS, AT (CwStep, zones) },
  { "heat", CW_FIELD_TEXTS, AT (CwStep, heat) },
  { NULL },
};
static const CwRecord step = { step_fields, AT (CwStep, extra), cw_step_make, cw_step_drop };

static const CwField sight_want_fields[] = {
  { "piece", CW_FIELD_TEXT, AT (CwSightWant, target.piece), NEEDED },
  { "panel", CW_FIELD_PLACE, AT (CwSightWant, target.panel), 0, AT (CwSightWant, target.has_panel) },
  { "face", CW_FIELD_ENUM, AT (CwSightWant, face), 0, AT (CwSightWant, has_face), face_keys },
  { "state", CW_FIELD_TEXT, AT (CwSightWant, state), NEEDED },
  { "from", CW_FIELD_ENUM, AT (CwSightWant, from), ALWAYS, 0, face_keys },
  { NULL },
};
static const CwRecord sight_want
  = { sight_want_fields, AT (CwSightWant, extra), cw_sight_want_make, cw_sight_want_drop };

static const CwField measure_fields[] = {
  { "unit", CW_FIELD_UNIT, AT (CwHead, unit), ALWAYS, 0, unit_keys },
  { "snap", CW_FIELD_SNAP, AT (CwHead, snap), 0, AT (CwHead, has_snap) },
  { "hand", CW_FIELD_LENGTH, AT (CwHead, hand), CW_FIELD_UNSIGNED, AT (CwHead, has_hand) },
  { "give", CW_FIELD_LENGTH, AT (CwHead, give), CW_FIELD_UNSIGNED, AT (CwHead, has_give) },
  { NULL },
};
static const CwRecord measure = { measure_fields, AT (CwHead, measure_extra) };

static const CwField wants_fields[] = {
  { "size", CW_FIELD_SIZE, AT (CwHead, wants.size), CW_FIELD_POSITIVE, AT (CwHead, wants.has_size) },
  { "envelope", CW_FIELD_SIZE, AT (CwHead, wants.envelope), CW_FIELD_POSITIVE, AT (CwHead, wants.has_envelope) },
  { "flat", CW_FIELD_TEXTS, AT (CwHead, wants.flat), 0, AT (CwHead, wants.has_flat) },
  { "hidden", CW_FIELD_ITEMS, AT (CwHead, wants.hidden), 0, AT (CwHead, wants.has_hidden), &sight_want },
  { "shown", CW_FIELD_ITEMS, AT (CwHead, wants.shown), 0, AT (CwHead, wants.has_shown), &sight_want },
  { "mail", CW_FIELD_TEXT, AT (CwHead, wants.mail) },
  { NULL },
};
static const CwRecord wants = { wants_fields, AT (CwHead, wants.extra) };

static const CwField head_fields[] = {
  { "title", CW_FIELD_TEXT, AT (CwHead, title) },
  { "notes", CW_FIELD_TEXT, AT (CwHead, notes) },
  { "measure", CW_FIELD_OBJECT, 0, 0, AT (CwHead, has_measure), &measure },
  { NULL },
};
const CwRecord cw_format_head = { head_fields };

static const CwField list_fields[] = {
  { "papers", CW_FIELD_ITEMS, AT (CwDesign, papers), ALWAYS, 0, &paper },
  { "pieces", CW_FIELD_ITEMS, AT (CwDesign, pieces), NEEDED, 0, &piece },
  { "glue", CW_FIELD_ITEMS, AT (CwDesign, glue), ALWAYS, 0, &glue },
  { "steps", CW_FIELD_ITEMS, AT (CwDesign, steps), ALWAYS, 0, &step },
  { NULL },
};
const CwRecord cw_format_lists = { list_fields };

static const CwField tail_fields[] = {
  { "wants", CW_FIELD_OBJECT, 0, 0, AT (CwHead, has_wants), &wants },
  { NULL },
};
const CwRecord cw_format_tail = { tail_fields };

/**
 * cw_format_knows:
 * @record: a table
 * @item: the item it speaks of, as far as it is known
 * @key: a key
 *
 * Returns: whether @key stands for a field of @item
 */
gboolean
cw_format_knows (const CwRecord *record, gconstpointer item, const char *key)
{
  for (const CwField *field = record->fields; field->key; field++)
    if (g_str_equal (field->key, key))
      return !field->applies || field->applies (item);
  return FALSE;
}
