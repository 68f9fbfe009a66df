/* cw-step-card-glue.c: the steps that put glue on.
 *
 * Said: what kind, how far from the edges where that is one measure, and where none may go.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-step-card-private.h"

#include "glue/cw-safe-area.h"
#include "glue/cw-zone.h"
#include "panel/cw-path-flatten.h"

#include <glib/gi18n-lib.h>

static const char *
glue_words (CwGlueKind kind)
{
  static const char *const words[] = {
    [CW_GLUE_TAPE] = N_ ("double-sided tape"),
    [CW_GLUE_WET] = N_ ("a thin film of wet glue"),
    [CW_GLUE_STRONG] = N_ ("strong tape or glue"),
    [CW_GLUE_FOAM] = N_ ("foam tape"),
    [CW_GLUE_DOTS] = N_ ("glue dots"),
  };

  return (guint) kind < G_N_ELEMENTS (words) ? _ (words[kind]) : "";
}

/* Where glue on this face would meet, in some state from a step on, what it must not. */
static CwRegion
find_never (const CwCardWalk *walk, const CwGlue *glue, guint piece, guint step)
{
  const CwAnalysis *analysis = walk->making->analysis;
  CwSafeAsk ask = { .face = glue->face,
                    .first = step,
                    .creep = cw_glue_kind_get_creep (glue->kind),
                    .hand = analysis->design->head->hand.ticks };
  CwSafeArea area;
  CwRegion never;

  ask.panel = cw_panel_set_find_laid (analysis->panels, piece);
  if (ask.panel == G_MAXUINT)
    return (CwRegion){ 0 };
  ask.panel += analysis->panels->first_panel[piece];
  ask.last = analysis->design->steps->len - 1;
  area = cw_safe_area_find (analysis->flat_states, &ask);
  never = area.never;
  area.never = (CwRegion){ 0 };
  cw_safe_area_clear (&area);
  return never;
}

/* How far glue stays from the edges, where it is one box in the middle of a rectangular piece. */
static void
say_inset (const CwCardMaking *making, CwCardStep *step, const CwGlue *glue, guint piece)
{
  const CwPiece *item = g_ptr_array_index (making->design->pieces, piece);
  g_autoptr (GArray) points = cw_path_flatten (&glue->area, TRUE);
  CwPoint low, high, from = { G_MAXINT32, G_MAXINT32 }, to = { G_MININT32, G_MININT32 };
  guint zones = 0;

  for (guint i = 0; i < making->design->glue->len; i++)
    {
      const CwGlue *other = g_ptr_array_index (making->design->glue, i);

      zones += other->face == glue->face && g_strcmp0 (other->piece, glue->piece) == 0;
    }
  for (guint i = 0; i < points->len; i++)
    {
      CwPoint p = g_array_index (points, CwPoint, i);

      from = (CwPoint){ MIN (from.x, p.x), MIN (from.y, p.y) };
      to = (CwPoint){ MAX (to.x, p.x), MAX (to.y, p.y) };
    }
  cw_piece_get_box (item, &low, &high);
  if (zones != 1 || points->len != 4 || item->outline.n_vertices != 4 || from.x - low.x <= 0
      || from.x - low.x != from.y - low.y || from.x - low.x != high.x - to.x || from.x - low.x != high.y - to.y)
    return;
  g_autofree char *inset = cw_length_format_ticks (from.x - low.x, glue->area.vertices[0].at.x.unit);
  cw_card_say (step->lines, g_strdup_printf (_ ("Stay %s away from every edge."), inset));
}

/* The glue that is put on together: one step's zones, or all of this kind on this face that wait for no later step. */
static GArray *
find_put_on (const CwCardWalk *walk, const CwGlue *glue, const CwStep *own)
{
  const GPtrArray *all = walk->making->design->glue;
  GArray *zones = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < all->len; i++)
    {
      const CwGlue *other = g_ptr_array_index (all, i);

      if (own != NULL ? other == glue
                      : other->apply == NULL && other->face == glue->face && other->kind == glue->kind
                          && g_strcmp0 (other->piece, glue->piece) == 0)
        g_array_append_val (zones, i);
    }
  return zones;
}

/**
 * cw_card_add_glue:
 * @walk: going through the steps
 * @glue: a zone
 * @piece: its piece
 * @index: the step before which, or in which, it goes on
 * @own: (nullable): the step that is about this glue alone
 *
 * Adds a step that puts on glue: zones of one piece and face.
 */
void
cw_card_add_glue (CwCardWalk *walk, const CwGlue *glue, guint piece, guint index, const CwStep *own)
{
  CwCardMaking *making = walk->making;
  g_autofree char *letter = cw_card_letter (making->row_of[piece]);
  g_autofree char *title
    = own != NULL && own->title != NULL && *own->title != '\0'
        ? g_strdup (own->title)
        : g_strdup_printf (_ ("Put glue on piece %s, %s"), letter, cw_card_piece_name (making, piece));
  CwCardStep *step = cw_card_step_add (making, making->card->making, title);

  step->face = g_strdup_printf (_ ("Up: %s"), cw_card_side_words (making, piece, glue->face));
  cw_card_say (step->lines, g_strdup_printf (_ ("Put %s on the dotted area."), glue_words (glue->kind)));
  say_inset (making, step, glue, piece);
  step->picture = (CwCardPicture){ .kind = CW_CARD_PICTURE_SHEET,
                                   .piece = piece,
                                   .glue = TRUE,
                                   .zones = find_put_on (walk, glue, own),
                                   .lie = { 0, glue->face == CW_FACE_BACK },
                                   .first_move = making->card->trimming->moves->len };
  step->picture.never = find_never (walk, glue, piece, index);
  if (step->picture.never.n_polygons > 0)
    cw_card_say (step->lines, g_strdup (_ ("Keep all glue off the hatched area: there it would stick to what must stay "
                                           "free.")));
  step->picture.words = g_strdup_printf (_ ("%s with its glue dotted"), cw_card_piece_name (making, piece));
  walk->glue_open = TRUE;
}

/**
 * cw_card_add_glue_of:
 * @walk: going through the steps
 * @piece: a piece
 * @face: the face that is laid down
 * @index: the step that lays it
 *
 * Adds the glue that goes on just before the piece is laid down: that of its face, once for each kind.
 */
void
cw_card_add_glue_of (CwCardWalk *walk, guint piece, CwFace face, guint index)
{
  const CwDesign *design = walk->making->design;
  guint kinds = 0;

  for (guint i = 0; i < design->glue->len; i++)
    {
      const CwGlue *glue = g_ptr_array_index (design->glue, i);

      if (glue->apply != NULL || glue->face != face || cw_design_find_piece (design, glue->piece) != piece
          || (kinds & 1u << glue->kind))
        continue;
      kinds |= 1u << glue->kind;
      cw_card_add_glue (walk, glue, piece, index, NULL);
    }
}
