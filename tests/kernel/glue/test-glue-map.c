/* test-glue-map.c: where glue may lie on every face of a card, against areas worked out by hand and facts that follow
 * from what a map is.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glue-fixture.h"

#include "design/cw-design-json.h"
#include "glue/cw-glue-map.h"

static double
sq_in (const CwRegion *region)
{
  return (double) cw_region_area2 (region) / 2 / SQ_INCH;
}

static const CwSafeArea *
at (const CwAnalysis *card, const CwGlueMap *map, const char *piece, double x, double y, CwFace face)
{
  return cw_glue_map_get (map, card_panel (card->motion, piece, x, y), face);
}

#define assert_face(area, safe_is, near_is, never_is)                                                                  \
  G_STMT_START                                                                                                         \
  {                                                                                                                    \
    const CwSafeArea *_area = (area);                                                                                  \
    g_assert_cmpfloat_with_epsilon (sq_in (&_area->safe), safe_is, 1e-6);                                              \
    g_assert_cmpfloat_with_epsilon (sq_in (&_area->near), near_is, 1e-6);                                              \
    g_assert_cmpfloat_with_epsilon (sq_in (&_area->never), never_is, 1e-6);                                            \
  }                                                                                                                    \
  G_STMT_END

/* A half-fold of 8 x 5, and in its right leaf a layer of 3 x 4 at (4 1/2, 1/2), wet glue all over; `before` may press
 * the fold first. */
#define HALF(before, stick)                                                                                            \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'pieces': [ { 'id': 'base', 'ground': true, 'outline': [['0','0'],['8','0'],['8','5'],['0','5']],"                \
    " 'hold': ['7 3/4','4 3/4'], 'marks': ["                                                                           \
    " { 'id': 'spine', 'kind': 'score', 'fold': 'toward', 'line': [['4','0'],['4','5']] } ] },"                        \
    " { 'id': 'layer', 'outline': [['0','0'],['3','0'],['3','4'],['0','4']] } ],"                                      \
    "'glue': [ ], 'steps': [ " before " { 'id': 'lay', 'do': 'stick', " stick                                          \
    " 'piece': 'layer', 'on': { 'piece': 'base', 'panel': ['7 3/4','4 3/4'], 'face': 'front' }, 'facing': 'back',"     \
    " 'at': ['4 1/2','1/2'] },"                                                                                        \
    " { 'id': 'close', 'do': 'fold', 'rest': 'closed', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"           \
    " { 'id': 'open', 'do': 'fold', 'phase': 'using', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] } ] }"

/* Every face of a card, also those that are never stuck down: under the layer the base holds it, where the leaves part
 * again glue would shut them, and nothing lies on the outside. */
static void
test_every_face (void)
{
  g_autoptr (CwAnalysis) card = glue_analysis (HALF ("", ""));
  g_autoptr (CwGlueMap) map = cw_glue_map_new (card->bonds, NULL);

  assert_face (at (card, map, "base", 7.75, 4.75, CW_FACE_FRONT), 12, 0, 8);
  assert_face (at (card, map, "base", 1, 1, CW_FACE_FRONT), 0, 0, 20);
  assert_face (at (card, map, "base", 1, 1, CW_FACE_BACK), 0, 0, 0);
  assert_face (at (card, map, "base", 7.75, 4.75, CW_FACE_BACK), 0, 0, 0);
  assert_face (at (card, map, "layer", 1, 1, CW_FACE_BACK), 12, 0, 0);
  assert_face (at (card, map, "layer", 1, 1, CW_FACE_FRONT), 0, 0, 12);
}

/* That the leaves lay on one another while the fold was pressed does not matter where a layer comes between later. */
static void
test_pressed_before (void)
{
  g_autoptr (CwAnalysis) card
    = glue_analysis (HALF ("{ 'id': 'press', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] },"
                           " { 'id': 'unfold', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 0 } ] },",
                           ""));
  g_autoptr (CwGlueMap) map = cw_glue_map_new (card->bonds, NULL);

  assert_face (at (card, map, "base", 7.75, 4.75, CW_FACE_FRONT), 12, 0, 8);
  assert_face (at (card, map, "base", 1, 1, CW_FACE_FRONT), 0, 0, 20);
}

/* What is only tucked in is meant to come out again: its back still lies where a maker may glue it down, and nothing
 * else may stick to it. */
static void
test_tucked (void)
{
  g_autoptr (CwAnalysis) card = glue_analysis (HALF ("", "'tucked': true,"));
  g_autoptr (CwGlueMap) map = cw_glue_map_new (card->bonds, NULL);

  assert_face (at (card, map, "base", 7.75, 4.75, CW_FACE_FRONT), 0, 0, 20);
  assert_face (at (card, map, "layer", 1, 1, CW_FACE_FRONT), 0, 0, 12);
  assert_face (at (card, map, "layer", 1, 1, CW_FACE_BACK), 12, 0, 0);
}

static void
test_cancelled (void)
{
  g_autoptr (CwAnalysis) card = glue_analysis (HALF ("", ""));
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();

  g_cancellable_cancel (cancellable);
  g_assert_null (cw_glue_map_new (card->bonds, cancellable));
}

static gboolean
overlap (const CwRegion *a, const CwRegion *b)
{
  CwRegion both = cw_region_overlay (a, b, CW_OVERLAY_INTERSECTION);
  double area = sq_in (&both);

  cw_region_clear (&both);
  return area > 1e-6;
}

/* On every sample: the three kinds of place never overlap nor leave the face, and glue that is right (it holds and no
 * finding says it strays) never lies where the map says never. */
static void
test_samples (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("CREASEWRIGHT_DATA"), "samples", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n_zones = 0;

  g_assert_nonnull (dir);
  for (const char *name = g_dir_read_name (dir); name != NULL; name = g_dir_read_name (dir))
    {
      g_autoptr (GFile) file = g_file_new_build_filename (folder, name, NULL);
      g_autoptr (CwDesign) design = cw_design_load (file, NULL);
      g_autoptr (CwAnalysis) card = NULL;
      g_autoptr (CwGlueMap) map = NULL;

      g_assert_nonnull (design);
      g_test_message ("%s", name);
      card = cw_analysis_new (design);
      map = cw_glue_map_new (card->bonds, NULL);
      for (guint i = 0; i < 2 * cw_panel_set_n_panels (card->panels); i++)
        {
          const CwSafeArea *area = cw_glue_map_get (map, i / 2, i % 2 == 0 ? CW_FACE_FRONT : CW_FACE_BACK);
          double face
            = (double) cw_polygon_area2 (&cw_panel_set_get_panel (card->panels, i / 2)->outline) / 2 / SQ_INCH;

          g_assert_false (overlap (&area->safe, &area->near));
          g_assert_false (overlap (&area->safe, &area->never));
          g_assert_false (overlap (&area->near, &area->never));
          g_assert_cmpfloat (sq_in (&area->safe) + sq_in (&area->near) + sq_in (&area->never), <=, face + 0.01);
        }
      g_assert_null (glue_finding (card, CW_FINDING_GLUE_STRAYS));
      g_assert_null (glue_finding (card, CW_FINDING_GLUED_SHUT));
      for (guint i = 0; i < cw_bonds_get_zones (card->bonds)->len; i++, n_zones++)
        {
          const CwZone *zone = &g_array_index (cw_bonds_get_zones (card->bonds), CwZone, i);

          for (guint k = 0; k < zone->n_parts; k++)
            g_assert_false (
              overlap (&zone->parts[k].where, &cw_glue_map_get (map, zone->parts[k].panel, zone->glue->face)->never));
        }
    }
  g_assert_cmpuint (n_zones, >=, 12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/glue/glue-map/every-face", test_every_face);
  g_test_add_func ("/glue/glue-map/pressed-before", test_pressed_before);
  g_test_add_func ("/glue/glue-map/tucked", test_tucked);
  g_test_add_func ("/glue/glue-map/cancelled", test_cancelled);
  g_test_add_func ("/glue/glue-map/samples", test_samples);
  return g_test_run ();
}
