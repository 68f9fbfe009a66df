/* test-glue.c: the glue map on the table, and glue put on a layer from menu, keys and slip.
 *
 * Areas are elementary geometry: a tile of 2 x 2 in over a corner with legs of 2 that flips and the opening it leaves
 * may be glued on half of it (common practice, no source), less what a hand of 1/16 needs along the crease.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <math.h>
#include <string.h>

#include "geometry/cw-region.h"
#include "panel/cw-path-flatten.h"
#include "table-test.h"

#define SQ_IN (2.0 * CW_TICKS_PER_INCH * CW_TICKS_PER_INCH)

static const char card_text[]
  = "{\"format\":\"creasewright design\",\"version\":1,\"title\":\"Test\","
    "\"measure\":{\"unit\":\"in\",\"snap\":\"1/16 in\",\"hand\":\"1/16 in\",\"give\":\"1/32 in\"},"
    "\"papers\":[{\"id\":\"card\",\"front\":\"#e8d9b8\",\"back\":\"#e8d9b8\"}],"
    "\"pieces\":[{\"id\":\"base\",\"paper\":\"card\",\"ground\":true,\"hold\":[\"9\",\"4\"],"
    "\"outline\":[[\"0\",\"0\"],[\"10\",\"0\"],[\"10\",\"5\"],[\"0\",\"5\"]],\"marks\":["
    "{\"id\":\"spine\",\"kind\":\"score\",\"fold\":\"toward\",\"line\":[[\"5\",\"0\"],[\"5\",\"5\"]]},"
    "{\"id\":\"slit\",\"kind\":\"cut\",\"line\":[[\"1\",\"3\"],[\"3\",\"3\"],[\"3\",\"1\"]]},"
    "{\"id\":\"flip\",\"kind\":\"score\",\"fold\":\"away\",\"line\":[[\"1\",\"3\"],[\"3\",\"1\"]]}]},"
    "{\"id\":\"tile\",\"name\":\"Tile\",\"paper\":\"card\",\"marks\":[],"
    "\"outline\":[[\"0\",\"0\"],[\"2\",\"0\"],[\"2\",\"2\"],[\"0\",\"2\"]]}],\"glue\":[],\"steps\":["
    "{\"id\":\"flip\",\"do\":\"fold\",\"folds\":[{\"score\":\"base/flip\",\"to\":180}]},"
    "{\"id\":\"stick\",\"do\":\"stick\",\"piece\":\"tile\",\"on\":{\"piece\":\"base\",\"panel\":[\"2 1/2\",\"2 1/2\"],"
    "\"face\":\"front\"},\"facing\":\"back\",\"at\":[\"3\",\"1\"],\"turn\":90},"
    "{\"id\":\"close\",\"do\":\"fold\",\"rest\":\"closed\",\"folds\":[{\"score\":\"base/spine\",\"to\":180}]},"
    "{\"id\":\"open\",\"do\":\"fold\",\"phase\":\"using\",\"folds\":[{\"score\":\"base/spine\",\"to\":0}]}]}";

static void
set_up_card (Fixture *f, gconstpointer data)
{
  set_up_text (f, card_text);
}

static gboolean
enabled (Fixture *f, const char *name)
{
  return g_action_group_get_action_enabled (cw_table_get_actions (f->table), name);
}

/* As a maker who can only use what is there to be used. */
static void
do_act (Fixture *f, const char *detailed)
{
  g_auto (GStrv) name = g_strsplit_set (detailed, ":(", 2);

  cw_document_analyse_now (f->document);
  g_assert_true (enabled (f, name[0]));
  act_now (f, detailed);
}

static void
wait_for_map (Fixture *f)
{
  gint64 end = g_get_monotonic_time () + 20 * G_USEC_PER_SEC;

  while (cw_table_get_glue_map (f->table) == NULL && g_get_monotonic_time () < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (1000);
  g_assert_nonnull (cw_table_get_glue_map (f->table));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (f->table));
}

static GtkWidget *
find_labelled (GtkWidget *top, GType type, const char *text)
{
  for (GtkWidget *child = gtk_widget_get_first_child (top); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_labelled (child, type, text);

      if (found == NULL && GTK_IS_LABEL (child) && strcmp (gtk_label_get_text (GTK_LABEL (child)), text) == 0)
        found = type == GTK_TYPE_LABEL ? child : gtk_widget_get_ancestor (child, type);
      if (found != NULL)
        return found;
    }
  return NULL;
}

/* The switch shades sheet and card once the worker is done; an edit brings a map of its own; off is off. */
static void
test_map (Fixture *f, gconstpointer data)
{
  GtkWidget *button = find_labelled (f->table->look_bar, GTK_TYPE_TOGGLE_BUTTON, "Glue map");
  CwId panel = { CW_ID_PANEL, 1, 0 };

  g_assert_nonnull (button);
  gtk_test_accessible_assert_property (button, GTK_ACCESSIBLE_PROPERTY_LABEL, "Glue map");
  g_assert_false (gtk_widget_get_visible (f->table->glue_legend));
  g_assert_false (cw_draw_list_uses (f->table->sheet_list, CW_PEN_NEVER));
  g_signal_emit_by_name (button, "clicked");
  g_assert_true (f->table->glue_wanted);
  wait_for_map (f);
  g_assert_true (cw_draw_list_uses (f->table->sheet_list, CW_PEN_NEVER));
  g_assert_true (cw_draw_list_uses (f->table->card_list, CW_PEN_NEVER));
  g_assert_true (gtk_widget_get_mapped (f->table->glue_legend));
  g_assert_nonnull (find_labelled (f->table->glue_legend, GTK_TYPE_LABEL, "no glue here"));
  g_assert_nonnull (find_labelled (f->table->glue_legend, GTK_TYPE_LABEL, "glue may go here"));
  g_assert_nonnull (find_labelled (f->table->glue_legend, GTK_TYPE_LABEL, "too near an edge for glue"));

  cw_document_select (f->document, &panel, 1);
  do_act (f, "glue-lay::safe");
  settle (f);
  wait_for_map (f);
  g_assert_true (f->table->analysis->design == cw_document_get_design (f->document));
  g_assert_true (cw_draw_list_uses (f->table->sheet_list, CW_PEN_NEVER));

  do_act (f, "glue-map");
  settle (f);
  g_assert_null (cw_table_get_glue_map (f->table));
  g_assert_false (cw_draw_list_uses (f->table->sheet_list, CW_PEN_NEVER));
  g_assert_false (gtk_widget_get_visible (f->table->glue_legend));
}

/* The table may go while the worker is at it. */
static void
test_gone_meanwhile (Fixture *f, gconstpointer data)
{
  do_act (f, "glue-map");
  cw_table_set_document (f->table, NULL);
  g_assert_null (cw_table_get_glue_map (f->table));
}

/* Square inches of all zones. */
static double
glued (Fixture *f)
{
  double sum = 0;
  GPtrArray *glue = cw_document_get_design (f->document)->glue;

  for (guint i = 0; i < glue->len; i++)
    {
      g_autoptr (GArray) points = cw_path_flatten (&((CwGlue *) g_ptr_array_index (glue, i))->area, TRUE);
      CwPolygon polygon = cw_polygon_from_points (points);

      sum += (double) ABS (cw_polygon_area2 (&polygon)) / SQ_IN;
      cw_polygon_clear (&polygon);
    }
  return sum;
}

/* All that is safe, on the side that the layer is stuck by; then as people lay it; each undone by its name. */
static void
test_ways (Fixture *f, gconstpointer data)
{
  static const struct
  {
    const char *action, *undo;
    double sq_in;
    guint zones;
  } ways[] = {
    { "glue-lay::safe", "glue all that is safe", 0, 1 },
    { "glue-lay::all", "glue all over", 1.75 * 1.75, 1 },
    { "glue-lay::rim", "glue a rim", 1.75 * 1.75 - 1.25 * 1.25, 4 },
    { "glue-lay::corners", "glue the corners", 1, 4 },
    { "glue-lay::dots", "glue dots", 9 * G_PI / 64, 9 },
  };
  const double safe = pow (2 - sqrt (2) / 16, 2) / 2;
  g_autofree char *before = cw_design_to_text (cw_document_get_design (f->document), NULL);
  CwId panel = { CW_ID_PANEL, 1, 0 };

  g_assert_false (enabled (f, "glue"));
  g_assert_false (enabled (f, "glue-off"));
  cw_document_select (f->document, &panel, 1);
  g_assert_true (enabled (f, "glue"));
  g_assert_false (enabled (f, "glue-off"));
  for (guint i = 0; i < G_N_ELEMENTS (ways); i++)
    {
      do_act (f, ways[i].action);
      g_assert_cmpstr (cw_document_get_undo_name (f->document), ==, ways[i].undo);
      g_assert_cmpuint (cw_document_get_design (f->document)->glue->len, ==, ways[i].zones);
      g_assert_cmpfloat_with_epsilon (glued (f), i == 0 ? safe : ways[i].sq_in, 2e-3);
      g_assert_cmpint (((CwGlue *) g_ptr_array_index (cw_document_get_design (f->document)->glue, 0))->face, ==,
                       CW_FACE_BACK);
      settle (f);
    }
  g_assert_true (enabled (f, "glue-off"));
  do_act (f, "glue-off");
  g_assert_cmpuint (cw_document_get_design (f->document)->glue->len, ==, 0);
  for (guint i = 0; i <= G_N_ELEMENTS (ways); i++)
    g_assert_true (cw_document_undo (f->document));
  g_autofree char *after = cw_design_to_text (cw_document_get_design (f->document), NULL);
  g_assert_cmpstr (after, ==, before);
}

/* A selected zone is set to all that is safe; the others on its face stay. */
static void
test_zone (Fixture *f, gconstpointer data)
{
  CwId panel = { CW_ID_PANEL, 1, 0 }, zone = { CW_ID_ZONE, G_MAXUINT, 2 };

  cw_document_select (f->document, &panel, 1);
  do_act (f, "glue-lay::corners");
  settle (f);
  cw_document_select (f->document, &zone, 1);
  do_act (f, "glue-lay::safe");
  g_assert_cmpuint (cw_document_get_design (f->document)->glue->len, ==, 4);
  g_assert_cmpfloat_with_epsilon (glued (f), 0.75 + pow (2 - sqrt (2) / 16, 2) / 2, 2e-3);
  do_act (f, "glue-off");
  g_assert_cmpuint (cw_document_get_design (f->document)->glue->len, ==, 3);
}

/* Where nothing stays no glue is put on, and that is said. */
static void
test_nowhere (Fixture *f, gconstpointer data)
{
  CwId panel = { CW_ID_PANEL, 0, 1 };
  guint right
    = cw_panel_map_find (&f->table->analysis->panels->maps[0], cw_point (9 * CW_TICKS_PER_INCH, 4 * CW_TICKS_PER_INCH));

  panel.index = right;
  cw_document_select (f->document, &panel, 1);
  do_act (f, "glue-lay::safe");
  g_assert_nonnull (f->said);
  g_assert_cmpuint (cw_document_get_design (f->document)->glue->len, ==, 0);
}

static GtkWidget *
find_of_type (GtkWidget *top, GType type, guint *nth)
{
  for (GtkWidget *child = gtk_widget_get_first_child (top); child != NULL; child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found;

      if (G_TYPE_CHECK_INSTANCE_TYPE (child, type) && (*nth)-- == 0)
        return child;
      found = G_TYPE_CHECK_INSTANCE_TYPE (child, type) ? NULL : find_of_type (child, type, nth);
      if (found != NULL)
        return found;
    }
  return NULL;
}

static GtkWidget *
slip_part (Fixture *f, GType type, guint nth)
{
  GtkWidget *found = find_of_type (f->table->glue_popover, type, &nth);

  g_assert_nonnull (found);
  return found;
}

/* The slip: foam in a strip along the bottom edge; measures that cannot be are refused and told. */
static void
test_slip (Fixture *f, gconstpointer data)
{
  CwId panel = { CW_ID_PANEL, 1, 0 };
  const CwGlue *zone;
  CwPoint low = { G_MAXINT32, G_MAXINT32 }, high = { 0, 0 };

  cw_document_select (f->document, &panel, 1);
  cw_document_set_piece (f->document, 1);
  do_act (f, "glue");
  g_assert_true (gtk_widget_get_visible (f->table->glue_popover));
  g_assert_nonnull (find_labelled (f->table->glue_popover, GTK_TYPE_LABEL, "Glue on the other side of “Tile”"));
  g_assert_false (gtk_widget_get_visible (slip_part (f, GTK_TYPE_ENTRY, 0)));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (slip_part (f, GTK_TYPE_DROP_DOWN, 0)), 3);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (slip_part (f, GTK_TYPE_DROP_DOWN, 1)), 4);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (slip_part (f, GTK_TYPE_DROP_DOWN, 2)), 3);
  gtk_test_accessible_assert_property (slip_part (f, GTK_TYPE_ENTRY, 0), GTK_ACCESSIBLE_PROPERTY_LABEL, "How wide");
  gtk_test_accessible_assert_property (slip_part (f, GTK_TYPE_ENTRY, 2), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                       "Away from the edges");
  gtk_editable_set_text (GTK_EDITABLE (slip_part (f, GTK_TYPE_ENTRY, 0)), "a lot");
  g_signal_emit_by_name (slip_part (f, GTK_TYPE_ENTRY, 0), "activate");
  g_assert_nonnull (f->said);
  g_assert_true (gtk_widget_has_css_class (slip_part (f, GTK_TYPE_ENTRY, 0), "error"));
  g_assert_cmpuint (cw_document_get_design (f->document)->glue->len, ==, 0);
  gtk_editable_set_text (GTK_EDITABLE (slip_part (f, GTK_TYPE_ENTRY, 0)), "3/8");
  gtk_editable_set_text (GTK_EDITABLE (slip_part (f, GTK_TYPE_ENTRY, 2)), "1/4");
  g_signal_emit_by_name (slip_part (f, GTK_TYPE_ENTRY, 2), "activate");
  g_assert_cmpuint (cw_document_get_design (f->document)->glue->len, ==, 1);
  zone = g_ptr_array_index (cw_document_get_design (f->document)->glue, 0);
  g_assert_cmpint (zone->kind, ==, CW_GLUE_FOAM);
  g_assert_true (zone->has_height);
  for (guint i = 0; i < zone->area.n_vertices; i++)
    {
      CwPoint p = cw_place_get_point (&zone->area.vertices[i].at);

      low = cw_point (MIN (low.x, p.x), MIN (low.y, p.y));
      high = cw_point (MAX (high.x, p.x), MAX (high.y, p.y));
    }
  /* A quarter inch from the edges of a tile of 2 in, 3/8 high, at the bottom. */
  g_assert_cmpint (low.x, ==, CW_TICKS_PER_INCH / 4);
  g_assert_cmpint (high.x, ==, 7 * CW_TICKS_PER_INCH / 4);
  g_assert_cmpint (low.y, ==, 11 * CW_TICKS_PER_INCH / 8);
  g_assert_cmpint (high.y, ==, 7 * CW_TICKS_PER_INCH / 4);
  /* The next time it says what is there. */
  settle (f);
  do_act (f, "glue");
  g_assert_cmpuint (gtk_drop_down_get_selected (GTK_DROP_DOWN (slip_part (f, GTK_TYPE_DROP_DOWN, 0))), ==,
                    CW_GLUE_FOAM);
}

int
main (int argc, char **argv)
{
  if (!table_test_init (&argc, &argv))
    return 0;
#define ADD(name, test) g_test_add ("/app/glue/" name, Fixture, NULL, set_up_card, test, tear_down)
  ADD ("map", test_map);
  ADD ("gone-meanwhile", test_gone_meanwhile);
  ADD ("ways", test_ways);
  ADD ("zone", test_zone);
  ADD ("nowhere", test_nowhere);
  ADD ("slip", test_slip);
  return g_test_run ();
}
