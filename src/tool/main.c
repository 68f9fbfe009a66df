/* main.c: creasewright-cli, the program without a window: finds the command and runs it.
 *
 * Exit status: 0 no finding of severity error, 1 at least one, 2 a file that cannot be read or a wrong call, with one
 * line on standard error. To add a command: a file cw-tool-NAME.c, its function in cw-tool.h, a row in `commands`.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include "cw-tool.h"

#include <glib/gi18n.h>
#include <locale.h>

static const struct
{
  const char *name, *arguments, *does;
  CwToolRun run;
} commands[] = {
  { "check", N_ ("FILE…"), N_ ("print findings in plain words, worst first"), cw_tool_check },
  { "report", N_ ("FILE"), N_ ("print everything known about a design as JSON"), cw_tool_report },
  { "show", N_ ("FILE -o OUT"), N_ ("draw one picture: a piece lying flat, or the card folded"), cw_tool_show },
  { "steps", N_ ("FILE -o OUT"), N_ ("print the step cards, or tell every trimmer move"), cw_tool_steps },
  { "template", N_ ("FILE -o OUT"), N_ ("draw all pieces at true size, to cut and score by"), cw_tool_template },
};

static void
print_help (void)
{
  g_print ("%s\n  creasewright-cli %s\n\n%s\n", _ ("Usage:"), _ ("COMMAND [OPTION…] FILE…"), _ ("Commands:"));
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    {
      g_autofree char *call = g_strdup_printf ("%s %s", commands[i].name, _ (commands[i].arguments));

      g_print ("  %s%*s %s\n", call, MAX (0, 24 - (int) g_utf8_strlen (call, -1)), "", _ (commands[i].does));
    }
  g_print ("\n%s\n%s\n", _ ("creasewright-cli COMMAND --help says more about a command."),
           _ ("Exit status: 0 no error found, 1 an error found, 2 a file cannot be read or the call is wrong."));
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  const char *locale_dir = g_getenv ("CREASEWRIGHT_LOCALE_DIR");
  bindtextdomain (GETTEXT_PACKAGE, locale_dir != NULL ? locale_dir : CW_LOCALE_DIR);
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_set_prgname ("creasewright-cli");

  if (argc < 2)
    return cw_tool_fail (_ ("no command; see creasewright-cli --help"));
  if (g_str_equal (argv[1], "--help") || g_str_equal (argv[1], "-h") || g_str_equal (argv[1], "help"))
    {
      print_help ();
      return CW_TOOL_FINE;
    }
  if (g_str_equal (argv[1], "--version"))
    {
      g_print ("creasewright-cli %s\n", CW_VERSION);
      return CW_TOOL_FINE;
    }
  for (gsize i = 0; i < G_N_ELEMENTS (commands); i++)
    if (g_str_equal (argv[1], commands[i].name))
      return commands[i].run (argc - 1, argv + 1);
  return cw_tool_fail (_ ("there is no command “%s”; see creasewright-cli --help"), argv[1]);
}
