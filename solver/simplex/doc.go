// Package simplex solves linear programs by the bounded-variable revised dual
// simplex method, with the primal method to finish, and certifies what it says.
package simplex
