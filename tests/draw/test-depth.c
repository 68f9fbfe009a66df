/* What lies in front: cases whose answer is known by hand, asked through picking, which reads what is painted.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-depth.h"
#include "cw-draw-card.h"
#include "drawn-card.h"

#define IN ((double) CW_TICKS_PER_INCH)

typedef struct
{
  CwAnalysis *card;
  CwCardScene *scene;
  CwCamera camera;
  CwDrawList *list;
} Seen;

static Seen
seen_new (const char *text, const char *from)
{
  CwAnalysis *card = drawn_card (text);
  Seen seen = { card, cw_card_scene_new (card), { .scale = 100 / IN }, cw_draw_list_new () };

  cw_camera_look_from (&seen.camera, from);
  return seen;
}

static void
seen_clear (Seen *seen)
{
  cw_draw_list_free (seen->list);
  cw_card_scene_free (seen->scene);
  cw_analysis_unref (seen->card);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Seen, seen_clear)

/* The panel painted topmost at a place in space (inches), as "piece/x,y of its named point" index through the design.
 */
static guint
top (Seen *seen, const char *step, double fraction, double x, double y, double z, CwFace *face)
{
  CwCardLook look = { .lit_panel = G_MAXUINT, .hinge_at = G_MAXUINT };
  CwVec3 at = cw_camera_project (&seen->camera, cw_vec3 (x * IN, y * IN, z * IN));
  CwId id;

  cw_draw_list_clear (seen->list);
  cw_draw_card (seen->list, seen->scene, cw_design_find_step (seen->card->design, step), fraction, &seen->camera,
                &look);
  if (!cw_draw_list_pick (seen->list, at.x, at.y, 0, 1u << CW_ID_PANEL, &id))
    return G_MAXUINT;
  if (face != NULL)
    *face = id.part;
  return seen->card->panels->first_panel[id.piece] + id.index;
}

static guint
panel (const Seen *seen, const char *piece, double x, double y)
{
  return card_panel (seen->card->motion, piece, x, y);
}

/* Toward: the left half comes over the front of the right. From the front its back is seen, from the back the right. */
static void
test_half_fold (void)
{
  static const double moments[] = { 0.6, 0.9, 0.99, 0.9999, 0.999999, 1 };
  g_auto (Seen) front = seen_new (DRAWN_HALF ("toward", "front", "back"), "front");
  g_auto (Seen) back = seen_new (DRAWN_HALF ("toward", "front", "back"), "back");

  for (guint i = 0; i < G_N_ELEMENTS (moments); i++)
    {
      CwFace face;
      g_assert_cmpuint (top (&front, "close", moments[i], 5.2, 6, 0, &face), ==, panel (&front, "base", 1, 6));
      g_assert_cmpint (face, ==, CW_FACE_BACK);
      g_assert_cmpuint (top (&back, "close", moments[i], 5.2, 6, 0, &face), ==, panel (&back, "base", 9, 6));
      g_assert_cmpint (face, ==, CW_FACE_BACK);
    }
}

/* Away: the left half goes behind the right. */
static void
test_half_fold_away (void)
{
  static const double moments[] = { 0.6, 0.99, 0.999999, 1 };
  g_auto (Seen) front = seen_new (DRAWN_HALF ("away", "front", "back"), "front");
  g_auto (Seen) back = seen_new (DRAWN_HALF ("away", "front", "back"), "back");

  for (guint i = 0; i < G_N_ELEMENTS (moments); i++)
    {
      CwFace face;
      g_assert_cmpuint (top (&front, "close", moments[i], 5.2, 6, 0, &face), ==, panel (&front, "base", 9, 6));
      g_assert_cmpint (face, ==, CW_FACE_FRONT);
      g_assert_cmpuint (top (&back, "close", moments[i], 5.2, 6, 0, &face), ==, panel (&back, "base", 1, 6));
      g_assert_cmpint (face, ==, CW_FACE_FRONT);
    }
}

/* A layer lies outside the face it is stuck to: open and closed, on the front and on the back, and closing over it
 * hides it. The order holds right through opening again, at every moment. */
static void
test_layer (void)
{
  static const double moments[] = { 0, 1e-6, 0.01, 0.3 };

  for (int on_back = 0; on_back < 2; on_back++)
    {
      const char *text = on_back ? DRAWN_HALF ("toward", "back", "front") : DRAWN_HALF ("toward", "front", "back");
      g_auto (Seen) front = seen_new (text, "front");
      g_auto (Seen) back = seen_new (text, "back");
      guint layer = panel (&front, "layer", 1, 1), right = panel (&front, "base", 9, 6),
            left = panel (&front, "base", 1, 6);

      g_assert_cmpuint (top (&front, "stick", 1, 8, 3, 0, NULL), ==, on_back ? right : layer);
      g_assert_cmpuint (top (&back, "stick", 1, 8, 3, 0, NULL), ==, on_back ? layer : right);
      for (guint i = 0; i < G_N_ELEMENTS (moments); i++)
        {
          g_assert_cmpuint (top (&front, "close", moments[i], 8, 3, 0, NULL), ==, on_back ? right : layer);
          g_assert_cmpuint (top (&back, "close", moments[i], 8, 3, 0, NULL), ==, on_back ? layer : right);
        }
      g_assert_cmpuint (top (&front, "close", 1, 8, 3, 0, NULL), ==, left);
      g_assert_cmpuint (top (&back, "close", 1, 8, 3, 0, NULL), ==, on_back ? layer : right);
      g_assert_cmpuint (top (&front, "open", 0, 8, 3, 0, NULL), ==, left);
      g_assert_cmpuint (top (&front, "open", 1e-7, 8, 3, 0, NULL), ==, left);
      g_assert_cmpuint (top (&front, "open", 1, 8, 3, 0, NULL), ==, on_back ? right : layer);
      g_assert_cmpuint (top (&back, "open", 1, 8, 3, 0, NULL), ==, on_back ? layer : right);
    }
}

/* The box at a right angle (parallelogram, published for parallel folds): the tread lies 2 in before the floor, from 5
 * to 6 in across. From the front it hides the floor's gap; from the back it is seen through it; from the table it hides
 * what lies behind it. */
static void
test_box (void)
{
  g_auto (Seen) front = seen_new (DRAWN_BOX, "front");
  g_auto (Seen) back = seen_new (DRAWN_BOX, "back");
  g_auto (Seen) table = seen_new (DRAWN_BOX, "table");
  guint tread = panel (&front, "base", 3.5, 3), floor = panel (&front, "base", 9, 5),
        riser = panel (&front, "base", 5.25, 3);
  CwFace face;

  g_assert_cmpuint (top (&front, "close", 0.5, 5.5, 3, -2, &face), ==, tread);
  g_assert_cmpint (face, ==, CW_FACE_FRONT);
  g_assert_cmpuint (top (&back, "close", 0.5, 5.5, 3, 0, &face), ==, tread);
  g_assert_cmpint (face, ==, CW_FACE_BACK);
  g_assert_cmpuint (top (&back, "close", 0.5, 5.5, 1, 0, NULL), ==, floor);

  cw_camera_look_into (&table.camera, table.card->motion);
  g_assert_cmpuint (top (&table, "close", 0.5, 5.5, 3, -2, NULL), ==, tread);
  g_assert_cmpuint (top (&table, "close", 0.5, 6, 3, -1, NULL), ==, riser);
  g_assert_cmpuint (top (&table, "close", 0.5, 9, 3, 0, NULL), ==, floor);
  /* Closed: the cover lies over everything from the front, the floor from the back; the step's tip, which reaches 3 in
   * from the spine (1 + 2), lies between them. */
  g_assert_cmpuint (top (&front, "close", 1, 9, 3, 0, NULL), ==, panel (&front, "base", 1, 5));
  g_assert_cmpuint (top (&back, "close", 1, 9, 3, 0, NULL), ==, floor);
  /* The cover's gap, 3 to 5 in, comes to lie over 5 to 7; the riser reaches from its hinge at 6 to the tip at 8. */
  g_assert_cmpuint (top (&front, "close", 1, 6.5, 3, 0, &face), ==, riser);
  g_assert_cmpuint (top (&front, "close", 0.98, 6.5, 3, 0, NULL), ==, riser);
}

/* Between two looks the order of two panels over one another must not jump back and forth: the top panel at a place is
 * followed through a whole closing; it may change only where a panel's rim passes the place. */
static void
test_no_flicker (void)
{
  g_auto (Seen) table = seen_new (DRAWN_BOX, "table");
  guint last = G_MAXUINT, changes = 0;

  cw_camera_look_into (&table.camera, table.card->motion);
  for (guint i = 0; i <= 400; i++)
    {
      guint now = top (&table, "close", i / 400.0, 7, 3, 0, NULL);
      if (i > 0 && now != last)
        changes++;
      last = now;
    }
  /* Floor, then box and cover come down over it in turn. */
  g_assert_cmpuint (changes, <=, 4);
}

/* Four strips laid in a ring, each over the next: no order of whole strips is right. Where each pair crosses, the last
 * paint there must be the nearer strip. */
static void
test_ring (void)
{
  const char *text = CARD_HEAD CARD_INCH
    "'pieces': [ { 'id': 'base', 'outline': [['0 in','0 in'],['6 in','0 in'],['6 in','4 in'],['0 in','4 in']],"
    " 'marks': [ { 'id': 'a', 'kind': 'score', 'fold': 'toward', 'line': [['0 in','1 in'],['6 in','1 in']] },"
    " { 'id': 'b', 'kind': 'score', 'fold': 'toward', 'line': [['0 in','2 in'],['6 in','2 in']] },"
    " { 'id': 'c', 'kind': 'score', 'fold': 'toward', 'line': [['0 in','3 in'],['6 in','3 in']] } ] } ],"
    "'glue': [], 'steps': [] }";
  g_autoptr (CwAnalysis) card = drawn_card (text);
  g_autoptr (CwDepth) depth = cw_depth_new (card->motion, card->flat_states);
  g_autoptr (CwPose) pose = cw_pose_new (card->motion);
  const CwRigid view = cw_rigid_identity ();
  guint n_paints, strip[4];

  cw_motion_get_start (card->motion, pose);
  for (guint i = 0; i < 4; i++)
    strip[i] = card_panel (card->motion, "base", 3, 0.5 + i);
  /* Strip i, 6 x 1 in, along the side of a 5 in square, its far end tipped toward the eye (-z) over the next one's near
   * end; each turned by a quarter from the last. */
  for (guint i = 0; i < 4; i++)
    {
      CwRigid tip = cw_rigid_about_axis (cw_vec3 (3 * IN, 0, 0), cw_vec3 (3 * IN, IN, 0), 0.1);
      CwRigid turn = cw_rigid_about_axis (cw_vec3 (3 * IN, 3 * IN, 0), cw_vec3 (3 * IN, 3 * IN, IN), i * G_PI / 2);
      CwRigid down = cw_rigid_identity ();
      down.t = cw_vec3 (0, -(double) i * IN, 0);
      CwRigid place = cw_rigid_compose (&tip, &down);
      pose->places[strip[i]] = cw_rigid_compose (&turn, &place);
    }
  const CwPaint *paints = cw_depth_order (depth, pose, 0, 0, &view, &n_paints);
  g_assert_cmpuint (n_paints, >, 4);

  for (guint i = 0; i < 4; i++)
    {
      /* The corner where strip i's far end meets strip i + 1: at (5.5, 0.5) for strip 0, turned on from there. */
      CwRigid turn = cw_rigid_about_axis (cw_vec3 (3 * IN, 3 * IN, 0), cw_vec3 (3 * IN, 3 * IN, IN), i * G_PI / 2);
      CwVec3 at = cw_rigid_apply (&turn, cw_vec3 (5.5 * IN, 0.5 * IN, 0));
      double nearest = G_MAXDOUBLE;
      guint nearer = G_MAXUINT, last = G_MAXUINT;
      for (guint k = 0; k < 4; k++)
        {
          /* Where the eye's ray meets the strip's plane, solved by hand: two equations for the flat place. */
          const CwRigid *p = &pose->places[strip[k]];
          double det = p->r[0][0] * p->r[1][1] - p->r[0][1] * p->r[1][0];
          double u = ((at.x - p->t.x) * p->r[1][1] - (at.y - p->t.y) * p->r[0][1]) / det;
          double v = ((at.y - p->t.y) * p->r[0][0] - (at.x - p->t.x) * p->r[1][0]) / det;
          double z = p->r[2][0] * u + p->r[2][1] * v + p->t.z;
          const CwPanel *flat = cw_panel_set_get_panel (card->panels, strip[k]);
          if (!cw_polygon_contains (&flat->outline, u, v))
            continue;
          if (z < nearest)
            {
              nearest = z;
              nearer = strip[k];
            }
          for (guint n = 0; n < n_paints; n++)
            {
              gboolean in = paints[n].within == G_MAXUINT;
              if (!in)
                {
                  const CwRigid *w = &pose->places[paints[n].within];
                  double wdet = w->r[0][0] * w->r[1][1] - w->r[0][1] * w->r[1][0];
                  double wu = ((at.x - w->t.x) * w->r[1][1] - (at.y - w->t.y) * w->r[0][1]) / wdet;
                  double wv = ((at.y - w->t.y) * w->r[0][0] - (at.x - w->t.x) * w->r[1][0]) / wdet;
                  in = cw_polygon_contains (&cw_panel_set_get_panel (card->panels, paints[n].within)->outline, wu, wv);
                }
              if (in && paints[n].panel == strip[k] && (last == G_MAXUINT || n >= last))
                last = n;
            }
        }
      g_assert_cmpuint (last, !=, G_MAXUINT);
      g_assert_cmpuint (paints[last].panel, ==, nearer);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/draw/depth/half-fold", test_half_fold);
  g_test_add_func ("/draw/depth/half-fold-away", test_half_fold_away);
  g_test_add_func ("/draw/depth/layer", test_layer);
  g_test_add_func ("/draw/depth/box", test_box);
  g_test_add_func ("/draw/depth/no-flicker", test_no_flicker);
  g_test_add_func ("/draw/depth/ring", test_ring);
  return g_test_run ();
}
