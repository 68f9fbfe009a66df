/* cw-application.c: start-up, files from the command line, accelerators, about.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-application.h"

#include <glib/gi18n-lib.h>

#include "cw-look.h"
#include "cw-window.h"

struct _CwApplication
{
  GtkApplication parent_instance;
};

G_DEFINE_FINAL_TYPE (CwApplication, cw_application, GTK_TYPE_APPLICATION)

static void
do_quit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  /* Windows with unsaved changes stay and ask. */
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (data));

  for (GList *l = windows; l != NULL; l = l->next)
    gtk_window_close (l->data);
}

static void
do_about (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gtk_show_about_dialog (gtk_application_get_active_window (data), "program-name", _ ("Creasewright"), "version",
                         CW_VERSION, "logo-icon-name", CW_APP_ID, "comments",
                         _ ("Tells before cutting good card whether a fold moves, closes flat and fits."),
                         "license-type", GTK_LICENSE_GPL_3_0, "translator-credits", _ ("translator-credits"), NULL);
}

static void
do_new_window (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  gtk_window_present (GTK_WINDOW (cw_window_new (data)));
}

static const GActionEntry actions[] = {
  { .name = "quit", .activate = do_quit },
  { .name = "about", .activate = do_about },
  { .name = "new-window", .activate = do_new_window },
};

static void
cw_application_startup (GApplication *application)
{
  static const struct
  {
    const char *action, *accels[3];
  } keys[] = {
    { "app.quit", { "<Control>q" } },    { "app.new-window", { "<Control><Shift>n" } },
    { "win.start", { "<Control>n" } },   { "win.open", { "<Control>o" } },
    { "win.save", { "<Control>s" } },    { "win.save-as", { "<Control><Shift>s" } },
    { "win.measure", { "<Control>l" } }, { "win.show-findings", { "F9" } },
    { "win.show-pieces", { "F6" } },     { "win.show-wants", { "F7" } },
    { "win.show-step", { "F8" } },       { "window.close", { "<Control>w" } },
    { "win.print", { "<Control>p" } },   { "win.page::table", { "<Alt>1" } },
    { "win.page::cards", { "<Alt>2" } },
  };

  G_APPLICATION_CLASS (cw_application_parent_class)->startup (application);
  g_action_map_add_action_entries (G_ACTION_MAP (application), actions, G_N_ELEMENTS (actions), application);
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    gtk_application_set_accels_for_action (GTK_APPLICATION (application), keys[i].action, keys[i].accels);
  cw_look_init (gdk_display_get_default ());
  gtk_window_set_default_icon_name (CW_APP_ID);
}

/* Once the first window is there: is there anything left of a program that ended without saving? */
static gboolean
offer_leftovers (gpointer application)
{
  GList *windows = gtk_application_get_windows (application);

  if (windows != NULL && CW_IS_WINDOW (g_list_last (windows)->data))
    cw_window_offer_leftovers (g_list_last (windows)->data);
  return G_SOURCE_REMOVE;
}

static void
cw_application_activate (GApplication *application)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));

  if (window == NULL)
    g_idle_add_full (G_PRIORITY_LOW, offer_leftovers, g_object_ref (application), g_object_unref);
  gtk_window_present (window != NULL ? window : GTK_WINDOW (cw_window_new (GTK_APPLICATION (application))));
}

/* The first file goes into a window that still shows the start page, every other into a new one. */
static void
cw_application_open (GApplication *application, GFile **files, int n_files, const char *hint)
{
  if (gtk_application_get_windows (GTK_APPLICATION (application)) == NULL)
    g_idle_add_full (G_PRIORITY_LOW, offer_leftovers, g_object_ref (application), g_object_unref);
  for (int i = 0; i < n_files; i++)
    {
      GtkWindow *active = gtk_application_get_active_window (GTK_APPLICATION (application));
      CwWindow *window = i == 0 && CW_IS_WINDOW (active) && cw_window_get_document (CW_WINDOW (active)) == NULL
                           ? CW_WINDOW (active)
                           : CW_WINDOW (cw_window_new (GTK_APPLICATION (application)));

      cw_window_open (window, files[i]);
      gtk_window_present (GTK_WINDOW (window));
    }
}

static void
cw_application_class_init (CwApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  application_class->startup = cw_application_startup;
  application_class->activate = cw_application_activate;
  application_class->open = cw_application_open;
}

static void
cw_application_init (CwApplication *self)
{
  g_application_set_option_context_parameter_string (G_APPLICATION (self), _ ("[FILE…]"));
  g_application_set_option_context_summary (G_APPLICATION (self), _ ("Designs folding greeting cards."));
}

/**
 * cw_application_new:
 *
 * Returns: (transfer full): the program
 */
CwApplication *
cw_application_new (void)
{
  return g_object_new (CW_TYPE_APPLICATION, "application-id", CW_APP_ID, "resource-base-path",
                       "/org/creasewright/Creasewright", "flags", G_APPLICATION_HANDLES_OPEN, NULL);
}
