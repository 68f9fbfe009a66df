/* test-collision-sheets.c: random sheets of panels, flaps, flaps cut into panels and pieces stuck on on the way, folded
 * crease by crease, held against an exact answer on a grid.
 *
 * Everything lies on whole half inches. Folding flat at one crease turns all that hangs beyond it about one line, off a
 * flat stack: what lies on the side that goes up must lie above all that stays under it there, what laps over the line
 * below (the rules of simple folds: Arkin et al., "When can you fold a map?", Comput. Geom. 29, 2004, section 2). That
 * is a question of squares of the grid and of a relation between pairs, with no angle and no tolerance in it. A piece
 * stuck on lies outermost. Held against it: which pairs go through one another and at which step, and until then the
 * stack over every square of the grid. Seeds are named here.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "card-fixture.h"
#include "contact/cw-collision.h"

#define SEED 0x73686565u
#define SHEETS 250
#define MOST 24  /* panels */
#define CELLS 40 /* squares of a panel */
#define STEPS 10
#define HIGH 4 /* of the row of panels the sheet is made of */

/* p goes to m * p + t; squares are named by their middles, in twice the grid: so middles are odd, lines even. */
typedef struct
{
  int m[4], t[2];
} Way;

typedef struct
{
  int n_cells, cells[CELLS][2]; /* middles, flat, doubled */
  int parent;                   /* -1: held */
  gboolean stuck;               /* else hangs by a crease */
  int line[4];                  /* flat, doubled: in the coordinates of its own piece */
  int folded;                   /* 1: fronts meet, -1: backs, 0: as drawn */
  Way way;
  int up;
  double tile[4]; /* stuck: box in the host's coordinates, inches */
} Panel;

typedef struct
{
  int n;
  Panel p[MOST];
  /* Of panel i's square a to panel k there: 1: over it (nearer to -z), -1: under. Not the same everywhere: what went
   * through an opening lies over here and under there. */
  gint8 above[MOST][CELLS][MOST];
  int n_row;
} Sheet;

typedef struct
{
  gboolean stick;
  int panel; /* what is folded or stuck on */
  int to;
  int face; /* 1: the host's front */
} Step;

static void
apply (const Way *w, const int *p, int *q)
{
  q[0] = w->m[0] * p[0] + w->m[1] * p[1] + w->t[0];
  q[1] = w->m[2] * p[0] + w->m[3] * p[1] + w->t[1];
}

static Panel *
add_panel (Sheet *s, int parent, int x0, int y0, int x1, int y1)
{
  Panel *p = &s->p[s->n++];

  *p = (Panel){ .parent = parent, .way = { { 1, 0, 0, 1 }, { 0, 0 } }, .up = 1 };
  for (int x = x0; x < x1; x++)
    for (int y = y0; y < y1; y++)
      {
        p->cells[p->n_cells][0] = 2 * x + 1;
        p->cells[p->n_cells][1] = 2 * y + 1;
        p->n_cells++;
      }
  return p;
}

static void
set_line (Panel *p, int x0, int y0, int x1, int y1)
{
  const int line[4] = { 2 * x0, 2 * y0, 2 * x1, 2 * y1 };

  memcpy (p->line, line, sizeof line);
}

static void
take_cells (Panel *p, int x0, int y0, int x1, int y1)
{
  int n = 0;

  for (int i = 0; i < p->n_cells; i++)
    if (!(p->cells[i][0] > 2 * x0 && p->cells[i][0] < 2 * x1 && p->cells[i][1] > 2 * y0 && p->cells[i][1] < 2 * y1))
      {
        memmove (p->cells[n], p->cells[i], sizeof p->cells[i]);
        n++;
      }
  p->n_cells = n;
}

/* A row of panels from (0, 4) on; flaps above and below them, some with one more; some cut into them. The text of
 * outline and marks is made as they are. */
static void
make_sheet (GRand *rand, Sheet *s, GString *outline, GString *marks)
{
  g_autoptr (GString) under = g_string_new (NULL);
  const int top = 6, bottom = top + HIGH;
  int x = 0;

  *s = (Sheet){ .n_row = g_rand_int_range (rand, 2, 5) };
  for (int i = 0; i < s->n_row; i++)
    {
      int wide = g_rand_int_range (rand, 2, 6);
      Panel *p = add_panel (s, i - 1, x, top, x + wide, bottom);

      set_line (p, x, top, x, bottom);
      x += wide;
    }
  g_string_append_printf (outline, "['0','%d']", top);
  for (int i = 0; i < s->n_row; i++)
    for (int side = 0; side < 2; side++)
      {
        int x0 = s->p[i].line[0] / 2, x1 = i + 1 < s->n_row ? s->p[i + 1].line[0] / 2 : x;
        int from = g_rand_int_range (rand, x0, x1 - 1), to = g_rand_int_range (rand, from + 1, x1);
        int deep = g_rand_int_range (rand, 1, 4), more = g_rand_int_range (rand, 0, 3);
        int y = side == 0 ? top : bottom, far = side == 0 ? y - deep : y + deep,
            last = side == 0 ? far - more : far + more, parent = i;

        if (s->n + 4 > MOST - STEPS || g_rand_boolean (rand))
          continue;
        set_line (add_panel (s, parent, from, MIN (y, far), to, MAX (y, far)), from, y, to, y);
        parent = s->n - 1;
        if (more > 0)
          set_line (add_panel (s, parent, from, MIN (far, last), to, MAX (far, last)), from, far, to, far);
        if (side == 0)
          g_string_append_printf (outline, ",['%d','%d'],['%d','%d'],['%d','%d'],['%d','%d']", from, y, from, last, to,
                                  last, to, y);
        else
          {
            g_autofree char *old = g_strdup (under->str);

            g_string_printf (under, ",['%d','%d'],['%d','%d'],['%d','%d'],['%d','%d']%s", to, y, to, last, from, last,
                             from, y, old);
          }
      }
  g_string_append_printf (outline, ",['%d','%d'],['%d','%d']%s,['0','%d']", x, top, x, bottom, under->str, bottom);
  for (int i = 0; i < s->n_row; i++)
    {
      int x0 = s->p[i].line[0] / 2, x1 = i + 1 < s->n_row ? s->p[i + 1].line[0] / 2 : x;
      int from = x0 + 1, to = x1 - 1, y0 = top + 1, y1 = bottom - 1;

      if (to <= from || s->n + 2 > MOST - STEPS || g_rand_boolean (rand))
        continue;
      take_cells (&s->p[i], from, y0, to, y1);
      set_line (add_panel (s, i, from, y0, to, y1), from, y0, from, y1);
      g_string_append_printf (marks,
                              "%s{ 'id': 'u%d', 'kind': 'cut', 'line': [['%d','%d'],['%d','%d'],['%d','%d'],['%d','%d'"
                              "]] }",
                              marks->len > 0 ? ", " : "", i, from, y0, to, y0, to, y1, from, y1);
    }
  for (int i = 1; i < s->n; i++)
    g_string_append_printf (marks,
                            "%s{ 'id': 'c%d', 'kind': 'score', 'fold': 'toward', 'line': [['%d','%d'],['%d','%d']] }",
                            marks->len > 0 ? ", " : "", i, s->p[i].line[0] / 2, s->p[i].line[1] / 2,
                            s->p[i].line[2] / 2, s->p[i].line[3] / 2);
}

static gboolean
hangs_by (const Sheet *s, int i, int root)
{
  while (i >= 0 && i != root)
    i = s->p[i].parent;
  return i == root;
}

/* The square of panel k over or under square a of panel i; -1: none. `at`: the place. */
static int
find_square (const Sheet *s, int i, int a, int k, int *at)
{
  int q[2];

  apply (&s->p[i].way, s->p[i].cells[a], at);
  for (int b = 0; b < s->p[k].n_cells; b++)
    {
      apply (&s->p[k].way, s->p[k].cells[b], q);
      if (at[0] == q[0] && at[1] == q[1])
        return b;
    }
  return -1;
}

/* Folds; sets the pairs that go through one another, and leaves the sheet as it was if there are any. */
static gboolean
fold (Sheet *s, int c, int to, gboolean pairs[MOST][MOST])
{
  int ends[2][2], at[2], axis, line, side, turn;
  int by_way = to != 0 ? to : s->p[c].folded;
  gboolean through = FALSE;

  apply (&s->p[c].way, s->p[c].line, ends[0]);
  apply (&s->p[c].way, s->p[c].line + 2, ends[1]);
  axis = ends[0][0] == ends[1][0] ? 0 : 1;
  line = ends[0][axis];
  apply (&s->p[c].way, s->p[c].cells[0], at);
  side = at[axis] > line ? 1 : -1;
  turn = by_way * s->p[s->p[c].parent].up;
  for (int i = 0; i < s->n; i++)
    for (int k = 0; k < s->n; k++)
      {
        pairs[i][k] = FALSE;
        for (int a = 0; a < s->p[i].n_cells && hangs_by (s, i, c) && !hangs_by (s, k, c); a++)
          if (find_square (s, i, a, k, at) >= 0)
            pairs[i][k] = pairs[i][k] || s->above[i][a][k] != (side * (at[axis] - line) > 0 ? turn : -turn);
        through = through || pairs[i][k];
      }
  if (through)
    return TRUE;
  for (int i = 0; i < s->n; i++)
    if (hangs_by (s, i, c))
      {
        Way *w = &s->p[i].way;

        w->m[2 * axis] = -w->m[2 * axis];
        w->m[2 * axis + 1] = -w->m[2 * axis + 1];
        w->t[axis] = 2 * line - w->t[axis];
        s->p[i].up = -s->p[i].up;
      }
  for (int i = 0; i < s->n; i++)
    for (int k = 0; k < s->n; k++)
      for (int a = 0; a < s->p[i].n_cells && hangs_by (s, i, c); a++)
        {
          int b = find_square (s, i, a, k, at);

          if (hangs_by (s, k, c))
            s->above[i][a][k] = (gint8) -s->above[i][a][k];
          else if (b >= 0)
            {
              s->above[i][a][k] = (gint8) (side * (at[axis] - line) < 0 ? turn : -turn);
              s->above[k][b][i] = (gint8) -s->above[i][a][k];
            }
        }
  s->p[c].folded = to;
  return FALSE;
}

/* Sticks a tile on a panel's free face. Returns FALSE if there is no such place where it was looked for. */
static gboolean
stick (GRand *rand, Sheet *s, int host, int face)
{
  const Panel *h = &s->p[host];
  const int *cell = h->cells[g_rand_int_range (rand, 0, h->n_cells)];
  int x = (cell[0] - 1) / 2, y = (cell[1] - 1) / 2, over = face * h->up, new = s->n;
  int x0 = x - g_rand_int_range (rand, 0, 2), y0 = y - g_rand_int_range (rand, 0, 2);
  Panel *tile = add_panel (s, host, x0, y0, x + g_rand_int_range (rand, 1, 3), y + g_rand_int_range (rand, 1, 3));
  gboolean free_face = TRUE;

  tile->stuck = TRUE;
  tile->way = h->way;
  tile->up = h->up;
  tile->tile[0] = x0;
  tile->tile[1] = y0;
  for (int i = 0; i < tile->n_cells; i++)
    {
      tile->tile[2] = MAX (tile->tile[2], (tile->cells[i][0] + 1) / 2 - x0);
      tile->tile[3] = MAX (tile->tile[3], (tile->cells[i][1] + 1) / 2 - y0);
    }
  for (int a = 0; a < tile->n_cells; a++)
    {
      int at[2], on = find_square (s, new, a, host, at);

      for (int k = 0; k < new; k++)
        {
          int b = find_square (s, new, a, k, at);

          if (b < 0)
            continue;
          /* Nothing else may lie over the host there. */
          free_face = free_face && (on < 0 || k == host || s->above[host][on][k] == over);
          s->above[new][a][k] = (gint8) over;
          s->above[k][b][new] = (gint8) -over;
        }
    }
  if (!free_face)
    s->n--;
  return free_face;
}

static CwMotion *
make_motion (const Sheet *s, const GString *outline, const GString *marks, const Step *steps, int n_steps)
{
  g_autoptr (GString) text = g_string_new (CARD_HEAD CARD_INCH);
  double hold[2] = { s->p[0].cells[0][0] / 2.0, s->p[0].cells[0][1] / 2.0 };

  g_string_append_printf (text, "'pieces': [ { 'id': 'base', 'outline': [%s], 'hold': ['%.1f','%.1f'], 'marks': [%s] }",
                          outline->str, hold[0], hold[1], marks->str);
  for (int i = 0; i < s->n; i++)
    if (s->p[i].stuck)
      g_string_append_printf (text, ", { 'id': 't%d', 'outline': [['0','0'],['%g','0'],['%g','%g'],['0','%g']] }", i,
                              s->p[i].tile[2], s->p[i].tile[2], s->p[i].tile[3], s->p[i].tile[3]);
  g_string_append (text, " ], 'steps': [ ");
  for (int i = 0; i < n_steps; i++)
    {
      const Panel *p = &s->p[steps[i].panel];

      g_string_append (text, i > 0 ? ", " : "");
      if (steps[i].stick)
        {
          const Panel *h = &s->p[p->parent];
          double shift[2] = { h->stuck ? h->tile[0] : 0, h->stuck ? h->tile[1] : 0 };
          g_autofree char *on = h->stuck ? g_strdup_printf ("t%d", p->parent) : g_strdup ("base");

          g_string_append_printf (text,
                                  "{ 'id': 's%d', 'do': 'stick', 'piece': 't%d', 'on': { 'piece': '%s', 'panel':"
                                  " ['%g','%g'], 'face': '%s' }, 'facing': '%s', 'at': ['%g','%g'] }",
                                  i, steps[i].panel, on, h->cells[0][0] / 2.0 - shift[0],
                                  h->cells[0][1] / 2.0 - shift[1], steps[i].face > 0 ? "front" : "back",
                                  steps[i].face > 0 ? "back" : "front", p->tile[0] - shift[0], p->tile[1] - shift[1]);
        }
      else
        g_string_append_printf (text, "{ 'id': 's%d', 'do': 'fold', 'folds': [ { 'score': 'base/c%d', 'to': %d } ] }",
                                i, steps[i].panel, 180 * steps[i].to);
    }
  g_string_append (text, " ] }");
  return card_motion (text->str);
}

/* Program's panels by ours, and the other way. */
static void
match_panels (const Sheet *s, const CwMotion *motion, guint *panel_of, int *own_of)
{
  for (int i = 0; i < s->n; i++)
    {
      const Panel *p = &s->p[i];
      g_autofree char *id = p->stuck ? g_strdup_printf ("t%d", i) : g_strdup ("base");

      panel_of[i] = card_panel (motion, id, p->cells[0][0] / 2.0 - (p->stuck ? p->tile[0] : 0),
                                p->cells[0][1] / 2.0 - (p->stuck ? p->tile[1] : 0));
      own_of[panel_of[i]] = i;
    }
}

/* One panel lies over another on every square in an outline. */
static void
check_order (const Sheet *s, int i, int k, const CwPolygon *outline)
{
  guint n = 0;

  for (int a = 0; a < s->p[i].n_cells; a++)
    {
      int at[2], b = find_square (s, i, a, k, at);

      if (!cw_polygon_contains (outline, CW_TICKS_PER_INCH * at[0] / 2.0, CW_TICKS_PER_INCH * at[1] / 2.0))
        continue;
      g_assert_cmpint (b, >=, 0);
      g_assert_cmpint (s->above[i][a][k], ==, 1);
      n++;
    }
  g_assert_cmpuint (n, >, 0);
}

/* The stack over every square. */
static void
check_stacks (const Sheet *s, const CwFlatState *state, const int *own_of)
{
  gint64 area2 = 0, paper = 0;

  g_assert_true (state->flat);
  for (guint c = 0; c < state->cells->len; c++)
    {
      const CwCell *cell = &g_array_index (state->cells, CwCell, c);

      area2 += cell->area2 * cell->n_layers;
      for (guint a = 0; a < cell->n_layers; a++)
        for (guint b = a + 1; b < cell->n_layers; b++)
          check_order (s, own_of[cell->layers[a].panel], own_of[cell->layers[b].panel], &cell->outline);
      for (guint a = 0; a < cell->n_layers; a++)
        g_assert_cmpint (s->p[own_of[cell->layers[a].panel]].up, ==, cell->layers[a].face_up == CW_FACE_FRONT ? 1 : -1);
    }
  for (int i = 0; i < s->n; i++)
    paper += s->p[i].n_cells;
  g_assert_cmpint (area2, ==, 2 * paper * (gint64) CW_TICKS_PER_INCH * CW_TICKS_PER_INCH);
}

typedef struct
{
  guint through, clear, stuck;
} Count;

static void
check_sheet (GRand *rand, Count *count)
{
  g_autoptr (GString) outline = g_string_new (NULL);
  g_autoptr (GString) marks = g_string_new (NULL);
  Sheet s;
  g_autofree Sheet *all = g_new (Sheet, STEPS);
  Step steps[STEPS];
  gboolean pairs[MOST][MOST] = { { FALSE } }, through = FALSE;
  int n_steps = 0, own_of[MOST];
  guint panel_of[MOST], n_expected = 0;
  g_autoptr (CwMotion) motion = NULL;
  g_autoptr (CwFlatStates) states = NULL;

  make_sheet (rand, &s, outline, marks);
  while (n_steps < STEPS && !through)
    {
      Step step
        = { g_rand_int_range (rand, 0, 4) == 0, g_rand_int_range (rand, 0, s.n), 0, g_rand_boolean (rand) ? 1 : -1 };
      int folded = s.p[step.panel].folded;

      if (step.stick)
        {
          if (!stick (rand, &s, step.panel, step.face))
            continue;
          step.panel = s.n - 1;
          count->stuck++;
        }
      else
        {
          gboolean tried[MOST][MOST];
          Sheet copy = s;

          if (s.p[step.panel].parent < 0 || s.p[step.panel].stuck)
            continue;
          step.to = folded != 0 ? 0 : g_rand_boolean (rand) ? 1 : -1;
          /* What goes through ends the sheet: not too soon. */
          if (fold (&copy, step.panel, step.to, tried) && g_rand_int_range (rand, 0, 5) > 0)
            continue;
          through = fold (&s, step.panel, step.to, pairs);
        }
      steps[n_steps] = step;
      all[n_steps++] = s;
    }
  motion = make_motion (&s, outline, marks, steps, n_steps);
  g_assert_cmpuint (cw_panel_set_n_panels (cw_motion_get_set (motion)), ==, (guint) s.n);
  match_panels (&s, motion, panel_of, own_of);
  states = cw_flat_states_new (motion);
  for (int i = 0; i < n_steps - through; i++)
    check_stacks (&all[i], cw_flat_states_get (states, (guint) i), own_of);
  for (int i = 0; i < s.n; i++)
    for (int k = 0; k < s.n; k++)
      n_expected += through && pairs[i][k];
  *(through ? &count->through : &count->clear) += 1;
  for (guint with = 0; with < 2; with++)
    {
      g_autoptr (GArray) found = cw_collisions_find (motion, with ? states : NULL, NULL);
      guint n = 0;

      for (guint i = 0; i < found->len; i++)
        {
          const CwCollision *c = &g_array_index (found, CwCollision, i);
          int a = own_of[c->panel_a], b = own_of[c->panel_b];

          g_assert_true (through);
          g_assert_cmpuint (c->step, ==, (guint) n_steps - 1);
          g_assert_true (pairs[a][b] || pairs[b][a]);
          g_assert_cmpint (c->kind, ==, CW_COLLISION_PASS_THROUGH);
          g_assert_cmpfloat (c->fraction, <, 1e-6);
          n++;
        }
      g_assert_cmpuint (n, ==, n_expected);
    }
}

static void
test_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  Count count = { 0 };

  for (guint i = 0; i < SHEETS; i++)
    check_sheet (rand, &count);
  g_test_message ("%u sheets fold to the end, %u do not; %u pieces stuck on", count.clear, count.through, count.stuck);
  /* Both answers come up often. */
  g_assert_cmpuint (count.through, >, SHEETS / 5);
  g_assert_cmpuint (count.clear, >, SHEETS / 5);
  g_assert_cmpuint (count.stuck, >, SHEETS);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/contact/collision-sheets/as-the-grid-says", test_random);
  return g_test_run ();
}
