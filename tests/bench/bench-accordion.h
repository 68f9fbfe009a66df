/* bench-accordion.h: the text of a card of many strips that fold to and fro, all in one step.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

/**
 * bench_accordion:
 * @n: strips, at least 2
 * @width_ticks: of a strip
 * @height_ticks: of the sheet
 *
 * Returns: (transfer full): a design file
 */
static inline char *
bench_accordion (guint n, guint width_ticks, guint height_ticks)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GString) folds = g_string_new (NULL);
  guint width = n * width_ticks;

  g_string_append_printf (text,
                          "{\"format\":\"creasewright design\",\"version\":1,\"measure\":{\"unit\":\"in\"},"
                          "\"papers\":[{\"id\":\"c\",\"front\":\"#d9c7a0\",\"back\":\"#ffffff\"}],"
                          "\"pieces\":[{\"id\":\"base\",\"paper\":\"c\",\"ground\":true,"
                          "\"outline\":[[\"0 in\",\"0 in\"],[\"%u/8128 in\",\"0 in\"],"
                          "[\"%u/8128 in\",\"%u/8128 in\"],[\"0 in\",\"%u/8128 in\"]],\"marks\":[",
                          width, width, height_ticks, height_ticks);
  for (guint i = 1; i < n; i++)
    {
      guint x = i * width_ticks;

      g_string_append_printf (text,
                              "%s{\"id\":\"s%u\",\"kind\":\"score\",\"fold\":\"%s\","
                              "\"line\":[[\"%u/8128 in\",\"0 in\"],[\"%u/8128 in\",\"%u/8128 in\"]]}",
                              i > 1 ? "," : "", i, i % 2 ? "toward" : "away", x, x, height_ticks);
      g_string_append_printf (folds, "%s{\"score\":\"base/s%u\",\"to\":180}", i > 1 ? "," : "", i);
    }
  g_string_append_printf (text, "]}],\"steps\":[{\"id\":\"close\",\"do\":\"fold\",\"folds\":[%s]}]}", folds->str);
  return g_string_free (g_steal_pointer (&text), FALSE);
}
