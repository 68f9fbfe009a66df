/* main.c: creasewright-cli, the program without a window.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "cw-config.h"

#include <glib.h>

int
main (void)
{
  g_print ("creasewright-cli %s\n", CW_VERSION);
  return 0;
}
