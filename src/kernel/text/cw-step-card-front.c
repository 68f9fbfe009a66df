/* cw-step-card-front.c: the head of the pages: what it is, what it takes, what to cut, what to beware of.
 *
 * Tools and cautions follow from the design: who cuts needs the blade's caution, who heats the heat's. They are the
 * usual ones of the craft and end by giving way to local rules and to the makers' instructions. What may go wrong is
 * what the checks found to be near-misses, not a general list.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-step-card-private.h"

#include "text/cw-readable.h"
#include "text/cw-side-words.h"
#include "trim/cw-look-alike.h"
#include "panel/cw-path-flatten.h"

#include <glib/gi18n-lib.h>

static void
add_tool (CwCardMaking *making, const char *name, CwHazard hazard)
{
  CwCardTool *tool;

  for (guint i = 0; i < making->card->tools->len; i++)
    if (g_strcmp0 (((CwCardTool *) g_ptr_array_index (making->card->tools, i))->name, name) == 0)
      return;
  tool = g_new0 (CwCardTool, 1);
  tool->name = g_strdup (name);
  tool->hazard = hazard;
  g_ptr_array_add (making->card->tools, tool);
}

static void
add_step_tools (CwCardMaking *making, const CwStep *step)
{
  JsonNode *node = step->extra != NULL && json_object_has_member (step->extra, "tools")
                     ? json_object_get_member (step->extra, "tools")
                     : NULL;

  if (node == NULL)
    return;
  if (JSON_NODE_HOLDS_ARRAY (node))
    for (guint i = 0; i < json_array_get_length (json_node_get_array (node)); i++)
      {
        JsonNode *item = json_array_get_element (json_node_get_array (node), i);

        if (JSON_NODE_HOLDS_VALUE (item) && json_node_get_value_type (item) == G_TYPE_STRING)
          add_tool (making, json_node_get_string (item), CW_HAZARD_NONE);
      }
  else if (cw_extra_get_text (step->extra, "tools") != NULL)
    add_tool (making, cw_extra_get_text (step->extra, "tools"), CW_HAZARD_NONE);
}

static void
add_tools (CwCardMaking *making)
{
  static const struct
  {
    const char *name;
    CwHazard hazard;
  } glues[] = {
    [CW_GLUE_TAPE] = { N_ ("double-sided tape"), CW_HAZARD_NONE },
    [CW_GLUE_WET] = { N_ ("wet glue"), CW_HAZARD_FUMES },
    [CW_GLUE_STRONG] = { N_ ("strong double-sided tape or glue"), CW_HAZARD_FUMES },
    [CW_GLUE_FOAM] = { N_ ("foam tape"), CW_HAZARD_NONE },
    [CW_GLUE_DOTS] = { N_ ("glue dots"), CW_HAZARD_NONE },
  };
  const CwTrimming *trimming = making->card->trimming;
  gboolean scores = FALSE, pencil = !making->analysis->tools.has_stops, knife = FALSE, folds = FALSE, heat = FALSE;

  for (guint i = 0; i < trimming->moves->len; i++)
    {
      const CwMove *move = &g_array_index (trimming->moves, CwMove, i);

      scores |= move->does == CW_MOVE_SCORE;
      pencil |= move->does == CW_MOVE_MARK;
    }
  for (guint i = 0; i < trimming->by_hand->len; i++)
    knife |= g_array_index (trimming->by_hand, CwByHand, i).why == CW_BY_HAND_CURVE;
  for (guint i = 0; i < making->design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (making->design->steps, i);

      folds |= step->what == CW_DO_FOLD;
      heat |= step->heat != NULL && step->heat->len > 0;
    }
  add_tool (making, _ ("paper trimmer, or knife, steel ruler and cutting mat"), CW_HAZARD_BLADE);
  if (knife)
    add_tool (making, _ ("craft knife for the curves"), CW_HAZARD_BLADE);
  if (scores)
    add_tool (making, _ ("scoring blade, scoring board or stylus"), CW_HAZARD_NONE);
  if (folds)
    add_tool (making, _ ("bone folder"), CW_HAZARD_NONE);
  if (pencil)
    add_tool (making, _ ("soft pencil"), CW_HAZARD_NONE);
  for (guint kind = 0; kind < G_N_ELEMENTS (glues); kind++)
    for (guint i = 0; i < making->design->glue->len; i++)
      if (((const CwGlue *) g_ptr_array_index (making->design->glue, i))->kind == kind)
        add_tool (making, _ (glues[kind].name), glues[kind].hazard);
  if (heat)
    add_tool (making, _ ("heat tool"), CW_HAZARD_HEAT);
  for (guint i = 0; i < making->design->steps->len; i++)
    add_step_tools (making, g_ptr_array_index (making->design->steps, i));
}

static void
add_cautions (CwCardMaking *making)
{
  gboolean has[CW_HAZARD_FUMES + 1] = { FALSE }, small = FALSE;
  GPtrArray *cautions = making->card->cautions;

  for (guint i = 0; i < making->card->tools->len; i++)
    has[((CwCardTool *) g_ptr_array_index (making->card->tools, i))->hazard] = TRUE;
  for (guint i = 0; i < making->design->glue->len; i++)
    {
      CwGlueKind kind = ((const CwGlue *) g_ptr_array_index (making->design->glue, i))->kind;

      small |= kind == CW_GLUE_FOAM || kind == CW_GLUE_DOTS;
    }
  if (has[CW_HAZARD_BLADE])
    cw_card_say (cautions, g_strdup (_ ("Blades cut. Keep fingers off the line and behind the blade, cut on a mat, and "
                                        "cover the blade when you put it down. Children cut only with an adult beside "
                                        "them.")));
  if (has[CW_HAZARD_HEAT])
    cw_card_say (cautions, g_strdup (_ ("Heat tools burn. Keep hands and loose paper away from the tip, stand the tool "
                                        "safely to cool, and switch it off when you leave it.")));
  if (has[CW_HAZARD_FUMES])
    cw_card_say (cautions, g_strdup (_ ("Glue: open a window, keep it off skin and out of eyes.")));
  if (small)
    cw_card_say (cautions, g_strdup (_ ("Small parts: keep them away from small children.")));
  cw_card_say (cautions,
               g_strdup (_ ("The makers' instructions for your tools and glues, and the rules of the place you "
                            "work in, come before what this page says.")));
}

static CwUnit
piece_unit (const CwPiece *piece, const CwDesign *design)
{
  return piece->outline.n_vertices > 1 ? piece->outline.vertices[1].at.x.unit : design->head->unit;
}

static char *
piece_size (const CwDesign *design, const CwPiece *piece)
{
  CwPoint low, high;
  CwUnit unit = piece_unit (piece, design);

  cw_piece_get_box (piece, &low, &high);
  return cw_size_dup_words (cw_length_from_ticks (high.x - low.x, unit), cw_length_from_ticks (high.y - low.y, unit));
}

static char *
paper_words (const CwPaper *paper)
{
  if (paper == NULL)
    return g_strdup (_ ("any paper"));
  const char *name = paper->name != NULL ? paper->name : paper->id;
  return paper->weight != NULL ? g_strdup_printf ("%s, %s", name, paper->weight) : g_strdup (name);
}

/* Where a piece goes. */
static char *
purpose_words (const CwCardMaking *making, guint piece)
{
  const CwPiece *item = g_ptr_array_index (making->design->pieces, piece);

  if (item == cw_design_get_ground (making->design))
    return g_strdup (_ ("the card itself"));
  for (guint i = 0; i < making->design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (making->design->steps, i);
      guint host = step->on.piece != NULL ? cw_design_find_piece (making->design, step->on.piece) : G_MAXUINT;

      if (step->what != CW_DO_STICK || g_strcmp0 (step->piece, item->id) != 0 || host == G_MAXUINT)
        continue;
      const CwPanelMap *map = &making->analysis->panels->maps[host];
      guint panel = step->on.has_panel ? cw_panel_map_find (map, cw_place_get_point (&step->on.panel)) : G_MAXUINT;
      const char *name = panel != G_MAXUINT ? g_array_index (map->panels, CwPanel, panel).name : NULL;
      const char *side = cw_side_get_words (making->analysis, host, step->on_face);

      if (name != NULL)
        return g_strdup_printf (step->tucked ? _ ("lies on “%s”, %s") : _ ("goes on “%s”, %s"), name, side);
      return g_strdup_printf (step->tucked ? _ ("lies on %s, %s") : _ ("goes on %s, %s"),
                              cw_card_piece_name (making, host), side);
    }
  return g_strdup ("");
}

static gboolean
is_plain (const CwCardMaking *making, guint piece)
{
  const CwPiece *item = g_ptr_array_index (making->design->pieces, piece);

  return item->marks->len == 0 && item->outline.n_vertices == 4;
}

static void
append_words (char **words, const char *separator, const char *more)
{
  char *joined = **words != '\0' ? g_strconcat (*words, separator, more, NULL) : g_strdup (more);

  g_free (*words);
  *words = joined;
}

static void
add_cuts (CwCardMaking *making)
{
  GPtrArray *cuts = making->card->cuts;

  for (guint i = 0; i < making->design->pieces->len; i++)
    {
      const CwPiece *piece = g_ptr_array_index (making->design->pieces, i);
      const CwPaper *paper = cw_design_get_paper (making->design, piece->paper);
      g_autofree char *size = piece_size (making->design, piece), *of = paper_words (paper);
      g_autofree char *purpose = purpose_words (making, i);
      CwCardCut *cut = NULL;

      /* Plain pieces of one size and paper are one row. */
      for (guint k = 0; k < i && cut == NULL && is_plain (making, i); k++)
        {
          CwCardCut *other = g_ptr_array_index (cuts, making->row_of[k]);

          if (is_plain (making, k) && g_str_equal (other->size, size) && g_str_equal (other->paper, of))
            {
              cut = other;
              making->row_of[i] = making->row_of[k];
            }
        }
      if (cut == NULL)
        {
          cut = g_new0 (CwCardCut, 1);
          cut->letter = cw_card_letter (cuts->len);
          cut->name = g_strdup ("");
          cut->purpose = g_strdup ("");
          cut->size = g_strdup (size);
          cut->paper = g_strdup (of);
          cut->grain = g_strdup (paper == NULL || paper->grain == NULL ? ""
                                 : g_strcmp0 (paper->grain, "x") == 0  ? _ ("grain runs across")
                                                                       : _ ("grain runs up and down"));
          making->row_of[i] = cuts->len;
          g_ptr_array_add (cuts, cut);
        }
      cut->count++;
      append_words (&cut->name, ", ", cw_card_piece_name (making, i));
      if (*purpose != '\0')
        append_words (&cut->purpose, "; ", purpose);
    }
}

static void
add_numbers (CwCardMaking *making)
{
  g_autoptr (GArray) pairs = cw_look_alikes_find (making->card->trimming, making->design, making->alike);
  const GArray *moves = making->card->trimming->moves;
  g_autoptr (GString) misses = g_string_new (NULL);
  guint n = 0;

  for (guint i = 0; i < pairs->len; i++)
    {
      const CwLookAlike *pair = &g_array_index (pairs, CwLookAlike, i);
      g_autofree char *a = cw_length_format (pair->a), *b = cw_length_format (pair->b);

      cw_card_say (making->card->numbers, g_strdup_printf (_ ("Do not mix up %s and %s."), a, b));
    }
  for (guint i = 0; i < moves->len; i++)
    if (g_array_index (moves, CwMove, i).flags & CW_MOVE_OFF_GROOVE)
      g_string_append_printf (misses, "%s%u", n++ > 0 ? ", " : "", i + 1);
  if (n > 0)
    {
      g_autofree char *groove = cw_length_format_ticks (making->analysis->tools.groove, CW_UNIT_INCH);

      cw_card_say (
        making->card->numbers,
        g_strdup_printf (dngettext (GETTEXT_PACKAGE,
                                    "On a scoring board with a groove every %s, line %s lies over none: score "
                                    "it on the trimmer or along a ruler.",
                                    "On a scoring board with a groove every %s, lines %s lie over none: "
                                    "score them on the trimmer or along a ruler.",
                                    n),
                         groove, misses->str));
    }
}

static void
add_remark (GPtrArray *list, const CwFinding *finding)
{
  CwCardRemark *remark = g_new0 (CwCardRemark, 1);

  remark->text = cw_finding_dup_text (finding, TRUE);
  remark->remedy = cw_finding_dup_remedy (finding, TRUE);
  g_ptr_array_add (list, remark);
}

static void
add_remarks (CwCardMaking *making)
{
  for (guint i = 0; i < making->analysis->findings->len; i++)
    {
      const CwFinding *finding = g_ptr_array_index (making->analysis->findings, i);

      if (finding->severity == CW_SEVERITY_ERROR)
        add_remark (making->card->faults, finding);
      else if (finding->severity == CW_SEVERITY_WARNING)
        add_remark (making->card->mistakes, finding);
    }
}

static void
add_sizes (CwCardMaking *making)
{
  const CwWants *wants = &making->design->head->wants;
  guint closed = cw_find_closed_step (making->analysis);
  const CwFlatState *state = closed != G_MAXUINT ? cw_flat_states_get (making->analysis->flat_states, closed) : NULL;

  if (state != NULL && state->flat)
    making->card->size
      = cw_size_dup_words (cw_length_from_ticks (state->box[2] - state->box[0], making->design->head->unit),
                           cw_length_from_ticks (state->box[3] - state->box[1], making->design->head->unit));
  else if (wants->has_size)
    making->card->size = cw_size_dup_words (wants->size[0], wants->size[1]);
  if (wants->has_envelope)
    {
      g_autofree char *a = cw_length_format (wants->envelope[0]), *b = cw_length_format (wants->envelope[1]);

      /* Translators: an envelope's two sides. */
      making->card->envelope = g_strdup_printf (_ ("%s by %s"), a, b);
    }
}

static void
add_pictures (CwCardMaking *making)
{
  CwStepCard *card = making->card;
  guint closed = cw_find_closed_step (making->analysis), standing = G_MAXUINT;

  for (guint i = 0; i < making->design->steps->len; i++)
    {
      const CwStep *step = g_ptr_array_index (making->design->steps, i);

      if (g_strcmp0 (step->rest, "standing") == 0 && cw_motion_get_state (making->analysis->motion, i)->reached >= 1)
        standing = i;
    }
  if (closed != G_MAXUINT)
    {
      card->closed = (CwCardPicture){ .kind = CW_CARD_PICTURE_CARD,
                                      .step = closed,
                                      .fraction = 1,
                                      .from = CW_CARD_FROM_FRONT,
                                      .words = g_strdup (_ ("The card closed")) };
      card->open = (CwCardPicture){ .kind = CW_CARD_PICTURE_CARD,
                                    .step = closed,
                                    .fraction = 0.5,
                                    .from = CW_CARD_FROM_TABLE,
                                    .words = g_strdup (_ ("The card half open")) };
    }
  if (standing != G_MAXUINT)
    {
      g_free (card->open.words);
      card->open = (CwCardPicture){ .kind = CW_CARD_PICTURE_CARD,
                                    .step = standing,
                                    .fraction = 1,
                                    .from = CW_CARD_FROM_TABLE,
                                    .words = g_strdup (_ ("The card standing open")) };
    }
}

/* Texts of an object under some keys, those there are, with something between them. */
static char *
join_members (JsonObject *object, const char *const keys[], guint n, const char *between)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    if (cw_extra_get_text (object, keys[i]) != NULL)
      g_string_append_printf (text, "%s%s", text->len > 0 ? between : "", cw_extra_get_text (object, keys[i]));
  return g_strdup (text->str);
}

/* A kept list of the design: one text, or texts and objects. Other things are left out. */
static void
add_kept (GPtrArray *list, JsonObject *extra, const char *key, const char *const keys[], guint n, const char *between)
{
  JsonNode *node = extra != NULL ? json_object_get_member (extra, key) : NULL;
  JsonArray *items = node != NULL && JSON_NODE_HOLDS_ARRAY (node) ? json_node_get_array (node) : NULL;

  if (cw_extra_get_text (extra, key) != NULL)
    cw_card_say (list, g_strdup (cw_extra_get_text (extra, key)));
  for (guint i = 0; items != NULL && i < json_array_get_length (items); i++)
    {
      JsonNode *item = json_array_get_element (items, i);
      g_autofree char *text = NULL;

      if (JSON_NODE_HOLDS_OBJECT (item))
        text = join_members (json_node_get_object (item), keys, n, between);
      else if (JSON_NODE_HOLDS_VALUE (item) && json_node_get_value_type (item) == G_TYPE_STRING)
        text = g_strdup (json_node_get_string (item));
      if (text != NULL && *text != '\0')
        cw_card_say (list, g_steal_pointer (&text));
    }
}

static void
add_supplies (CwCardMaking *making)
{
  static const char *const supply[] = { "amount", "name", "used_in" }, *const change[]
                                                                       = { "date", "what", "words", "text" };

  add_kept (making->card->supplies, making->design->head->extra, "supplies", supply, G_N_ELEMENTS (supply), ", ");
  add_kept (making->card->changes, making->design->head->extra, "changes", change, G_N_ELEMENTS (change), ": ");
}

static char *
work_words (const CwTrimming *trimming)
{
  g_autofree char *lines
    = g_strdup_printf (dngettext (GETTEXT_PACKAGE, "%u line", "%u lines", trimming->moves->len), trimming->moves->len);
  g_autofree char *laid = g_strdup_printf (dngettext (GETTEXT_PACKAGE, "the sheet laid down once",
                                                      "the sheet laid down %u times", trimming->n_turns),
                                           trimming->n_turns);
  g_autofree char *set = g_strdup_printf (dngettext (GETTEXT_PACKAGE, "the measure set once",
                                                     "the measure set %u times", trimming->n_stops),
                                          trimming->n_stops);

  return g_strdup_printf ("%s; %s; %s", lines, laid, set);
}

/**
 * cw_card_add_front:
 *
 * Adds all that stands before the steps.
 */
void
cw_card_add_front (CwCardMaking *making)
{
  CwStepCard *card = making->card;
  const CwHead *head = making->design->head;
  const char *date = cw_extra_get_text (head->extra, "date");

  card->title = g_strdup (head->title != NULL && *head->title != '\0' ? head->title : _ ("Folding card"));
  card->author = g_strdup (cw_extra_get_text (head->extra, "author"));
  card->date = g_strdup (date != NULL ? date : making->options->date);
  card->version = g_strdup_printf ("Creasewright %s", CW_VERSION);
  card->notes = g_strdup (head->notes);
  if (card->trimming->moves->len > 0)
    card->work = work_words (card->trimming);
  add_sizes (making);
  add_pictures (making);
  add_tools (making);
  add_supplies (making);
  add_cautions (making);
  add_cuts (making);
  add_numbers (making);
  add_remarks (making);
}
