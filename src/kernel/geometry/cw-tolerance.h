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

/* --- Linkages (fold/cw-linkage*, cw-trace*). Angles in radians unless said; "share" is of the linkage's size or of
 * the step. --- */

/* Columns this near to square to one another need no more turning, as a cosine: the rounding error of a sum of a few
 * hundred products. No unit. */
#define CW_TOL_ORTHOGONAL 1e-15
/* Sweeps of the singular value turns at most; six to ten are usual. */
#define CW_DENSE_SWEEPS 40

/* Newton stops when the misfit or the step is under this: a few rounding errors of the placements. Share, radians. */
#define CW_TOL_NEWTON 1e-15
/* Newton has settled when a step takes away less than this share of the misfit (where no closed position exists). */
#define CW_TOL_SETTLED 1e-9
/* A position under CW_TOL_CLOSED is still bettered as long as Newton does so; it may stop a hundred times under. */
#define CW_CLOSED_MARGIN 100
/* No Newton step turns a hinge further than this: half a radian keeps the linear picture honest. */
#define CW_NEWTON_REACH 0.5
/* Damping as a share of a hinge's full effect. The least is far under any singular value that counts as more than 0
 * (CW_TOL_LOOSE) and far over rounding, so that undamped steps are the shortest ones. */
#define CW_DAMPING_LEAST 1e-9
#define CW_DAMPING_FIRST 1e-3
/* Where loops close only within give, directions weaker than this many times the misfit are left alone: near shut a V
 * fold that is a little off would else swing through a right angle to save a hair of misfit. */
#define CW_DAMPING_GIVE 4.0
#define CW_DAMPING_MOST 10.0
#define CW_DAMPING_EASE 10.0
/* Evaluations to correct a predicted position, to close a far guess, and to mend an interpolated one. */
#define CW_TRIES_CORRECT 10
#define CW_TRIES_CLOSE 60
#define CW_TRIES_MEND 3

/* Singular values of a closed position up to this count as none: far over CW_TOL_CLOSED, far under those of a
 * position a degree off flat, which are near 0.01. No unit. */
#define CW_TOL_LOOSE 1e-6
/* The same where loops close only within rounding or give: up to this many times the misfit, which blurs them. */
#define CW_TOL_LOOSE_BLUR 3.0

/* Following: a hinge turns no more than this between two knots, so that interpolation is good to 1e-4 before it is
 * mended; a corrected position may differ from the guess by no more than a share of the turn made. */
#define CW_FOLLOW_TURN 0.12
#define CW_FOLLOW_NEAR 0.25
/* ... and by what Newton leaves near a singular position, */
#define CW_FOLLOW_NOISE 1e-7
/* ... and where loops close only within give, by this more: two degrees, what give blurs angles by. */
#define CW_FOLLOW_NEAR_GIVE 0.035
/* ... below this step the motion is stuck: a hundredth of what a dead point must be exact to. Share of the step. */
#define CW_FOLLOW_LEAST 1e-6
/* Near an end that may be flat the steps halve until no hinge is further from it than this; then flat is tried. */
#define CW_FOLLOW_END 0.01
/* A hinge predicted within this of 0 or +-180 at the end may be snapped there, if all still closes. In give mode
 * angles are blurred by give / hinge length. */
#define CW_SNAP_NEAR 0.004
#define CW_SNAP_NEAR_GIVE 0.06
/* ... or within this, if all come to lie flat but for what rounding explains: a tick at the end of a half-inch panel
 * keeps it two degrees from shut, and two panels share that. */
#define CW_SNAP_NEAR_ROUNDED 0.1
/* A hinge further than this beyond +-180 has passed it. */
#define CW_TOL_SHUT 1e-6

/* Leaving a state where several motions meet. Start angles this near to 0 or +-180 are flat. */
#define CW_LEAVE_FLAT 0.02
/* Turns of the driver to look for ways out at, in this order: four degrees, then one where the motion is short, then
 * fifteen; larger ones first where give hides what is small. */
#define CW_LEAVE_TURNS 0.07, 0.018, 0.26
#define CW_LEAVE_TURNS_GIVE 0.26, 0.12
/* A listed hinge or a score that turned less than this share of the driver's turn stands still. */
#define CW_LEAVE_STILL 1e-3
/* Within give a hinge may turn against its score by this: under two degrees. */
#define CW_LEAVE_SLACK_GIVE 0.03
/* Two positions nearer than this are one; a motion leads back to the start if it comes this near. */
#define CW_LEAVE_SAME 1e-3
#define CW_LEAVE_BACK 0.012
#define CW_LEAVE_BACK_GIVE 0.3
/* Ways out kept for comparison. */
#define CW_LEAVE_WAYS 4
/* To tell a singular state: positions looked at nearby, and how far off the hinges are turned for it. */
#define CW_LEAVE_SAMPLES 3
#define CW_LEAVE_SPREAD 0.05
/* ... and where loops close within give, which hides what is smaller. */
#define CW_LEAVE_SPREAD_GIVE 0.3
/* Guesses per driver angle, and the seed of the guesses. */
#define CW_LEAVE_TRIALS 64
#define CW_LEAVE_SEED 0x63726561u

/* Misfits nearer than this are the same when ways out are ranked: what rounding makes of one. Ticks. */
#define CW_LEAVE_SAME_TICKS 1.0

/* Whether listed hinges alone keep loops closed is looked at this many times along the step, and at least this far. */
#define CW_PLAIN_LOOKS 16
#define CW_PLAIN_TURN 0.1
/* A hinge that takes part in a way still open by less than this share is settled by what drives. */
#define CW_TOL_OPEN 1e-5

/* Curves of a picture from outside (make/cw-make-outline*) become lines that stay this near to them, in ticks: 0.025
 * mm, a quarter of a fine pencil line. Ends of a path nearer than the second, 0.1 mm, are one place: it is closed. */
#define CW_OUTLINE_TICKS 8.0
#define CW_OUTLINE_CLOSED_TICKS 32.0
/* Both ways of a transform are the same scale, so that circles stay circles, within this share: rounding of six printed
 * digits. */
#define CW_TOL_SAME_SCALE 1e-6

/* Laying fold lines true (fold/cw-linkage-true.c). What rounding explains at a line's end, or of a flat state, in
 * ticks: each end is off by up to 0.71, a flat state of four lines by up to four times that at worst. A fortieth of the
 * finest mark of any ruler (1/64 inch, 127 ticks). */
#define CW_TRUE_TICKS 3.0
/* No end is shifted further than this, in ticks. */
#define CW_TRUE_MOST_TICKS 5.0
/* True means within this, in ticks: a thousandth of what counts as closed. */
#define CW_TRUE_DONE_TICKS 1e-8
/* Newton steps; three or four are usual. */
#define CW_TRUE_ROUNDS 12
/* Moving the point where lines meet costs this many times less than moving a line. */
#define CW_TRUE_POINT_EASE 8.0
/* Hinges of a ring looked at; of one whose flat states are; flat states; and hinges of a block (the work grows with the
 * cube). */
#define CW_TRUE_RING_MOST 12
#define CW_TRUE_RING_FLAT 6
#define CW_TRUE_FLATS_MOST 16
#define CW_TRUE_BLOCK_MOST 64

/* Freedom (fold/cw-linkage-freedom.c): guesses, and how far hinges are turned for them, in radians: far enough that
 * what vanishes at flat is seen, near enough to stay on the state's own motions; within give so far that give cannot
 * pay for it. */
#define CW_FREEDOM_TRIALS 24
#define CW_FREEDOM_TURN 0.2
#define CW_FREEDOM_TURN_GIVE 0.5
/* What closes nearer than this share of the turn fell back to rest. Closed positions are then looked at down to a share
 * of the turn, and must lie about as far off as looked for: within this factor. */
#define CW_FREEDOM_LEAST 0.01
#define CW_FREEDOM_NEAREST 0.1
#define CW_FREEDOM_STRAIGHT 0.3

/* What the motion of a design may cost in all, in products of the solver (fold/cw-effort.h): about two seconds on a
 * slow machine, the longest a maker waits after dragging a mark; no sample takes a tenth of a second. One question (a
 * step's motion, a state's freedom) may take one part in so many of what is left: a hard one does not starve the next.
 */
#define CW_EFFORT_MOTION G_GINT64_CONSTANT (2500000000)
#define CW_EFFORT_QUESTIONS 4

/* --- End of linkages. --- */

/* A panel stands in the plane of the held one when no corner is farther off than this, in ticks. Poses are exact to far
 * less; a tick is what the flat geometry is rounded to. */
#define CW_TOL_FLAT_TICKS 1.0

/* A panel moves in a step when a corner comes at least this far, in ticks: under any motion worth drawing, far over the
 * rounding of poses. */
#define CW_TOL_MOVES_TICKS 0.5

/* --- Collisions (contact/cw-collision*). --- */

/* Sheets are shrunk by this before they are tried against one another, the smaller one by twice as much, in ticks: 0.1
 * mm, under the thickness of any card, far over the rounding of arcs (CW_TOL_ARC_TICKS) and of slanted edges. */
#define CW_COLLISION_HAIR_TICKS 32
/* Panels are as large as one another within this share of their area: what rounding to ticks makes of a slanted one
 * half an inch wide. No unit. */
#define CW_COLLISION_LIKE_SHARE 1e-3
/* Nearer to a plane than this a point is on neither side of it, in ticks: twice what rounding to ticks moves a loop
 * (CW_TOL_EXACT_TICKS). */
#define CW_COLLISION_BAND_TICKS 4.0
/* The same where there is no loop: a tick, far over the rounding of poses. Doors that lap by
 * 1/32 inch run no deeper into one another than this near the end of their way. */
#define CW_COLLISION_BAND_EXACT_TICKS 1.0
/* What gives lies off by up to the misfit on either sheet: hair and band grow by this many times as much. */
#define CW_COLLISION_GIVE_SHARE 2.0
/* Between two looks a hinge turns at most this, and a panel at most this in space, radians: five and six degrees, over
 * which a distance strays from a straight line by a two-hundredth of the arm and a second difference tells it. */
#define CW_COLLISION_TURN 0.0873
#define CW_COLLISION_PANEL_TURN 0.1048
/* The last and first degree of a step, radians; found by halving at most so often. */
#define CW_COLLISION_LATE_TURN 0.0175
#define CW_COLLISION_HALVINGS 24
/* No span is halved below this, as a share of the step: a millionth, as far as motions are followed
 * (CW_FOLLOW_LEAST). */
#define CW_COLLISION_LEAST_SPAN 1e-6
/* Edges more nearly parallel than this sine meet nowhere in particular: their corners tell. No unit. */
#define CW_COLLISION_LEAST_SINE 0.002
/* Where edges cross is followed from look to look only if they are no more nearly parallel than this sine. No unit. */
#define CW_COLLISION_SURE_SINE 0.1
/* Sheets within this of parallel when they meet pass through one another face to face: cosine of two degrees. */
#define CW_COLLISION_FACE_COS 0.99939
/* The moment of a crossing is found to this, in ticks off the plane, in at most so many evaluations. */
#define CW_COLLISION_ROOT_TICKS 1e-7
#define CW_COLLISION_ROOT_TRIES 60
/* Two panels stand still to one another below this change of a placement's numbers (share, and ticks). */
#define CW_COLLISION_STILL 1e-9
#define CW_COLLISION_STILL_TICKS 1e-4

/* Paper carried by a loop has changed sides for certain when it is farther off than this many times what rounding, or
 * the loop's misfit, can make of it near flat. No unit. */
#define CW_COLLISION_BLUR_SHARE 1.5
/* A loop off by e at a length l turns as rounding or give has it, and tells no side, within this many times the turn
 * sqrt (2 e / l) of flat; half of it is where both turns are alike. No unit. */
#define CW_COLLISION_BLUR_TURNS 3.0
/* A corner within the band but off the paper by this many bands passes beside it. */
#define CW_COLLISION_BESIDE_BANDS 3
/* Collisions this near to one another in time are told as of one moment, as a share of the step: 0.002 degrees. */
#define CW_COLLISION_SAME_MOMENT 1e-5
/* Up to so many panels every pair is asked at a step's start whether it leaves to the right side: a count whose square
 * is done in a blink. */
#define CW_COLLISION_STACK_MOST 256
/* What a step lays down is lifted by this many dead bands to see its side. */
#define CW_COLLISION_LIFT_BANDS 10

/* --- End of collisions. --- */

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

/* Strips are told when they are narrower than the house value by more than this, in ticks: 0.05 mm, over the rounding
 * of slanted edges and flattened arcs (CW_TOL_ARC_TICKS), under what a hand can cut. */
#define CW_TOL_STRIP_TICKS 16

/* A narrow place counts from this area on, in square ticks: 1/16 inch square, more than a corner cut short. */
#define CW_TOL_STRIP_SQ_TICKS (508.0 * 508.0)

/* The circle over a bridge may be cut by its own sides by this much: cosine of 11.5 degrees, the angle at which
 * opposite sides stop making a strip. No unit. */
#define CW_TOL_BRIDGE_SHARE 0.98

/* --- Layers (contact/). --- */

/* Corners of panels laid on one another are one when they come this near, and lie on an edge this near, in ticks: both
 * ends of a slanted fold and the corner folded over are each rounded by up to 0.71, and the two layers add up. */
#define CW_TOL_LAID_TICKS 3.0

/* A cell narrower than this is what rounding leaves between lines that all but fall together, in ticks: twice the
 * distance above; 0.02 mm, less than the thinnest paper. */
#define CW_TOL_CELL_TICKS 6.0

/* Two panels lie as they lay to one another when no corner of the design's box moved further than this, in ticks: far
 * over the rounding of poses, under the rounding of the drawing. */
#define CW_TOL_SAME_PLACE_TICKS 0.5

/* Order is read off the motion when no panel is tilted by more than this any more, in radians: so near the end that
 * heights grow straight, so far from it that they stand 80 ticks an inch apart. */
#define CW_STACK_TILT 0.01
/* Halvings of what is left of the step to get there. */
#define CW_STACK_TRIES 64
/* Heights nearer than what this many ticks beside a fold line rise at the tilt left are the same. */
#define CW_TOL_STACK_TICKS 3.0
/* Orders are searched among at most this many panels, and with at most this many choices: under a second. */
#define CW_STACK_SEARCH_MEMBERS 128
#define CW_STACK_SEARCH_TRIES 20000

/* --- What shows (sight/). --- */

/* A panel seen at an angle whose sine is under this is seen from its edge and has no picture: 60 inches of it would
 * cover half a tick. No unit. */
#define CW_TOL_EDGE_ON 1e-6

/* Panels nearer than this in depth at one point of the picture lie in one plane there, in ticks, and the order of
 * layers decides if it is known: the tolerance of planes (CW_TOL_FLAT_TICKS) for either of them. */
#define CW_TOL_SAME_DEPTH_TICKS 2.0

/* What is narrower than this counts as hidden, in ticks: 0.05 mm, over the rounding of slanted folds and flattened arcs
 * (CW_TOL_CELL_TICKS, CW_TOL_ARC_TICKS), under what an eye sees at reading distance. */
#define CW_TOL_SHOWS_TICKS 16

/* A step has reached its end when no more than this share of it is left: what a dead point must be exact to. */
#define CW_TOL_REACHED 1e-4

/* --- Glue (glue/). --- */

/* Contact of glue narrower than this is what rounding and arcs leave beside an edge, in ticks: 0.05 mm, over
 * CW_TOL_CELL_TICKS and CW_TOL_ARC_TICKS. */
#define CW_TOL_GLUE_TICKS 16.0
/* ... and less of it than this holds nothing, in square ticks: 1/32 inch square. */
#define CW_TOL_GLUE_SQ_TICKS (254.0 * 254.0)

/* --- Remedies (check/cw-remedy*). --- */

/* Creases at a point that miss Kawasaki's sum by less than this, in degrees, lack no turn but the right ways: a
 * sixteenth of an inch at the end of a crease of ten inches turns it by a third of a degree. */
#define CW_TOL_MENDS_DEG 0.05
