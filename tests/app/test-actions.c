/* test-actions.c: when each action of the window can be used, as a table.
 *
 * The table is written from the meaning of the words (there is nothing to save in what is saved, nothing to undo in
 * what is new), not from the code. Columns: no design; new blank card; changed card; saved card in the middle of its
 * steps; saved card at the end; a file being read; asked about changes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-window-private.h"
#include "window-test.h"

static const CwWindowState states[] = {
  { .step = -1 },
  { .has_document = TRUE, .is_saved = TRUE, .step = -1 },
  { .has_document = TRUE, .can_undo = TRUE, .step = -1, .n_steps = 2 },
  { .has_document = TRUE,
    .is_saved = TRUE,
    .has_file = TRUE,
    .can_undo = TRUE,
    .can_redo = TRUE,
    .step = 0,
    .n_steps = 2 },
  { .has_document = TRUE, .is_saved = TRUE, .has_file = TRUE, .step = 2, .n_steps = 2 },
  { .has_document = TRUE, .has_file = TRUE, .can_undo = TRUE, .step = 0, .n_steps = 2, .busy = TRUE },
  { .has_document = TRUE, .has_file = TRUE, .can_undo = TRUE, .step = 0, .n_steps = 2, .asking = TRUE },
};

static const struct
{
  const char *name, *enabled;
} table[] = {
  /*                   none new chg mid end busy ask */
  { "start", "-  +  +  +  +  -  +" },         { "open", "+  +  +  +  +  -  +" },
  { "save", "-  +  +  -  -  -  +" },          { "save-as", "-  +  +  +  +  -  +" },
  { "undo", "-  -  +  +  -  +  +" },          { "redo", "-  -  -  +  -  -  -" },
  { "play", "-  -  +  +  +  +  +" },          { "slow", "-  +  +  +  +  +  +" },
  { "step-previous", "-  -  -  +  +  +  +" }, { "step-next", "-  -  +  +  -  +  +" },
  { "show-findings", "-  +  +  +  +  +  +" }, { "hide-slip", "-  +  +  +  +  +  +" },
  { "show", "-  -  +  +  +  +  +" },          { "measure", "-  +  +  +  +  +  +" },
  { "answer", "-  -  -  -  -  -  +" },        { "page", "-  +  +  +  +  +  +" },
  { "print", "-  +  +  +  +  +  +" },         { "show-pieces", "-  +  +  +  +  +  +" },
  { "show-wants", "-  +  +  +  +  +  +" },    { "show-step", "-  +  +  +  +  +  +" },
  { "add-step", "-  +  +  +  +  +  +" },      { "change-step", "-  -  -  +  +  +  +" },
};

static void
test_table (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_autoptr (GString) got = g_string_new (NULL);

      for (guint j = 0; j < G_N_ELEMENTS (states); j++)
        g_string_append_printf (got, "%s%c", j > 0 ? "  " : "",
                                cw_window_action_is_enabled (table[i].name, &states[j]) ? '+' : '-');
      g_test_message ("%s", table[i].name);
      g_assert_cmpstr (got->str, ==, table[i].enabled);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/app/actions/when-each-can-be-used", test_table);
  return g_test_run ();
}
