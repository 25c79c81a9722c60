// Package simplex solves linear programs by the bounded-variable revised dual
// simplex method, with the primal method to finish, and certifies what it says.
//
// Inside, every row i of the program gets a slack that is the row's activity,
// so that all constraints read
//
//	A·x − r = 0,   Lower ≤ x ≤ Upper,   Row.Lower ≤ r ≤ Row.Upper
//
// and columns and slacks are treated alike: variable k is column k for k < n
// and the slack of row k−n otherwise. With duals y the reduced cost of a column
// is c_j − y·a_j and that of a slack is y_i itself.
//
// From the outside in:
//
//   - api.go, solver.go, basis.go, snapshot.go, tableau.go: what a caller sees;
//   - solve.go: which method runs when, and what is tried after trouble;
//   - certificate.go, ray.go: answers in the program's own terms, and the proof
//     of each from the original rows;
//   - core.go, values.go: the scaled program (scale.go, matrix.go) with a basis;
//   - dual.go, dualratio.go, pricing.go and primal.go, primalratio.go, phase1.go:
//     the two methods; perturb.go, feasible.go, control.go: what keeps them
//     feasible and lets them end;
//   - factor.go, build.go, nucleus.go, solves.go, update.go, vectors.go: the
//     sparse factorisation of the basis.
//
// It is made for programs of some hundred to some thousand rows that are solved
// again and again with other bounds, costs, rows and columns. There is no
// presolve: what is solved is what was given.
//
// Three departures from the books. The dual method needs no first phase: costs
// on the wrong side are shifted until the point is feasible, and the primal
// method goes on with the true ones. A start from the slacks where most columns
// cost nothing goes to the primal method at once, because the dual one would
// only walk along ties. And an optimum is accepted from an updated factor if
// its residuals on the original rows are as small as they should be.
package simplex
