/* main.c: creasewright, the program with a window.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#define _DEFAULT_SOURCE /* SIGXFSZ: beyond C17 */

#include "cw-config.h"

#include <glib/gi18n-lib.h>
#include <locale.h>
#include <signal.h>

#include "cw-application.h"

int
main (int argc, char *argv[])
{
  const char *locale_dir = g_getenv ("CREASEWRIGHT_LOCALE_DIR");
  g_autoptr (CwApplication) application = NULL;

  signal (SIGXFSZ, SIG_IGN); /* a file that may not grow is an error to tell, not an end */
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, locale_dir != NULL ? locale_dir : CW_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);

  application = cw_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
