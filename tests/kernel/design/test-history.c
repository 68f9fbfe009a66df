/* test-history.c: undo, redo and the saved point, as a table of commands with the state expected after each.
 *
 * The table is in the manner of GTK's test of its text history: the states are what anyone expects of undo in a desktop
 * program (common practice, no source).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "design/cw-history.h"

typedef enum
{
  DO,
  NOTHING, /* an edit that changes nothing */
  UNDO,
  REDO,
  SAVE
} Command;

typedef struct
{
  Command command;
  const char *title;       /* DO: the new title; afterwards: the title expected */
  const char *undo, *redo; /* names expected */
  gboolean saved;
} Line;

static void
run (const Line *lines, guint n)
{
  g_autoptr (CwDesign) design = cw_design_new ();
  g_autoptr (CwHistory) history = cw_history_new (design);

  g_assert_true (cw_history_is_saved (history));
  g_assert_null (cw_history_get_undo_name (history));
  g_assert_null (cw_history_get_redo_name (history));
  for (guint i = 0; i < n; i++)
    {
      const Line *line = &lines[i];
      CwDesign *now = cw_history_get_design (history);
      gboolean can_undo = cw_history_get_undo_name (history) != NULL;
      gboolean can_redo = cw_history_get_redo_name (history) != NULL;

      g_test_message ("line %u", i);
      switch (line->command)
        {
        case DO:
          {
            CwHead *head = cw_head_copy (now->head);
            g_free (head->title);
            head->title = g_strdup (line->title);
            cw_history_do (history, line->title, cw_edit_new_head (now, head));
            break;
          }
        case NOTHING:
          cw_history_do (history, "nothing", cw_edit_new_group ());
          break;
        case UNDO:
          g_assert_cmpint (cw_history_undo (history), ==, can_undo);
          break;
        case REDO:
          g_assert_cmpint (cw_history_redo (history), ==, can_redo);
          break;
        case SAVE:
        default:
          cw_history_set_saved (history);
        }
      g_assert_cmpstr (cw_history_get_design (history)->head->title, ==, line->title);
      g_assert_cmpstr (cw_history_get_undo_name (history), ==, line->undo);
      g_assert_cmpstr (cw_history_get_redo_name (history), ==, line->redo);
      g_assert_cmpint (cw_history_is_saved (history), ==, line->saved);
    }
}

static void
test_table (void)
{
  static const Line lines[] = {
    { UNDO, NULL, NULL, NULL, TRUE }, /* nothing to undo */
    { REDO, NULL, NULL, NULL, TRUE }, { NOTHING, NULL, NULL, NULL, TRUE },
    { DO, "a", "a", NULL, FALSE },    { UNDO, NULL, NULL, "a", TRUE }, /* back at the file as opened */
    { REDO, "a", "a", NULL, FALSE },  { DO, "b", "b", NULL, FALSE },
    { SAVE, "b", "b", NULL, TRUE },   { DO, "c", "c", NULL, FALSE },
    { UNDO, "b", "b", "c", TRUE },  /* undone back to the saved point */
    { UNDO, "a", "a", "b", FALSE }, /* and past it */
    { REDO, "b", "b", "c", TRUE },    { REDO, "c", "c", NULL, FALSE },
    { REDO, "c", "c", NULL, FALSE },                                 /* nothing to redo */
    { UNDO, "b", "b", "c", TRUE },    { DO, "d", "d", NULL, FALSE }, /* redo cleared */
    { UNDO, "b", "b", "d", TRUE },                                   /* the saved point lies on the way and is kept */
  };

  run (lines, G_N_ELEMENTS (lines));
}

static void
test_lost_saved_point (void)
{
  static const Line lines[] = {
    { DO, "a", "a", NULL, FALSE },  { DO, "b", "b", NULL, FALSE },     { SAVE, "b", "b", NULL, TRUE },
    { UNDO, "a", "a", "b", FALSE }, { NOTHING, "a", "a", "b", FALSE }, /* an edit of nothing takes no redo away */
    { DO, "c", "c", NULL, FALSE },                                     /* the way to the saved "b" is gone */
    { UNDO, "a", "a", "c", FALSE }, { REDO, "c", "c", NULL, FALSE }, /* as many edits as when it was saved, but not the
                                                                        same */
    { UNDO, "a", "a", "c", FALSE }, { UNDO, NULL, NULL, "a", FALSE },  { SAVE, NULL, NULL, "a", TRUE },
    { REDO, "a", "a", "c", FALSE }, { UNDO, NULL, NULL, "a", TRUE },
  };

  run (lines, G_N_ELEMENTS (lines));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/history/table/undo-redo-saved", test_table);
  g_test_add_func ("/history/saved/lost-with-the-way-to-it", test_lost_saved_point);
  return g_test_run ();
}
