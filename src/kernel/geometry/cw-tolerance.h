/* cw-tolerance.h: every tolerance of the kernel, with its unit, its reason and its relation to the others.
 *
 * A bare small number anywhere else in the kernel is a mistake. Flat geometry is exact and needs none of these.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

/* Sine or cosine below this is taken as 0, so that quarter and half turns are exact. Ten times the rounding error of
 * the C library's functions at such angles, and far under one tick at the rim of the largest sheet. No unit. */
#define CW_TOL_RIGHT_ANGLE 1e-15

/* A loop of panels counts as closed below this misfit, as a share of the design's size. Newton's last step lands near
 * 1e-14; 1e-10 of 60 inches is still 0.00005 tick. No unit. */
#define CW_TOL_CLOSED 1e-10

/* Two ways of reaching one fold angle agree below this, in degrees (model, "Steps"). */
#define CW_TOL_ANGLE_AGREES_DEG 1e-6

/* A fold angle this near to 0 or +-180 at a step's end is snapped there, in degrees. Ten times the error of a corrected
 * angle, far under what lifts the rim of a sheet by one tick. */
#define CW_TOL_FLAT_SNAP_DEG 1e-6

/* A panel stands in the plane of the held one when no corner is farther off than this, in ticks. Poses are exact to far
 * less; a tick is what the flat geometry is rounded to. */
#define CW_TOL_FLAT_TICKS 1.0

/* A panel moves in a step when a corner comes at least this far, in ticks: under any motion worth drawing, far over the
 * rounding of poses. */
#define CW_TOL_MOVES_TICKS 0.5

/* Two placements count as one below this, in ticks, where no give is allowed: the rounding of two marks to ticks. */
#define CW_TOL_EXACT_TICKS 2.0

/* Two fold lines count as parallel, or as meeting in one point, below this sine or share of the design's size, when a
 * stop is put into words: a maker's box is one also when a mark is a tick off. No unit. */
#define CW_TOL_SAME_LINE 1e-3

/* A ring of four panels counts as stretched or shut within this share of its bars. The length at a dead point moves
 * with the square of what is left of the step, so a stop known to 1e-4 of the step is far within. No unit. */
#define CW_TOL_DEAD_POINT 1e-3

/* Vertices of a flattened arc, and the middles of the chords between them, stay this near to it, in ticks: 8 ticks are
 * 0.025 mm, a quarter of the finest line a cutter makes, and give a one-inch circle 72 vertices. Far over one tick, so
 * that rounding does not show. */
#define CW_TOL_ARC_TICKS 8.0

/* An end of a mark this near to another mark's end or edge lies on it, in ticks (model, "Marks and outlines"). */
#define CW_TOL_MEETS_TICKS 1.0

/* Noding moves a line by at most half the diagonal of a tick's square: an edge belongs to every line that passes both
 * its ends this near, in ticks. A hair over sqrt(1/2) for the rounding of the test itself. */
#define CW_TOL_NODED_TICKS 0.7072

/* A face is a sliver, left between lines that all but fall together, when it is narrower than this all along, in ticks.
 * Twice CW_TOL_MEETS_TICKS; 0.006 mm, no paper. */
#define CW_TOL_SLIVER_TICKS 2.0

/* Two marks lying on one another are told from this length on, in ticks: 1/64 inch, the finest mark of any ruler. */
#define CW_TOL_OVERLAP_TICKS 127.0

/* The mitre of a corner reaches at most this many times the distance by which a region is opened; corners sharper than
 * 2 asin(1/20) = 5.7 degrees count as narrow. No unit. */
#define CW_TOL_OPEN_MITRE 20.0

/* Creases that meet at a point miss Kawasaki's sum without a fault when the miss, at the far end of the longest of
 * them, is at most this shift, in ticks: each of four ends is a rounded tick. */
#define CW_TOL_VERTEX_TICKS 4.0
