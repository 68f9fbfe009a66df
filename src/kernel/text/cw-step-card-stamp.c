/* cw-step-card-stamp.c: the stamping guide: greetings and pictures on the flat pieces, before they are cut and scored.
 *
 * One step for each piece and face: where every area lies from the left and upper edge, which way its top points, which
 * lines will run through it, repeated stampings in order, how long to wait. Which way up it comes to stand for the
 * reader is judged by the checks (`art-turned`); here only the flat piece counts.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-step-card-private.h"

#include "trim/cw-stamp.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Turned by no more than this off a quarter, an area lies straight, degrees. */
#define SQUARE_DEG 0.5

static char *
up_words (double up)
{
  static const char *const quarters[4]
    = { N_ ("It stands upright as the piece lies."), N_ ("Its top points to the right."),
        N_ ("It stands upside down as the piece lies: its top points down."), N_ ("Its top points to the left.") };

  if (fabs (remainder (up, 90)) <= SQUARE_DEG)
    return g_strdup (_ (quarters[lround (up / 90) % 4]));
  return g_strdup_printf (_ ("Its top is turned %.0f degrees clockwise from upright."), up);
}

static char *
over_words (const CwPiece *piece, const CwStamp *stamp)
{
  g_autoptr (GString) names = g_string_new (NULL);

  for (guint i = 0; i < stamp->over->len; i++)
    {
      const CwMark *mark = g_ptr_array_index (piece->marks, g_array_index (stamp->over, guint, i));

      g_string_append (names, i > 0 ? ", " : "");
      g_string_append_printf (names, _ ("“%s”"), mark->id);
    }
  return g_strdup_printf (dngettext (GETTEXT_PACKAGE,
                                     "A line will run through it, %s: so stamp before it is scored or cut.",
                                     "Lines will run through it, %s: so stamp before they are scored or cut.",
                                     stamp->over->len),
                          names->str);
}

static char *
print_words (const CwPrint *print, guint number)
{
  static const char *const prints[]
    = { NULL, N_ ("first print, freshly inked"), N_ ("second print, without inking again"),
        N_ ("third print, without inking again"), N_ ("fourth print, without inking again") };
  g_autoptr (GString) text = g_string_new (NULL);

  /* Translators: the first, second... stamping of one area. */
  g_string_append_printf (text, _ ("Stamping %u"), number);
  if (print->has_middle)
    {
      g_autofree char *left = cw_length_format (print->left), *top = cw_length_format (print->top);

      g_string_append (text, ": ");
      g_string_append_printf (text, _ ("middle %s from the left edge and %s from the upper edge"), left, top);
    }
  else if (print->place != NULL)
    g_string_append_printf (text, ": %s", print->place);
  if (print->print > 0 && print->print < G_N_ELEMENTS (prints))
    g_string_append_printf (text, ": %s", _ (prints[print->print]));
  if (print->words != NULL)
    g_string_append_printf (text, ": %s", print->words);
  g_string_append_c (text, '.');
  if (print->mask)
    g_string_append_printf (text, " %s", _ ("Cover what is stamped already with a paper mask."));
  if (print->stamp_off)
    g_string_append_printf (text, " %s", _ ("Ink, stamp once on scrap paper, then here."));
  return g_strdup (text->str);
}

static void
say_stamp (CwCardStep *step, const CwPiece *piece, const CwStamp *stamp)
{
  const CwArt *art = g_ptr_array_index (piece->art, stamp->art);
  g_autofree char *left = cw_length_format (stamp->left), *top = cw_length_format (stamp->top);
  g_autofree char *width = cw_length_format (stamp->width), *height = cw_length_format (stamp->height);
  g_autofree char *up = up_words (stamp->up);
  g_autofree char *where
    = g_strdup_printf (_ ("“%s”: in a field %s wide by %s high, %s from the left edge and %s from the upper edge."),
                       art->label != NULL && *art->label != '\0' ? art->label : art->id, width, height, left, top);

  cw_card_say (step->lines, g_strdup_printf ("%s %s", where, up));
  if (stamp->over->len > 0)
    cw_card_say (step->lines, over_words (piece, stamp));
  for (guint i = 0; i < stamp->prints->len; i++)
    cw_card_say (step->lines, print_words (g_ptr_array_index (stamp->prints, i), i + 1));
  if (stamp->heat && step->cautions->len == 0)
    cw_card_say (step->cautions, g_strdup (_ ("Hot: let it cool before you touch it.")));
  if (stamp->wait != NULL)
    cw_card_say (step->lines, g_strdup_printf (_ ("Then wait: %s."), stamp->wait));
}

/**
 * cw_card_add_stamping:
 * @piece: a piece
 *
 * Adds a step for each of its faces that carries greetings or pictures.
 */
void
cw_card_add_stamping (CwCardMaking *making, guint piece)
{
  g_autoptr (GPtrArray) stamps = cw_stamps_find (making->design);
  const CwPiece *item = g_ptr_array_index (making->design->pieces, piece);

  for (guint face = 0; face < 2; face++)
    {
      CwCardStep *step = NULL;
      gboolean dries = FALSE;

      for (guint i = 0; i < stamps->len; i++)
        {
          const CwStamp *stamp = g_ptr_array_index (stamps, i);

          if (stamp->piece != piece || stamp->face != (CwFace) face)
            continue;
          if (step == NULL)
            {
              g_autofree char *letter = cw_card_letter (making->row_of[piece]);
              g_autofree char *title
                = g_strdup_printf (_ ("Stamp or print piece %s, %s"), letter, cw_card_piece_name (making, piece));

              step = cw_card_step_add (making, making->card->making, title);
              step->face = g_strdup_printf (_ ("Up: %s"), cw_card_side_words (making, piece, (CwFace) face));
              step->picture = (CwCardPicture){ .kind = CW_CARD_PICTURE_SHEET,
                                               .piece = piece,
                                               .lie = { 0, face == CW_FACE_BACK },
                                               .art = TRUE,
                                               .words = g_strdup_printf (_ ("%s with its greetings and pictures"),
                                                                         cw_card_piece_name (making, piece)) };
            }
          say_stamp (step, item, stamp);
          dries |= stamp->wait == NULL;
        }
      if (dries)
        cw_card_say (step->lines, g_strdup (_ ("Let it dry before you go on.")));
    }
}
