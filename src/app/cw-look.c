/* cw-look.c: one choice of colours for widgets and drawings.
 *
 * The drawing room owns the palettes; the style sheet gets them as named colours (@cw_table, @cw_ink, @cw_faint,
 * @cw_accent), so that the surface under the widgets and the surface under the drawing are one. Dark is what the
 * desktop asks for: the settings portal's color-scheme where there is one (freedesktop.org Settings portal,
 * org.freedesktop.appearance), else the toolkit's own dark setting. High contrast is known by the theme's name.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-look.h"

#include <string.h>

#define RESOURCES "/org/creasewright/Creasewright"
#define PORTAL "org.freedesktop.portal.Desktop"
#define PORTAL_PATH "/org/freedesktop/portal/desktop"
#define PORTAL_SETTINGS "org.freedesktop.portal.Settings"
#define APPEARANCE "org.freedesktop.appearance"

/* One display, one look. */
static GtkSettings *settings;
static GtkCssProvider *colours;
static const CwPalette *palette = &cw_palette_light;

static void
define (GString *css, const char *name, guint32 rgb)
{
  g_string_append_printf (css, "@define-color %s #%06x;\n", name, rgb & 0xffffffu);
}

static void
choose (void)
{
  g_autofree char *name = NULL;
  g_autoptr (GString) css = g_string_new (NULL);
  const char *forced = g_getenv ("GTK_THEME");
  gboolean dark = FALSE;
  const CwPalette *chosen = NULL;

  g_object_get (settings, "gtk-theme-name", &name, "gtk-application-prefer-dark-theme", &dark, NULL);
  if (forced != NULL)
    {
      dark = g_str_has_suffix (forced, ":dark");
      g_free (name);
      name = g_strdup (forced);
    }
  if (name != NULL && (strstr (name, "-dark") != NULL || strstr (name, "Inverse") != NULL))
    dark = TRUE;
  if (name != NULL && (strstr (name, "HighContrast") != NULL || strstr (name, "-hc") != NULL))
    chosen = dark ? &cw_palette_contrast : &cw_palette_paper;
  else
    chosen = dark ? &cw_palette_dark : &cw_palette_light;
  palette = chosen;
  define (css, "cw_table", chosen->table);
  define (css, "cw_ink", chosen->ink);
  define (css, "cw_faint", chosen->faint);
  define (css, "cw_accent", chosen->accent);
  gtk_css_provider_load_from_data (colours, css->str, -1);
}

static void
take_scheme (GVariant *value)
{
  g_autoptr (GVariant) inner = g_variant_ref (value);

  while (g_variant_is_of_type (inner, G_VARIANT_TYPE_VARIANT))
    {
      GVariant *next = g_variant_get_variant (inner);

      g_variant_unref (inner);
      inner = next;
    }
  if (g_variant_is_of_type (inner, G_VARIANT_TYPE_UINT32))
    g_object_set (settings, "gtk-application-prefer-dark-theme", g_variant_get_uint32 (inner) == 1, NULL);
}

static void
portal_told (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *signal,
             GVariant *parameters, gpointer data)
{
  const char *space = NULL, *key = NULL;
  g_autoptr (GVariant) value = NULL;

  if (!g_variant_is_of_type (parameters, G_VARIANT_TYPE ("(ssv)")))
    return;
  g_variant_get (parameters, "(&s&sv)", &space, &key, &value);
  if (strcmp (space, APPEARANCE) == 0 && strcmp (key, "color-scheme") == 0)
    take_scheme (value);
}

static void
portal_answered (GObject *bus, GAsyncResult *result, gpointer data)
{
  g_autoptr (GVariant) answer = g_dbus_connection_call_finish (G_DBUS_CONNECTION (bus), result, NULL);
  g_autoptr (GVariant) value = NULL;

  if (answer == NULL) /* no portal: the toolkit's own setting stands */
    return;
  g_variant_get (answer, "(v)", &value);
  take_scheme (value);
}

static void
bus_found (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (GDBusConnection) bus = g_bus_get_finish (result, NULL);

  if (bus == NULL)
    return;
  g_dbus_connection_signal_subscribe (bus, PORTAL, PORTAL_SETTINGS, "SettingChanged", PORTAL_PATH, APPEARANCE,
                                      G_DBUS_SIGNAL_FLAGS_NONE, portal_told, NULL, NULL);
  g_dbus_connection_call (bus, PORTAL, PORTAL_PATH, PORTAL_SETTINGS, "Read",
                          g_variant_new ("(ss)", APPEARANCE, "color-scheme"), G_VARIANT_TYPE ("(v)"),
                          G_DBUS_CALL_FLAGS_NO_AUTO_START, -1, NULL, portal_answered, NULL);
}

/**
 * cw_look_init:
 * @display: the display
 *
 * Loads the style sheet and follows the desktop's choice of light, dark and contrast from now on.
 */
void
cw_look_init (GdkDisplay *display)
{
  g_autoptr (GtkCssProvider) sheet = NULL;

  g_return_if_fail (GDK_IS_DISPLAY (display));

  if (colours != NULL)
    return;
  settings = gtk_settings_get_for_display (display);
  colours = gtk_css_provider_new ();
  choose ();
  sheet = gtk_css_provider_new ();
  gtk_css_provider_load_from_resource (sheet, RESOURCES "/style.css");
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (colours),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (sheet),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  g_signal_connect (settings, "notify::gtk-theme-name", G_CALLBACK (choose), NULL);
  g_signal_connect (settings, "notify::gtk-application-prefer-dark-theme", G_CALLBACK (choose), NULL);
  g_bus_get (G_BUS_TYPE_SESSION, NULL, bus_found, NULL);
}

/**
 * cw_look_get_palette:
 *
 * Returns: (transfer none): the colours to draw with
 */
const CwPalette *
cw_look_get_palette (void)
{
  return palette;
}

/**
 * cw_look_watch:
 * @object: who wants to hear; forgotten when it goes
 * @changed: called with @object when the colours have changed
 */
void
cw_look_watch (GObject *object, GCallback changed)
{
  g_return_if_fail (G_IS_OBJECT (object));

  if (settings == NULL)
    return;
  /* Connected after choose(), so the palette is the new one when they are called. */
  g_signal_connect_object (settings, "notify::gtk-theme-name", changed, object, G_CONNECT_SWAPPED);
  g_signal_connect_object (settings, "notify::gtk-application-prefer-dark-theme", changed, object, G_CONNECT_SWAPPED);
}
