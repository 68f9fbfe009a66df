/* cw-linkage-dense.h: small dense least squares and singular values, on memory the caller owns.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "fold/cw-effort.h"

G_BEGIN_DECLS

gboolean cw_dense_least (guint n_rows, guint n_columns, double *columns, double *right, double damping, guint *used,
                         CwEffort *effort, double *solution);
gboolean cw_dense_spectrum (guint n_rows, guint n_columns, double *columns, CwEffort *effort, double *sigma, double *v);

G_END_DECLS
