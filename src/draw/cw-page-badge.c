/* cw-page-badge.c: the numbers of trimmer moves, in circles on their lines.
 *
 * Each stands on its line as far from the others as may be; where they are crowded all are made smaller.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <math.h>

#include "cw-page-private.h"

/* Radius of the circle round a number, in letters. */
#define BADGE 0.62
/* Places tried to either side of a line's middle; farther apart than this numbers need not stand, points. */
#define BADGE_PLACES 12
#define ENOUGH_APART 60.0
/* Numbers in circles are not made smaller than for this, points; they are set at nine tenths of it. Letters above the
 * second are large type. */
#define NUMBER_LEAST 10.0
#define LARGE_TYPE 13.2

static const CwId no_id = { CW_ID_NONE, 0, 0, 0 };

static gint
compare_length (gconstpointer a, gconstpointer b)
{
  const CwPageBadge *x = a, *y = b;
  double p = hypot (x->bx - x->ax, x->by - x->ay), q = hypot (y->bx - y->ax, y->by - y->ay);

  return p < q ? -1 : p > q ? 1 : (x->move > y->move) - (x->move < y->move);
}

/* A place on each line for its number, as far from the others as may be: short lines, which have the least choice,
 * first. Returns how near the nearest two come. */
static double
place_badges (GArray *badges, const double box[4])
{
  double least = G_MAXDOUBLE;

  g_array_sort (badges, compare_length);
  for (guint i = 0; i < badges->len; i++)
    {
      CwPageBadge *badge = &g_array_index (badges, CwPageBadge, i);
      double most = -1;

      /* From the middle outwards; the first that is as good stays. */
      for (guint k = 0; k <= 2 * BADGE_PLACES; k++)
        {
          double share = 0.5 + (k % 2 == 0 ? 1 : -1) * 0.45 * ((k + 1) / 2) / BADGE_PLACES;
          double x = badge->ax + (badge->bx - badge->ax) * share, y = badge->ay + (badge->by - badge->ay) * share;
          double nearest = ENOUGH_APART;

          /* On the sheet, not over the words beside it. */
          x = CLAMP (x, box[0], box[2]);
          y = CLAMP (y, box[1], box[3]);

          for (guint n = 0; n < i; n++)
            {
              const CwPageBadge *other = &g_array_index (badges, CwPageBadge, n);

              nearest = MIN (nearest, hypot (x - other->x, y - other->y));
            }
          if (nearest <= most)
            continue;
          most = nearest;
          badge->x = x;
          badge->y = y;
        }
      least = MIN (least, most);
    }
  return least;
}

static void
draw_number (CwDrawList *list, const CwPageBadge *badge, double letters)
{
  g_autofree char *text = g_strdup_printf ("%u", badge->move + 1);
  double size = letters * 0.9, radius = BADGE * letters + (badge->move > 8 ? 0.18 * letters : 0);

  cw_draw_list_set_ground (list, 0xffffff);
  cw_draw_list_begin (list, CW_PEN_PAPER, no_id);
  cw_draw_list_set_colour (list, 0xffffff);
  cw_draw_list_arc (list, badge->x, badge->y, radius);
  cw_draw_list_end (list);
  cw_draw_list_begin (list, CW_PEN_EDGE, no_id);
  cw_draw_list_arc (list, badge->x, badge->y, radius);
  cw_draw_list_end (list);
  cw_draw_list_text (list, CW_PEN_TITLE, no_id, badge->x, badge->y + size * 0.36, size, CW_ANCHOR_MIDDLE, 0, text);
}

/**
 * cw_page_badges_draw:
 * @list: gets the numbers, each in a circle
 * @badges: (element-type CwPageBadge): lines and their numbers; get their places and are put in order
 * @paper: left, top, right, bottom of the sheet: they stay on it
 * @letters: height of the picture's letters, points
 *
 * Crowded numbers are made smaller, down to what can still be read.
 */
void
cw_page_badges_draw (CwDrawList *list, GArray *badges, const double paper[4], double letters)
{
  double half = (BADGE + 0.18) * letters, wide = 2 * half + 1;
  const double box[4] = { paper[0] + half, paper[1] + half, MAX (paper[2], paper[0] + 2 * half) - half,
                          MAX (paper[3], paper[1] + 2 * half) - half };
  double apart = place_badges (badges, box);
  double size = letters * CLAMP (apart / wide, 0, 1);

  size = MAX (size, MIN (letters, NUMBER_LEAST * (letters > LARGE_TYPE ? 1.3 : 1)));
  for (guint i = 0; i < badges->len; i++)
    draw_number (list, &g_array_index (badges, CwPageBadge, i), size);
}
