// Package referee gives a second opinion on a linear program that owes nothing
// to this project's own simplex method: the iterations are those of
// gonum.org/v1/gonum/optimize/convex/lp, and no other package imports it.
//
// gonum's Simplex asks for a standard form that is cleaner than it says, takes
// absolute tolerances around 1e-13, can cycle or break down at degenerate
// vertices, and then calls feasible programs infeasible. So this package
//
//   - converts to x ≥ 0 with slacks, upper bounds as rows added only where
//     they are violated, free columns split, dependent equations removed by
//     elimination with full pivoting, and everything scaled by powers of two;
//   - hands gonum a feasible basis in both phases, with the right-hand side
//     moved a little so that no vertex is degenerate;
//   - takes from gonum only the set of basic columns, recomputes the point and
//     the multipliers from the true right-hand side, and measures both against
//     the original figures with the arithmetic of solver/linear.
//
// What passes those measurements is marked Proven; the rest is told as what it
// is: a word without proof, or no opinion.
package referee
