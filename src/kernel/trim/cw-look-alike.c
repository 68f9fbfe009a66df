/* cw-look-alike.c: numbers that a tired eye takes for one another.
 *
 * House rule (tool page, "Finding codes"): the same digits differently placed (5 3/8 and 3 5/8), or the same whole
 * inches with fractions 1/4 inch apart (4 1/4 and 4 1/2). A measure without a fraction has no fraction to mistake: 4
 * and 4 1/4 differ in length, not in a digit.
 *
 * Said only where one would be set in place of the other. Swapped digits are taken for one another anywhere on a piece;
 * neighbours a quarter inch apart only while the sheet lies still and the hand looks for the same thing: stop and stop,
 * start and start, end and end. The two ends of one line are read together, and swapping them makes the same line. Two
 * pieces are mixed up only as wholes: when no side tells them apart.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "trim/cw-look-alike.h"

#include "geometry/cw-house.h"
#include "panel/cw-path-flatten.h"

#include <glib/gi18n-lib.h>
#include <stdlib.h>
#include <string.h>

/* Pairs named in one finding; more say no more. */
#define NAMED_MOST 3

/* What a measure is read for. */
typedef enum
{
  READ_SIDE, /* of the blank */
  READ_STOP,
  READ_START,
  READ_END,
} ReadFor;

typedef struct
{
  CwLength length;
  ReadFor what;
  guint move; /* position in the list of moves; G_MAXUINT: of none */
} Reading;

/* The digits of a measure as it is written, sorted, and what stands under its fraction line. */
static void
digits_of (CwLength length, char digits[CW_LENGTH_TEXT_MAX], guint64 *under)
{
  g_autofree char *text = cw_length_format (length);
  const char *line = strchr (text, '/');
  guint n = 0;

  *under = line != NULL ? g_ascii_strtoull (line + 1, NULL, 10) : 0;
  for (const char *p = text; *p != '\0' && n + 1 < CW_LENGTH_TEXT_MAX; p++)
    if (g_ascii_isdigit (*p))
      {
        guint at = n++;

        for (; at > 0 && digits[at - 1] > *p; at--)
          digits[at] = digits[at - 1];
        digits[at] = *p;
      }
  digits[n] = '\0';
}

/* The same digits differently placed; halves are never taken for eighths. */
static gboolean
have_swapped_digits (CwLength a, CwLength b)
{
  char of_a[CW_LENGTH_TEXT_MAX], of_b[CW_LENGTH_TEXT_MAX];
  guint64 under_a, under_b;

  if (a.ticks == b.ticks || a.unit != b.unit)
    return FALSE;
  digits_of (a, of_a, &under_a);
  digits_of (b, of_b, &under_b);
  return strlen (of_a) > 1 && strcmp (of_a, of_b) == 0 && under_a == under_b;
}

static gboolean
are_neighbours (CwLength a, CwLength b)
{
  gint32 whole_a = a.ticks / CW_TICKS_PER_INCH, whole_b = b.ticks / CW_TICKS_PER_INCH;

  return a.unit == CW_UNIT_INCH && b.unit == CW_UNIT_INCH && whole_a == whole_b && whole_a > 0
         && a.ticks % CW_TICKS_PER_INCH != 0 && b.ticks % CW_TICKS_PER_INCH != 0
         && ABS (a.ticks - b.ticks) == CW_HOUSE_LOOK_ALIKE;
}

/**
 * cw_lengths_look_alike:
 * @a: a measure
 * @b: another
 *
 * Returns: whether they are easily taken for one another where one is read for the other
 */
gboolean
cw_lengths_look_alike (CwLength a, CwLength b)
{
  return have_swapped_digits (a, b) || are_neighbours (a, b);
}

static gint
compare_pairs (gconstpointer a, gconstpointer b)
{
  const CwLookAlike *x = a, *y = b;

  return x->a.ticks != y->a.ticks ? (x->a.ticks < y->a.ticks ? -1 : 1)
                                  : (x->b.ticks > y->b.ticks) - (x->b.ticks < y->b.ticks);
}

static void
add_pair (GArray *pairs, CwLength a, CwLength b)
{
  CwLookAlike pair = { a.ticks < b.ticks ? a : b, a.ticks < b.ticks ? b : a };

  for (guint i = 0; i < pairs->len; i++)
    {
      const CwLookAlike *other = &g_array_index (pairs, CwLookAlike, i);

      if (compare_pairs (other, &pair) == 0 && other->a.unit == a.unit)
        return;
    }
  g_array_append_val (pairs, pair);
}

static void
get_sides (const CwDesign *design, guint index, CwLength sides[2])
{
  const CwPiece *piece = g_ptr_array_index (design->pieces, index);
  CwUnit unit = piece->outline.n_vertices > 0 ? piece->outline.vertices[0].at.x.unit : design->head->unit;
  CwPoint low, high;

  cw_piece_get_box (piece, &low, &high);
  sides[0] = cw_length_from_ticks (high.x - low.x, unit);
  sides[1] = cw_length_from_ticks (high.y - low.y, unit);
}

/* All that is read while one piece is made. */
static GArray *
read_piece (const CwTrimming *trimming, const CwDesign *design, guint piece)
{
  GArray *readings = g_array_new (FALSE, FALSE, sizeof (Reading));
  CwLength sides[2];

  get_sides (design, piece, sides);
  for (guint i = 0; i < 2; i++)
    {
      Reading side = { sides[i], READ_SIDE, G_MAXUINT };

      g_array_append_val (readings, side);
    }
  for (guint i = 0; i < trimming->moves->len; i++)
    {
      const CwMove *move = &g_array_index (trimming->moves, CwMove, i);
      const Reading all[3] = { { move->at, READ_STOP, i }, { move->from, READ_START, i }, { move->to, READ_END, i } };

      if (move->piece != piece || move->joins)
        continue;
      g_array_append_vals (readings, all, move->whole ? 1 : move->does == CW_MOVE_MARK ? 2 : 3);
    }
  return readings;
}

/* Whether one would be set in place of the other. */
static gboolean
are_mixed_up (const CwTrimming *trimming, const Reading *a, const Reading *b)
{
  if (a->move == b->move && a->what != READ_SIDE && a->what != READ_STOP && b->what != READ_STOP)
    return FALSE; /* the ends of one line */
  if (have_swapped_digits (a->length, b->length))
    return TRUE;
  if (a->what != b->what || a->what == READ_SIDE || !are_neighbours (a->length, b->length))
    return FALSE;
  const CwMove *x = &g_array_index (trimming->moves, CwMove, a->move);
  const CwMove *y = &g_array_index (trimming->moves, CwMove, b->move);
  return x->face_up == y->face_up && x->against == y->against;
}

/* Pieces that only a number tells apart. */
static void
compare_pieces (const CwDesign *design, guint one, guint other, GArray *pairs)
{
  CwLength a[2], b[2];

  get_sides (design, one, a);
  get_sides (design, other, b);
  for (guint i = 0; i < 2; i++)
    if (a[i].ticks != b[i].ticks && !cw_lengths_look_alike (a[i], b[i]))
      return;
  for (guint i = 0; i < 2; i++)
    if (a[i].ticks != b[i].ticks)
      add_pair (pairs, a[i], b[i]);
}

/**
 * cw_look_alikes_find:
 * @trimming: the moves of a design
 * @design: the design
 * @moves: (out) (optional) (array): one for each move; set to %TRUE where one of its measures is easily mistaken
 *
 * Returns: (transfer full): GArray of #CwLookAlike, each pair once, smallest first
 */
GArray *
cw_look_alikes_find (const CwTrimming *trimming, const CwDesign *design, gboolean *moves)
{
  GArray *pairs = g_array_new (FALSE, FALSE, sizeof (CwLookAlike));

  g_return_val_if_fail (trimming != NULL && design != NULL, pairs);
  for (guint p = 0; p < design->pieces->len; p++)
    {
      g_autoptr (GArray) readings = read_piece (trimming, design, p);

      for (guint i = 0; i < readings->len; i++)
        for (guint k = i + 1; k < readings->len; k++)
          {
            const Reading *a = &g_array_index (readings, Reading, i), *b = &g_array_index (readings, Reading, k);

            if (!are_mixed_up (trimming, a, b))
              continue;
            add_pair (pairs, a->length, b->length);
            if (moves != NULL && a->move != G_MAXUINT)
              moves[a->move] = TRUE;
            if (moves != NULL && b->move != G_MAXUINT)
              moves[b->move] = TRUE;
          }
      for (guint q = 0; q < p; q++)
        compare_pieces (design, q, p, pairs);
    }
  g_array_sort (pairs, compare_pairs);
  return pairs;
}

/**
 * cw_look_alikes_tell:
 * @trimming: the moves of a design
 * @design: the design
 *
 * Returns: (transfer full): GPtrArray of #CwFinding: none or one note that names the first pairs
 */
GPtrArray *
cw_look_alikes_tell (const CwTrimming *trimming, const CwDesign *design)
{
  g_autoptr (GArray) pairs = cw_look_alikes_find (trimming, design, NULL);
  GPtrArray *findings = g_ptr_array_new_with_free_func ((GDestroyNotify) cw_finding_free);
  g_autoptr (GString) named = g_string_new (NULL);

  if (pairs->len == 0)
    return findings;
  for (guint i = 0; i < MIN (pairs->len, NAMED_MOST); i++)
    {
      g_autofree char *a = cw_length_format (g_array_index (pairs, CwLookAlike, i).a);
      g_autofree char *b = cw_length_format (g_array_index (pairs, CwLookAlike, i).b);

      g_string_append_printf (named, "%s%s / %s", i > 0 ? ", " : "", a, b);
    }
  CwFinding *finding = cw_finding_new (CW_FINDING_LOOK_ALIKE_NUMBERS);
  cw_finding_set_words (finding, N_ ("Measures that are easily taken for one another: {0}."),
                        N_ ("Read them twice; the step cards set them apart."), named->str, NULL);
  cw_finding_set_amount (finding, CW_AMOUNT_COUNT, pairs->len);
  g_ptr_array_add (findings, finding);
  return findings;
}
