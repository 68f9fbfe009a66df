/* test-depth-rays.c: the folded card as drawn against rays cast by other means.
 *
 * Every card of the tests and every sample, at rest and on the way, from several directions: at thousands of places the
 * panel painted topmost is read off the draw list and compared with the panel a ray meets first, found here by plain
 * means: the plane of a panel through three of its corners, the crossing number of its outline about the place
 * (Jordan curve theorem). Places nearer to a rim than rounding, or where two sheets lie in one plane, are asked only
 * whether a panel of that plane is on top; in flat states the order of layers (kernel) says which. Between two frames a
 * millionth of a step apart the topmost panel may not change where no rim passes and no sheet crosses another. Seed
 * 20260711, our own.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-depth.h"
#include "cw-draw-card.h"
#include "design/cw-design-json.h"
#include "check/cw-analysis.h"
#include "cw-draw-list.h"

#include <math.h>

/* Nearer to a rim, in ticks of the picture, a place is left out: twice the rounding of a pose and of picking. */
#define RIM 4.0
/* Sheets nearer in depth than this are one plane, ticks: a sixth of a tenth of a millimetre, an eighth of the thinnest
 * card. */
#define ONE_PLANE 5.0
/* A panel seen more edge-on than this has no depth that could be told, cosine: two ticks of rounding become six
 * millimetres in depth. */
#define EDGE_ON 1e-3
#define RAYS 160
#define SEED 20260711

typedef struct
{
  CwAnalysis *card;
  CwCardScene *scene;
  CwDrawList *list;
  CwMotionWork *work;
  CwPose *pose;
  GRand *rand;
  CwCamera camera;
  double box[4];
  GArray *corners; /* of CwVec3: all panels' rings in the picture, with depth */
  guint first[64]; /* where a panel's corners start */
  guint64 n_rays, n_paper, n_plane;
  guint n_wrong;
} Cast;

typedef struct
{
  guint panel;
  double depth;
} Hit;

/* Where every corner of every panel comes to in the picture, and its depth. */
static void
project (Cast *cast)
{
  g_array_set_size (cast->corners, 0);
  g_assert_cmpuint (cast->pose->n_panels, <, G_N_ELEMENTS (cast->first));
  for (guint i = 0; i < cast->pose->n_panels; i++)
    {
      const CwPolygon *outline = &cw_panel_set_get_panel (cast->card->panels, i)->outline;

      cast->first[i] = cast->corners->len;
      for (guint r = 0; r < outline->n_rings; r++)
        for (guint k = 0; k < outline->rings[r].n_points; k++)
          {
            CwPoint p = outline->rings[r].points[k];
            CwVec3 at = cw_rigid_apply (&cast->pose->places[i], cw_vec3 (p.x, p.y, 0));

            at = cw_camera_project (&cast->camera, at);
            g_array_append_val (cast->corners, at);
          }
    }
}

/* Whether the ray at (x, y) meets the panel, how deep, and whether it passes a rim too near to say. */
static gboolean
meets (const Cast *cast, guint panel, double x, double y, double *depth, gboolean *rim)
{
  const CwPolygon *outline = &cw_panel_set_get_panel (cast->card->panels, panel)->outline;
  const CwRing *ring = &outline->rings[0];
  const CwVec3 *at = &g_array_index (cast->corners, CwVec3, cast->first[panel]);
  CwVec3 a = at[0], normal = { 0, 0, 0 };
  gboolean in = FALSE;

  /* The largest of the triangles a fan of the outline makes gives the plane. */
  for (guint i = 1; i + 1 < ring->n_points; i++)
    {
      CwVec3 n = cw_vec3_cross (cw_vec3_sub (at[i], a), cw_vec3_sub (at[i + 1], a));

      if (cw_vec3_length (n) > cw_vec3_length (normal))
        normal = n;
    }
  *rim = FALSE;
  for (guint r = 0; r < outline->n_rings; at += outline->rings[r++].n_points)
    for (guint i = 0; i < outline->rings[r].n_points; i++)
      {
        CwVec3 p = at[i], q = at[(i + 1) % outline->rings[r].n_points];
        double dx = q.x - p.x, dy = q.y - p.y, length2 = dx * dx + dy * dy;
        double t = length2 > 0 ? CLAMP (((x - p.x) * dx + (y - p.y) * dy) / length2, 0, 1) : 0;
        double off = hypot (x - p.x - t * dx, y - p.y - t * dy);

        if (off < RIM * cast->camera.scale)
          {
            *rim = TRUE;
            return FALSE;
          }
        if ((p.y > y) != (q.y > y) && x < p.x + (y - p.y) / dy * dx)
          in = !in;
      }
  if (!in)
    return FALSE;
  /* Seen from its edge: it may be painted as a sliver broader than a rim, but its depth there is all rounding. */
  if (fabs (normal.z) < EDGE_ON * cw_vec3_length (normal))
    {
      *rim = TRUE;
      return FALSE;
    }
  *depth = a.z - (normal.x * (x - a.x) + normal.y * (y - a.y)) / normal.z;
  return TRUE;
}

/* All panels under the ray, nearest first; FALSE when a rim is too near to say. */
static gboolean
cast_ray (const Cast *cast, double x, double y, GArray *hits)
{
  g_array_set_size (hits, 0);
  for (guint i = 0; i < cast->pose->n_panels; i++)
    {
      Hit hit = { i, 0 };
      gboolean rim;
      guint k;

      if (!cast->pose->present[i])
        continue;
      if (meets (cast, i, x, y, &hit.depth, &rim))
        {
          for (k = 0; k < hits->len && g_array_index (hits, Hit, k).depth <= hit.depth; k++)
            ;
          g_array_insert_val (hits, k, hit);
        }
      if (rim)
        return FALSE;
    }
  return TRUE;
}

static guint
painted (const Cast *cast, double x, double y)
{
  CwId id;

  if (!cw_draw_list_pick (cast->list, x, y, 0, 1u << CW_ID_PANEL, &id))
    return G_MAXUINT;
  return cast->card->panels->first_panel[id.piece] + id.index;
}

static void
draw (Cast *cast, guint step, double fraction)
{
  CwCardLook look = { .lit_panel = G_MAXUINT, .hinge_at = G_MAXUINT };

  cw_draw_list_clear (cast->list);
  cw_draw_card (cast->list, cast->scene, step, fraction, &cast->camera, &look);
  cw_motion_get_pose (cast->card->motion, cast->work, step, fraction, cast->pose);
  project (cast);
  cw_draw_list_get_extents (cast->list, cast->box);
}

static void
wrong (Cast *cast, const char *name, guint step, double fraction, guint got, guint wanted, double x, double y,
       const GArray *hits)
{
  g_autoptr (GString) all = g_string_new (NULL);

  for (guint i = 0; i < hits->len; i++)
    g_string_append_printf (all, " %u:%.2f", g_array_index (hits, Hit, i).panel, g_array_index (hits, Hit, i).depth);
  if (cast->n_wrong++ < 12)
    g_test_message ("%s %s %g yaw %.2f pitch %.2f at %.1f, %.1f: panel %d is painted, %d lies on top;%s", name,
                    ((const CwStep *) g_ptr_array_index (cast->card->design->steps, step))->id, fraction,
                    cast->camera.yaw, cast->camera.pitch, x, y, (int) got, (int) wanted, all->str);
}

/* One frame, from where the camera stands. */
static void
ask_frame (Cast *cast, const char *name, guint step, double fraction, GArray *hits)
{
  gboolean flat = fraction >= 1 && cw_motion_get_state (cast->card->motion, step)->flat;
  double misfit = cw_motion_get_state (cast->card->motion, step)->misfit_ticks;
  double plane = (ONE_PLANE + misfit) * 1;

  draw (cast, step, fraction);
  for (guint i = 0; i < RAYS; i++)
    {
      double x = g_rand_double_range (cast->rand, cast->box[0], cast->box[2]);
      double y = g_rand_double_range (cast->rand, cast->box[1], cast->box[3]);
      guint got, k, best = 0;

      if (!cast_ray (cast, x, y, hits))
        continue;
      cast->n_rays++;
      got = painted (cast, x, y);
      if (hits->len == 0)
        {
          if (got != G_MAXUINT)
            wrong (cast, name, step, fraction, got, G_MAXUINT, x, y, hits);
          continue;
        }
      cast->n_paper++;
      for (k = 0; k < hits->len; k++)
        if (g_array_index (hits, Hit, k).panel == got)
          break;
      if (k == hits->len || g_array_index (hits, Hit, k).depth - g_array_index (hits, Hit, 0).depth > plane)
        {
          wrong (cast, name, step, fraction, got, g_array_index (hits, Hit, 0).panel, x, y, hits);
          continue;
        }
      if (!flat)
        continue;
      /* All in one plane: the kernel's order, as seen from the eye. */
      for (guint m = 1; m < hits->len; m++)
        {
          guint a = g_array_index (hits, Hit, best).panel, b = g_array_index (hits, Hit, m).panel;
          int order = cw_flat_states_compare (cast->card->flat_states, step, a, b);
          CwVec3 up = cw_vec3_sub (cw_camera_project (&cast->camera, cw_vec3 (0, 0, 1000)),
                                   cw_camera_project (&cast->camera, cw_vec3 (0, 0, 0)));

          if (order != 0 && (order > 0) == (up.z > 0))
            best = m;
          cast->n_plane++;
        }
      if (got != g_array_index (hits, Hit, best).panel
          && cw_flat_states_compare (cast->card->flat_states, step, got, g_array_index (hits, Hit, best).panel) != 0)
        wrong (cast, name, step, fraction, got, g_array_index (hits, Hit, best).panel, x, y, hits);
    }
}

/* Two frames so near that nothing can have come to lie over anything else. */
static void
ask_flicker (Cast *cast, const char *name, guint step, double fraction, GArray *hits)
{
  double places[RAYS][2];
  guint got[RAYS];

  draw (cast, step, fraction);
  for (guint i = 0; i < RAYS; i++)
    {
      places[i][0] = g_rand_double_range (cast->rand, cast->box[0], cast->box[2]);
      places[i][1] = g_rand_double_range (cast->rand, cast->box[1], cast->box[3]);
      got[i] = cast_ray (cast, places[i][0], places[i][1], hits) ? painted (cast, places[i][0], places[i][1])
                                                                 : G_MAXUINT - 1;
      for (guint k = 1; k < hits->len; k++)
        {
          double apart = g_array_index (hits, Hit, k).depth - g_array_index (hits, Hit, k - 1).depth;

          /* Sheets that cross right here may change; in one plane they may not. */
          if (apart > 0.01 && apart < ONE_PLANE)
            got[i] = G_MAXUINT - 1;
        }
    }
  draw (cast, step, fraction + 1e-6);
  for (guint i = 0; i < RAYS; i++)
    if (got[i] != G_MAXUINT - 1 && cast_ray (cast, places[i][0], places[i][1], hits)
        && painted (cast, places[i][0], places[i][1]) != got[i])
      wrong (cast, name, step, fraction, painted (cast, places[i][0], places[i][1]), got[i], places[i][0], places[i][1],
             hits);
}

static void
ask_card (const char *text, const char *file, guint64 *n_paper, guint *n_wrong)
{
  static const double fractions[] = { 0, 0.001, 0.2, 0.47, 0.75, 0.96, 0.999, 1 };
  /* From in front and behind, from the table, and from odd places. */
  static const double ways[][2] = { { 0, 0 }, { G_PI, 0 }, { 0.3, 0.9 }, { -0.7, 0.35 }, { 2.2, -0.5 } };
  g_autoptr (GError) error = NULL;
  g_autoptr (GArray) hits = g_array_new (FALSE, FALSE, sizeof (Hit));
  CwDesign *design;
  Cast cast = { 0 };

  design = cw_design_from_text (text, -1, file, &error);
  g_assert_no_error (error);
  cast.card = cw_analysis_new (design);
  cast.scene = cw_card_scene_new (cast.card);
  cast.corners = g_array_new (FALSE, FALSE, sizeof (CwVec3));
  cast.list = cw_draw_list_new ();
  cast.work = cw_motion_work_new (cast.card->motion);
  cast.pose = cw_pose_new (cast.card->motion);
  cast.rand = g_rand_new_with_seed (SEED);
  for (guint w = 0; w < G_N_ELEMENTS (ways); w++)
    {
      cast.camera = (CwCamera){ .yaw = ways[w][0], .pitch = ways[w][1], .scale = 1 };
      for (guint step = 0; step < cw_motion_get_n_steps (cast.card->motion); step++)
        {
          gboolean folds = ((const CwStep *) g_ptr_array_index (design->steps, step))->what == CW_DO_FOLD;

          for (guint f = folds ? 0 : G_N_ELEMENTS (fractions) - 1; f < G_N_ELEMENTS (fractions); f++)
            ask_frame (&cast, file, step, fractions[f], hits);
          for (guint f = 1; folds && f < 6; f++)
            ask_flicker (&cast, file, step, fractions[f] * 0.9, hits);
        }
    }
  *n_paper += cast.n_paper;
  *n_wrong += cast.n_wrong;
  if (cast.n_wrong > 0)
    g_test_message ("%s: %u of %" G_GUINT64_FORMAT " wrong", file, cast.n_wrong, cast.n_rays);
  g_array_unref (cast.corners);
  g_rand_free (cast.rand);
  cw_pose_free (cast.pose);
  cw_motion_work_free (cast.work);
  cw_draw_list_free (cast.list);
  cw_card_scene_free (cast.scene);
  cw_analysis_unref (cast.card);
  cw_design_unref (design);
}

static int
compare_names (const void *one, const void *two)
{
  return g_strcmp0 (*(char *const *) one, *(char *const *) two);
}

static void
ask_folder (const char *folder, guint least)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  guint64 n_paper = 0;
  guint n_wrong = 0;
  const char *name;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".creasecard"))
      g_ptr_array_add (names, g_strdup (name));
  g_ptr_array_sort (names, compare_names);
  g_assert_cmpuint (names->len, >=, least);
  for (guint i = 0; i < names->len; i++)
    {
      g_autofree char *path = g_build_filename (folder, g_ptr_array_index (names, i), NULL);
      g_autofree char *text = NULL;

      g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
      ask_card (text, g_ptr_array_index (names, i), &n_paper, &n_wrong);
    }
  g_test_message ("%" G_GUINT64_FORMAT " rays met paper", n_paper);
  g_assert_cmpuint (n_paper, >, 1000 * names->len);
  g_assert_cmpuint (n_wrong, ==, 0);
}

static void
test_cards (void)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "golden", "cards", NULL);

  ask_folder (folder, 10);
}

static void
test_samples (void)
{
  const char *data = g_getenv ("CREASEWRIGHT_DATA");
  g_autofree char *folder = g_build_filename (data != NULL ? data : "data", "samples", NULL);

  ask_folder (folder, 6);
}

/* Arms that stand up from a sheet at odd places, turns and angles and go through one another: a state full of
 * collisions is drawn as it is, not by whole panels. */
static void
test_piercing (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (SEED);
  guint64 n_paper = 0;
  guint n_wrong = 0;

  for (guint c = 0; c < 24; c++)
    {
      g_autoptr (GString) text
        = g_string_new ("{ 'format': 'creasewright design', 'version': 1, 'title': 'arms', 'measure': { 'unit': 'in' },"
                        " 'pieces': [ { 'id': 'base', 'outline': [['0','0'],['9','0'],['9','8'],['0','8']],"
                        " 'hold': ['1/8','1/8'], 'marks': [] }");
      g_autoptr (GString) steps = g_string_new (NULL), folds = g_string_new (NULL);
      g_autofree char *json = NULL;

      for (guint i = 0; i < 5; i++)
        {
          int half = g_rand_int_range (rand, 1, 5);

          g_string_append_printf (text,
                                  ", { 'id': 'a%u', 'outline': [['0','0'],['4','0'],['4','%d/2'],['0','%d/2']], 'hold':"
                                  " ['3 3/4','1/8'], 'marks': [ { 'id': 's', 'kind': 'score', 'fold': 'toward', 'line':"
                                  " [['3 1/2','0'],['3 1/2','%d/2']] } ] }",
                                  i, half, half, half);
          g_string_append_printf (steps,
                                  "{ 'id': 'l%u', 'do': 'stick', 'piece': 'a%u', 'on': { 'piece': 'base', 'panel':"
                                  " ['1/8','1/8'], 'face': 'front' }, 'facing': 'back', 'at': ['%d/4','%d/4'], 'turn':"
                                  " %d },",
                                  i, i, g_rand_int_range (rand, 8, 24), g_rand_int_range (rand, 8, 24),
                                  g_rand_int_range (rand, 0, 24) * 15);
          g_string_append_printf (folds, "%s{ 'score': 'a%u/s', 'to': %d }", i > 0 ? "," : "", i,
                                  g_rand_int_range (rand, 20, 160));
        }
      g_string_append_printf (text, " ], 'steps': [ %s { 'id': 'up', 'do': 'fold', 'folds': [ %s ] } ] }", steps->str,
                              folds->str);
      json = g_strdelimit (g_strdup (text->str), "'", '"');
      ask_card (json, "arms", &n_paper, &n_wrong);
    }
  g_test_message ("%" G_GUINT64_FORMAT " rays met paper", n_paper);
  g_assert_cmpuint (n_paper, >, 40000);
  g_assert_cmpuint (n_wrong, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/depth-rays/cards", test_cards);
  g_test_add_func ("/draw/depth-rays/samples", test_samples);
  g_test_add_func ("/draw/depth-rays/piercing", test_piercing);
  return g_test_run ();
}
