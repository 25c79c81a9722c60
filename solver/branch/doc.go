// Package branch solves mixed-integer programs by branch and cut over the dual
// simplex method. It knows rows and columns, never food.
//
// [Solve] goes through these steps; each has its file:
//
//	presolve, dualfix     bounds, coefficients, redundant sides, columns that
//	                      cost and rows push one way, columns that others
//	                      replace; every step is logged (reduction)
//	relaxation, block,    the linear relaxation of one worker, a restricted master:
//	basis, master         rows and columns stay out until they are needed
//	root                  rounds of cuts: gomory, aggregate and mir (mixed-integer
//	                      rounding, with variablebound)
//	rounds                two workers side by side, in rounds of fixed effort
//	tree, node            best bound first with short plunges; propagate, fixcost
//	branching, pseudocost pseudo-costs started by strong branching
//	lns, lns_choice,      large-neighbourhood search: better points from small parts
//	lns_blame, restrict   of the program around the best one, where it differs from
//	                      other points or what is to blame for the gap
//	simplerounding        the first point
//	incumbent, feasible   every point is recomputed from the original problem
//	audit…, interval      [Audit] repeats all of it with outward rounding
//
// Bounds. A bound is never taken from the simplex method's word: with any row
// multipliers y, Σ min(y_i·r_i) + Σ min((c − yA)_j·x_j) over the box is a lower
// bound (certificate). A part of the tree is closed only by such a bound, by a
// ray that proves it empty, or because its relaxation's optimum is a point; a
// relaxation that cannot be solved is split further, and what can be neither
// solved nor split keeps its bound open (status Numerical).
//
// Sameness. What a worker does in a round depends on the program, the options
// and the earlier rounds only, and results are merged in a fixed order, so that
// the same input gives the same result with any number of processors. The clock
// and a cancelled context stop a search between two simplex iterations; such a
// result says ByClock.
//
// Tolerances and work budgets stand together, in parameters.
package branch
