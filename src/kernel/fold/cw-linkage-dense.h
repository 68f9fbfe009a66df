/* cw-linkage-dense.h: small dense least squares and singular values, on memory the caller owns.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

void cw_dense_least (guint n_rows, guint n_columns, double *columns, double *right, double damping, double *solution);
void cw_dense_spectrum (guint n_rows, guint n_columns, double *columns, double *sigma, double *v);

G_END_DECLS
