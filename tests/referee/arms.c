/* arms.c: random chains of panels on a random plate. Measures are whole 64ths of an inch, so that the drawing is exact
 * in ticks and in the file's text. The referee gets the shapes as they were thought of, not as the program reads them.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "arms.h"

static double
between (GRand *rand, int low_64, int high_64)
{
  return S64 * (double) g_rand_int_range (rand, low_64, high_64 + 1);
}

static void
add_corner (Shape *s, double x, double y)
{
  s->xy[2 * s->n] = x;
  s->xy[2 * s->n + 1] = y;
  s->n++;
}

/* A window of four or three corners, or a slit, within a box. */
static void
add_opening (GRand *rand, Shape *s, double x0, double y0, double x1, double y1)
{
  int kind = g_rand_int_range (rand, 0, 4);

  if (x1 - x0 < 24 * S64 || y1 - y0 < 24 * S64 || kind == 0)
    return;
  if (kind == 1)
    {
      const double ends[4] = { x0, y0 + S64 * floor ((y1 - y0) / S64 / 3), x1, y1 };

      memcpy (s->slit, ends, sizeof ends);
      s->has_slit = TRUE;
      return;
    }
  {
    const double corners[8] = { x0, y0, x1, y0, x1, y1, x0, y1 };

    s->n_hole = kind == 2 ? 4 : 3;
    memcpy (s->hole, corners, sizeof corners);
  }
}

/* One side of an arm's panel, from fold line to fold line: up to three corners, out and in. Returns how near to the
 * middle it comes. */
static double
add_side (GRand *rand, Shape *s, double x0, double x1, int sign)
{
  guint n = (guint) g_rand_int_range (rand, 0, 4);
  double nearest = G_MAXDOUBLE;

  for (guint i = 0; i < n; i++)
    {
      guint at = sign < 0 ? i : n - 1 - i;
      double x = x0 + S64 * floor ((x1 - x0) / S64 * (at + 1) / (n + 1)), y = between (rand, 16, 150);

      add_corner (s, x, 256 * S64 + sign * y);
      nearest = MIN (nearest, y);
    }
  return nearest;
}

/* Arms lie along y = 4 in of their own pieces; the foot is 1 in long. */
static void
make_arm (GRand *rand, Plate *plate, guint arm)
{
  guint n = (guint) g_rand_int_range (rand, 1, MOST_PANELS);
  double x = 64 * S64, half = between (rand, 24, 40), lean = between (rand, -12, 12), mid = 256 * S64;
  Shape *s = &plate->shapes[plate->n_shapes++];

  *s = (Shape){ .arm = arm, .k = 0, .in = { 16 * S64, mid } };
  add_corner (s, 0, mid - half);
  add_corner (s, x - lean, mid - half);
  add_corner (s, x + lean, mid + half);
  add_corner (s, 0, mid + half);
  plate->n_links[arm] = n;
  for (guint k = 0; k < n; k++)
    {
      double wide = between (rand, 100, 220), next_half = between (rand, 20, 64), next_lean = between (rand, -12, 12);
      double *link = plate->links[arm][k], near_top, near_bottom;

      link[0] = x - lean;
      link[1] = mid - half;
      link[2] = x + lean;
      link[3] = mid + half;
      s = &plate->shapes[plate->n_shapes++];
      *s = (Shape){ .arm = arm, .k = k + 1, .in = { x + 28 * S64, mid } };
      add_corner (s, link[0], link[1]);
      near_top = add_side (rand, s, x + 20 * S64, x + wide - 20 * S64, -1);
      if (k + 1 == n)
        next_lean = 0;
      add_corner (s, x + wide - next_lean, mid - next_half);
      add_corner (s, x + wide + next_lean, mid + next_half);
      near_bottom = add_side (rand, s, x + 20 * S64, x + wide - 20 * S64, 1);
      add_corner (s, link[2], link[3]);
      near_top = MIN (near_top, MIN (half, next_half)) - 8 * S64;
      near_bottom = MIN (near_bottom, MIN (half, next_half)) - 8 * S64;
      add_opening (rand, s, x + 36 * S64, mid - near_top, x + wide - 36 * S64, mid + near_bottom);
      x += wide;
      half = next_half;
      lean = next_lean;
    }
}

static void
append_points (GString *text, const double *xy, guint n)
{
  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, "%s['%d/8128','%d/8128']", i > 0 ? "," : "", (int) xy[2 * i], (int) xy[2 * i + 1]);
}

static void
append_openings (GString *text, const Shape *s, const char *id, gboolean *any)
{
  if (s->n_hole > 0)
    {
      g_string_append_printf (text, "%s{ 'id': 'w%s', 'kind': 'window', 'line': [", *any ? ", " : "", id);
      append_points (text, s->hole, s->n_hole);
      g_string_append (text, "] }");
      *any = TRUE;
    }
  if (s->has_slit)
    {
      g_string_append_printf (text, "%s{ 'id': 'c%s', 'kind': 'cut', 'line': [", *any ? ", " : "", id);
      append_points (text, s->slit, 2);
      g_string_append (text, "] }");
      *any = TRUE;
    }
}

/* The arm's outline: along the tops of its shapes, then back along the bottoms. */
static void
append_arm (GString *text, const Plate *plate, guint arm)
{
  gboolean any = FALSE;
  const Shape *shapes[MOST_PANELS];
  double all[2 * MOST_CORNERS * MOST_PANELS] = { 0 };
  guint n = 0, n_all = 0;

  for (guint i = 0; i < plate->n_shapes; i++)
    if (plate->shapes[i].arm == arm)
      shapes[n++] = &plate->shapes[i];
  /* In each shape the corner farthest along with y above the middle ends the top. */
  for (guint pass = 0; pass < 2; pass++)
    for (guint j = 0; j < n; j++)
      {
        const Shape *s = shapes[pass == 0 ? j : n - 1 - j];
        gboolean last = j + 1 == n;

        for (guint i = 0; i < s->n; i++)
          {
            gboolean top = s->xy[2 * i + 1] < 256 * S64;

            /* What two shapes share is listed once. */
            if (top != (pass == 0))
              continue;
            if (pass == 0 && !last && i + 1 < s->n && s->xy[2 * i + 3] >= 256 * S64)
              continue;
            if (pass == 1 && !last && i + 1 == s->n)
              continue;
            memcpy (&all[2 * n_all++], &s->xy[2 * i], 2 * sizeof (double));
          }
      }
  g_string_append_printf (text, ", { 'id': 'arm%u', 'outline': [", arm);
  append_points (text, all, n_all);
  g_string_append_printf (text, "], 'hold': ['%d/8128','%d/8128'], 'marks': [", 16 * S64, 256 * S64);
  for (guint k = 0; k < plate->n_links[arm]; k++)
    {
      g_string_append_printf (text, "%s{ 'id': 'h%u', 'kind': 'score', 'fold': 'toward', 'line': [", any ? ", " : "",
                              k);
      append_points (text, plate->links[arm][k], 2);
      g_string_append (text, "] }");
      any = TRUE;
    }
  for (guint j = 1; j < n; j++)
    {
      g_autofree char *id = g_strdup_printf ("%u", j);

      append_openings (text, shapes[j], id, &any);
    }
  g_string_append (text, "] }");
}

static void
append_folds (GString *text, const Plate *plate, guint arm, const int *to, gboolean *any)
{
  for (guint k = 0; k < plate->n_links[arm]; k++)
    {
      g_string_append_printf (text, "%s{ 'score': 'arm%u/h%u', 'to': %d }", *any ? ", " : "", arm, k, to[k]);
      *any = TRUE;
    }
}

void
plate_make_motion (Plate *plate)
{
  g_autoptr (GString) text = g_string_new (CARD_HEAD CARD_INCH "'pieces': [ { 'id': 'base', 'outline': [");
  gboolean any = FALSE;

  append_points (text, plate->shapes[0].xy, plate->shapes[0].n);
  g_string_append (text, "], 'ground': true, 'marks': [");
  append_openings (text, &plate->shapes[0], "", &any);
  g_string_append (text, "] }");
  for (guint arm = 0; arm < plate->n_arms; arm++)
    append_arm (text, plate, arm);
  g_string_append (text, " ], 'steps': [ ");
  for (guint arm = 0; arm < plate->n_arms; arm++)
    {
      any = FALSE;
      g_string_append_printf (text, "%s{ 'id': 'p%u', 'do': 'fold', 'folds': [", arm > 0 ? ", " : "", arm);
      append_folds (text, plate, arm, plate->start[arm], &any);
      g_string_append_printf (text,
                              "] }, { 'id': 's%u', 'do': 'stick', 'piece': 'arm%u', 'on': { 'piece': 'base', 'panel':"
                              " ['%d/8128','%d/8128'], 'face': '%s' }, 'facing': '%s', 'at': ['%d/8128','%d/8128'],"
                              " 'turn': %d }",
                              arm, arm, (int) plate->shapes[0].in[0], (int) plate->shapes[0].in[1],
                              plate->behind[arm] ? "back" : "front", plate->behind[arm] ? "front" : "back",
                              plate->at[arm][0], plate->at[arm][1], plate->turn[arm]);
    }
  for (guint m = 0; m < 2; m++)
    {
      any = FALSE;
      g_string_append_printf (text, ", { 'id': 'm%u', 'do': 'fold', 'folds': [", m);
      for (guint arm = 0; arm < plate->n_arms; arm++)
        append_folds (text, plate, arm, plate->to[m][arm], &any);
      g_string_append (text, "] }");
    }
  g_string_append (text, " ] }");
  plate->first_move = 2 * plate->n_arms;
  plate->motion = card_motion (text->str);
  for (guint i = 0; i < plate->n_shapes; i++)
    {
      Shape *s = &plate->shapes[i];
      g_autofree char *id = s->arm == G_MAXUINT ? g_strdup ("base") : g_strdup_printf ("arm%u", s->arm);

      plate->panels[i] = card_panel (plate->motion, id, s->in[0] / 8128, s->in[1] / 8128);
      s->whole = referee_sheet_drawn_in (s->n, s->xy, s->n_hole > 0, &s->n_hole, s->hole, 0, NULL, 0);
      s->less
        = referee_sheet_drawn_in (s->n, s->xy, s->n_hole > 0, &s->n_hole, s->hole, s->has_slit, s->slit, DRAWN_IN);
    }
  g_assert_cmpuint (cw_panel_set_n_panels (cw_motion_get_set (plate->motion)), ==, plate->n_shapes);
}

void
plate_clear (Plate *plate)
{
  for (guint i = 0; i < plate->n_shapes; i++)
    {
      referee_sheet_free (plate->shapes[i].whole);
      referee_sheet_free (plate->shapes[i].less);
    }
  cw_motion_unref (plate->motion);
}

/* The first fold line lies on the plate: it stays on its own side of it. */
static int
random_angle (GRand *rand, const Plate *plate, guint arm, guint k)
{
  if (k > 0)
    return g_rand_int_range (rand, -170, 171);
  return g_rand_int_range (rand, 12, 169) * (plate->behind[arm] ? -1 : 1);
}

void
plate_make (GRand *rand, Plate *plate, guint most_arms, gboolean openings)
{
  Shape *base = &plate->shapes[0];

  plate->n_arms = (guint) g_rand_int_range (rand, 1, (gint32) most_arms + 1);
  plate->n_shapes = 1;
  *base = (Shape){ .arm = G_MAXUINT, .in = { 384 * S64, 320 * S64 } };
  add_corner (base, between (rand, 0, 64), between (rand, 0, 64));
  add_corner (base, between (rand, 256, 384), between (rand, 0, 160));
  add_corner (base, between (rand, 576, 640), between (rand, 0, 64));
  add_corner (base, between (rand, 576, 640), between (rand, 576, 640));
  add_corner (base, between (rand, 0, 64), between (rand, 576, 640));
  if (openings)
    add_opening (rand, base, 200 * S64, 360 * S64, 200 * S64 + between (rand, 32, 240),
                 360 * S64 + between (rand, 32, 160));
  for (guint arm = 0; arm < plate->n_arms; arm++)
    {
      int turn = g_rand_int_range (rand, 0, 360);
      double c, s, x = between (rand, 64, 576), y = between (rand, 160, 576);

      plate->behind[arm] = openings && g_rand_boolean (rand);
      plate->turn[arm] = turn;
      c = cos (turn * G_PI / 180);
      s = sin (turn * G_PI / 180) * (plate->behind[arm] ? -1 : 1);
      plate->at[arm][0] = (int) (x - (c * 32 * S64 - s * 256 * S64));
      plate->at[arm][1] = (int) (y - (s * 32 * S64 + c * 256 * S64));
      make_arm (rand, plate, arm);
      for (guint k = 0; k < plate->n_links[arm]; k++)
        {
          plate->start[arm][k] = random_angle (rand, plate, arm, k);
          for (guint m = 0; m < 2; m++)
            plate->to[m][arm][k] = random_angle (rand, plate, arm, k);
        }
    }
  plate_make_motion (plate);
}
