/* test-player.c: the moment moved by frames.
 *
 * Frames are those of a window on the test display. Times are bounds only: a slow machine may take longer.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-player.h"
#include "window-test.h"

typedef struct
{
  GtkWidget *window;
  CwDocument *document;
  CwPlayer *player;
} Fixture;

static void
set_animations (gboolean on)
{
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", on, NULL);
}

static void
set_up (Fixture *f, gconstpointer data)
{
  set_animations (TRUE);
  f->window = gtk_window_new ();
  gtk_window_present (GTK_WINDOW (f->window));
  f->document = blank_document ();
  type_measure (f->document, "score 4 1/4");
  f->player = cw_player_new (f->window);
  cw_player_set_document (f->player, f->document);
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  g_clear_object (&f->player);
  g_clear_object (&f->document);
  gtk_window_destroy (GTK_WINDOW (f->window));
}

static gboolean
at_rest (gpointer player)
{
  return !cw_player_is_playing (player);
}

/* A half-fold has two steps, to shut and to open. Keys that come faster than the card moves count one by one. */
static void
test_go_by (Fixture *f, gconstpointer data)
{
  cw_player_go_by (f->player, 1);
  g_assert_true (cw_player_is_playing (f->player));
  cw_player_go_by (f->player, 1);
  iterate_until (at_rest, f->player, 10);
  g_assert_cmpint (cw_document_get_step (f->document), ==, 1);
  g_assert_cmpfloat_with_epsilon (cw_document_get_fraction (f->document), 1, 1e-12);
  cw_player_set_place (f->player, 1.5);
  cw_player_go_by (f->player, -1);
  iterate_until (at_rest, f->player, 10);
  g_assert_cmpfloat_with_epsilon (cw_player_get_place (f->player), 1, 1e-12);
  cw_player_go_by (f->player, -1);
  cw_player_go_by (f->player, -1);
  iterate_until (at_rest, f->player, 10);
  g_assert_cmpint (cw_document_get_step (f->document), ==, -1);
}

static void
test_go_to (Fixture *f, gconstpointer data)
{
  cw_player_go_to (f->player, 0);
  g_assert_true (cw_player_is_playing (f->player));
  iterate_until (at_rest, f->player, 10);
  g_assert_cmpint (cw_document_get_step (f->document), ==, 0);
  g_assert_cmpfloat_with_epsilon (cw_document_get_fraction (f->document), 1, 1e-12);
  cw_player_go_to (f->player, -1);
  iterate_until (at_rest, f->player, 10);
  g_assert_cmpint (cw_document_get_step (f->document), ==, -1);
}

static void
test_less_motion (Fixture *f, gconstpointer data)
{
  set_animations (FALSE);
  cw_player_go_to (f->player, 1);
  g_assert_false (cw_player_is_playing (f->player));
  g_assert_cmpint (cw_document_get_step (f->document), ==, 1);
}

static void
note_fraction (CwDocument *document, double *least)
{
  double now = cw_document_get_fraction (document);

  if (cw_document_get_step (document) == 0 && now > 0 && now < 1)
    *least = MIN (*least, now);
}

static void
test_play (Fixture *f, gconstpointer data)
{
  guint n = cw_document_get_design (f->document)->steps->len;
  double least = 2;

  g_signal_connect (f->document, "moment", G_CALLBACK (note_fraction), &least);
  cw_player_play (f->player);
  iterate_until (at_rest, f->player, 30);
  g_assert_cmpint (cw_document_get_step (f->document), ==, (int) n - 1);
  g_assert_cmpfloat_with_epsilon (cw_document_get_fraction (f->document), 1, 1e-12);
  g_assert_cmpfloat (least, <, 1); /* it was seen on the way */
  /* at the end it starts again */
  cw_player_play (f->player);
  g_assert_cmpint (cw_document_get_step (f->document), ==, -1);
  cw_player_pause (f->player);
  g_assert_false (cw_player_is_playing (f->player));
}

/* A hand on the card stops the playing. */
static void
test_hand_wins (Fixture *f, gconstpointer data)
{
  cw_player_play (f->player);
  g_assert_true (cw_player_is_playing (f->player));
  cw_document_set_moment (f->document, 0, 0.5);
  g_assert_false (cw_player_is_playing (f->player));
  g_assert_cmpfloat_with_epsilon (cw_player_get_place (f->player), 0.5, 1e-12);
}

int
main (int argc, char *argv[])
{
  if (!window_test_init (&argc, &argv))
    return 0;
  g_test_add ("/app/player/goes-to-a-step-and-back", Fixture, NULL, set_up, test_go_to, tear_down);
  g_test_add ("/app/player/keys-faster-than-the-card", Fixture, NULL, set_up, test_go_by, tear_down);
  g_test_add ("/app/player/jumps-when-less-motion-is-wanted", Fixture, NULL, set_up, test_less_motion, tear_down);
  g_test_add ("/app/player/plays-to-the-end-and-again", Fixture, NULL, set_up, test_play, tear_down);
  g_test_add ("/app/player/a-hand-on-the-card-wins", Fixture, NULL, set_up, test_hand_wins, tear_down);
  return g_test_run ();
}
