/* cw-linkage-dense.c: small dense least squares and singular values, on memory the caller owns.
 *
 * Damped least squares by Householder triangles over the stacked matrix, singular values by one-sided Jacobi turns
 * (Golub & Van Loan, Matrix Computations, 4th ed. 2013, sections 5.2 and 8.6; from memory). Written out rather than
 * taken from the GNU library: no allocation, no error handler shared by the process, and one order of additions, so
 * that every machine gives the same digits.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-linkage-dense.h"

#include <math.h>

#include "geometry/cw-tolerance.h"

/* Mirrors `v` in the plane given by `mirror` (unnormalised) with 2/|mirror|^2 = scale. Only the `n_used` rows in
 * `used`, where the mirror is not 0, take part. */
static void
reflect (guint n_used, const guint *used, const double *mirror, double scale, double *v)
{
  double dot = 0;

  for (guint i = 0; i < n_used; i++)
    dot += mirror[used[i]] * v[used[i]];
  dot *= scale;
  for (guint i = 0; i < n_used; i++)
    v[used[i]] -= dot * mirror[used[i]];
}

/* The same for four vectors `stride` apart: their sums do not wait for one another. */
static void
reflect_four (guint n_used, const guint *used, const double *mirror, double scale, double *v, guint stride)
{
  double *a = v, *b = v + stride, *c = b + stride, *d = c + stride;
  double at_a = 0, at_b = 0, at_c = 0, at_d = 0;

  for (guint i = 0; i < n_used; i++)
    {
      guint k = used[i];

      at_a += mirror[k] * a[k];
      at_b += mirror[k] * b[k];
      at_c += mirror[k] * c[k];
      at_d += mirror[k] * d[k];
    }
  at_a *= scale;
  at_b *= scale;
  at_c *= scale;
  at_d *= scale;
  /* A mirror touches few columns of loops that lie far from its own. */
  if (!(fabs (at_a) > 0 || fabs (at_b) > 0 || fabs (at_c) > 0 || fabs (at_d) > 0))
    return;
  for (guint i = 0; i < n_used; i++)
    {
      guint k = used[i];

      a[k] -= at_a * mirror[k];
      b[k] -= at_b * mirror[k];
      c[k] -= at_c * mirror[k];
      d[k] -= at_d * mirror[k];
    }
}

/**
 * cw_dense_least:
 * @n_rows: rows of the matrix
 * @n_columns: its columns
 * @columns: (array): the matrix column by column, each with room for n_rows + n_columns numbers; overwritten
 * @right: (array): n_rows numbers and room for n_columns more; overwritten
 * @damping: more than 0
 * @used: (array): scratch of n_rows + n_columns numbers
 * @effort: (nullable): what the work is taken off
 * @solution: (array) (out caller-allocates): n_columns numbers that make |matrix * solution - right|^2 +
 *   damping^2 * |solution|^2 least; for damping far under the smallest singular value that is not zero, the shortest
 *   of the least-squares solutions
 *
 * Householder triangles: Golub & Van Loan, section 5.2.
 *
 * Returns: FALSE, with nothing of use in @solution, if the effort is out
 */
gboolean
cw_dense_least (guint n_rows, guint n_columns, double *columns, double *right, double damping, guint *used,
                CwEffort *effort, double *solution)
{
  guint stride = n_rows + n_columns;

  for (guint c = 0; c < n_columns; c++)
    for (guint i = 0; i < n_columns; i++)
      columns[c * stride + n_rows + i] = i == c ? damping : 0;
  for (guint i = 0; i < n_columns; i++)
    right[n_rows + i] = 0;

  for (guint c = 0; c < n_columns; c++)
    {
      double *column = columns + c * stride;
      double norm = 0, head, squares;
      guint n_used = 0;

      /* The rows of damping below the column's own are still 0. */
      for (guint i = c; i <= n_rows + c; i++)
        norm += column[i] * column[i];
      norm = sqrt (norm);
      head = column[c] > 0 ? -norm : norm;
      column[c] -= head;
      squares = 2 * norm * (norm + fabs (column[c] + head)); /* |mirror|^2 without cancellation */
      if (squares > 0)
        {
          double scale = 2 / squares;
          guint k = c + 1;

          for (guint i = c; i <= n_rows + c; i++)
            if (fabs (column[i]) > 0)
              used[n_used++] = i;
          if (!cw_effort_spend (effort, (gint64) n_used * (n_columns - c)))
            return FALSE;
          for (; k + 4 <= n_columns; k += 4)
            reflect_four (n_used, used, column, scale, columns + k * stride, stride);
          for (; k < n_columns; k++)
            reflect (n_used, used, column, scale, columns + k * stride);
          reflect (n_used, used, column, scale, right);
        }
      solution[c] = head; /* the diagonal, kept here until the substitution below reaches it */
    }

  for (guint c = n_columns; c-- > 0;)
    {
      double sum = right[c];

      for (guint k = c + 1; k < n_columns; k++)
        sum -= columns[k * stride + c] * solution[k];
      solution[c] = sum / solution[c];
    }
  return TRUE;
}

/**
 * cw_dense_spectrum:
 * @n_rows: rows of the matrix
 * @n_columns: its columns
 * @columns: (array): the matrix column by column, n_rows numbers each; overwritten
 * @effort: (nullable): what the work is taken off
 * @sigma: (array) (out caller-allocates): n_columns singular values, largest first; those beyond the rows are 0
 * @v: (array) (out caller-allocates) (nullable): n_columns right singular vectors of n_columns numbers each, in the
 * same order
 *
 * One-sided Jacobi turns: Golub & Van Loan, section 8.6.
 *
 * Returns: FALSE, with nothing of use in @sigma and @v, if the effort is out
 */
gboolean
cw_dense_spectrum (guint n_rows, guint n_columns, double *columns, CwEffort *effort, double *sigma, double *v)
{
  guint n_turned = v != NULL ? n_columns : 0;

  for (guint i = 0; i < n_turned; i++)
    for (guint j = 0; j < n_columns; j++)
      v[i * n_columns + j] = i == j;

  for (guint sweep = 0; sweep < CW_DENSE_SWEEPS; sweep++)
    {
      gboolean turned = FALSE;

      for (guint p = 0; p + 1 < n_columns; p++)
        {
          if (!cw_effort_spend (effort, (gint64) (n_columns - p) * (3 * (gint64) n_rows + n_turned)))
            return FALSE;
          for (guint q = p + 1; q < n_columns; q++)
            {
              double *a = columns + p * n_rows, *b = columns + q * n_rows;
              double aa = 0, bb = 0, ab = 0, zeta, t, c, s;

              for (guint i = 0; i < n_rows; i++)
                {
                  aa += a[i] * a[i];
                  bb += b[i] * b[i];
                  ab += a[i] * b[i];
                }
              if (fabs (ab) <= CW_TOL_ORTHOGONAL * sqrt (aa * bb) || fabs (ab) < CW_TOL_ORTHOGONAL * CW_TOL_ORTHOGONAL)
                continue;
              turned = TRUE;
              zeta = (bb - aa) / (2 * ab);
              t = (zeta > 0 ? 1 : -1) / (fabs (zeta) + sqrt (1 + zeta * zeta));
              c = 1 / sqrt (1 + t * t);
              s = c * t;
              for (guint i = 0; i < n_rows; i++)
                {
                  double ai = a[i];

                  a[i] = c * ai - s * b[i];
                  b[i] = s * ai + c * b[i];
                }
              for (guint i = 0; i < n_turned; i++)
                {
                  double vi = v[p * n_columns + i];

                  v[p * n_columns + i] = c * vi - s * v[q * n_columns + i];
                  v[q * n_columns + i] = s * vi + c * v[q * n_columns + i];
                }
            }
        }
      if (!turned)
        break;
    }

  for (guint p = 0; p < n_columns; p++)
    {
      sigma[p] = 0;
      for (guint i = 0; i < n_rows; i++)
        sigma[p] += columns[p * n_rows + i] * columns[p * n_rows + i];
      sigma[p] = sqrt (sigma[p]);
    }
  for (guint p = 0; p + 1 < n_columns; p++)
    {
      guint largest = p;

      for (guint q = p + 1; q < n_columns; q++)
        if (sigma[q] > sigma[largest])
          largest = q;
      if (largest != p)
        {
          double swap = sigma[p];

          sigma[p] = sigma[largest];
          sigma[largest] = swap;
          for (guint i = 0; i < n_turned; i++)
            {
              swap = v[p * n_columns + i];
              v[p * n_columns + i] = v[largest * n_columns + i];
              v[largest * n_columns + i] = swap;
            }
        }
    }
  return TRUE;
}
