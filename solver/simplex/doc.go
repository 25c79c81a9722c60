// Package simplex solves linear programs by the bounded-variable revised dual
// simplex method, with the primal method to finish, and certifies what it says.
//
// Inside, every row i of the program gets a slack that is the row's activity,
// so that all constraints read
//
//	A·x − r = 0,   Lower ≤ x ≤ Upper,   Row.Lower ≤ r ≤ Row.Upper
//
// and structural columns and slacks are treated alike: variable k is column k
// for k < n and the slack of row k−n otherwise. With duals y the reduced cost
// of a column is c_j − y·a_j and that of a slack is y_i itself.
package simplex
