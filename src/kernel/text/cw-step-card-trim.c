/* cw-step-card-trim.c: the sheets on the trimmer, step by step.
 *
 * Moves that are made without taking the sheet up are one step: its picture shows the sheet as it then lies, the guide
 * beside it, and the lines carry their numbers. So the words need only say the guide and the upper edge; which edge of
 * the drawing that is, nobody has to know. How the sheet gets there from how it lay is said as a turn a hand makes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "text/cw-step-card-private.h"

#include "text/cw-readable.h"
#include "panel/cw-path-flatten.h"

#include <glib/gi18n-lib.h>

static guint
sheet_class (const CwCardMaking *making, const GArray *moves, guint i)
{
  const CwMove *move = &g_array_index (moves, CwMove, i);

  /* A pencil mark belongs to what it is made for. */
  for (guint k = i; move->does == CW_MOVE_MARK && k < moves->len; k++)
    {
      const CwMove *later = &g_array_index (moves, CwMove, k);

      if (later->joins && (later->marks[0] == i || later->marks[1] == i))
        return later->does == CW_MOVE_SCORE;
    }
  return move->does == CW_MOVE_SCORE;
}

/* How a piece lies when an edge is against the guide. */
static CwLie
find_lie (const CwCardMaking *making, const CwMove *move)
{
  /* The edge at the left as it lies, by quarter turns; front up, then back up (turned over like a page first). */
  static const CwSheetSide left[2][4]
    = { { CW_SIDE_OF_SHEET_LEFT, CW_SIDE_OF_SHEET_BOTTOM, CW_SIDE_OF_SHEET_RIGHT, CW_SIDE_OF_SHEET_TOP },
        { CW_SIDE_OF_SHEET_RIGHT, CW_SIDE_OF_SHEET_BOTTOM, CW_SIDE_OF_SHEET_LEFT, CW_SIDE_OF_SHEET_TOP } };
  CwSheetSide side = making->analysis->tools.right_to_left ? (move->against + 2) % 4 : move->against;
  CwLie lie = { 0, move->face_up == CW_FACE_BACK };

  for (guint q = 0; q < 4; q++)
    if (left[move->face_up][q] == side)
      lie.quarter_turns = q;
  return lie;
}

/* From one lying to another, as a hand turns a sheet; NULL when it stays. over (out): it is turned over. */
static char *
turn_words (CwLie from, CwLie to, gboolean *over)
{
  guint quarters = (to.quarter_turns + (from.flipped == to.flipped ? 4u - from.quarter_turns : from.quarter_turns)) % 4;

  *over = from.flipped != to.flipped;
  if (*over)
    switch (quarters)
      {
      case 0:
        return g_strdup (_ ("Turn it over sideways, like a page."));
      case 1:
        return g_strdup (_ ("Turn it over sideways, like a page, then a quarter turn clockwise."));
      case 2:
        return g_strdup (_ ("Turn it over from top to bottom, like a sheet of a notepad."));
      default:
        return g_strdup (_ ("Turn it over sideways, like a page, then a quarter turn against the clock."));
      }
  switch (quarters)
    {
    case 0:
      return NULL;
    case 1:
      return g_strdup (_ ("Turn the sheet a quarter turn clockwise; the same side stays up."));
    case 2:
      return g_strdup (_ ("Turn the sheet half round; the same side stays up."));
    default:
      return g_strdup (_ ("Turn the sheet a quarter turn against the clock; the same side stays up."));
    }
}

static char *
what_words (const CwCardMaking *making, const CwMove *move)
{
  const CwPiece *piece = g_ptr_array_index (making->design->pieces, move->piece);
  const char *name
    = move->mark != CW_MOVE_OUTLINE ? ((const CwMark *) g_ptr_array_index (piece->marks, move->mark))->id : NULL;

  if (move->joins)
    {
      if (move->does == CW_MOVE_SCORE)
        return g_strdup_printf (_ ("score from mark %u to mark %u, “%s”"), move->marks[0] + 1, move->marks[1] + 1,
                                name);
      if (name == NULL)
        return g_strdup_printf (_ ("cut the outline from mark %u to mark %u"), move->marks[0] + 1, move->marks[1] + 1);
      return g_strdup_printf (_ ("cut from mark %u to mark %u, “%s”"), move->marks[0] + 1, move->marks[1] + 1, name);
    }
  switch (move->does)
    {
    case CW_MOVE_MARK:
      return g_strdup (_ ("pencil mark"));
    case CW_MOVE_SCORE:
      return g_strdup_printf (_ ("score “%s”"), name);
    case CW_MOVE_SLIT:
      return g_strdup_printf (_ ("slit “%s”"), name);
    case CW_MOVE_CUT:
    default:
      return name != NULL ? g_strdup_printf (_ ("window “%s”"), name) : g_strdup (_ ("outline"));
    }
}

static void
add_row (const CwCardMaking *making, CwCardStep *step, const CwMove *move, guint index)
{
  CwCardMove *row = g_new0 (CwCardMove, 1);
  gboolean sixteenths = making->options->sixteenths;

  row->number = index + 1;
  row->what = what_words (making, move);
  row->whole = move->whole && !move->joins;
  row->at = move->joins ? g_strdup ("") : cw_length_dup_readable (move->at, sixteenths);
  if (move->joins)
    row->from = g_strdup (""), row->to = g_strdup ("");
  else if (move->whole)
    row->from = g_strdup (_ ("edge")), row->to = g_strdup (_ ("edge"));
  else
    {
      row->from = cw_length_dup_readable (move->from, sixteenths);
      row->to = move->does == CW_MOVE_MARK ? g_strdup ("") : cw_length_dup_readable (move->to, sixteenths);
    }
  row->look_alike = making->alike[index];
  g_ptr_array_add (step->moves, row);
}

static void
say_flags (CwCardMaking *making, CwCardStep *step, const CwMove *move, guint n)
{
  const CwTools *tools = &making->analysis->tools;

  if (move->flags & CW_MOVE_NARROW)
    {
      g_autofree char *least = cw_length_format_ticks (tools->narrowest, CW_UNIT_INCH);

      cw_card_say (step->lines,
                   g_strdup_printf (_ ("Line %u leaves less than %s to hold: tape the sheet to a larger piece of scrap "
                                       "first."),
                                    n, least));
    }
  if (move->flags & CW_MOVE_BEYOND)
    cw_card_say (step->lines, g_strdup_printf (_ ("Line %u is farther than the rule reaches: measure it with a ruler, "
                                                  "mark both ends and join them."),
                                               n));
  if ((move->flags & CW_MOVE_OFF_MARKS) && making->analysis->tools.finest > 0)
    cw_card_say (step->lines, g_strdup_printf (_ ("Line %u lies between the marks of your rule."), n));
}

static void
say_blade (const CwCardMaking *making, CwCardStep *step, gboolean cuts, gboolean ends)
{
  const CwTools *tools = &making->analysis->tools;

  if (!ends)
    return;
  if (!tools->has_stops)
    cw_card_say (step->lines, g_strdup (_ ("Mark where each line starts and ends with a pencil.")));
  if (!cuts)
    cw_card_say (step->lines, g_strdup (_ ("Start and end are measured from the upper edge in the picture.")));
  else if (tools->pull_up)
    cw_card_say (step->lines, g_strdup (_ ("Start and end are measured from the upper edge in the picture: set the "
                                           "blade down at the start and push it away from you to the end.")));
  else
    cw_card_say (step->lines, g_strdup (_ ("Start and end are measured from the upper edge in the picture: set the "
                                           "blade down at the start and pull it toward you to the end.")));
}

static char *
edge_words (const CwCardMaking *making, const CwMove *move)
{
  const CwPiece *piece = g_ptr_array_index (making->design->pieces, move->piece);
  CwPoint low, high;

  cw_piece_get_box (piece, &low, &high);
  return cw_length_format_ticks (move->against % 2 == 0 ? high.y - low.y : high.x - low.x, move->at.unit);
}

static void
set_picture (CwCardMaking *making, CwCardStep *step, guint piece, CwLie lie, guint first, guint n)
{
  step->face
    = g_strdup_printf (_ ("Up: %s"), cw_card_side_words (making, piece, lie.flipped ? CW_FACE_BACK : CW_FACE_FRONT));
  step->picture = (CwCardPicture){
    .kind = CW_CARD_PICTURE_SHEET, .piece = piece, .lie = lie, .trimmer = n > 0, .first_move = first, .n_moves = n
  };
  if (n > 0)
    step->picture.words
      = g_strdup_printf (_ ("%s on the trimmer, with the lines of this step"), cw_card_piece_name (making, piece));
  else
    step->picture.words = g_strdup_printf (_ ("%s lying flat"), cw_card_piece_name (making, piece));
}

static void
add_group (CwCardMaking *making, guint first, guint n, const CwLie *before)
{
  const GArray *moves = making->card->trimming->moves;
  const CwMove *move = &g_array_index (moves, CwMove, first);
  const char *name = cw_card_piece_name (making, move->piece);
  gboolean scores = sheet_class (making, moves, first), over = FALSE, ends = FALSE, marks = FALSE;
  CwLie lie = find_lie (making, move);
  g_autofree char *letter = cw_card_letter (making->row_of[move->piece]);
  g_autofree char *turn = before != NULL ? turn_words (*before, lie, &over) : NULL;
  g_autofree char *title
    = g_strdup_printf (scores ? _ ("Score piece %s, %s") : _ ("Cut the lines of piece %s, %s"), letter, name);
  gboolean turned = turn != NULL;
  CwCardStep *step;

  if (over)
    {
      g_autofree char *words = g_strdup_printf (_ ("Turn piece %s over"), letter);
      CwCardStep *turning = cw_card_step_add (making, making->card->making, words);

      cw_card_say (turning->lines, g_steal_pointer (&turn));
      set_picture (making, turning, move->piece, lie, first, 0);
    }
  step = cw_card_step_add (making, making->card->making, title);
  set_picture (making, step, move->piece, lie, first, n);
  if (turn != NULL)
    cw_card_say (step->lines, g_steal_pointer (&turn));
  if (before == NULL)
    {
      g_autofree char *edge = edge_words (making, move);

      cw_card_say (step->lines,
                   g_strdup_printf (_ ("Lay the sheet down, %s up, with a %s edge against the guide, as in the "
                                       "picture."),
                                    cw_card_side_words (making, move->piece, move->face_up), edge));
    }
  else if (over || turned)
    cw_card_say (step->lines, g_strdup (making->analysis->tools.right_to_left
                                          ? _ ("Put its right edge, as it now lies, against the guide.")
                                          : _ ("Put its left edge, as it now lies, against the guide.")));
  else
    cw_card_say (step->lines, g_strdup (_ ("Leave the sheet as it lies, the same edge against the guide.")));
  for (guint i = first; i < first + n; i++)
    {
      const CwMove *each = &g_array_index (moves, CwMove, i);

      ends |= !each->joins && !each->whole;
      marks |= each->does == CW_MOVE_MARK;
      add_row (making, step, each, i);
    }
  if (lie.flipped && !over && before == NULL)
    cw_card_say (step->lines,
                 g_strdup (_ ("Score on this side: then the dent of each line lies on the outside of its fold.")));
  if (marks)
    cw_card_say (step->lines, g_strdup (_ ("Make each pencil mark where its two measures meet, then join the marks "
                                           "along a ruler.")));
  say_blade (making, step, !scores, ends);
  for (guint i = first; i < first + n; i++)
    say_flags (making, step, &g_array_index (moves, CwMove, i), i + 1);
  making->up[move->piece] = move->face_up;
}

static void
add_curves (CwCardMaking *making, guint piece)
{
  const GArray *by_hand = making->card->trimming->by_hand;
  const CwPiece *item = g_ptr_array_index (making->design->pieces, piece);
  CwCardStep *step = NULL;

  for (guint i = 0; i < by_hand->len; i++)
    {
      const CwByHand *hand = &g_array_index (by_hand, CwByHand, i);
      const CwMark *mark;

      if (hand->piece != piece || hand->why != CW_BY_HAND_CURVE)
        continue;
      if (step == NULL)
        {
          g_autofree char *letter = cw_card_letter (making->row_of[piece]);
          g_autofree char *title
            = g_strdup_printf (_ ("Make the curves of piece %s, %s"), letter, cw_card_piece_name (making, piece));

          step = cw_card_step_add (making, making->card->making, title);
          cw_card_say (step->lines,
                       g_strdup (_ ("Lay the template of this piece, printed at true size, on the sheet and "
                                    "hold it with two bits of tape.")));
          set_picture (making, step, piece, (CwLie){ 0 }, making->card->trimming->moves->len, 0);
        }
      if (hand->mark == CW_MOVE_OUTLINE)
        {
          cw_card_say (step->lines, g_strdup (_ ("Cut along the curved outline.")));
          continue;
        }
      mark = g_ptr_array_index (item->marks, hand->mark);
      if (mark->kind == CW_MARK_SCORE)
        cw_card_say (step->lines, g_strdup_printf (_ ("Score along the curve “%s” with a stylus."), mark->id));
      else if (mark->kind == CW_MARK_WINDOW)
        cw_card_say (step->lines, g_strdup_printf (_ ("Cut out the window “%s”."), mark->id));
      else
        cw_card_say (step->lines, g_strdup_printf (_ ("Cut along the curve “%s”."), mark->id));
    }
  if (step != NULL)
    making->up[piece] = CW_FACE_FRONT;
}

static void
add_cutting (CwCardMaking *making)
{
  CwCardStep *step = cw_card_step_add (making, making->card->making, _ ("Cut the pieces to size"));

  cw_card_say (step->lines,
               g_strdup (_ ("Cut every piece of the list to its size. The first measure is its width, from left to "
                            "right; the second its height, from top to bottom.")));
  cw_card_say (step->lines, g_strdup (_ ("Write its letter on each piece in pencil, where it will not show.")));
}

/**
 * cw_card_add_trimming:
 *
 * Adds a step for every laying of every sheet on the trimmer.
 */
void
cw_card_add_trimming (CwCardMaking *making)
{
  const GArray *moves = making->card->trimming->moves;
  CwLie before = { 0 };

  add_cutting (making);
  for (guint p = 0, i = 0; p < making->design->pieces->len; p++)
    {
      gboolean laid = FALSE;

      cw_card_add_stamping (making, p);

      while (i < moves->len && g_array_index (moves, CwMove, i).piece == p)
        {
          const CwMove *move = &g_array_index (moves, CwMove, i);
          guint n = 1, class = sheet_class (making, moves, i);

          for (; i + n < moves->len; n++)
            {
              const CwMove *next = &g_array_index (moves, CwMove, i + n);

              if (next->piece != p || sheet_class (making, moves, i + n) != class
                  || (!next->joins && (next->face_up != move->face_up || next->against != move->against)))
                break;
            }
          add_group (making, i, n, laid ? &before : NULL);
          before = find_lie (making, move);
          laid = TRUE;
          i += n;
        }
      add_curves (making, p);
    }
}
