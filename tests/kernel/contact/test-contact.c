/* test-contact.c: what a face meets, against areas worked out by hand from rectangles: no source needed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "contact/cw-contact.h"

#include "flat-fixture.h"

#define SQ_INCH ((double) CW_TICKS_PER_INCH * CW_TICKS_PER_INCH)

/* A card of two leaves, 4 by 4 inches each, and a tile 2 by 1 on the right one, from 5, 1 to 7, 2. */
#define CARD                                                                                                           \
  CARD_HEAD CARD_INCH                                                                                                  \
    "'pieces': [ { 'id': 'base', 'outline': [['0 in','0 in'],['8 in','0 in'],['8 in','4 in'],['0 in','4 in']],"        \
    " 'hold': ['6 in','2 in'], 'marks': [ { 'id': 'spine', 'kind': 'score', 'fold': 'toward',"                         \
    " 'line': [['4 in','0 in'],['4 in','4 in']] } ] }, { 'id': 'tile', 'outline': [['0 in','0 in'],['2 in','0 in'],"   \
    " ['2 in','1 in'],['0 in','1 in']], 'marks': [] } ], 'steps': ["                                                   \
    " { 'id': 'stick', 'do': 'stick', 'piece': 'tile', 'on': { 'piece': 'base', 'panel': ['6 in','2 in'],"             \
    " 'face': 'front' }, 'facing': 'back', 'at': ['5 in','1 in'] },"                                                   \
    " { 'id': 'stand', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 90 } ] },"                              \
    " { 'id': 'close', 'do': 'fold', 'folds': [ { 'score': 'base/spine', 'to': 180 } ] } ] }"

static double
area_to (const CwFlatStates *states, const char *step, guint panel, CwFace face, guint other, CwFace other_face)
{
  guint index = cw_design_find_step (cw_motion_get_set (states->motion)->design, step);
  g_autoptr (GArray) contacts = cw_contacts_find (states, index, panel, face, NULL);

  for (guint i = 0; i < contacts->len; i++)
    {
      const CwContact *contact = &g_array_index (contacts, CwContact, i);

      if (contact->panel == other && (other == CW_CONTACT_AIR || contact->face == other_face))
        return (double) cw_region_area2 (&contact->where) / 2 / SQ_INCH;
    }
  return 0;
}

static void
test_two_leaves (void)
{
  g_autoptr (CwFlatStates) states = flat_states (CARD);
  guint left = card_panel (states->motion, "base", 1, 1), right = card_panel (states->motion, "base", 6, 2);
  guint tile = card_panel (states->motion, "tile", 1, 0.5);

#define assert_area(step, panel, face, other, other_face, sq_in)                                                       \
  g_assert_cmpfloat_with_epsilon (area_to (states, step, panel, CW_FACE_##face, other, CW_FACE_##other_face), sq_in,   \
                                  1e-9)
  assert_area ("stick", tile, BACK, right, FRONT, 2);
  assert_area ("stick", tile, FRONT, CW_CONTACT_AIR, BACK, 2);
  assert_area ("stick", right, FRONT, tile, BACK, 2);
  assert_area ("stick", right, FRONT, CW_CONTACT_AIR, BACK, 14);
  assert_area ("stick", right, BACK, CW_CONTACT_AIR, BACK, 16);
  /* The card stands at a right angle: the tile lies on its leaf as before. */
  assert_area ("stand", tile, BACK, right, FRONT, 2);
  assert_area ("stand", left, FRONT, CW_CONTACT_AIR, BACK, 16);
  assert_area ("close", tile, BACK, right, FRONT, 2);
  assert_area ("close", tile, FRONT, left, FRONT, 2);
  assert_area ("close", left, FRONT, tile, FRONT, 2);
  assert_area ("close", left, FRONT, right, FRONT, 14);
  assert_area ("close", right, FRONT, left, FRONT, 14);
  assert_area ("close", left, BACK, CW_CONTACT_AIR, BACK, 16);
}

/* Closed, the tile seen by the left leaf lies mirrored: 8 - 7 = 1 to 8 - 5 = 3 from the left. */
static void
test_own_coordinates (void)
{
  g_autoptr (CwFlatStates) states = flat_states (CARD);
  guint left = card_panel (states->motion, "base", 1, 1), tile = card_panel (states->motion, "tile", 1, 0.5);
  g_autoptr (GArray) contacts = cw_contacts_find (states, 2, left, CW_FACE_FRONT, NULL);
  gboolean met = FALSE;

  for (guint i = 0; i < contacts->len; i++)
    {
      const CwContact *contact = &g_array_index (contacts, CwContact, i);
      CwPoint low, high;

      if (contact->panel != tile)
        continue;
      met = TRUE;
      g_assert_cmpuint (contact->where.n_polygons, ==, 1);
      cw_polygon_bounds (&contact->where.polygons[0], &low, &high);
      g_assert_cmpint (low.x, ==, 1 * CW_TICKS_PER_INCH);
      g_assert_cmpint (high.x, ==, 3 * CW_TICKS_PER_INCH);
      g_assert_cmpint (low.y, ==, 1 * CW_TICKS_PER_INCH);
      g_assert_cmpint (high.y, ==, 2 * CW_TICKS_PER_INCH);
    }
  g_assert_true (met);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/contact/contact/two-leaves", test_two_leaves);
  g_test_add_func ("/contact/contact/own-coordinates", test_own_coordinates);
  return g_test_run ();
}
